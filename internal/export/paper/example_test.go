package paper_test

import (
	"bytes"
	"fmt"

	"linemap/internal/export/paper"
	"linemap/internal/site"
)

func Example() {
	doc := paper.New(site.Letter, false, paper.Meta{Title: "A page", Date: "2026-03-17"})
	doc.AddPage()
	doc.CheckBox(20, 30, 3)
	doc.Text(25, 30, "Nozzle inside the pipe before pressure", paper.Style{Pt: 9})
	doc.Footers("A page")
	pdf, err := doc.Bytes()
	fmt.Println(bytes.HasPrefix(pdf, []byte("%PDF-")), err)
	// Output: true <nil>
}
