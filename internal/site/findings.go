package site

import (
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Findings lists everything that is wrong, or looks wrong, with the document,
// worst first: the drain against its flow and its code, the spots and their
// water, the lays, the areas, the rig and the job. An error means that the program's own
// tables could not be read.
func (s *Site) Findings() ([]network.Finding, error) {
	t, err := LoadTables()
	if err != nil {
		return nil, err
	}
	graph, all := network.Trace(&s.Network)
	all = append(all, graph.Findings(t.Codes[s.Code], t.Bore)...)
	all = append(all, s.codeFindings(t)...)
	all = append(all, s.spotFindings()...)
	all = append(all, s.waterFindings()...)
	all = append(all, s.layFindings()...)
	all = append(all, s.areaFindings()...)
	all = append(all, s.byHandFindings()...)
	all = append(all, s.rigFindings()...)
	all = append(all, s.jobFindings()...)
	all = append(all, s.pricesFindings()...)
	all = append(all, s.visitFindings()...)
	network.SortFindings(all)
	return all, nil
}

func (s *Site) codeFindings(t *Tables) []network.Finding {
	if _, ok := t.Codes[s.Code]; ok {
		return nil
	}
	return []network.Finding{{
		Gravity: network.Warning, Kind: "code_unknown", Place: "job",
		What:  "The code edition is not in the tables, so nothing was checked against a code.",
		Value: fmt.Sprintf("%q", s.Code),
		Limit: "one of " + strings.Join(sortedKeys(t.Codes), ", "),
		Cure:  "Choose a code edition.",
	}}
}

func (s *Site) spotFindings() []network.Finding {
	var all []network.Finding
	usable := false
	for i := range s.Spots {
		spot := &s.Spots[i]
		usable = usable || spot.Usable()
		if spot.Uneven {
			all = append(all, network.Finding{
				Gravity: network.Warning, Kind: "spot_uneven", Place: spot.Name(),
				What: "The ground is uneven, so the trailer does not stand here.",
				Cure: "Level it with blocks and clear the mark, or pick another spot.",
			})
		}
		if spot.Traffic == LiveTraffic {
			all = append(all, network.Finding{
				Gravity: network.Warning, Kind: "spot_in_traffic", Place: spot.Name(),
				What: "The spot is in live traffic, so the trailer does not stand here.",
				Cure: "Have the lane closed and mark it as coned, or pick another spot.",
			})
		}
	}
	if !usable {
		all = append(all, network.Finding{
			Gravity: network.Error, Kind: "no_spot", Place: "site",
			What:  "There is no spot where the trailer can stand.",
			Value: fmt.Sprintf("0 usable of %d", len(s.Spots)), Limit: "1 or more",
			Cure: "Place a spot on even ground, out of traffic or coned.",
		})
	}
	return all
}

func (s *Site) waterFindings() []network.Finding {
	var all []network.Finding
	for i := range s.Spots {
		spot := &s.Spots[i]
		if _, w := s.Inflow(spot); w != nil || !spot.Usable() {
			continue
		}
		f := network.Finding{
			Gravity: network.Warning, Kind: "spot_without_water", Place: spot.Name(),
			What:  "No water point is within the supply hose, so work here stops whenever the tank is low.",
			Limit: "supply hose " + s.Units.Length(s.Rig.Supply.Length),
			Cure:  "Bring a longer supply hose, or place a water point nearer.",
		}
		if w, away := s.nearestWater(spot); w != nil {
			f.Value = fmt.Sprintf("%s is %s away", w.Name(), s.Units.Length(away))
		} else {
			f.Value = "no water point on the site"
		}
		all = append(all, f)
	}
	return all
}

func (s *Site) nearestWater(spot *Spot) (*WaterPoint, unit.Length) {
	var best *WaterPoint
	var least unit.Length
	for i := range s.Water {
		if away := s.SupplyLength(spot, &s.Water[i]); best == nil || away < least {
			best, least = &s.Water[i], away
		}
	}
	return best, least
}

func (s *Site) rigFindings() []network.Finding {
	var all []network.Finding
	for _, p := range s.Rig.Problems() {
		f := network.Finding{
			Gravity: network.Warning, Kind: "rig_figure", Place: p.Of,
			What:  "The rig's figure " + p.Field + " looks wrong.",
			Value: p.Value, Limit: p.Limit,
			Cure: "Correct the rig.",
		}
		if p.Stops {
			f.Gravity, f.What = network.Error, "The rig's figure "+p.Field+" cannot be right, so no plan can be trusted."
		}
		if f.Place == "" {
			f.Place = "rig"
		}
		all = append(all, f)
	}
	return all
}

func (s *Site) jobFindings() []network.Finding {
	var all []network.Finding
	for _, field := range []struct{ name, value string }{
		{"title", s.Job.Title},
		{"customer", s.Job.Customer},
		{"address", s.Job.Address},
		{"date", s.Job.Date},
		{"start time", s.Job.Start},
	} {
		if field.value == "" {
			all = append(all, network.Finding{
				Gravity: network.Advice, Kind: "job_incomplete", Place: "job",
				What: "The job has no " + field.name + ", and the papers leave it blank.",
				Cure: "Fill it in.",
			})
		}
	}
	return all
}

// Name names a spot for a reader.
func (spot *Spot) Name() string {
	if spot.Label != "" {
		return spot.Label
	}
	return "spot " + string(spot.ID)
}

// Name names a water point for a reader.
func (w *WaterPoint) Name() string {
	if w.Label != "" {
		return w.Label
	}
	return "water point " + string(w.ID)
}
