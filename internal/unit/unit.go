// Package unit holds the quantities of the trade as named types.
//
// Every quantity is stored in one SI unit, named in its comment, and is
// converted once, at the edges: by a constructor such as [Feet] on the way in
// and by a method such as [Length.Feet] on the way out. Bare floats never
// cross a package border. Times are [time.Duration].
package unit

import "math"

// Length is a length in metres.
type Length float64

// Angle is an angle in radians.
type Angle float64

// Slope is a fall along a pipe in metres per metre; positive falls the way
// the pipe flows.
type Slope float64

// Pressure is a gauge pressure in pascals.
type Pressure float64

// Flow is a volume flow in cubic metres per second.
type Flow float64

// Volume is a volume in cubic metres.
type Volume float64

// Speed is a speed in metres per second.
type Speed float64

// Force is a force in newtons.
type Force float64

// Mass is a mass in kilograms.
type Mass float64

// LinearMass is a mass per length in kilograms per metre.
type LinearMass float64

// LinearForce is a force per length, such as the weight of a hose, in newtons
// per metre.
type LinearForce float64

// Density is a density in kilograms per cubic metre.
type Density float64

// Viscosity is a dynamic viscosity in pascal seconds.
type Viscosity float64

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// Exact conversion factors. The foot is 0.3048 m, the pound 0.45359237 kg and
// the US gallon 231 cubic inches by definition; the pound-force uses standard
// gravity 9.80665 m/s^2.
const (
	metresPerFoot      = 0.3048
	metresPerInch      = 0.0254
	pascalsPerPsi      = 6894.757293168361
	pascalsPerBar      = 1e5
	cubicMetresPerGal  = 231 * metresPerInch * metresPerInch * metresPerInch
	newtonsPerLbf      = 4.4482216152605
	kilogramsPerPound  = 0.45359237
	secondsPerMinute   = 60
	litresPerCubicMtr  = 1000
	millimetresPerMtr  = 1000
	inchesPerFoot      = 12
	degreesPerHalfTurn = 180
)

// Gravity is standard gravity in m/s^2.
const Gravity = 9.80665

// Metres returns a length of m metres.
func Metres(m float64) Length { return Length(m) }

// Millimetres returns a length of mm millimetres.
func Millimetres(mm float64) Length { return Length(mm / millimetresPerMtr) }

// Feet returns a length of ft feet.
func Feet(ft float64) Length { return Length(ft * metresPerFoot) }

// Inches returns a length of in inches.
func Inches(in float64) Length { return Length(in * metresPerInch) }

// Metres returns l in metres.
func (l Length) Metres() float64 { return float64(l) }

// Millimetres returns l in millimetres.
func (l Length) Millimetres() float64 { return float64(l) * millimetresPerMtr }

// Feet returns l in feet.
func (l Length) Feet() float64 { return float64(l) / metresPerFoot }

// Inches returns l in inches.
func (l Length) Inches() float64 { return float64(l) / metresPerInch }

// Degrees returns an angle of d degrees.
func Degrees(d float64) Angle { return Angle(d / degreesPerHalfTurn * math.Pi) }

// QuarterBends returns the angle of n quarter bends (90 degrees each).
func QuarterBends(n float64) Angle { return Degrees(90 * n) }

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) * degreesPerHalfTurn / math.Pi }

// Radians returns a in radians.
func (a Angle) Radians() float64 { return float64(a) }

// QuarterBends returns a as a number of quarter bends.
func (a Angle) QuarterBends() float64 { return a.Degrees() / 90 }

// InchesPerFoot returns the slope of a pipe that falls in inches over one foot.
func InchesPerFoot(in float64) Slope { return Slope(in / inchesPerFoot) }

// InchesPerFoot returns s in inches per foot.
func (s Slope) InchesPerFoot() float64 { return float64(s) * inchesPerFoot }

// Percent returns s in percent.
func (s Slope) Percent() float64 { return float64(s) * 100 }

// Psi returns a pressure of p pounds-force per square inch.
func Psi(p float64) Pressure { return Pressure(p * pascalsPerPsi) }

// Bar returns a pressure of b bar.
func Bar(b float64) Pressure { return Pressure(b * pascalsPerBar) }

// Psi returns p in pounds-force per square inch.
func (p Pressure) Psi() float64 { return float64(p) / pascalsPerPsi }

// Bar returns p in bar.
func (p Pressure) Bar() float64 { return float64(p) / pascalsPerBar }

// GallonsPerMinute returns a flow of q US gallons per minute.
func GallonsPerMinute(q float64) Flow { return Flow(q * cubicMetresPerGal / secondsPerMinute) }

// LitresPerMinute returns a flow of q litres per minute.
func LitresPerMinute(q float64) Flow { return Flow(q / litresPerCubicMtr / secondsPerMinute) }

// GallonsPerMinute returns q in US gallons per minute.
func (q Flow) GallonsPerMinute() float64 { return float64(q) / cubicMetresPerGal * secondsPerMinute }

// LitresPerMinute returns q in litres per minute.
func (q Flow) LitresPerMinute() float64 { return float64(q) * litresPerCubicMtr * secondsPerMinute }

// Gallons returns a volume of v US gallons.
func Gallons(v float64) Volume { return Volume(v * cubicMetresPerGal) }

// Litres returns a volume of v litres.
func Litres(v float64) Volume { return Volume(v / litresPerCubicMtr) }

// Gallons returns v in US gallons.
func (v Volume) Gallons() float64 { return float64(v) / cubicMetresPerGal }

// Litres returns v in litres.
func (v Volume) Litres() float64 { return float64(v) * litresPerCubicMtr }

// FeetPerMinute returns a speed of v feet per minute.
func FeetPerMinute(v float64) Speed { return Speed(v * metresPerFoot / secondsPerMinute) }

// MetresPerMinute returns a speed of v metres per minute.
func MetresPerMinute(v float64) Speed { return Speed(v / secondsPerMinute) }

// FeetPerSecond returns a speed of v feet per second.
func FeetPerSecond(v float64) Speed { return Speed(v * metresPerFoot) }

// FeetPerSecond returns v in feet per second.
func (v Speed) FeetPerSecond() float64 { return float64(v) / metresPerFoot }

// MetresPerMinute returns v in metres per minute.
func (v Speed) MetresPerMinute() float64 { return float64(v) * secondsPerMinute }

// PoundsForce returns a force of f pounds-force.
func PoundsForce(f float64) Force { return Force(f * newtonsPerLbf) }

// PoundsForce returns f in pounds-force.
func (f Force) PoundsForce() float64 { return float64(f) / newtonsPerLbf }

// Newtons returns f in newtons.
func (f Force) Newtons() float64 { return float64(f) }

// PoundsPerFoot returns a mass per length of w pounds per foot.
func PoundsPerFoot(w float64) LinearMass { return LinearMass(w * kilogramsPerPound / metresPerFoot) }

// PoundsPerFoot returns m in pounds per foot.
func (m LinearMass) PoundsPerFoot() float64 { return float64(m) / kilogramsPerPound * metresPerFoot }

// PoundsForcePerFoot returns w in pounds-force per foot.
func (w LinearForce) PoundsForcePerFoot() float64 {
	return float64(w) / newtonsPerLbf * metresPerFoot
}

// Pounds returns a mass of w pounds.
func Pounds(w float64) Mass { return Mass(w * kilogramsPerPound) }
