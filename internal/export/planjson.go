package export

import (
	"linemap/internal/route"
	"linemap/internal/site"
)

// planVersion is the version of the form of a plan in JSON.
const planVersion = 1

// planDocument is a plan in JSON with what it needs to be read alone.
type planDocument struct {
	Version int `json:"linemap_plan"`
	// Title, Revision and Date are those of the site's job.
	Title    string `json:"title"`
	Revision string `json:"revision,omitzero"`
	Date     string `json:"date,omitzero"`
	// Units names the unit of every kind of quantity below.
	Units planUnits   `json:"units"`
	Plan  *route.Plan `json:"plan"`
}

// planUnits names the units of a plan in JSON. They are those of the site
// file and do not follow the site's choice of units.
type planUnits struct {
	Length   string `json:"length"`
	Angle    string `json:"angle"`
	Pressure string `json:"pressure"`
	Flow     string `json:"flow"`
	Volume   string `json:"volume"`
	Force    string `json:"force"`
	Time     string `json:"time"`
	Bends    string `json:"bends"`
}

// PlanJSON is the plan as JSON: the plan's own members under "plan", with the
// job's title and the units before them. Pipes, nodes, spots, hoses and nozzles
// are named by their id in the site file.
func PlanJSON(s *site.Site, p *route.Plan) ([]byte, error) {
	return site.EncodeValue(planDocument{
		Version: planVersion, Title: s.Job.Title, Revision: s.Job.Revision, Date: s.Job.Date,
		Units: planUnits{
			Length: "m", Angle: "degree", Pressure: "kPa", Flow: "L/min", Volume: "L",
			Force: "N", Time: "min", Bends: "quarter bend",
		},
		Plan: p,
	})
}
