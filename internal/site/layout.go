package site

import "bytes"

// lineWidth is the width up to which an object or a list stays on one line. A
// pipe or a node mostly fits, so that a change to it shows as one line.
const lineWidth = 120

// layout breaks a JSON text, given on one line with a space after every colon
// and comma, into lines: whatever fits the width stays whole, everything else
// gets a line for each element. It ends with a newline.
func layout(line []byte) []byte {
	ends := bracketEnds(line)
	out := make([]byte, 0, len(line)+len(line)/8)
	depth, col, opening, quoted := 0, 0, 0, false
	newline := func() {
		out = append(out, '\n')
		out = append(out, bytes.Repeat([]byte("  "), depth)...)
		col = len(out)
	}
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case quoted:
			out = append(out, c)
			if c == '\\' {
				i++
				out = append(out, line[i])
			}
			quoted = c != '"'
		case c == '"':
			quoted = true
			out = append(out, c)
		case c == '{' || c == '[':
			end := ends[opening]
			if width := 2*depth + len(out) - col + end + 1 - i; width < lineWidth || end == i+1 {
				out = append(out, line[i:end+1]...)
				for opening < len(ends) && ends[opening] <= end {
					opening++
				}
				i = end
				continue
			}
			opening++
			depth++
			out = append(out, c)
			newline()
		case c == '}' || c == ']':
			depth--
			newline()
			out = append(out, c)
		case c == ',':
			out = append(out, c)
			newline()
			i++ // the space after it
		default:
			out = append(out, c)
		}
	}
	return append(out, '\n')
}

// bracketEnds returns for each opening bracket of a JSON text, in order, the
// index of the bracket that closes it.
func bracketEnds(text []byte) []int {
	var ends, open []int
	quoted := false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '{' || c == '[':
			open = append(open, len(ends))
			ends = append(ends, 0)
		case c == '}' || c == ']':
			ends[open[len(open)-1]] = i
			open = open[:len(open)-1]
		}
	}
	return ends
}
