package export

import (
	"math"
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// feature is a Feature of RFC 7946, section 3.2. A nil geometry is one that has
// no place.
type feature struct {
	Type       string    `json:"type"`
	ID         string    `json:"id"`
	Geometry   *geometry `json:"geometry"`
	Properties any       `json:"properties"`
}

// geometry is a Point, a LineString or a Polygon of RFC 7946, or several of the
// latter two.
type geometry struct {
	Type        string `json:"type"`
	Coordinates any    `json:"coordinates"`
}

// position is longitude and latitude in degrees.
type position [2]float64

// position puts a place on the globe, to 1e-9 of a degree: a tenth of a
// millimetre.
func (c *collection) position(p network.Point) position {
	const fine = 1e9
	lat, lon := c.geo.On(p)
	return position{math.Round(lon.Degrees()*fine) / fine, math.Round(lat.Degrees()*fine) / fine}
}

func (c *collection) point(p network.Point) *geometry {
	return &geometry{"Point", c.position(p)}
}

// line is a line on the plan, nil for one that has not two places. One that
// crosses the antimeridian is cut there (RFC 7946, section 3.1.9).
func (c *collection) line(way []network.Point) *geometry {
	if len(way) < 2 {
		return nil
	}
	last := c.position(way[0])
	parts := [][]position{{last}}
	for _, p := range way[1:] {
		next := c.position(p)
		k := len(parts) - 1
		if step := next[0] - last[0]; math.Abs(step) > 180 {
			edge := math.Copysign(180, last[0])
			share := (edge - last[0]) / (step + 2*edge)
			lat := last[1] + share*(next[1]-last[1])
			parts[k] = append(parts[k], position{edge, lat})
			parts, k = append(parts, []position{{-edge, lat}}), k+1
		}
		parts[k], last = append(parts[k], next), next
	}
	if len(parts) == 1 {
		return &geometry{"LineString", parts[0]}
	}
	return &geometry{"MultiLineString", parts}
}

// reversed returns a copy of a line from its end.
func reversed(line []network.Point) []network.Point {
	line = slices.Clone(line)
	slices.Reverse(line)
	return line
}

// The properties of the features.
type (
	nodeProperties struct {
		Kind         string             `json:"kind"`
		Key          network.NodeID     `json:"key"`
		Name         string             `json:"name"`
		Node         network.NodeKind   `json:"node"`
		Access       network.AccessKind `json:"access,omitzero"`
		Size         unit.Size          `json:"nominal_size_in,omitzero"`
		Level        string             `json:"level,omitzero"`
		Invert       *unit.Length       `json:"invert_m,omitzero"`
		Room         string             `json:"room,omitzero"`
		OutOfService bool               `json:"out_of_service,omitzero"`
		Note         string             `json:"note,omitzero"`
	}
	// pipeProperties has its ends as the water flows, as the line has.
	pipeProperties struct {
		Kind     string            `json:"kind"`
		Key      network.PipeID    `json:"key"`
		Name     string            `json:"name"`
		From     network.NodeID    `json:"from,omitzero"`
		To       network.NodeID    `json:"to,omitzero"`
		Size     unit.Size         `json:"nominal_size_in"`
		Material network.Material  `json:"material"`
		Class    network.PipeClass `json:"class"`
		Length   unit.Length       `json:"length_m"`
		Slope    *unit.Slope       `json:"slope_m_per_m,omitzero"`
		Deposit  network.Deposit   `json:"deposit,omitzero"`
		Severity network.Severity  `json:"severity,omitzero"`
		Fragile  bool              `json:"fragile,omitzero"`
		OutOfJob bool              `json:"out_of_job,omitzero"`
		Note     string            `json:"note,omitzero"`
	}
	spotProperties struct {
		Kind      string       `json:"kind"`
		Key       site.SpotID  `json:"key"`
		Name      string       `json:"name"`
		Elevation unit.Length  `json:"elevation_m"`
		Usable    bool         `json:"usable"`
		Traffic   site.Traffic `json:"traffic,omitzero"`
		Note      string       `json:"note,omitzero"`
	}
	waterProperties struct {
		Kind  string         `json:"kind"`
		Key   site.WaterID   `json:"key"`
		Name  string         `json:"name"`
		Water site.WaterKind `json:"water"`
		Flow  unit.Flow      `json:"flow_l_per_min"`
		Note  string         `json:"note,omitzero"`
	}
	layProperties struct {
		Kind   string         `json:"kind"`
		Spot   site.SpotID    `json:"spot"`
		Access network.NodeID `json:"access,omitzero"`
		Water  site.WaterID   `json:"water,omitzero"`
		Length unit.Length    `json:"length_m"`
	}
	// runProperties has the readings of the hose counter.
	runProperties struct {
		Kind      string           `json:"kind"`
		Number    int              `json:"number"`
		Spot      site.SpotID      `json:"spot"`
		Hose      string           `json:"hose"`
		Access    network.NodeID   `json:"access"`
		Direction route.Direction  `json:"direction"`
		Lay       unit.Length      `json:"lay_m"`
		Entry     unit.Length      `json:"entry_m"`
		End       unit.Length      `json:"end_m"`
		Bends     float64          `json:"bends_quarter"`
		Passes    int              `json:"passes"`
		Minutes   time.Duration    `json:"minutes"`
		Water     unit.Volume      `json:"water_l"`
		Cleaned   []network.PipeID `json:"cleans"`
	}
	shortfallProperties struct {
		Kind   string         `json:"kind"`
		Pipe   network.PipeID `json:"pipe"`
		Name   string         `json:"name"`
		Size   unit.Size      `json:"nominal_size_in"`
		Length unit.Length    `json:"length_m"`
		Reason route.Reason   `json:"reason"`
		Why    string         `json:"why"`
		Cure   string         `json:"cure"`
	}
)
