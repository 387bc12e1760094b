package hand

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// typed is what was typed of the next leg of a pipe: its length and, behind "<",
// "@" or Tab, its angle.
type typed struct {
	length, turn string
	turning      bool
}

// mostTyped is how many characters a length or an angle may have.
const mostTyped = 24

func (t *typed) empty() bool { return t.length == "" && t.turn == "" && !t.turning }

// add takes a character, and reports whether it was one of a length or an
// angle. A length begins with a figure: letters are for the window.
func (t *typed) add(r rune) bool {
	switch {
	case r == '<' || r == '@':
		t.turning = true
	case t.turning:
		return take(&t.turn, r, ".,/-+°bendrightlefts ", "/-+lr.")
	default:
		return take(&t.length, r, `.,/'"-footinchesyardm `, ".")
	}
	return true
}

// take adds a character to a text where it may stand there: a figure, one of
// some others, or, in the first place, one of those that can begin it.
func take(text *string, r rune, others, first string) bool {
	if *text == "" {
		others = first
	}
	if (r < '0' || r > '9') && !strings.ContainsRune(others, lower(r)) {
		return false
	}
	if len(*text) < mostTyped {
		*text += string(r)
	}
	return true
}

func lower(r rune) rune {
	if r >= 'A' && r <= 'Z' {
		return r + 'a' - 'A'
	}
	return r
}

// back takes the last character away, and reports whether there was one.
func (t *typed) back() bool {
	text := &t.length
	if t.turning {
		text = &t.turn
	}
	switch {
	case *text != "":
		runes := []rune(*text)
		*text = string(runes[:len(runes)-1])
	case t.turning:
		t.turning = false
	default:
		return false
	}
	return true
}

// typedLength reads a length as typed: in US units 12, 12.5, 12-6, 12 6, 12'6"
// or 12ft 6 are feet and inches, in metric units 3.2 is metres; any unit may be
// named.
func typedLength(text string, units unit.System) (unit.Length, error) {
	l, err := unit.Lengths.Parse(feetInches(text, units), units)
	switch {
	case err != nil:
		return 0, err
	case !(l > 0):
		return 0, fmt.Errorf("a pipe of length %q is none: type a length above 0", text)
	}
	return l, nil
}

// feetInches marks the feet of two bare numbers in US units: nobody wants to
// type the marks.
func feetInches(text string, units unit.System) string {
	if units == unit.Metric || strings.Trim(text, "0123456789./ -") != "" {
		return text
	}
	text = strings.TrimSpace(text)
	i := strings.IndexAny(text, " -")
	if i <= 0 {
		return text
	}
	inches := strings.TrimLeft(text[i:], " -")
	whole, part, fraction := strings.Cut(inches, " ")
	switch {
	case inches == "" || strings.ContainsAny(text[:i], "/."):
		return text
	case strings.Contains(whole, "/"):
		return text // 6 1/2 is a number
	case fraction && strings.Contains(part, "/"), !fraction:
		return text[:i] + "' " + inches
	}
	return text
}

// typedTurn reads a turn as typed, positive to the left: 45, 45l, 45r, -45 (to
// the right), and 1/8 for an 1/8 bend.
func typedTurn(text string) (unit.Angle, error) {
	body := strings.ToLower(strings.TrimSpace(text))
	side := unit.Angle(1)
	for _, s := range []struct {
		word string
		sign unit.Angle
	}{{"right", -1}, {"left", 1}, {"r", -1}, {"l", 1}} {
		if rest, ok := strings.CutSuffix(body, s.word); ok {
			body, side = rest, s.sign
		} else if rest, ok := strings.CutPrefix(body, s.word); ok {
			body, side = rest, s.sign
		} else {
			continue
		}
		break
	}
	body = strings.TrimSpace(body)
	if strings.Contains(body, "/") && !strings.Contains(body, "b") {
		body += " bend"
	}
	a, err := unit.Angles.Parse(body, unit.US)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q is no turn: write it like 45, 45r or 1/8", text)
	case !(math.Abs(a.Degrees()) <= 180):
		return 0, fmt.Errorf("a turn of %q: at most 180 degrees, to the left or to the right", text)
	}
	return a * side, nil
}

// typedBearing reads a bearing as typed: degrees clockwise from north.
func typedBearing(text string) (aim.Heading, error) {
	a, err := unit.Angles.Parse(text, unit.US)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q is no bearing: write the degrees clockwise from north, like 90 for east", text)
	case !(math.Abs(a.Degrees()) <= 360):
		return 0, fmt.Errorf("a bearing of %q: at most 360 degrees, clockwise from north", text)
	}
	return aim.FromBearing(a.Degrees()), nil
}

var errNoWay = errors.New("point the way with the pointer, or type < and an angle")
