package site

import (
	"fmt"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

func TestRateBySize(t *testing.T) {
	p := wholeSite(t).Prices
	for size, want := range map[unit.Size]string{1.25: "1.1250", 2: "1.1250", 2.5: "1.75", 6: "1.75"} {
		got, ok := p.Rate(size)
		assert.True(t, ok, size)
		assert.Equal(t, want, got.String(), size)
	}
	_, ok := p.Rate(8)
	assert.False(t, ok, "larger than every row")
	_, ok = Prices{}.Rate(4)
	assert.False(t, ok)
}

// TestPlaces compares with the minor units of ISO 4217 (list one).
func TestPlaces(t *testing.T) {
	for code, want := range map[string]int{
		"USD": 2, "EUR": 2, "CHF": 2, "MXN": 2, "JPY": 0, "KRW": 0, "CLP": 0, "KWD": 3, "TND": 3, "XYZ": 2, "": 2,
	} {
		assert.Equal(t, want, Prices{Currency: code}.Places(), code)
	}
}

func TestPricesAreGivenWithTheirCurrency(t *testing.T) {
	assert.True(t, wholeSite(t).Prices.Given())
	before, _, found := strings.Cut(whole, `,`+"\n"+`  "prices": {`)
	require.True(t, found)
	s, err := Decode([]byte(before + "\n}\n"))
	require.NoError(t, err)
	assert.False(t, s.Prices.Given())
	data, err := Encode(s)
	require.NoError(t, err)
	assert.NotContains(t, string(data), "prices")
}

// TestAmountsStayAsWritten reads an amount and writes it: no digit is lost, not
// even a nought at its end, and no float is between.
func TestAmountsStayAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := fmt.Sprint(rapid.Int64Range(0, 999_999_999).Draw(t, "whole"))
		if places := rapid.IntRange(0, 4).Draw(t, "places"); places > 0 {
			text += fmt.Sprintf(".%0*d", places, rapid.IntRange(0, []int{0, 9, 99, 999, 9999}[places]).Draw(t, "part"))
		}
		var d decimal.Decimal
		require.NoError(t, json.Unmarshal([]byte(`"`+text+`"`), &d, decoding))
		want := text
		if strings.Trim(text, "0.") == "" {
			want = "0"
		}
		require.Equal(t, `"`+want+`"`, strings.TrimSpace(string(mustEncode(t, d))))
	})
}

func TestAmountsAreTexts(t *testing.T) {
	for text, want := range map[string]string{
		`3`:       "found 3, must be a decimal number in quotes",
		`"three"`: "invalid",
		`"9e99"`:  "",
		``:        "EOF",
	} {
		var d decimal.Decimal
		assert.ErrorContains(t, json.Unmarshal([]byte(text), &d, decoding), want, text)
	}
}
