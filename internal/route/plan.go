package route

import (
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Plan is the whole day: blocks in order, what they leave out, and how good
// the plan is proved to be.
type Plan struct {
	Blocks     []Block     `json:"blocks"`
	Shortfalls []Shortfall `json:"shortfalls,omitzero"`
	// Day lists everything the crew does, in order, without gaps.
	Day []Event `json:"day"`
	// Cost is the sum of the day's minutes. No plan under the same rules can
	// be cheaper than Bound. Proven says that Cost equals Bound.
	Cost   time.Duration `json:"cost_minutes"`
	Bound  time.Duration `json:"bound_minutes"`
	Proven bool          `json:"proven"`
	// Stopped says that the search was cancelled and this is its best so far.
	Stopped bool `json:"stopped,omitzero"`
	// Whys say of the runs, in order, why they are made as they are.
	Whys []RunWhy `json:"whys,omitzero"`
	// ByHand says what came of the decisions made by hand; nil without any.
	ByHand *HandReport `json:"by_hand,omitzero"`
}

// Block is a maximal stretch of the day with one spot and one hose.
type Block struct {
	Spot site.SpotID `json:"spot"`
	Hose string      `json:"hose"`
	Runs []Run       `json:"runs"`
}

// Direction is the way the nozzle goes out.
type Direction string

// The directions.
const (
	Upstream   Direction = "upstream"
	Downstream Direction = "downstream"
)

// Run is one push of one hose from one access along one path, and its
// pull-back. Every reading is a hose-counter reading: length off the reel.
type Run struct {
	Number    int            `json:"number"`
	Access    network.NodeID `json:"access"`
	Opens     bool           `json:"opens,omitzero"` // first run of its block through this access
	Direction Direction      `json:"direction"`
	// Lay is the hose on the ground; Entry is Lay plus the riser, the reading
	// when the nozzle stands in the first pipe; End the reading at the far end.
	Lay   unit.Length `json:"lay"`
	Entry unit.Length `json:"entry"`
	End   unit.Length `json:"end"`
	// Path are the pipes in the order in which the nozzle passes them.
	Path []Leg `json:"path"`
	// Fittings are all turns, junctions and changes on the way.
	Fittings []Fitting `json:"fittings,omitzero"`
	// Bends is what the path spends, in quarter-bend equivalents.
	Bends  float64 `json:"bends"`
	Passes []Pass  `json:"passes"`
	// Reach are the readings at which the hose stalls in the low, likely and
	// high case of the first pass, not past End.
	Reach   [3]unit.Length `json:"reach"`
	Flags   []Flag         `json:"flags,omitzero"`
	Minutes time.Duration  `json:"minutes"` // all passes with nozzle changes
	Water   unit.Volume    `json:"water"`
}

// Leg is one pipe of a run's path.
type Leg struct {
	Pipe network.PipeID `json:"pipe"`
	// From and To are the readings at its two ends, in travel order.
	From unit.Length `json:"from"`
	To   unit.Length `json:"to"`
	// Cleaned is false for pipe that is only travelled.
	Cleaned bool `json:"cleaned"`
}

// Fitting is something the hose meets at a reading.
type Fitting struct {
	At   unit.Length    `json:"at"`
	Node network.NodeID `json:"node,omitzero"` // empty for a traced corner
	Pipe network.PipeID `json:"pipe"`          // the pipe it is in, or leads into
	// What names it in the trade's words: "1/4 bend", "wye, straight through",
	// "combination, into the branch", "reducer 4 in to 3 in".
	What string     `json:"what"`
	Turn unit.Angle `json:"turn,omitzero"`
	// Side is "left", "right" or "" as seen by the nozzle on the plan, "up" or
	// "down" for a turn into a stack.
	Side string `json:"side,omitzero"`
	// Confirm marks a branch that a locator must confirm.
	Confirm bool `json:"confirm,omitzero"`
}

// Pass is one nozzle's trip out and back.
type Pass struct {
	Kind   site.PassKind `json:"kind"`
	Nozzle string        `json:"nozzle"`
	rig.Operating
	// Setting is the unloader setting for the pass, under the rig's own where
	// the hose or a fragile pipe asks for it.
	Setting unit.Pressure `json:"setting"`
	// Drag is the drag of the hose in the low case at the farthest point, Peak
	// the largest pull at the reel on the way back.
	Drag unit.Force `json:"drag"`
	Peak unit.Force `json:"peak_pull"`
	// End is the reading at which the pass turns.
	End     unit.Length   `json:"end"`
	Strokes int           `json:"strokes,omitzero"`
	Pulls   int           `json:"pulls"` // the most working pulls over any pipe
	Minutes time.Duration `json:"minutes"`
	Water   unit.Volume   `json:"water"`
}

// FlagKind is a warning that goes with a run.
type FlagKind string

// The flags.
const (
	FlagDownstream  FlagKind = "downstream_run"
	FlagLocator     FlagKind = "confirm_with_locator"
	FlagFragile     FlagKind = "fragile_pipe"
	FlagSmallMargin FlagKind = "small_pull_margin"
	FlagWeakCarry   FlagKind = "weak_carry"
	FlagOverGap     FlagKind = "pipe_below_not_cleaned"
	FlagStack       FlagKind = "climbs_stack"
	// FlagEarly stands at pipe that an order made by hand cleans before the
	// pipe below it.
	FlagEarly FlagKind = "pipe_below_cleaned_later"
)

// Flag is a warning at a place of a run.
type Flag struct {
	Kind FlagKind       `json:"kind"`
	At   unit.Length    `json:"at,omitzero"`
	Pipe network.PipeID `json:"pipe,omitzero"`
}

// EventKind is what a stretch of the day is spent on.
type EventKind string

// The kinds of event.
const (
	EventSetUp        EventKind = "set_up"
	EventPackUp       EventKind = "pack_up"
	EventMove         EventKind = "move"
	EventDrain        EventKind = "drain" // dump the tank before towing
	EventFill         EventKind = "fill"  // fill the tank before towing, or for a tank-only spot
	EventHoseChange   EventKind = "hose_change"
	EventOpen         EventKind = "open" // open an access, with the lay to it
	EventStart        EventKind = "run_start"
	EventJet          EventKind = "jet" // one pass with the pump on
	EventNozzleChange EventKind = "nozzle_change"
	EventWait         EventKind = "wait_for_water"
)

// Event is one stretch of the day.
type Event struct {
	Kind  EventKind     `json:"kind"`
	Start time.Duration `json:"start_minutes"`
	Takes time.Duration `json:"takes_minutes"`
	// Block indexes Plan.Blocks; Run is the run's number and Pass the index of
	// its pass, -1 where none applies.
	Block int `json:"block"`
	Run   int `json:"run"`
	Pass  int `json:"pass"`
	// Before and After are the tank's content.
	Before unit.Volume `json:"tank_before"`
	After  unit.Volume `json:"tank_after"`
}

// Tick is the planner's unit of time: 1/100 min. Every charge is rounded to
// it, so that equal costs compare equal.
const Tick = 600 * time.Millisecond
