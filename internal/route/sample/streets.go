package sample

import (
	"fmt"
	"math"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The levels of a district.
const (
	street = "Street"
	lots   = "Lots"
)

// The plan of a district, in feet.
const (
	blockLong  = 600 // between two avenues
	blockShort = 300 // between two streets
	houseLot   = 34  // of frontage
	setback    = 46  // from the sewer to a house's cleanout
)

// mostPipes is what one trunk takes before another is drawn.
const mostPipes = 12000

// streets is a district in the making.
type streets struct {
	*draft
	site  *site.Site
	loops bool
	limit int
	// manholes are the places of those drawn.
	manholes []xy
}

// Streets is a district of about a number of pipes, from 100 to 100,000: sewers
// on a grid of streets with manholes, which flow to a trunk and by it to an outlet
// (one for every 12,000 pipes), the laterals of houses, and spots and hydrants
// along the streets for [StreetRig]. The network is a forest. All of it is
// invented.
func Streets(seed uint64, pipes int) *site.Site { return district(seed, pipes, false) }

// LoopedStreets is a district as of [Streets] in which some sewers are fed from
// both ends, so that rings close, and relief sewers lie beside the trunk.
func LoopedStreets(seed uint64, pipes int) *site.Site { return district(seed, pipes, true) }

func district(seed uint64, pipes int, loops bool) *site.Site {
	d := &streets{draft: newDraft(seed, 9), loops: loops}
	d.net.Levels = []network.Level{{Name: street, Elevation: unit.Feet(-9)}, {Name: lots, Elevation: unit.Feet(-4)}}
	d.site = &site.Site{
		Version: site.Version, Units: unit.US, Paper: site.Letter, Code: "ipc", Rig: StreetRig(),
		Job: site.Job{Title: "Sample district", Customer: "Sample sewer district", Address: "Sample Park", Date: "2026-03-17", Start: "07:30"},
	}
	sheds := (pipes + mostPipes - 1) / mostPipes
	east := 0.
	for i := range sheds {
		d.limit = pipes * (i + 1) / sheds
		wide := d.wide(pipes / sheds)
		d.shed(xy{east + float64(wide)*blockLong, 0}, wide)
		east += float64(2*wide+1) * blockLong
	}
	d.settle()
	d.site.Network = d.net
	d.stands()
	return d.site
}

// wide is the number of blocks on either side of a trunk with so many pipes.
func (d *streets) wide(pipes int) int {
	const perBlock = 120.
	return max(1, int(math.Sqrt(float64(pipes)/perBlock)/2.2))
}

// full reports whether the district has its pipes.
func (d *streets) full() bool { return len(d.net.Pipes) >= d.limit }

// shed draws a trunk up an avenue and the streets that drain to it, from its
// outlet up until there are pipes enough.
func (d *streets) shed(at xy, wide int) {
	trunk := d.street(network.Main)
	node := d.outlet("OUT", at, street)
	before := map[float64]int{} // the manholes of the street below, by avenue
	for !d.full() {
		at = at.add(xy{0, 1}, blockShort+float64(d.rand.IntN(30)))
		foot := node
		node = d.manhole(node, trunk, at)
		if d.loops && len(before) > 0 && d.rand.IntN(3) == 0 {
			d.relief(foot, node, trunk, at)
		}
		row := map[float64]int{}
		for _, way := range []xy{{1, 0}, {-1, 0}} {
			d.row(node, at, way, wide, row)
		}
		for k := 1; k <= wide; k++ {
			for _, x := range []float64{at.x + float64(k)*blockLong, at.x - float64(k)*blockLong} {
				if low, ok := before[x]; ok && !d.full() && d.rand.IntN(2) == 0 {
					d.avenue(low, at.y, row[x], x)
				}
			}
		}
		before = row
	}
}

// row draws a street up a way from the trunk, and notes its manholes at the
// avenues.
func (d *streets) row(node int, at, way xy, wide int, row map[float64]int) {
	p := d.street(network.Main)
	for k := 0; k < 2*wide && !d.full(); k++ {
		const apart = blockLong / 2
		first, last := 15., apart-15.
		if k%2 == 0 {
			first = 70
		} else {
			last = apart - 70
		}
		node = d.houses(node, at, way, p, first, last)
		at = at.add(way, apart)
		node = d.manhole(node, p, at)
		if k%2 == 1 {
			row[at.x] = node
		}
	}
}

// avenue draws a sewer in an avenue, from the manhole of one street up to shortly
// before the next, or all the way to the manhole there where loops are asked for.
func (d *streets) avenue(low int, next float64, high int, x float64) {
	p := d.street(network.Branch)
	at := xy{x, d.net.Nodes[low].At.Y.Feet()}
	node := d.houses(low, at, xy{0, 1}, p, 75, next-at.y-95)
	node = d.manhole(node, p, xy{x, next - 60})
	if high > 0 && d.loops && d.rand.IntN(2) == 0 {
		d.connect(p, high, node)
	}
}

// relief lays a second sewer beside the trunk between two manholes.
func (d *streets) relief(low, high int, p network.Pipe, at xy) {
	foot := d.net.Nodes[low].At.Y.Feet()
	p.Via = []network.Point{{X: unit.Feet(at.x + 8), Y: unit.Feet(at.y - 8)}, {X: unit.Feet(at.x + 8), Y: unit.Feet(foot + 8)}}
	d.connect(p, high, low)
}

// street is the pipe of one street.
func (d *streets) street(class network.PipeClass) network.Pipe {
	p := network.Pipe{Class: class, Size: 6, Material: network.PVC40}
	if d.rand.IntN(2) == 0 {
		p.Material = network.Clay
	}
	p.Deposit = []network.Deposit{network.Sediment, network.Sediment, network.Grease, network.Roots}[d.rand.IntN(4)]
	p.Severity = d.severity()
	return p
}

func (d *streets) severity() network.Severity {
	return []network.Severity{network.Light, network.Moderate, network.Moderate, network.Heavy}[d.rand.IntN(4)]
}

func (d *streets) manhole(node int, p network.Pipe, at xy) int {
	n := access(network.Manhole, 24)
	n.Access.Riser = unit.Feet(9)
	d.manholes = append(d.manholes, at)
	return d.up(node, p, n, "MH", at)
}

// stands puts spots by every second manhole, or by fewer where a site file does
// not take as many, and hydrants by most of them.
func (d *streets) stands() {
	const most = 1000
	step := max(2, (len(d.manholes)+most-1)/most)
	if len(d.manholes) < 12 {
		step = 1
	}
	for i := 0; i < len(d.manholes); i += step {
		at, n := d.manholes[i], len(d.site.Spots)+1
		d.site.Spots = append(d.site.Spots, site.Spot{
			ID: site.SpotID(fmt.Sprintf("t%d", n)), Label: fmt.Sprintf("Stand %d", n),
			At: at.add(xy{1, -1}, 14).point(), Traffic: site.ConedTraffic,
		})
		if d.rand.IntN(8) > 0 || i == 0 {
			d.site.Water = append(d.site.Water, site.WaterPoint{
				ID: site.WaterID(fmt.Sprintf("h%d", n)), Label: d.name("HYD"), Kind: site.Hydrant,
				At: at.add(xy{-1, -1}, 22).point(), Flow: unit.GallonsPerMinute(30),
			})
		}
	}
}
