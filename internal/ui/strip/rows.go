package strip

// band is a row of the strip, in pixels from its top.
type band struct{ y, h float64 }

func (b band) bottom() float64 { return b.y + b.h }

func (b band) has(y float64) bool { return y >= b.y && y < b.bottom() }

// rows stacks the parts of the strip, from the clock at the top to the line of
// words at the bottom.
type rows struct{ clock, stays, runs, crew, tank, words band }

const (
	gap       = 3.0
	leastCrew = 1.7 // lines of text
	leastTank = 2.0
)

// stack shares the height among the rows; line is the height of a line of text.
// What is left over goes to the crew and the tank.
func stack(height, line float64) rows {
	var r rows
	y := 0.0
	put := func(h float64) band {
		b := band{y, h}
		y += h
		return b
	}
	rest := max(height-fixedHeight(line), (leastCrew+leastTank)*line)
	crew := max(leastCrew*line, 0.53*rest)
	r.clock = put(line + 1)
	r.stays = put(line + 2)
	r.runs = put(line + 2)
	r.crew = put(crew)
	y += gap
	r.tank = put(rest - crew)
	y += gap
	r.words = put(line + 4)
	return r
}

// fixedHeight is that of all but crew and tank.
func fixedHeight(line float64) float64 { return 4*line + 9 + 2*gap }

// leastHeight is the least in which everything can be read.
func leastHeight(line float64) float64 { return fixedHeight(line) + (leastCrew+leastTank)*line }
