package site

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

func tables(t testing.TB) *Tables {
	t.Helper()
	loaded, err := LoadTables()
	require.NoError(t, err)
	return loaded
}

func TestEveryConstantHasARow(t *testing.T) {
	loaded := tables(t)
	for _, m := range constants(t, "../network", "Material") {
		assert.Contains(t, loaded.Materials, network.Material(m))
	}
	for _, d := range constants(t, "../network", "Deposit") {
		assert.Contains(t, loaded.Deposits, network.Deposit(d))
	}
	assert.Len(t, loaded.Materials, len(constants(t, "../network", "Material")), "and no row is of nothing")
	assert.Len(t, loaded.Deposits, len(constants(t, "../network", "Deposit")))
	for _, p := range constants(t, ".", "PassKind") {
		assert.Contains(t, PassOrder(), PassKind(p))
	}
	for _, p := range constants(t, "../rig", "Purpose") {
		assert.Contains(t, rig.Purposes(), rig.Purpose(p))
	}
}

// TestBores checks against the outside diameter less twice the least wall of
// Schedule 40 pipe (ASTM D1785, the dimensions of ASME B36.10M) and against a
// dimensional catalogue of no-hub cast iron (August 2016), in inches.
func TestBores(t *testing.T) {
	loaded := tables(t)
	for _, c := range []struct {
		size     unit.Size
		outside  float64
		wall     float64
		castIron float64 // 0 where the catalogue has none
	}{
		{1.5, 1.900, 0.145, 1.50},
		{2, 2.375, 0.154, 1.96},
		{3, 3.500, 0.216, 2.96},
		{4, 4.500, 0.237, 3.94},
		{5, 5.563, 0.258, 4.94},
		{6, 6.625, 0.280, 5.94},
		{8, 8.625, 0.322, 7.94},
		{10, 10.750, 0.365, 10.00},
		{1.25, 1.660, 0.140, 0},
		{2.5, 2.875, 0.203, 0},
	} {
		for _, m := range []network.Material{network.PVC40, network.ABS40} {
			bore, ok := loaded.Bore(m, c.size)
			require.True(t, ok, "%s %v", m, c.size)
			assert.InDelta(t, c.outside-2*c.wall, bore.Inches(), 1e-9, "%s %v", m, c.size)
		}
		bore, ok := loaded.Bore(network.CastIron, c.size)
		assert.Equal(t, c.castIron != 0, ok, "%v", c.size)
		assert.InDelta(t, c.castIron, bore.Inches(), 1e-9, "%v", c.size)
	}
	for _, m := range []network.Material{network.Clay, network.Concrete} {
		for sz, bore := range loaded.Materials[m].Bores {
			assert.InDelta(t, float64(sz), bore.Inches(), 1e-9, "%s is nominal", m)
		}
		assert.Contains(t, loaded.Materials[m].Source, "nominal size, not a measured bore")
	}
	_, ok := loaded.Bore("bamboo", 4)
	assert.False(t, ok)
}

