package site

import (
	"encoding/base64"
	"fmt"

	"github.com/go-json-experiment/json"

	"linemap/internal/network"
	"linemap/internal/rig"
)

// Check says what would keep a document that holds v from being loaded: a
// [*LoadError] with figures in the units of a file, or nil. V is one element or
// part of a document: a [network.Node], [network.Pipe] or [network.Level], a
// [Spot], [WaterPoint], [Lay], [Area], [Note] or [Underlay], a [Job], a [Geo],
// a [rig.Rig], [ByHand], [Prices], a [Visit] or a
// [RunResult] of one. Whether what v refers to is there is not looked at.
func Check(v any) error {
	root, err := siteSchema()
	if err != nil {
		return err
	}
	name, ok := schemaName(v)
	if !ok {
		return fmt.Errorf("a %T is no part of a document", v)
	}
	text, err := json.Marshal(v, encoding)
	if err != nil {
		return err
	}
	_, found := check(text, root.Defs[name])
	switch v := v.(type) {
	case Job:
		if len(found.list) == 0 {
			checkDate(&found, "date", v.Date)
		}
	case Underlay:
		checkFile(&found, "file", v.File)
	case rig.Rig:
		checkRig(&found, "", &v)
	case Prices:
		checkPrices(&found, "", &v)
	case Visit:
		checkVisit(&found, "", &v)
	case RunResult:
		checkResult(&found, "", &v)
	}
	return found.err()
}

func schemaName(v any) (string, bool) {
	switch v.(type) {
	case network.Node:
		return "node", true
	case network.Pipe:
		return "pipe", true
	case network.Level:
		return "level", true
	case Spot:
		return "spot", true
	case WaterPoint:
		return "water_point", true
	case Lay:
		return "lay", true
	case Area:
		return "area", true
	case Note:
		return "site_note", true
	case Underlay:
		return "underlay", true
	case Job:
		return "job", true
	case Geo:
		return "geo", true
	case rig.Rig:
		return "rig", true
	case ByHand:
		return "by_hand", true
	case Prices:
		return "prices", true
	case Visit:
		return "visit", true
	case RunResult:
		return "run_result", true
	}
	return "", false
}

// CheckSize says whether the site holds more than a document may: too many of
// something, or pictures too large to be loaded again. It takes no time to
// speak of.
func (s *Site) CheckSize() error {
	root, err := siteSchema()
	if err != nil {
		return err
	}
	net := root.Members["network"]
	for _, l := range []struct {
		thing  string
		n      int
		schema *schema
	}{
		{"levels", len(s.Network.Levels), net.Members["levels"]},
		{"nodes", len(s.Network.Nodes), net.Members["nodes"]},
		{"pipes", len(s.Network.Pipes), net.Members["pipes"]},
		{"spots", len(s.Spots), root.Members["spots"]},
		{"water points", len(s.Water), root.Members["water_points"]},
		{"lays", len(s.Lays), root.Members["lays"]},
		{"areas", len(s.Areas), root.Members["areas"]},
		{"notes", len(s.Notes), root.Members["notes"]},
		{"underlays", len(s.Underlays), root.Members["underlays"]},
		{"visits", len(s.Visits), root.Members["visits"]},
	} {
		if most := l.schema.MaxItems; most != nil && l.n > *most {
			return fmt.Errorf("the site would have %d %s, at most %d can be kept in a file", l.n, l.thing, *most)
		}
	}
	pictures := 0
	for i := range s.Underlays {
		pictures += base64.StdEncoding.EncodedLen(len(s.Underlays[i].Data))
	}
	if pictures > maxPictures {
		return fmt.Errorf("the pictures of the site would take %d MB in the file, at most %d MB can be kept; keep one beside the file, or make it smaller",
			pictures>>20, maxPictures>>20)
	}
	return nil
}

// maxPictures is how many bytes of a document its pictures may fill; the rest
// of [MaxBytes] is for the drawing.
const maxPictures = MaxBytes - 8<<20
