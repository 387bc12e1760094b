package site

// Letters are the trade's letters for a water point on drawings and in labels:
// HB for a hose bib. They are empty for a kind that is not known.
func (k WaterKind) Letters() string { return waterLetters[k] }

var waterLetters = map[WaterKind]string{
	Hydrant: "HYD",
	HoseBib: "HB",
	Tanker:  "TKR",
}
