package paper

import (
	"bytes"
	"time"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"codeberg.org/go-pdf/fpdf"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
)

// Meta is what a PDF says about itself.
type Meta struct {
	Title   string
	Subject string
	Author  string
	// Date is the day printed in the file as its day of creation, 2026-03-17.
	// Where it is empty or not a date, a fixed day stands in: the same site
	// always gives the same bytes.
	Date string
}

// Language is the language of every paper.
const Language = "en"

// epoch stands in for a date that a site does not give.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

const family = "dejavu"

// Size is a page size in millimetres.
type Size struct{ W, H float64 }

// SizeOf returns the size of a paper, upright or landscape. ISO 216 gives A4,
// ANSI/ASME Y14.1 the letter sheet (size A). An unknown paper is Letter.
func SizeOf(p site.Paper, landscape bool) Size {
	s := Size{8.5 * 25.4, 11 * 25.4}
	if p == site.A4 {
		s = Size{210, 297}
	}
	if landscape {
		s.W, s.H = s.H, s.W
	}
	return s
}

// Margin is the blank border of every page in millimetres; ordinary printers
// leave less than that.
const Margin = 10.0

// FooterHeight is the strip above the bottom margin that the footer takes.
const FooterHeight = 6.0

// Doc is a PDF being written.
type Doc struct {
	*Ruler
	Size Size
	pdf  *fpdf.Fpdf
	font Style // in force on this page, to switch only when it changes
	// drawn holds the layers of painted sheets.
	drawn map[drawing.Layer]int
	// painted holds the pages that are a sheet of their own size.
	painted map[int]bool
}

// New starts a document. It has no page yet: see [Doc.AddPage].
func New(p site.Paper, landscape bool, m Meta) *Doc {
	size := SizeOf(p, landscape)
	d := &Doc{Size: size, pdf: fpdf.NewCustom(&fpdf.InitType{
		UnitStr: "mm", Size: fpdf.SizeType{Wd: size.W, Ht: size.H},
	})}
	ruler, err := NewRuler()
	if err != nil {
		d.pdf.SetError(err)
		ruler = &Ruler{}
	}
	d.Ruler = ruler
	made, err := time.Parse(time.DateOnly, m.Date)
	if err != nil || made.Year() < 1 {
		made = epoch
	}
	d.pdf.SetCreationDate(made)
	d.pdf.SetModificationDate(made)
	d.pdf.SetCatalogSort(true)
	d.pdf.SetProducer("linemap", false)
	d.pdf.SetCreator("linemap", false)
	d.pdf.SetLang(Language)
	d.pdf.SetMargins(Margin, Margin, Margin)
	d.pdf.SetAutoPageBreak(false, 0)
	d.pdf.SetLineJoinStyle("round")
	d.pdf.SetLineCapStyle("butt")
	if err != nil && d.pdf.Err() {
		return d
	}
	d.pdf.SetTitle(d.Clean(m.Title), true)
	d.pdf.SetSubject(d.Clean(m.Subject), true)
	d.pdf.SetAuthor(d.Clean(m.Author), true)
	d.pdf.AddUTF8FontFromBytes(family, "", dejavusanscondensed.TTF)
	d.pdf.AddUTF8FontFromBytes(family, "B", dejavusanscondensedbold.TTF)
	return d
}

// AddPage starts a page.
func (d *Doc) AddPage() {
	d.pdf.AddPage()
	d.font = Style{}
}

// AddSheet starts a page of a sheet's own size and paints the sheet onto it. It
// has no footer.
func (d *Doc) AddSheet(s *drawing.Sheet) {
	d.pdf.AddPageFormat("P", fpdf.SizeType{Wd: s.W, Ht: s.H})
	d.font = Style{}
	if d.painted == nil {
		d.painted = map[int]bool{}
	}
	d.painted[d.pdf.PageNo()] = true
	d.Paint(s)
}

// Page returns the number of the page being written, from 1; 0 before the
// first.
func (d *Doc) Page() int { return d.pdf.PageNo() }

// Body returns the part of the page inside the margins and above the footer.
func (d *Doc) Body() Box {
	return Box{X: Margin, Y: Margin, W: d.Size.W - 2*Margin, H: d.Size.H - 2*Margin - FooterHeight}
}

// Footers writes the footer of every page that is no sheet: left as given, the
// page number and their count at the right. Call it last, when all pages stand.
func (d *Doc) Footers(left string) {
	last := d.pdf.PageNo()
	// Heights are counted on the page added last, which may be a sheet.
	_, high := d.pdf.GetPageSize()
	y := high - Margin
	st := Style{Pt: 8.5, Ink: Grey}
	for page := 1; page <= last; page++ {
		if d.painted[page] {
			continue
		}
		d.pdf.SetPage(page)
		d.font = Style{}
		right := pageOf(page, last)
		room := d.Size.W - 2*Margin - d.Width(right, st.Bold, st.Pt) - 4
		d.Line(Margin, y-4, d.Size.W-Margin, y-4, Pen{Width: 0.2, Ink: Grey})
		d.Text(Margin, y, d.Fit(left, st.Bold, st.Pt, room), st)
		st := st
		st.Align = Right
		d.Text(d.Size.W-Margin, y, right, st)
	}
	d.pdf.SetPage(last) // what comes after the page it is on is not written
	d.font = Style{}
}

// Bookmark adds an entry to the outline, at height y of the current page.
// Level 0 is a chapter.
func (d *Doc) Bookmark(title string, level int, y float64) {
	d.use(Style{Pt: 8})
	d.pdf.Bookmark(d.Clean(title), level, y)
}

// Bytes ends the document and returns it, or the first error met.
func (d *Doc) Bytes() ([]byte, error) {
	var out bytes.Buffer
	if err := d.pdf.Output(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
