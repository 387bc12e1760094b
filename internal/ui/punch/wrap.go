package punch

import "strings"

// wrap breaks a text into lines that fit a width. Measure is the width of a
// word; a word that is wider than a line is broken where it must be.
func wrap(text string, width float32, measure func(string) float32) []string {
	var lines []string
	line, used := "", float32(0)
	space := measure(" ")
	for word := range strings.FieldsSeq(text) {
		w := measure(word)
		if line != "" && used+space+w <= width {
			line, used = line+" "+word, used+space+w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for w > width {
			fit := fitting(word, width, measure)
			if fit == len(word) {
				break
			}
			lines = append(lines, word[:fit])
			word = word[fit:]
			w = measure(word)
		}
		line, used = word, w
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// fitting is how many bytes of a word fit a width, at least one character.
func fitting(word string, width float32, measure func(string) float32) int {
	used, last := float32(0), 0
	for i, r := range word {
		used += measure(string(r))
		if i > 0 && used > width {
			return last
		}
		last = i + len(string(r))
	}
	return len(word)
}
