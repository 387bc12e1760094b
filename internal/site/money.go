package site

import (
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/govalues/decimal"
)

// money is the codec of decimal amounts: a text in quotes, digit by digit as it
// was written. Every zero is the same one, so that it can be left out.
func money() (*json.Marshalers, *json.Unmarshalers) {
	write := func(enc *jsontext.Encoder, v decimal.Decimal) error {
		return enc.WriteToken(jsontext.String(v.String()))
	}
	parse := func(dec *jsontext.Decoder, v *decimal.Decimal) error {
		tok, err := dec.ReadToken()
		if err != nil {
			return err
		}
		if tok.Kind() != jsontext.KindString {
			return fmt.Errorf("found %s, must be a decimal number in quotes", tok)
		}
		d, err := decimal.Parse(tok.String())
		if err != nil {
			return err
		}
		if d.IsZero() {
			d = decimal.Decimal{}
		}
		*v = d
		return nil
	}
	return json.MarshalToFunc(write), json.UnmarshalFromFunc(parse)
}
