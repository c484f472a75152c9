package evidence

import (
	"math"
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// growth holds rough medians of body mass in kg and stature in cm by age. They are
// from memory, between the sexes, and serve only to tell units apart.
var growth = []struct{ age, mass, stature float64 }{{5, 18, 110}, {8, 26, 128}, {10, 33, 139}, {12, 42, 150}, {14, 52, 162}, {16, 61, 169}, {18, 74, 171}}

// usualAt returns the medians of an age.
func usualAt(age float64) (mass, stature float64) {
	low := growth[0]
	for _, high := range growth {
		if age <= high.age {
			share := 0.0
			if high.age > low.age {
				share = (max(age, low.age) - low.age) / (high.age - low.age)
			}
			return low.mass + share*(high.mass-low.mass), low.stature + share*(high.stature-low.stature)
		}
		low = high
	}
	return low.mass, low.stature
}

// Waist and stature grow alike: rough, from memory.
const waistOfStature = 0.5

// window bounds the ratio of a column's median to what is usual.
type window struct{ usualLow, usualHigh, low, high float64 }

// The windows, assumed: wide enough for the very lean and the very heavy, narrow
// enough that two units of an input share little.
var (
	massByStature = window{0.70, 1.42, 0.58, 1.85}
	massByAge     = window{0.65, 1.50, 0.55, 1.90}
	length        = window{0.75, 1.30, 0.62, 1.45}
	girth         = window{0.75, 1.40, 0.66, 1.65}
	distance      = window{0.60, 1.60, 0, math.Inf(1)}
	heaviest      = 3.0
	few           = window{low: 0.45, high: 2} // with a unit or neighbours that agree on one
)

// sizeUnits are the units in which an input is written.
var sizeUnits = map[scoring.Input][]scoring.Unit{
	scoring.BodyMass: {scoring.Kilograms, scoring.Pounds},
	scoring.Stature:  {scoring.Centimetres, scoring.Inches, scoring.Metres},
	scoring.Waist:    {scoring.Centimetres, scoring.Inches},
	scoring.Distance: {scoring.Metres, scoring.Kilometres, scoring.Miles, scoring.Yards},
}

// Medians of body mass indices lie between these. Common practice, no source.
const indexLow, indexHigh = 14, 36

// fewest is the number of people whose median is more than chance.
const fewest = 5

// usual returns what is usual for a row in the input's own unit; ok is false where
// nothing is known.
func (s *Sheet) usual(in scoring.Input, row int) (x float64, by window, ok bool) {
	age := math.NaN()
	if row < len(s.Ages) {
		age = s.Ages[row]
	}
	if math.IsNaN(age) {
		if s.School && in == scoring.BodyMass && s.input(scoring.Stature) == nil {
			return 0, window{}, false
		}
		age = 30
		if s.School {
			age = 12
		}
	}
	mass, stature := usualAt(age)
	switch in {
	case scoring.Stature:
		return stature, length, true
	case scoring.Waist:
		return stature * waistOfStature, girth, true
	case scoring.BodyMass:
		if h := s.input(scoring.Stature); h != nil {
			if q, d := cell.ParseAmount(h.Cells[row], cell.Measure{Unit: h.Meaning.Unit}); d == nil && scoring.Stature.CheckRange(q).IsZero() {
				tall := q.In(scoring.Centimetres) / stature
				return mass * tall * tall, massByStature, true
			}
		}
		return mass, massByAge, true
	}
	return 0, window{}, false
}

// judgeSize decides the unit of a column of body mass, stature, waist or distance.
func (s *Sheet) judgeSize(c *Column) {
	in := c.Meaning.Input
	// Three decimals of a text may be thousands; each cell decides.
	all := slices.DeleteFunc(c.numbers(), func(n number) bool { return len(n.Fraction()) == 3 && c.Cells[n.row].Kind == cell.Text })
	if len(all) == 0 {
		return
	}
	named := c.Meaning.Unit
	var readings []reading
	ratios := map[scoring.Unit][]float64{}
	by := window{}
	low, high := c.distances()
	for _, n := range all {
		usual, w, ok := s.usual(in, n.row)
		if in == scoring.Distance {
			usual, w, ok = math.Sqrt(low*high), distance, true
		}
		if !ok {
			continue
		}
		by = w
		for _, u := range sizeUnits[in] {
			ratios[u] = append(ratios[u], scoring.Q(n.Amount, u).In(in.Info().Unit)/usual)
		}
	}
	mid := func(u scoring.Unit) float64 { return median(ratios[u]) }
	inUsual := func(u scoring.Unit) bool { return mid(u) >= by.usualLow && mid(u) <= by.usualHigh }
	metric, imperial := s.systems(c)
	if in != scoring.Distance && len(all) < fewest && (c.Meaning.UnitGiven || in == scoring.BodyMass && metric != imperial) {
		by.low, by.high = few.low, few.high
	}
	if named == scoring.Pounds {
		by.high = heaviest // no other unit gives larger numbers
	}
	for _, u := range sizeUnits[in] {
		r := reading{meaning: c.qualified(u.String()), example: inUnit(all[0], u, in), off: math.Abs(math.Log(mid(u)))}
		r.use = func() { c.Meaning.Unit, c.Meaning.UnitGiven = u, c.Meaning.UnitGiven || u != in.Info().Unit }
		if u != in.Info().Unit {
			r.remark = readInUnit.With(u)
		}
		if len(ratios[u]) > 0 && !(mid(u) >= by.low && mid(u) <= by.high) || in != scoring.Distance && stray(ratios[u]) {
			r.against++
		}
		switch pounds := u == scoring.Pounds; {
		case c.Meaning.UnitGiven:
			r.remark = scoring.Said{}
			if u != named {
				r.against++
			}
		case in == scoring.BodyMass && (pounds && metric || !pounds && imperial):
			r.against++
		case u == scoring.Yards && !imperial:
			r.against++ // yards go with pounds and inches; metres go with anything
		}
		x := scoring.Q(median(amounts(all)), u).In(in.Info().Unit)
		r.absurd = in == scoring.Distance && (x < 0.7*low || x > 1.1*high)
		readings = append(readings, r)
	}
	// In a group, what is unusual gives way to what is usual.
	likely := func(i int) bool { return readings[i].against == 0 && !readings[i].absurd && inUsual(sizeUnits[in][i]) }
	better := len(all) >= fewest && (likely(0) || likely(1) || len(readings) > 2 && likely(2))
	for i := range readings {
		if better && !likely(i) {
			readings[i].against++
		}
	}
	if in != scoring.Distance && !in.CheckRange(scoring.Q(median(amounts(all)), named)).IsZero() {
		for i := range readings {
			readings[i].absurd = readings[i].against > 0 && readings[i].off > 1
		}
	}
	c.decide(whichUnit, readings)
	if mid := median(amounts(all)); in == scoring.BodyMass && mid > indexLow && mid < indexHigh && len(c.Asked) > len(sizeUnits[in]) {
		c.Why = whichIndex
		slices.Reverse(c.Asked) // to leave the column out is the likeliest
	}
}

// distances returns the distances in metres that the test's equations take, else
// those of the input.
func (c *Column) distances() (low, high float64) {
	info := scoring.Distance.Info()
	if c.Meaning.Test == nil {
		return info.Min, info.Max
	}
	for _, eq := range c.Meaning.Test.Equations {
		for _, v := range eq.Vars {
			for _, l := range eq.Limits {
				if v.Input == scoring.Distance && l.Symbol == v.Symbol {
					least, most := scoring.Q(l.Min, v.Unit).In(scoring.Metres), scoring.Q(l.Max, v.Unit).In(scoring.Metres)
					if high == 0 {
						low, high = least, most
					}
					low, high = min(low, least), max(high, most)
				}
			}
		}
	}
	if high == 0 {
		return info.Min, info.Max
	}
	return low, high
}

// stray reports whether a fifth of the values, and more than one, are far from
// what is usual, as in a column of two units.
func stray(ratios []float64) bool {
	n := 0
	for _, r := range ratios {
		if r < 0.48 || r > 2.2 {
			n++
		}
	}
	return n > 1 && 5*n >= len(ratios)
}

// systems reports whether the other sizes, and the cells of the column that name
// their unit, are all metric or all imperial.
func (s *Sheet) systems(c *Column) (metric, imperial bool) {
	see := func(u scoring.Unit) {
		switch u {
		case scoring.Kilograms, scoring.Centimetres, scoring.Metres, scoring.Kilometres:
			metric = true
		case scoring.Pounds, scoring.Inches, scoring.Yards, scoring.Miles:
			imperial = true
		}
	}
	for _, other := range s.Columns {
		m := other.Meaning
		if m.Role != roster.InputData || sizeUnits[m.Input] == nil || !other.Why.IsZero() || m.Input == scoring.Distance && other != c {
			continue
		}
		if other != c && len(other.numbers()) > 0 {
			see(m.Unit)
		}
		for _, r := range other.Cells {
			if _, bare := cell.BareNumber(r); bare || r.IsBlank() {
				continue
			}
			if q, d := cell.ParseAmount(r, cell.Measure{Unit: m.Unit}); d == nil {
				see(q.Unit)
			}
		}
	}
	if metric && imperial {
		return false, false
	}
	return metric, imperial
}

// inUnit works a number out in a unit.
func inUnit(n number, u scoring.Unit, in scoring.Input) scoring.Said {
	given := scoring.Q(n.Amount, u)
	own := in.Info().Unit
	if u == own {
		return worked.With(scoring.Exactly(n.Amount), given)
	}
	return converted.With(scoring.Exactly(n.Amount), given, scoring.Q(given.In(own), own))
}
