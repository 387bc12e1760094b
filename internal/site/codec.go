package site

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"linemap/internal/unit"
)

// encoding and decoding convert every quantity between its SI value in memory
// and the unit that a file keeps it in. This is the only place where the two
// meet.
var encoding, decoding = codec()

func codec() (json.Options, json.Options) {
	var out []*json.Marshalers
	var in []*json.Unmarshalers
	add := func(m *json.Marshalers, u *json.Unmarshalers) { out, in = append(out, m), append(in, u) }

	add(stored[float64]())
	add(quantity(unit.Metres, unit.Length.Metres))
	add(quantity(unit.Degrees, unit.Angle.Degrees))
	add(quantity(kilopascals, func(p unit.Pressure) float64 { return float64(p) / pascalsPerKilopascal }))
	add(quantity(unit.LitresPerMinute, unit.Flow.LitresPerMinute))
	add(quantity(unit.Litres, unit.Volume.Litres))
	add(quantity(unit.MetresPerMinute, unit.Speed.MetresPerMinute))
	add(stored[unit.Mass]())
	add(stored[unit.LinearMass]())
	add(stored[unit.Force]())
	add(stored[unit.Temperature]())
	add(stored[unit.Slope]())
	add(quantity(minutes, time.Duration.Minutes))
	add(money())

	return json.JoinOptions(
			json.WithMarshalers(json.JoinMarshalers(out...)),
			json.Deterministic(true),
			jsontext.SpaceAfterColon(true),
			jsontext.SpaceAfterComma(true),
		),
		json.WithUnmarshalers(json.JoinUnmarshalers(in...))
}

const pascalsPerKilopascal = 1000

func kilopascals(kPa float64) unit.Pressure { return unit.Pressure(kPa * pascalsPerKilopascal) }

// minutes is exact to the nanosecond for anything shorter than a month.
func minutes(m float64) time.Duration { return time.Duration(math.Round(m * float64(time.Minute))) }

// stored is the codec of a quantity that a file keeps in the unit of memory.
func stored[T ~float64]() (*json.Marshalers, *json.Unmarshalers) {
	return quantity(func(f float64) T { return T(f) }, func(v T) float64 { return float64(v) })
}

// quantity makes the two halves of the codec for one type from the function
// that reads a file's figure into it and the one that gives its figure.
func quantity[T ~float64 | ~int64](read func(float64) T, figure func(T) float64) (*json.Marshalers, *json.Unmarshalers) {
	write := func(enc *jsontext.Encoder, v T) error {
		f := figure(v)
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return fmt.Errorf("%v is no number that a file can hold", f)
		}
		return enc.WriteToken(jsontext.Float(shortest(v, read, figure)))
	}
	parse := func(dec *jsontext.Decoder, v *T) error {
		tok, err := dec.ReadToken()
		if err != nil {
			return err
		}
		if tok.Kind() != jsontext.KindNumber {
			return fmt.Errorf("found %s, must be a number", tok)
		}
		f, err := tok.Float()
		if err != nil {
			return err
		}
		*v = read(f + 0) // -0 becomes 0
		return nil
	}
	return json.MarshalToFunc(write), json.UnmarshalFromFunc(parse)
}

// shortest returns the number with the fewest digits that reads back as v.
//
// Reading rounds, so a few values in memory that no file gave are met by no
// number at all. Such a one moves to a neighbour, two last bits away at most,
// and is stable from then on.
func shortest[T ~float64 | ~int64](v T, read func(float64) T, figure func(T) float64) float64 {
	const tries = 4 // one move is enough for every unit; this only bounds the loop
	for range tries {
		if n, ok := shortestExact(v, figure(v), read); ok {
			return n + 0
		}
		v = read(figure(v))
	}
	return figure(v)
}

// shortestExact looks for the number near f that reads back as v.
func shortestExact[T ~float64 | ~int64](v T, f float64, read func(float64) T) (float64, bool) {
	const enough = 17 // digits tell any two floats apart
	var buf [32]byte
	for digits := 1; digits <= enough; digits++ {
		text := strconv.AppendFloat(buf[:0], f, 'e', digits-1, 64)
		if n, err := strconv.ParseFloat(string(text), 64); err == nil && read(n) == v {
			return n, true
		}
	}
	const near = 3 // roundings on the way there and back put f off by so much
	up, down := f, f
	for range near {
		up, down = math.Nextafter(up, math.Inf(1)), math.Nextafter(down, math.Inf(-1))
		if read(up) == v {
			return up, true
		}
		if read(down) == v {
			return down, true
		}
	}
	return 0, false
}
