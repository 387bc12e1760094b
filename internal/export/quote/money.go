package quote

import (
	"fmt"
	"math/big"
	"strings"

	"github.com/govalues/decimal"
)

// product multiplies amounts and rounds the exact product half up to places
// digits after the point. None of them is negative. It fails where the result
// is longer than a decimal, 19 digits.
func product(places int, factors ...decimal.Decimal) (decimal.Decimal, error) {
	n, scale := big.NewInt(1), 0
	for _, f := range factors {
		n.Mul(n, new(big.Int).SetUint64(f.Coef()))
		scale += f.Scale()
	}
	if scale > places {
		unit := power(scale - places)
		n.Add(n, new(big.Int).Rsh(unit, 1)) // half of a power of ten is whole
		n.Quo(n, unit)
	} else {
		n.Mul(n, power(places-scale))
	}
	if !n.IsInt64() {
		return decimal.Decimal{}, fmt.Errorf("the product is longer than %d digits", decimal.MaxPrec)
	}
	return decimal.New(n.Int64(), places)
}

// power is ten to the n.
func power(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// Amount writes an amount with so many digits after the point, thousands parted
// by commas: "1,234.50". What it has beyond them is not shown.
func Amount(d decimal.Decimal, places int) string {
	whole, part, _ := strings.Cut(d.Trunc(places).Pad(places).String(), ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if part != "" {
		part = "." + part
	}
	return sign + whole + part
}

// Figure writes a rate: every digit that says something, and no fewer after the
// point than the currency has.
func Figure(d decimal.Decimal, places int) string {
	return Amount(d, max(places, d.MinScale()))
}
