package export

import "linemap/internal/unit"

// Caution is one rule of safety: what it is about in a word or two, and the
// rule itself.
type Caution struct {
	Head, Say string
}

// LastWord ends every paper.
const LastWord = "This paper plans the work; it does not replace judgement on site. " +
	"Follow the machine's manual, local codes and a licensed contractor."

// Cautions are the rules of safety that go with a jetter, in the order in
// which a day meets them. They are common practice; the last word belongs to
// [LastWord].
func Cautions(sys unit.System) []Caution {
	return []Caution{
		{"Eyes and hands", "Eye protection, gloves and boots on before the engine starts, for everyone near the hose."},
		{"The jet", "Never aim a nozzle at anyone. Never hold a nozzle or a hose end under pressure."},
		{
			"Injection injury",
			"A jet through the skin is an emergency at once, however small the wound looks. " +
				"Go to a hospital now and say: high-pressure injection, dirty water.",
		},
		{
			"Carbon monoxide",
			"Engine outdoors only, exhaust away from doors, windows and air intakes.",
		},
		{"Fire", "No fuel and no flammable vapour near the engine or in the drain. Smell gas or fuel: stop, clear out, report it."},
		{
			"Before pressure",
			"Nozzle inside the pipe, " + startDepth(sys) + " in or past the first bend, before pressure comes on.",
		},
		{
			"The " + mark(sys) + " mark",
			"Stop the reel when the mark shows. Pressure off before the nozzle leaves the pipe.",
		},
		{"Traffic", "Cones and light around trailer, hose and open accesses. Guard every open access."},
		{"Where it goes", "Never jet into a pipe whose discharge is unknown."},
		{"Drinking water", "Fill only through a backflow preventer or an air gap."},
		{"Freezing", "Below freezing, drain or protect pump, hoses and nozzles whenever they stand still."},
		{"Sewage", "Gloves on, no eating or smoking at the work, wash before you leave, cover every cut."},
		{"Manholes", "A manhole is a confined space: no entry. Work from the top."},
	}
}

// mark is the distance from the nozzle at which the hose carries its warning
// mark (common practice: 10 ft).
func mark(sys unit.System) string { return sys.Length(markLength()) }

func markLength() unit.Length { return unit.Feet(10) }

// startDepth is how far in the nozzle stands before pressure comes on (common
// practice: 4 to 6 ft).
func startDepth(sys unit.System) string {
	if sys == unit.Metric {
		return "1.2 to 1.8 m"
	}
	return "4 to 6 ft"
}
