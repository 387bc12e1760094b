package site

import (
	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// Tables are the figures that the trade argues about, read from assets/trade.
// Each row of the files names its source.
type Tables struct {
	Materials map[network.Material]MaterialRow
	Deposits  map[network.Deposit]DepositRow
	Codes     network.Codes
	Cures     CureRow
}

// MaterialRow is what the planner needs of a pipe material.
type MaterialRow struct {
	Name string `json:"name"`
	// Friction of a wet hose on it. Low is the small figure.
	Friction rig.Range `json:"friction"`
	// Manning is the roughness n of part-full flow.
	Manning float64 `json:"manning"`
	// Bores maps the nominal size to the true bore.
	Bores  network.Bores `json:"bores"`
	Source string        `json:"source"`
}

// PassKind tells what a pass of a run is for.
type PassKind string

// The passes, in the order in which a run makes them.
const (
	OpenPass    PassKind = "open"
	RootCutPass PassKind = "root_cut"
	CleanPass   PassKind = "clean"
	FinishPass  PassKind = "finish"
)

// PassOrder lists the passes in the order in which a run makes them.
func PassOrder() []PassKind { return []PassKind{OpenPass, RootCutPass, CleanPass, FinishPass} }

// DepositRow says how a deposit is taken out.
type DepositRow struct {
	Name     string      `json:"name"`
	Passes   []PassRow   `json:"passes"`
	ComeBack ComeBackRow `json:"come_back"`
	Source   string      `json:"source"`
}

// ComeBackRow says after how many months a pipe with the deposit is usually
// cleaned again, and from what to what its history can move that.
type ComeBackRow struct {
	Usual int `json:"usual_months"`
	Least int `json:"least_months"`
	Most  int `json:"most_months"`
}

// PassRow is one pass for a deposit.
type PassRow struct {
	Kind PassKind `json:"kind"`
	// Nozzles lists the purposes that serve, best first.
	Nozzles []rig.Purpose `json:"nozzles"`
	// Strokes says that the nozzle works forward in strokes; otherwise it
	// travels out. Pull is the speed of each working pull back, and Pulls
	// their number by severity, all three given; 0 says that a deposit that bad
	// does not ask for this pass at all.
	Strokes bool                     `json:"strokes"`
	Pull    unit.Speed               `json:"pull_speed"`
	Pulls   map[network.Severity]int `json:"pulls"`
}
