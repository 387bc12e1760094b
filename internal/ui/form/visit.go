package form

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// VisitsForm opens the form of the visits: the blanks of the run sheet, as the
// crew filled them in, run by run, or from a filled-in table. Choose asks for the
// file of one.
func VisitsForm(d *desk.Desk, w fyne.Window, choose func(then func(path string))) {
	v := newVisits(d, choose)
	open(d, w, "Results of a visit", fyne.NewSize(860, 620), v.content, v)
}

// visits is the form of one visit out of all, and of one of its runs.
type visits struct {
	desk *desk.Desk
	date string // of the visit that lies open, "" for none
	at   site.RunKey

	content fyne.CanvasObject
	page    *page
	pick    *widget.Select
	day     *widget.Entry
	remove  *widget.Button
	wrong   *widget.Label
	runs    *widget.List
	keys    []site.RunKey
	title   *widget.Label
	visit   *sheet[site.Visit]
	result  *sheet[site.RunResult]
	putting bool
}

func newVisits(d *desk.Desk, choose func(then func(path string))) *visits {
	v := &visits{desk: d, day: widget.NewEntry(), wrong: widget.NewLabel(""), title: widget.NewLabel("")}
	v.day.PlaceHolder = "2026-03-17"
	v.day.SetText(d.Site().Job.Date)
	v.day.OnSubmitted = func(string) { v.add() }
	v.wrong.Wrapping, v.wrong.Importance = fyne.TextWrapWord, widget.DangerImportance
	v.title.Wrapping, v.title.TextStyle.Bold = fyne.TextWrapWord, true
	v.pick = widget.NewSelect(nil, func(date string) {
		if !v.putting {
			v.turn(date, v.at)
		}
	})
	v.pick.PlaceHolder = "No visit yet"
	v.remove = iconButton("Remove", theme.IconNameDelete, v.take)
	v.runs = widget.NewList(func() int { return len(v.keys) },
		func() fyne.CanvasObject {
			l := widget.NewLabel("")
			l.Truncation = fyne.TextTruncateEllipsis
			return l
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(v.keys) {
				o.(*widget.Label).SetText(v.line(v.keys[i]))
			}
		})
	v.runs.OnSelected = func(i widget.ListItemID) {
		if !v.putting && i < len(v.keys) {
			v.turn(v.date, v.keys[i])
		}
	}
	v.visit = newSheet(d, v.aboutVisit(), v.again, dayFields()...)
	v.result = newSheet(d, v.aboutResult(), v.again, resultFields()...)
	v.page = newPage(fyne.NewSize(300, 200), v.visit.box, v.title, v.result.box)

	const dayWide, listWide = 130, 330
	other := container.NewHBox(
		container.NewGridWrap(fyne.NewSize(dayWide, v.day.MinSize().Height), v.day), iconButton("Add a visit", theme.IconNameContentAdd, v.add),
		iconButton("From a table…", theme.IconNameFolderOpen, func() { choose(v.table) }), v.remove)
	top := container.NewVBox(container.NewBorder(nil, nil, nil, other, v.pick), v.wrong)
	list := container.New(&leftColumn{listWide}, v.runs)
	v.content = container.NewBorder(top, nil, list, nil, v.page)
	if all := d.Site().Visits; len(all) > 0 {
		v.date = all[len(all)-1].Date
	}
	return v
}

// leftColumn gives what is in it a width and all of the height.
type leftColumn struct{ wide float32 }

func (l *leftColumn) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(l.wide, 0) }

func (l *leftColumn) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, c := range o {
		c.Move(fyne.NewPos(0, 0))
		c.Resize(size)
	}
}

func (v *visits) again() { v.page.again() }

// turn opens another visit or run, once what is typed is taken.
func (v *visits) turn(date string, key site.RunKey) {
	if !v.settle() {
		v.refresh() // the lists show again what lies open
		return
	}
	v.date, v.at = date, key
	v.refresh()
	v.visit.turn()
	v.result.turn()
}

func (v *visits) open() *site.Visit { return v.desk.Site().Visit(v.date) }

func (v *visits) plan() *route.Plan {
	if p := v.desk.Planning().Plan; p != nil {
		return p
	}
	return &route.Plan{}
}

func (v *visits) refresh() {
	v.putting = true
	defer func() { v.putting = false }()
	s := v.desk.Site()
	dates := make([]string, len(s.Visits))
	for i := range s.Visits {
		dates[len(dates)-1-i] = s.Visits[i].Date
	}
	if len(dates) > 0 && !slices.Contains(dates, v.date) { // an undo took it
		v.date = dates[0]
	}
	v.pick.Options, v.pick.Selected = dates, v.date
	v.keys = nil
	visit := v.open()
	if visit == nil {
		v.date, v.pick.Selected = "", ""
		v.remove.Disable()
		v.title.SetText("Add the visit of a day to write down what came of its runs.")
		v.visit.box.Hide()
		v.result.box.Hide()
	} else {
		v.remove.Enable()
		v.list(visit)
	}
	v.pick.Refresh()
	v.runs.Refresh()
	if v.wrong.Text == "" {
		v.wrong.Hide()
	}
	v.again()
}

