package chart

import (
	"linemap/internal/export/drawing"
)

// mostLines bounds the lines of a note on the map; a longer one is cut.
const mostLines = 6

// wideNote is where a note's lines are wrapped, in millimetres.
const wideNote = 45.0

// remarks draws the notes that stand on the storey.
func (sd *storeyDraft) remarks() {
	for i := range sd.site.Notes {
		n := &sd.site.Notes[i]
		at := point(n.At)
		if !sd.whole.has(n.Level) || !sd.inTile(at) {
			continue
		}
		sd.list.Add(drawing.Notes, drawing.Mark{At: at, Symbol: noteSign, Size: noteSize, Pen: thinPen, Fill: ink(noteInk)})
		sd.wallMark(at, noteSize/2)
		sd.saw(sample{kind: sampleNote})
		if sd.overview() {
			continue
		}
		var lines []line
		for _, s := range sd.rule.Wrap(n.Text, false, ptSmall, wideNote) {
			lines = append(lines, line{s, drawing.Style{Pt: ptSmall}})
		}
		if len(lines) > mostLines {
			lines = lines[:mostLines]
			lines[mostLines-1].s += "…"
		}
		sd.around(drawing.Notes, at, noteSize/2, lines...)
	}
}

// widenToNotes grows the extents of the storeys to the notes on them.
func (d *draft) widenToNotes(all []*storey) {
	for i := range d.site.Notes {
		n := &d.site.Notes[i]
		for _, st := range all {
			if st.has(n.Level) {
				st.box.add(point(n.At))
			}
		}
	}
}
