package site

import "strings"

// base64Encoding is the one contentEncoding that the schema uses.
const base64Encoding = "base64"

const base64Alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"

// inBase64 tells the bytes of the alphabet from all others.
var inBase64 = func() (in [256]bool) {
	for _, c := range []byte(base64Alphabet) {
		in[c] = true
	}
	return in
}()

// base64Part returns the longest beginning of a text that can begin a text in
// base64 (RFC 4648, section 4): all of it where the text is in base64, and less
// where it is not. Line breaks are not (section 3.3), padding must be there
// (section 3.2).
func base64Part(text string) string {
	body := strings.TrimRight(text, "=")
	for i := range len(body) {
		if !inBase64[body[i]] {
			return text[:i]
		}
	}
	const quantum = 4 // characters that stand for three bytes
	switch pads := len(text) - len(body); {
	case pads > 2:
		return text[:len(body)]
	case len(text)%quantum != 0:
		return text[:len(text)-len(text)%quantum]
	}
	return text
}
