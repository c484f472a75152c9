package scoring

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// Unit is a unit of measurement, or a coding of sex as a number.
type Unit uint8

// The units that the tests, equations and sheets use.
const (
	NoUnit Unit = iota
	MLPerKgMin
	LPerMin
	METUnit
	Seconds
	Minutes
	Metres
	Centimetres
	Kilometres
	Miles
	Yards
	Inches
	Kilograms
	Pounds
	BeatsPerMinute
	BeatsPer30s
	BeatsPer15s
	BeatsPer10s
	KmPerHour
	MilesPerHour
	MetresPerMinute
	MetresPerSecond
	CyclesPerMinute // step cycles (up, up, down, down) or pedal turns
	Years
	Levels
	Laps
	Steps // knees come up
	Watts
	Percent
	Fraction
	KgPerSquareMetre
	Millilitres
	MLPerLitre    // millilitres of oxygen in a litre of blood
	LitresOfBlood // litres a minute of blood
	LitresOfAir   // litres a minute of air
	MillimetresOfMercury
	MaleOne   // male 1, female 0
	FemaleOne // male 0, female 1
	MaleOneFemaleTwo
	unitCount
)

// dimension groups the units that convert into one another.
type dimension uint8

const (
	pure dimension = iota
	uptake
	absoluteUptake
	duration
	length
	mass
	rate
	speed
	cadence
	age
	levelCount
	count
	power
	share
	massIndex
	volume
	content
	bloodFlow
	airFlow
	pressure
	sexCode
)

// units declares each unit once. A value in the unit times factor plus offset
// is the value in the first unit of its dimension.
var units = [unitCount]struct {
	symbol         string
	dimension      dimension
	factor, offset float64
}{
	NoUnit:               {"", pure, 1, 0},
	MLPerKgMin:           {"mL/kg/min", uptake, 1, 0},
	METUnit:              {"MET", uptake, 3.5, 0},
	LPerMin:              {"L/min", absoluteUptake, 1, 0},
	Seconds:              {"s", duration, 1, 0},
	Minutes:              {"min", duration, 60, 0},
	Metres:               {"m", length, 1, 0},
	Centimetres:          {"cm", length, 0.01, 0},
	Kilometres:           {"km", length, 1000, 0},
	Miles:                {"mile", length, 1609.344, 0},
	Yards:                {"yd", length, 0.9144, 0},
	Inches:               {"in", length, 0.0254, 0},
	Kilograms:            {"kg", mass, 1, 0},
	Pounds:               {"lb", mass, 0.45359237, 0},
	BeatsPerMinute:       {"beats/min", rate, 1, 0},
	BeatsPer30s:          {"beats/30 s", rate, 2, 0},
	BeatsPer15s:          {"beats/15 s", rate, 4, 0},
	BeatsPer10s:          {"beats/10 s", rate, 6, 0},
	KmPerHour:            {"km/h", speed, 1, 0},
	MilesPerHour:         {"mph", speed, 1.609344, 0},
	MetresPerMinute:      {"m/min", speed, 0.06, 0},
	MetresPerSecond:      {"m/s", speed, 3.6, 0},
	CyclesPerMinute:      {"cycles/min", cadence, 1, 0},
	Years:                {"years", age, 1, 0},
	Levels:               {"levels", levelCount, 1, 0},
	Laps:                 {"laps", count, 1, 0},
	Steps:                {"steps", count, 1, 0},
	Watts:                {"W", power, 1, 0},
	Percent:              {"%", share, 1, 0},
	Fraction:             {"as a fraction", share, 100, 0},
	KgPerSquareMetre:     {"kg/m²", massIndex, 1, 0},
	Millilitres:          {"mL", volume, 1, 0},
	MLPerLitre:           {"mL/L", content, 1, 0},
	LitresOfBlood:        {"L/min of blood", bloodFlow, 1, 0},
	LitresOfAir:          {"L/min of air", airFlow, 1, 0},
	MillimetresOfMercury: {"mmHg", pressure, 1, 0},
	MaleOne:              {"male 1, female 0", sexCode, 1, 0},
	FemaleOne:            {"female 1, male 0", sexCode, -1, 1},
	MaleOneFemaleTwo:     {"male 1, female 2", sexCode, -1, 2},
}

func (u Unit) String() string { return units[u].symbol }

// Units lists every unit that has a symbol.
func Units() []Unit {
	var all []Unit
	for u := NoUnit + 1; u < unitCount; u++ {
		all = append(all, u)
	}
	return all
}

// Converts reports whether values can be converted between the two units.
func (u Unit) Converts(to Unit) bool { return units[u].dimension == units[to].dimension }

// Quantity is a number with its unit.
type Quantity struct {
	Amount float64
	Unit   Unit
}

// Q makes a Quantity.
func Q(amount float64, unit Unit) Quantity { return Quantity{amount, unit} }

// In returns the amount in another unit of the same dimension. It panics on other
// units, which only a fault in the program can ask for.
func (q Quantity) In(to Unit) float64 {
	if q.Unit == to {
		return q.Amount
	}
	from, into := units[q.Unit], units[to]
	if from.dimension != into.dimension {
		panic(fmt.Sprintf("scoring: %s does not convert to %s", q.Unit, to))
	}
	return (q.Amount*from.factor + from.offset - into.offset) / into.factor
}

// String writes the quantity for people: times as m:ss, other amounts with at
// most two decimals and the unit's symbol.
func (q Quantity) String() string {
	if units[q.Unit].dimension == duration {
		return Clock(time.Duration(q.In(Seconds) * float64(time.Second)))
	}
	return strings.TrimRight(trimNumber(q.Amount, 2)+" "+q.Unit.String(), " ")
}

// Clock writes a duration as m:ss or h:mm:ss, to the nearest second.
func Clock(d time.Duration) string {
	s := int(math.Round(d.Seconds()))
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// trimNumber writes x with at most that many decimals and no trailing zeros.
func trimNumber(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
