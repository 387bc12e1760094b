package route

import (
	"math"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// Result begins what came of a run of a block: it names the run and what the
// plan asked of it, and works out how much of each of its pipes was cleaned
// when the crew turned back at a reading of the hose counter, 0 where it made
// no run. A reading within an inch of the far end is the far end, for a crew
// reads to the inch. Lengths are kept to the millimetre.
func (r *Run) Result(b *Block, reached unit.Length) site.RunResult {
	out := site.RunResult{Run: r.Key(b), Number: r.Number, Planned: toMillimetre(r.End), Reached: toMillimetre(reached)}
	if reached > 0 && reached >= r.End-unit.Inches(1) {
		reached = max(reached, r.End)
	}
	for _, leg := range r.Path {
		if leg.Cleaned {
			length := leg.To - leg.From
			out.Pipes = append(out.Pipes, site.PipeResult{
				Pipe: leg.Pipe, Length: toMillimetre(length), Cleaned: toMillimetre(min(max(reached-leg.From, 0), length)),
			})
		}
	}
	return out
}

func toMillimetre(l unit.Length) unit.Length { return unit.Metres(math.Round(l.Millimetres()) / 1000) }

// Find returns the run of a key with its block, nil where the plan has none.
func (p *Plan) Find(key site.RunKey) (*Run, *Block) {
	for i := range p.Blocks {
		b := &p.Blocks[i]
		for k := range b.Runs {
			if b.Runs[k].Key(b) == key {
				return &b.Runs[k], b
			}
		}
	}
	return nil, nil
}
