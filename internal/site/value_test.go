package site

import (
	"math"
	"strings"
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// TestCheckAgreesWithDecode breaks one value at a time: what Check refuses must
// not load, and what it takes must.
func TestCheckAgreesWithDecode(t *testing.T) {
	deep := unit.Length(-9001)
	none := unit.Length(0)
	for _, c := range []struct {
		name  string
		want  string // "" for a sound value
		value func(s *Site) any
	}{
		{"sound node", "", func(s *Site) any { return s.Network.Nodes[1] }},
		{"sound pipe", "", func(s *Site) any { return s.Network.Pipes[0] }},
		{"sound level", "", func(s *Site) any { return s.Network.Levels[0] }},
		{"sound spot", "", func(s *Site) any { return s.Spots[0] }},
		{"sound water point", "", func(s *Site) any { return s.Water[0] }},
		{"sound lay", "", func(s *Site) any { return s.Lays[0] }},
		{"sound job", "", func(s *Site) any { return s.Job }},
		{"sound rig", "", func(s *Site) any { return s.Rig }},
		{"sound note", "", func(s *Site) any { return s.Notes[0] }},
		{"sound area", "", func(s *Site) any { return s.Areas[2] }},
		{"sound underlay", "", func(s *Site) any { return s.Underlays[1] }},
		{"sound place on Earth", "", func(s *Site) any { return *s.Geo }},
		{"place past the pole", "latitude: found 91 deg, must be a number from -89 to 89 deg", func(s *Site) any {
			s.Geo.Latitude = unit.Degrees(91)
			return *s.Geo
		}},
		{"sound prices", "", func(s *Site) any { return s.Prices }},
		{"prices below nothing", "minimum: found \"-1\", must be a text of the form: an amount", func(s *Site) any {
			s.Prices.Minimum = decimal.MustParse("-1")
			return s.Prices
		}},
		{"amount finer than any coin", "water: found \"0.00001\"", func(s *Site) any {
			s.Prices.Water = decimal.MustParse("0.00001")
			return s.Prices
		}},
		{"rates that fall", "rates[1].up_to: found 1.5 in nominal, must be a size above 2 in nominal", func(s *Site) any {
			s.Prices.Rates[1].UpTo = 1.5
			return s.Prices
		}},
		{"sound decisions", "", func(s *Site) any { return s.ByHand }},
		{"sound visit", "", func(s *Site) any { return s.Visits[0] }},
		{"visit of no day", "date: found \"\"", func(s *Site) any {
			s.Visits[1].Date = ""
			return s.Visits[1]
		}},
		{"run twice in a visit", "runs[1].run: found a run a second time", func(s *Site) any {
			s.Visits[0].Runs[1].Run = s.Visits[0].Runs[0].Run
			return s.Visits[0]
		}},
		{"sound result", "", func(s *Site) any { return s.Visits[0].Runs[0] }},
		{"result with a photo of no name", "photos[0]: found \"\"", func(s *Site) any {
			s.Visits[0].Runs[0].Photos[0] = ""
			return s.Visits[0].Runs[0]
		}},
		{"photo from elsewhere", "runs[0].photos[1]: found \"C:/a.jpg\", must be a path inside the folder", func(s *Site) any {
			s.Visits[0].Runs[0].Photos[1] = "C:/a.jpg"
			return s.Visits[0]
		}},
		{"picture from above", "file: found \"../a.png\", must be a path inside the folder", func(s *Site) any {
			s.Underlays[1].File = "../a.png"
			return s.Underlays[1]
		}},
		{"invert too deep", "invert: found -9001 m, must be a number from -9000 to 9000 m", func(s *Site) any {
			s.Network.Nodes[0].Invert = &deep
			return s.Network.Nodes[0]
		}},
		{"access without its figures", "access: found nothing, must be given where kind is \"access\"", func(s *Site) any {
			s.Network.Nodes[1].Access = nil
			return s.Network.Nodes[1]
		}},
		{"coordinate", "at.x: found 100001 m, must be a number from -100000 to 100000 m", func(s *Site) any {
			s.Spots[0].At.X = 100001
			return s.Spots[0]
		}},
		{"pipe size", "size: found 7 in nominal", func(s *Site) any {
			s.Network.Pipes[0].Size = 7
			return s.Network.Pipes[0]
		}},
		{"pipe of no length", "length: found 0 m, must be a number above 0", func(s *Site) any {
			s.Network.Pipes[0].Length = &none
			return s.Network.Pipes[0]
		}},
		{"level without a name", "name: found \"\"", func(s *Site) any {
			s.Network.Levels[0].Name = ""
			return s.Network.Levels[0]
		}},
		{"water that gives nothing", "flow: found 0 L/min", func(s *Site) any {
			s.Water[0].Flow = 0
			return s.Water[0]
		}},
		{"lay to two things", "water: found a value, must be left out where access is given", func(s *Site) any {
			s.Lays[0].Water = "hyd"
			return s.Lays[0]
		}},
		{"no day of the calendar", "date: found \"2026-02-30\", must be a day of the calendar", func(s *Site) any {
			s.Job.Date = "2026-02-30"
			return s.Job
		}},
		{"two hoses of one id", "hoses[1].id: found \"half\" a second time", func(s *Site) any {
			s.Rig.Hoses = append(s.Rig.Hoses, s.Rig.Hoses[0])
			return s.Rig
		}},
		{"not a number", "", func(s *Site) any {
			s.Spots[0].Elevation = unit.Length(math.NaN())
			return s.Spots[0]
		}},
		{"no UTF-8", "", func(s *Site) any {
			s.Job.Title = "\xff"
			return s.Job
		}},
		{"run without a hose", "keep[yard,,co1,p1].hose: found \"\"", func(s *Site) any {
			s.ByHand.Keep = []RunKey{{Spot: "yard", Access: "co1", End: "p1"}}
			return s.ByHand
		}},
		{"note too long", "text: found", func(s *Site) any {
			s.Notes = []Note{{ID: "t1", Text: strings.Repeat("x", 10001)}}
			return s.Notes[0]
		}},
		{"area of too many corners", "outline: found a list of 201, must be a list [] of 1 to 200", func(s *Site) any {
			s.Areas[0].Outline = make([]network.Point, 201)
			return s.Areas[0]
		}},
		{"area for nothing", `kind: found "", must be one of "stand", "keep_clear", "walkway"`, func(s *Site) any {
			s.Areas[0].Kind = ""
			return s.Areas[0]
		}},
		{"underlay without a picture", "file: found nothing", func(s *Site) any {
			s.Underlays = []Underlay{{ID: "u1", Scale: 0.01}}
			return s.Underlays[0]
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := wholeSite(t)
			err := Check(c.value(s))
			data, broken := Encode(s)
			if broken == nil {
				_, broken = Decode(data)
			}
			assert.Equal(t, broken == nil, err == nil, "Check says %v, loading %v", err, broken)
			if c.want != "" {
				require.ErrorContains(t, err, c.want)
			}
		})
	}
}

func TestCheckRefusesStrangers(t *testing.T) {
	assert.Error(t, Check(nil))
	assert.Error(t, Check(&network.Node{}), "values, not pointers")
}

func TestCheckSize(t *testing.T) {
	s := wholeSite(t)
	require.NoError(t, s.CheckSize())
	s.Underlays = make([]Underlay, 101)
	require.ErrorContains(t, s.CheckSize(), "101 underlays, at most 100")
	picture := make([]byte, 30<<20)
	s.Underlays = []Underlay{{Data: picture}, {Data: picture}}
	require.ErrorContains(t, s.CheckSize(), "80 MB in the file")
}