// TestCodes checks the figures that were seen in the published codes named in
// each row, in feet, inches per foot and degrees.
func TestCodes(t *testing.T) {
	loaded := tables(t)
	spacing := func(code string, sz unit.Size) float64 {
		for _, r := range loaded.Codes[code].CleanoutSpacing {
			if sz <= r.UpTo {
				return r.Limit.Feet()
			}
		}
		return 0
	}
	slope := func(code string, sz unit.Size) unit.Slope {
		for _, r := range loaded.Codes[code].MinSlope {
			if sz <= r.UpTo {
				return r.Limit
			}
		}
		return 0
	}
	for _, c := range []struct {
		code       string
		size       unit.Size
		feet       float64
		inPerFoot  float64
		manholes   float64
		turn       float64
		reach      float64
		wordedLike string
	}{
		{"ipc", 4, 100, 1.0 / 8, 400, 45, 40, "IPC 708.1.4"},
		{"ipc", 2, 100, 1.0 / 4, 400, 45, 40, "IPC 708.1.4"},
		{"ipc", 8, 100, 1.0 / 16, 400, 45, 40, "IPC 708.1.4"},
		{"upc", 4, 100, 1.0 / 4, 0, 135, 0, "707.4"},
		{"local_philadelphia", 4, 50, 1.0 / 8, 200, 45, 40, "Philadelphia"},
		{"local_philadelphia", 5, 100, 1.0 / 8, 200, 45, 40, "Philadelphia"},
		{"local_chicago", 3, 50, 1.0 / 8, 0, 45, 40, "Chicago"},
		{"local_chicago", 6, 100, 1.0 / 8, 0, 45, 40, "Chicago"},
		{"local_chicago", 10, 150, 1.0 / 16, 0, 45, 40, "Chicago"},
	} {
		code := loaded.Codes[c.code]
		assert.InDelta(t, c.feet, spacing(c.code, c.size), 1e-9, c.code)
		assert.Equal(t, unit.InchesPerFoot(c.inPerFoot), slope(c.code, c.size), c.code)
		assert.InDelta(t, c.manholes, code.ManholeSpacing.Feet(), 1e-9, c.code)
		assert.InDelta(t, c.turn, code.DirectionChange.Degrees(), 1e-9, c.code)
		assert.InDelta(t, c.reach, code.DirectionReach.Feet(), 1e-9, c.code)
		assert.Contains(t, code.Source, c.wordedLike)
	}
	for key, code := range loaded.Codes {
		const always = "heck your local code"
		assert.Contains(t, code.Name, always, key)
		assert.Contains(t, code.Source, always, key)
		for _, r := range code.CleanoutSpacing {
			assert.Contains(t, r.Source, always, key)
		}
		for _, r := range code.MinSlope {
			assert.Contains(t, r.Source, always, key)
		}
		assert.Equal(t, strings.HasPrefix(key, "local_"), strings.HasPrefix(code.Name, "Local edition: "), key)
	}
}

// TestDeposits checks the passes against common practice: what opens, what
// cuts, what cleans. Light grease is not opened first.
func TestDeposits(t *testing.T) {
	loaded := tables(t)
	for d, want := range map[network.Deposit][]PassKind{
		network.NoDeposit:    {CleanPass},
		network.Grease:       {OpenPass, CleanPass, FinishPass},
		network.Sediment:     {CleanPass},
		network.Scale:        {CleanPass, FinishPass},
		network.Roots:        {RootCutPass, CleanPass},
		network.Ice:          {OpenPass},
		network.HardStoppage: {OpenPass, CleanPass},
		network.UnknownDep:   {OpenPass, CleanPass},
	} {
		row := loaded.Deposits[d]
		var got []PassKind
		for _, p := range row.Passes {
			got = append(got, p.Kind)
			assert.LessOrEqual(t, p.Pulls[network.Light], p.Pulls[network.Moderate], "%s %s", d, p.Kind)
			assert.LessOrEqual(t, p.Pulls[network.Moderate], p.Pulls[network.Heavy], "%s %s", d, p.Kind)
		}
		assert.Equal(t, want, got, d)
		assert.True(t, slices.ContainsFunc(row.Passes, func(p PassRow) bool { return p.Pulls[network.Light] > 0 }), "%s: a light one asks for some pass", d)
		assert.Contains(t, row.Source, "ommon practice", d)
		assert.Contains(t, row.Source, "assumed", d)
	}
	open := loaded.Deposits[network.Grease].Passes[0]
	assert.Equal(t, map[network.Severity]int{network.Light: 0, network.Moderate: 0, network.Heavy: 1}, open.Pulls)
	assert.Equal(t, rig.Flushing, loaded.Deposits[network.Sediment].Passes[0].Nozzles[0])
	assert.Equal(t, rig.Spinning, loaded.Deposits[network.Scale].Passes[1].Nozzles[0])
	assert.Equal(t, []rig.Purpose{rig.RootCutting}, loaded.Deposits[network.Roots].Passes[0].Nozzles)
}

