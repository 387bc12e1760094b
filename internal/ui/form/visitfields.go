package form

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// dayFields are those of a visit as a whole.
func dayFields() []field[site.Visit] {
	return []field[site.Visit]{
		text("Crew", "crew", func(v *site.Visit) *string { return &v.Crew }).like("who was there"),
		note("Note", "note", func(v *site.Visit) *string { return &v.Note }),
	}
}

// resultFields are the blanks of a run, as they stand on the run sheet.
func resultFields() []field[site.RunResult] {
	type result = site.RunResult
	return []field[result]{
		reachedField(),
		text("Found", "found", func(r *result) *string { return &r.Found }),
		unsaid("Deposit", "deposit", func(r *result) *network.Deposit { return &r.Deposit }, func(d *desk.Desk, k network.Deposit) string {
			return d.Tables().Deposits[k].Name
		}),
		unsaid("How bad", "severity", func(r *result) *network.Severity { return &r.Severity }, nil),
		unsaid("State of the pipe", "condition", func(r *result) *site.Condition { return &r.Condition }, nil),
		orBlank(whole("Passes made", "passes", func(r *result) *int { return &r.Passes })),
		minutesField(),
		text("Initials", "initials", func(r *result) *string { return &r.Initials }),
		photosField(),
	}
}

// nobodySaid is chosen where nothing was written down.
const nobodySaid = "Not written down"

// unsaid is a choice of keys that may be left open.
func unsaid[T any, K ~string](label, member string, at func(*T) *K, say func(d *desk.Desk, k K) string) field[T] {
	f := keys(label, member, at, say)
	show, read, options := f.show, f.read, f.options
	f.show = func(d *desk.Desk, v *T) (string, bool) {
		if p := at(v); p != nil && *p == "" {
			return nobodySaid, true
		}
		return show(d, v)
	}
	f.options = func(d *desk.Desk, v *T) []string { return append([]string{nobodySaid}, options(d, v)...) }
	f.read = func(d *desk.Desk, text string) (func(*T), error) {
		if text != nobodySaid {
			return read(d, text)
		}
		return func(v *T) {
			if p := at(v); p != nil {
				*p = ""
			}
		}, nil
	}
	return f
}

// orBlank shows a nought as nothing written down.
func orBlank[T any](f field[T]) field[T] {
	show, read := f.show, f.read
	f.hint = "not written down"
	f.show = func(d *desk.Desk, v *T) (string, bool) {
		text, there := show(d, v)
		if text == "0" {
			text = ""
		}
		return text, there
	}
	f.read = func(d *desk.Desk, text string) (func(*T), error) {
		if strings.TrimSpace(text) == "" {
			text = "0"
		}
		return read(d, text)
	}
	return f
}

// unmade is the reading of a run without a result. No result of it is kept.
const unmade = unit.Length(-1)

// reachedField is the reading at which the crew turned back, empty for a run
// without a result, 0 for one that was not made.
func reachedField() field[site.RunResult] {
	return field[site.RunResult]{
		label: "Counter reached", hint: "0 where it was not made",
		show: func(d *desk.Desk, r *site.RunResult) (string, bool) {
			switch r.Reached {
			case unmade:
				return "", true
			case 0:
				return "0", true
			}
			return d.Units().Footage(r.Reached), true
		},
		read: func(d *desk.Desk, text string) (func(*site.RunResult), error) {
			reached, err := unit.Lengths.Parse(text, d.Units())
			return func(r *site.RunResult) { reach(d, r, reached) }, err
		},
	}
}

// readable says what is wrong with the reading of a run.
func readable(d *desk.Desk, r *site.RunResult) error {
	found := unit.Lengths.Write(r.Reached, d.Units())
	switch hose := hoseOf(d.Site(), r.Run.Hose); {
	case r.Reached == unmade:
		return errors.New("write first how far the hose went: what the counter reached, 0 where the run was not made")
	case r.Reached < 0:
		return fmt.Errorf("%s is too little: at least 0", found)
	case hose != nil && r.Reached > hose.Length:
		return fmt.Errorf("%s is too much: the hose has %s", found, unit.Lengths.Write(hose.Length, d.Units()))
	}
	return nil
}

// reach works out what a run cleaned up to a reading. One that the plan does not
// have any more keeps what it cleaned, unless it was not made at all.
func reach(d *desk.Desk, r *site.RunResult, reached unit.Length) {
	r.Reached = reached
	if plan := d.Planning().Plan; plan != nil {
		if run, block := plan.Find(r.Run); run != nil {
			anew := run.Result(block, reached)
			r.Number, r.Planned, r.Pipes = anew.Number, anew.Planned, anew.Pipes
			return
		}
	}
	if reached == 0 {
		for i := range r.Pipes {
			r.Pipes[i].Cleaned = 0
		}
	}
}

// minutesField is the time that a run took.
func minutesField() field[site.RunResult] {
	const most = 1440 // as the schema has it
	return field[site.RunResult]{
		label: "Time", hint: "not written down",
		show: func(d *desk.Desk, r *site.RunResult) (string, bool) {
			if r.Minutes == 0 {
				return "", true
			}
			return unit.Times.Write(r.Minutes.Minutes(), d.Units()), true
		},
		read: func(d *desk.Desk, text string) (func(*site.RunResult), error) {
			var took float64
			if strings.TrimSpace(text) != "" {
				var err error
				if took, err = unit.Times.Parse(text, d.Units()); err != nil {
					return nil, err
				}
				if took < 0 || took > most {
					return nil, fmt.Errorf("%s: from 0 to 24 h can be kept", unit.Times.Write(took, d.Units()))
				}
			}
			return func(r *site.RunResult) {
				r.Minutes = time.Duration(took * float64(time.Minute)).Round(time.Second)
			}, nil
		},
	}
}

// photosField lists pictures beside the site file.
func photosField() field[site.RunResult] {
	_, err := site.RangeOf(site.RunResult{}, "photos")
	return field[site.RunResult]{
		label: "Photos", hint: "photos/a.jpg; photos/b.jpg, beside the site file", fault: err,
		show: func(_ *desk.Desk, r *site.RunResult) (string, bool) { return strings.Join(r.Photos, "; "), true },
		read: func(_ *desk.Desk, text string) (func(*site.RunResult), error) {
			var names []string
			for name := range strings.SplitSeq(text, ";") {
				if name = strings.TrimSpace(name); name != "" {
					names = append(names, name)
				}
			}
			return func(r *site.RunResult) { r.Photos = slices.Clone(names) }, nil
		},
	}
}

// hoseOf finds the hose of a run.
func hoseOf(s *site.Site, id string) *rig.Hose {
	for i := range s.Rig.Hoses {
		if s.Rig.Hoses[i].ID == id {
			return &s.Rig.Hoses[i]
		}
	}
	return nil
}
