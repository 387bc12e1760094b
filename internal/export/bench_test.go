package export

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// BenchmarkPapers makes each paper of the flats and of a site of 10,000 pipes,
// and all of them at once. Goals on two cores: all of the flats within a second,
// all of the large site within ten.
func BenchmarkPapers(b *testing.B) {
	all := demos(b)
	flats := all[slices.IndexFunc(all, func(d demo) bool { return d.name == "flats" })]
	large := demo{name: "10000 pipes", site: settlement(40, 50), tables: flats.tables}
	ctx, stop := context.WithTimeout(b.Context(), 20*time.Second)
	defer stop()
	var err error
	large.plan, err = route.Solve(ctx, large.site, large.tables, route.Options{})
	require.NoError(b, err)
	for _, d := range []demo{flats, large} {
		s := d.site.Clone()
		s.Geo = &site.Geo{Latitude: unit.Degrees(41.88), Longitude: unit.Degrees(-87.63)}
		s.Prices.Currency, s.Prices.Units, s.Prices.CallOut = "USD", unit.US, decimal.MustParse("95")
		try := func(name string, papers []Paper) {
			b.Run(d.name+"/"+name, func(b *testing.B) {
				dir := b.TempDir()
				for b.Loop() {
					files, err := WritePapers(dir, papers, s, d.tables, d.plan, Options{})
					require.NoError(b, err)
					b.ReportMetric(float64(len(files)), "files")
				}
			})
		}
		for _, p := range Papers() {
			try(p.Key, []Paper{p})
		}
		try("all", Papers())
	}
}

// settlement is an invented site of streets with a sewer under each and houses
// along it: five pipes to a house, a spot in the middle of each street.
func settlement(streets, houses int) *site.Site {
	net := &network.Network{}
	node := func(kind network.NodeKind, x, y float64) network.NodeID {
		id := network.NodeID(fmt.Sprint("n", len(net.Nodes)))
		n := network.Node{ID: id, Label: strings.ToUpper(string(id)), Kind: kind, At: network.Point{X: unit.Metres(x), Y: unit.Metres(y)}}
		switch kind {
		case network.KindAccess:
			n.Access = &network.Access{Kind: network.Manhole, Size: 24, Entry: unit.Degrees(90)}
		case network.KindJunction:
			n.Junction = &network.Junction{Kind: network.Wye}
		}
		net.Nodes = append(net.Nodes, n)
		return id
	}
	pipe := func(from, to network.NodeID, size unit.Size, deposit network.Deposit) network.PipeID {
		id := network.PipeID(fmt.Sprint("p", len(net.Pipes)))
		net.Pipes = append(net.Pipes, network.Pipe{ID: id, From: from, To: to, Size: size, Material: network.PVC40, Class: network.Main, Deposit: deposit})
		return id
	}
	var spots [][2]float64
	for street := range streets {
		y := 45 * float64(street)
		below := node(network.KindOutlet, 0, y)
		for house := range houses {
			x := 15 * float64(house+1)
			hole := node(network.KindAccess, x, y)
			pipe(hole, below, 6, network.Sediment)
			cleanout := node(network.KindAccess, x, y+8)
			net.Nodes[len(net.Nodes)-1].Access.Kind, net.Nodes[len(net.Nodes)-1].Access.Size = network.TwoWayCleanout, 4
			pipe(cleanout, hole, 4, network.Roots)
			wye := node(network.KindJunction, x, y+14)
			pipe(wye, cleanout, 4, network.Grease)
			pipe(node(network.KindFixture, x, y+20), wye, 3, network.Grease)
			branch := pipe(node(network.KindFixture, x+4, y+18), wye, 2, network.Grease)
			net.Nodes[len(net.Nodes)-3].Junction.Branches = []network.PipeID{branch}
			below = hole
		}
		spots = append(spots, [2]float64{unit.Metres(7.5 * float64(houses)).Feet(), unit.Metres(y - 5).Feet()})
	}
	return sample.Site(net, spots...)
}
