package network

// Letters are the trade's letters for an access on drawings and in labels: CO
// for a cleanout. They are empty for a kind that is not known.
func (k AccessKind) Letters() string { return accessLetters[k] }

var accessLetters = map[AccessKind]string{
	OneWayCleanout: "CO",
	TwoWayCleanout: "CO",
	Manhole:        "MH",
	CatchBasin:     "CB",
	RoofVent:       "VTR",
	PulledFixture:  "PULL",
}