func TestCures(t *testing.T) {
	c := tables(t).Cures
	usual := c.NewCleanout.Price(UnderSlab, unit.Metres(1), 4)
	assert.Less(t, c.NewSpot, c.NewCleanout.Price(InWall, 0, 2), "moving the trailer is cheaper than cutting in a cleanout")
	assert.Less(t, usual, c.SteerableHose)
	assert.Less(t, usual, c.StrongerRig)
	assert.Contains(t, c.Source, "ssumed")
	for _, lie := range Lies() {
		assert.Contains(t, c.NewCleanout.Open[lie].Source, "common practice", lie)
	}
}

// A cleanout is dearer the deeper it is dug, the larger the pipe, and under a slab
// than beside it.
func TestCleanoutPrice(t *testing.T) {
	c := tables(t).Cures.NewCleanout
	assert.InDelta(t, 450+1.5*120+50, c.Price(UnderSlab, unit.Metres(1.5), 4), 1e-9)
	assert.InDelta(t, 250+30, c.Price(InWall, 0, 1.25), 1e-9)
	last := 0.0
	for _, sz := range unit.Sizes() {
		price := c.Price(InYard, unit.Metres(1), sz)
		assert.GreaterOrEqual(t, price, last)
		last = price
		assert.Less(t, price, c.Price(InYard, unit.Metres(1.1), sz))
		assert.Less(t, price, c.Price(UnderSlab, unit.Metres(1), sz))
	}
}