// list lists the runs of the plan, then those with a result that it does not
// have any more.
func (v *visits) list(visit *site.Visit) {
	v.keys = v.plan().Keys()
	for i := range visit.Runs {
		if key := visit.Runs[i].Run; !slices.Contains(v.keys, key) {
			v.keys = append(v.keys, key)
		}
	}
	v.visit.box.Show()
	v.visit.refresh()
	if len(v.keys) == 0 {
		v.title.SetText("The plan has no run.")
		v.result.box.Hide()
		return
	}
	i := max(0, slices.Index(v.keys, v.at))
	v.at = v.keys[i]
	v.runs.Select(i)
	v.title.SetText("Run " + fmt.Sprint(v.blank(v.at).Number) + ": " + strings.TrimPrefix(route.RunName(v.desk.Site(), v.at), "run "))
	v.result.box.Show()
	v.result.refresh()
}

// line is a run as the list shows it: its number, its way and how far it got.
func (v *visits) line(key site.RunKey) string {
	r := v.blank(key)
	state := "–"
	if visit := v.open(); visit != nil && visit.Result(key) != nil {
		if state = "not made"; r.Reached > 0 {
			state = v.desk.Units().Footage(r.Reached) + " of " + v.desk.Units().Footage(r.Planned)
		}
	}
	access := string(key.Access)
	nodes := v.desk.Site().Network.Nodes
	if i := slices.IndexFunc(nodes, func(n network.Node) bool { return n.ID == key.Access }); i >= 0 {
		access = nodes[i].Name()
	}
	return fmt.Sprintf("%d   %s   %s", r.Number, access, state)
}

// blank is the result of a run, one that says nothing where there is none yet.
func (v *visits) blank(key site.RunKey) site.RunResult {
	if visit := v.open(); visit != nil {
		if r := visit.Result(key); r != nil {
			return *r
		}
	}
	r := site.RunResult{Run: key}
	if run, block := v.plan().Find(key); run != nil {
		r = run.Result(block, 0)
	}
	r.Reached = unmade
	return r
}

func (v *visits) settle() bool {
	if v.open() == nil {
		return true
	}
	right := v.visit.settle()
	return v.result.settle() && right
}

func (v *visits) say(err error) {
	v.wrong.SetText("")
	if err != nil {
		v.wrong.SetText(inWords(err))
		v.wrong.Show()
	}
	v.refresh()
}

// add adds the visit of a day, or opens the one that is there.
func (v *visits) add() {
	if !v.settle() {
		return
	}
	date := strings.TrimSpace(v.day.Text)
	if v.desk.Site().Visit(date) == nil {
		e, err := edit.SetVisit(v.desk.Site(), site.Visit{Date: date})
		if err != nil {
			v.say(err)
			return
		}
		v.date = date
		v.desk.Do(e)
	}
	v.say(nil)
	v.turn(date, v.at)
}

// table takes the results of a filled-in table into the visit that lies open, or
// into that of the day that is written beside it.
func (v *visits) table(path string) {
	if !v.settle() {
		return
	}
	date := v.date
	if date == "" {
		date = strings.TrimSpace(v.day.Text)
	}
	all, err := export.OpenResults(path, v.desk.Site(), v.desk.Tables(), v.plan())
	if err != nil {
		v.say(err)
		return
	}
	visit := site.Visit{Date: date}
	if was := v.desk.Site().Visit(date); was != nil {
		visit = was.Clone()
	}
	for _, r := range all {
		visit.Put(r)
	}
	e, err := edit.SetVisit(v.desk.Site(), visit)
	if err == nil {
		v.date = date
		v.desk.Do(e)
	}
	v.say(err)
}

// take removes the visit that lies open.
func (v *visits) take() {
	e, err := edit.RemoveVisit(v.desk.Site(), v.date)
	if err == nil {
		v.visit.drop()
		v.result.drop()
		v.desk.Do(e)
	}
	v.say(err)
}

func (v *visits) aboutVisit() subject[site.Visit] {
	return partOf(v.desk, func(*site.Site) *site.Visit { return v.open() }, site.Visit.Clone, edit.SetVisit, "visit")
}

// aboutResult is the result of the run that lies open. It enters the visit with
// the first reading.
func (v *visits) aboutResult() subject[site.RunResult] {
	return subject[site.RunResult]{
		things: func() []*site.RunResult {
			if v.open() == nil || v.at == (site.RunKey{}) {
				return nil
			}
			r := v.blank(v.at)
			return []*site.RunResult{&r}
		},
		called: func([]*site.RunResult) string { return "run" },
		change: func(_ string, to func(*site.RunResult)) error {
			visit := v.open()
			if visit == nil {
				return errors.New("the visit is gone")
			}
			whole := visit.Clone()
			blank := v.blank(v.at)
			r := blank.Clone()
			to(&r)
			if err := readable(v.desk, &r); err != nil {
				return err
			}
			if err := site.Check(r); err != nil {
				return err
			}
			whole.Put(r)
			e, err := edit.SetVisit(v.desk.Site(), whole)
			if err == nil {
				v.desk.Do(e)
			}
			return err
		},
	}
}
