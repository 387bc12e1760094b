package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// RigForm opens the form of the rig: pump, tank and supply, hoses, nozzles and
// the crew's pace.
func RigForm(d *desk.Desk, w fyne.Window) {
	about := aboutRig(d)
	tabs := container.NewAppTabs()
	var parts []living
	for _, section := range []struct {
		title  string
		fields []field[rig.Rig]
	}{
		{"Rig and pump", pumpFields()},
		{"Tank and supply", tankFields()},
		{"Crew", crewFields()},
	} {
		p, s := pageOf(func(resized func()) *sheet[rig.Rig] { return newSheet(d, about, resized, section.fields...) })
		tabs.Append(container.NewTabItem(section.title, p))
		parts = append(parts, s)
	}
	hoses, nozzles := newHoses(d), newNozzles(d)
	tabs.Items = append(tabs.Items[:2], container.NewTabItem("Hoses", hoses.page), container.NewTabItem("Nozzles", nozzles.page), tabs.Items[2])
	tabs.SelectIndex(0)
	open(d, w, "Rig, hoses and nozzles", fyne.NewSize(560, 620), tabs, append(parts, hoses, nozzles)...)
}

func aboutRig(d *desk.Desk) subject[rig.Rig] {
	return partOf(d, func(s *site.Site) *rig.Rig { return &s.Rig }, rig.Rig.Clone, edit.SetRig, "rig")
}

func pumpFields() []field[rig.Rig] {
	type r = rig.Rig
	bore := orNone("Plumbing, bore", "plumbing.bore", &unit.Bores, "plumbing is not counted", func(v *r) *unit.Length { return &v.Plumbing.Bore })
	bore.read = andThen(bore.read, func(v *r) {
		if v.Plumbing.Bore == 0 {
			v.Plumbing = rig.Plumbing{} // the file leaves it out as a whole
		}
	})
	return []field[r]{
		text("Name", "name", func(v *r) *string { return &v.Name }),
		number("Pump gives", "pump.flow", &unit.Flows, func(v *r) *unit.Flow { return &v.Pump.Flow }),
		number("Rated pressure", "pump.rated", &unit.Pressures, func(v *r) *unit.Pressure { return &v.Pump.Rated }),
		number("Unloader set to", "pump.unloader", &unit.Pressures, func(v *r) *unit.Pressure { return &v.Pump.Unloader }),
		bore,
		number("Plumbing, length", "plumbing.length", &unit.Lengths, func(v *r) *unit.Length {
			if v.Plumbing == (rig.Plumbing{}) {
				return nil
			}
			return &v.Plumbing.Length
		}),
		number("Water is at", "water_temperature", &unit.Temperatures, func(v *r) *unit.Temperature { return &v.Water }),
		note("Note", "note", func(v *r) *string { return &v.Note }),
	}
}

func tankFields() []field[rig.Rig] {
	type r = rig.Rig
	return []field[r]{
		number("Tank holds", "tank.volume", &unit.Volumes, func(v *r) *unit.Volume { return &v.Tank.Volume }),
		number("Start from", "tank.start", &unit.Volumes, func(v *r) *unit.Volume { return &v.Tank.Start }),
		number("Stop at", "tank.stop", &unit.Volumes, func(v *r) *unit.Volume { return &v.Tank.Stop }),
		number("Drains with", "tank.drain", &unit.Flows, func(v *r) *unit.Flow { return &v.Tank.Drain }),
		tick("Comes with a full tank", func(v *r) *bool { return &v.Tank.ArrivesFull }),
		number("Supply hose", "supply.length", &unit.Lengths, func(v *r) *unit.Length { return &v.Supply.Length }),
		orNone("Fill takes", "supply.max_flow", &unit.Flows, "all that the water point gives", func(v *r) *unit.Flow { return &v.Supply.MaxFlow }),
	}
}

func crewFields() []field[rig.Rig] {
	type r = rig.Rig
	minutes := func(label, member string, at func(*rig.Crew) *float64) field[r] {
		return number(label, "crew."+member, &unit.Times, func(v *r) *float64 { return at(&v.Crew) })
	}
	speed := func(label, member string, at func(*rig.Crew) *unit.Speed) field[r] {
		return number(label, "crew."+member, &unit.Speeds, func(v *r) *unit.Speed { return at(&v.Crew) })
	}
	return []field[r]{
		whole("People", "crew.people", func(v *r) *int { return &v.Crew.People }),
		orNone("Working day", "crew.shift_minutes", &unit.Times, "as long as it takes", func(v *r) *float64 { return &v.Crew.Shift }),
		minutes("Set up", "set_up_minutes", func(c *rig.Crew) *float64 { return &c.SetUp }),
		minutes("Pack up", "pack_up_minutes", func(c *rig.Crew) *float64 { return &c.PackUp }),
		minutes("Move the trailer", "move_minutes", func(c *rig.Crew) *float64 { return &c.Move }),
		speed("Tow", "tow_speed", func(c *rig.Crew) *unit.Speed { return &c.TowSpeed }),
		minutes("Open and close", "open_minutes", func(c *rig.Crew) *float64 { return &c.Open }),
		speed("Lay hose", "lay_speed", func(c *rig.Crew) *unit.Speed { return &c.Lay }),
		minutes("Start a run", "run_start_minutes", func(c *rig.Crew) *float64 { return &c.RunStart }),
		minutes("Change the nozzle", "nozzle_change_minutes", func(c *rig.Crew) *float64 { return &c.NozzleChange }),
		minutes("Change the hose", "hose_change_minutes", func(c *rig.Crew) *float64 { return &c.HoseChange }),
		speed("Pass clean pipe", "travel_speed", func(c *rig.Crew) *unit.Speed { return &c.Travel }),
		number("Stroke", "crew.stroke", &unit.Lengths, func(v *r) *unit.Length { return &v.Crew.Stroke }),
		speed("Stroke forward", "forward_speed", func(c *rig.Crew) *unit.Speed { return &c.Forward }),
		speed("Stroke back", "back_speed", func(c *rig.Crew) *unit.Speed { return &c.Back }),
		number("Downstream, extra", "crew.downstream_extra", &unit.Shares, func(v *r) *float64 { return &v.Crew.Downstream }),
	}
}