// TestTablesThatNoPlanCouldUse spoils one figure at a time.
func TestTablesThatNoPlanCouldUse(t *testing.T) {
	material := func(change func(*MaterialRow)) func(*Tables) {
		return func(l *Tables) {
			row := l.Materials[network.Clay]
			row.Bores = maps.Clone(row.Bores)
			change(&row)
			l.Materials[network.Clay] = row
		}
	}
	pass := func(change func(*PassRow)) func(*Tables) {
		return func(l *Tables) { change(&l.Deposits[network.Roots].Passes[0]) }
	}
	code := func(change func(*network.Code)) func(*Tables) {
		return func(l *Tables) {
			c := l.Codes["ipc"]
			change(&c)
			l.Codes["ipc"] = c
		}
	}
	open := func(lie Lie, change func(*OpenRow)) func(*Tables) {
		return func(l *Tables) {
			row := l.Cures.NewCleanout.Open[lie]
			change(&row)
			l.Cures.NewCleanout.Open[lie] = row
		}
	}
	for _, c := range []struct {
		name  string
		spoil func(*Tables)
		want  string
	}{
		{"friction falls", material(func(m *MaterialRow) { m.Friction.Low = 0.9 }), "materials: clay: friction {0.9 0.4 0.5}"},
		{"no friction", material(func(m *MaterialRow) { m.Friction = rig.Range{} }), "clay: friction"},
		{"rough as rock", material(func(m *MaterialRow) { m.Manning = 0.5 }), "clay: manning 0.5, must be from 0.005 to 0.05"},
		{"no bores", material(func(m *MaterialRow) { m.Bores = nil }), "clay: no bores"},
		{"bore in millimetres", material(func(m *MaterialRow) { m.Bores[4] = 102 }), "clay: bore of 4 in is 102 m"},
		{"bore of no size", material(func(m *MaterialRow) { m.Bores[7] = 0.18 }), "clay: bore of 7 in"},
		{"material without source", material(func(m *MaterialRow) { m.Source = "" }), "clay: name and source"},
		{"passes in no order", func(l *Tables) { slices.Reverse(l.Deposits[network.Roots].Passes) }, `deposits: roots: pass "root_cut", must be one of [open root_cut clean finish] in this order`},
		{"pass of no kind", pass(func(p *PassRow) { p.Kind = "polish" }), `roots: pass "polish"`},
		{"no nozzles", pass(func(p *PassRow) { p.Nozzles = nil }), "roots: pass root_cut: no nozzles"},
		{"nozzle for nothing", pass(func(p *PassRow) { p.Nozzles = []rig.Purpose{"magic"} }), `nozzle purpose "magic", must be one of [pulling penetrating flushing spinning root_cutting]`},
		{"no speed", pass(func(p *PassRow) { p.Pull = 0 }), "pull_speed 0 m/min"},
		{"a severity left out", pass(func(p *PassRow) { p.Pulls = map[network.Severity]int{network.Light: 1} }), "light, moderate and heavy"},
		{"pulls below nothing", pass(func(p *PassRow) {
			p.Pulls = map[network.Severity]int{network.Light: -1, network.Moderate: 1, network.Heavy: 1}
		}), "pulls of light: -1"},
		{"coming back at once", func(l *Tables) {
			row := l.Deposits[network.Ice]
			row.ComeBack.Least = 0
			l.Deposits[network.Ice] = row
		}, "ice: come_back: months 0, 12, 12, must rise"},
		{"no passes", func(l *Tables) { l.Deposits[network.Ice] = DepositRow{Name: "Ice", Source: "x"} }, "ice: name, source and passes"},
		{"rows that fall", code(func(c *network.Code) {
			c.CleanoutSpacing = []network.SpacingRow{{UpTo: 24, Limit: 1, Source: "x"}, {UpTo: 4, Limit: 1, Source: "x"}}
		}), "codes: ipc: cleanout_spacing: up_to 4, must be a known size above 24"},
		{"rows that end early", code(func(c *network.Code) { c.MinSlope = c.MinSlope[:1] }), "min_slope: last row up to 2.5 in, must reach the largest size"},
		{"limit of nothing", code(func(c *network.Code) {
			c.CleanoutSpacing = []network.SpacingRow{{UpTo: 24, Source: "x"}}
		}), "limit 0 up to 24 in, must be above 0"},
		{"row without source", code(func(c *network.Code) {
			c.CleanoutSpacing = []network.SpacingRow{{UpTo: 24, Limit: 1}}
		}), "row up to 24 in must name its source"},
		{"code without name", code(func(c *network.Code) { c.Name = "" }), "ipc: name and source"},
		{"free hose", func(l *Tables) { l.Cures.HosePerMetre = 0 }, "cures: prices: hose_per_metre is 0"},
		{"free walls", open(InWall, func(o *OpenRow) { o.Price = 0 }), "new_cleanout: open: price in_wall is 0, must be above 0"},
		{"digging that pays", open(InYard, func(o *OpenRow) { o.PerMetre = -1 }), "new_cleanout: open: per_metre in_yard is -1"},
		{"slab without source", open(UnderSlab, func(o *OpenRow) { o.Source = "" }), "open: under_slab must name its source"},
		{"no yard", func(l *Tables) { delete(l.Cures.NewCleanout.Open, InYard) }, "open has 2 rows, must have one for each of [in_wall in_yard under_slab]"},
		{"a place unheard of", func(l *Tables) {
			delete(l.Cures.NewCleanout.Open, InYard)
			l.Cures.NewCleanout.Open["in_the_air"] = OpenRow{Price: 1, Source: "x"}
		}, "open: no row in_yard"},
		{"free fittings", func(l *Tables) { l.Cures.NewCleanout.Fittings[1].Price = 0 }, "fittings: price up to 4 in is 0"},
		{"fittings that end early", func(l *Tables) { l.Cures.NewCleanout.Fittings = l.Cures.NewCleanout.Fittings[:2] }, "fittings: last row up to 4 in, must reach the largest size"},
		{"cures without source", func(l *Tables) { l.Cures.Source = "" }, "cures: prices: source"},
	} {
		t.Run(c.name, func(t *testing.T) {
			loaded := tables(t)
			require.NoError(t, loaded.check())
			c.spoil(loaded)
			assert.ErrorContains(t, loaded.check(), c.want)
		})
	}
}
