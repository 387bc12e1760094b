package form

import (
	"fyne.io/fyne/v2"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// JobForm opens the form of the job: for whom, where and when.
func JobForm(d *desk.Desk, w fyne.Window) {
	about := partOf(d, func(s *site.Site) *site.Job { return &s.Job }, func(j site.Job) site.Job { return j }, edit.SetJob, "job")
	p, s := pageOf(func(resized func()) *sheet[site.Job] { return newSheet(d, about, resized, jobFields()...) })
	open(d, w, "Job and customer", fyne.NewSize(480, 560), p, s)
}

func jobFields() []field[site.Job] {
	type job = site.Job
	return []field[job]{
		text("Title", "title", func(j *job) *string { return &j.Title }),
		text("Customer", "customer", func(j *job) *string { return &j.Customer }),
		note("Address", "address", func(j *job) *string { return &j.Address }),
		text("Contact", "contact", func(j *job) *string { return &j.Contact }),
		text("Phone", "phone", func(j *job) *string { return &j.Phone }),
		text("Date", "date", func(j *job) *string { return &j.Date }).like("2026-03-17"),
		text("Crew arrives", "start", func(j *job) *string { return &j.Start }).like("07:30"),
		text("Revision", "revision", func(j *job) *string { return &j.Revision }),
		text("Estimator", "estimator", func(j *job) *string { return &j.Estimator }),
		note("Note", "note", func(j *job) *string { return &j.Note }),
	}
}

// SettingsForm opens the form of what the whole site goes by: units, paper and
// code edition.
func SettingsForm(d *desk.Desk, w fyne.Window) {
	about := partOf(d, func(s *site.Site) *site.Site { return s }, func(s site.Site) site.Site { return s },
		func(s *site.Site, v site.Site) (*edit.Edit, error) {
			switch {
			case v.Units != s.Units:
				return edit.SetUnits(s, v.Units)
			case v.Paper != s.Paper:
				return edit.SetPaper(s, v.Paper)
			}
			return edit.SetCode(s, v.Code)
		}, "site")
	p, s := pageOf(func(resized func()) *sheet[site.Site] { return newSheet(d, about, resized, settingFields()...) })
	open(d, w, "Units, paper and code", fyne.NewSize(520, 320), p, s)
}

func settingFields() []field[site.Site] {
	return []field[site.Site]{
		choice("Units", func(s *site.Site) *unit.System { return &s.Units }, func(*desk.Desk, *site.Site) []option[unit.System] {
			return []option[unit.System]{{unit.US, "Feet, gallons, psi"}, {unit.Metric, "Metres, litres, bar"}}
		}),
		choice("Paper", func(s *site.Site) *site.Paper { return &s.Paper }, func(*desk.Desk, *site.Site) []option[site.Paper] {
			return []option[site.Paper]{{site.Letter, "Letter"}, {site.A4, "A4"}}
		}),
		choice("Code edition", func(s *site.Site) *string { return &s.Code }, codes),
		factOf("", func(d *desk.Desk, s *site.Site) string {
			code, ok := d.Tables().Codes[s.Code]
			if !ok {
				return "Nothing is checked against a code: its edition is not in the tables."
			}
			return "Source: " + code.Source
		}),
	}
}
