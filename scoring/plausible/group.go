package plausible

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// Member is an entry of a group that was tested together.
type Member struct {
	Entry *scoring.Entry
	// DayCell is where the test date was read, DayRead its text.
	DayCell, DayRead string
	DayConfirmed     bool
	Again            bool // the person was tested on other days too
	DayDoubt         scoring.Said
}

// Bounds of a group. Common practice, no source.
const (
	fewestMembers = 5
	classYears    = 3.2  // pupils of a class are born within so many years of the median
	massRatio     = 2.45 // of the median
	massGap       = 1.65 // to the next body mass
	testedWithin  = 120  // days, of nearly all
	dayApart      = 183  // days from the median
)

// JudgeDays doubts the one test date of a sheet that is far from all others. It goes
// before [JudgeGroup].
func JudgeDays(members []*Member) {
	lonely(members, func(m *Member) (float64, bool) {
		return float64(m.Entry.Tested.Unix()) / 86400, !m.Entry.Tested.IsZero()
	}, func(m *Member, day float64, others []float64) bool {
		middle := median(others)
		if m.Again || spread(others, len(others)/10) > testedWithin || math.Abs(day-middle) < dayApart {
			return false
		}
		if m.DayCell == "" || m.DayConfirmed {
			return true
		}
		m.DayDoubt = dayAlone.With(time.Unix(int64(middle)*86400, 0).UTC())
		d := scoring.Doubt{Cell: m.DayCell, Read: m.DayRead, What: m.DayDoubt, Fix: fixDoubtful}
		if !m.Entry.Born.IsZero() {
			d.Inputs = []scoring.Input{scoring.Age} // is worked out from it
		}
		m.Entry.Doubts = append(m.Entry.Doubts, d)
		return true
	})
}

// JudgeGroup doubts the ages and body masses that are far from all others of a group.
func JudgeGroup(members []*Member) {
	value := func(in scoring.Input) func(m *Member) (float64, bool) {
		return func(m *Member) (float64, bool) {
			q, ok := m.Entry.Get(in)
			return q.Amount, ok
		}
	}
	lonely(members, value(scoring.Age), func(m *Member, age float64, others []float64) bool {
		middle := median(others)
		odd := scoring.IsYouth(middle) && spread(others, max(1, len(others)/8)) <= classYears && math.Abs(age-middle) > classYears
		if odd {
			m.doubt(scoring.Age, ageAlone.With(wholeYears(age), reference.WholeYears(middle)))
		}
		return odd
	})
	lonely(members, value(scoring.BodyMass), func(m *Member, mass float64, others []float64) bool {
		middle := median(others)
		heavy := mass > massRatio*middle && mass > massGap*others[len(others)-1]
		light := mass*massRatio < middle && mass*massGap < others[0]
		if heavy || light {
			m.doubt(scoring.BodyMass, massAlone.With(scoring.Q(mass, scoring.Kilograms), scoring.Q(math.Round(middle), scoring.Kilograms)))
		}
		return heavy || light
	})
}

func (m *Member) doubt(in scoring.Input, what scoring.Said) {
	j := &judge{Entry: m.Entry, doubts: m.Entry.Doubts}
	j.add(false, nil, what, in)
	m.Entry.Doubts = j.doubts
}

// lonely calls odd with the least and the greatest value of enough members, and with the
// sorted values of the others; where odd returns true, with the next one too.
func lonely(members []*Member, value func(m *Member) (float64, bool), odd func(m *Member, x float64, others []float64) bool) {
	type known struct {
		of *Member
		x  float64
	}
	var all []known
	for _, m := range members {
		if x, ok := value(m); ok {
			all = append(all, known{m, x})
		}
	}
	if len(all) < fewestMembers {
		return
	}
	slices.SortStableFunc(all, func(a, b known) int { return cmp.Compare(a.x, b.x) })
	sorted := make([]float64, len(all))
	for i, k := range all {
		sorted[i] = k.x
	}
	first, end := 0, len(all)
	for end-first >= fewestMembers && odd(all[first].of, sorted[first], sorted[first+1:end]) {
		first++
	}
	for end-first >= fewestMembers && odd(all[end-1].of, sorted[end-1], sorted[first:end-1]) {
		end--
	}
}

// median returns the middle of sorted values.
func median(sorted []float64) float64 {
	return (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
}

// spread returns the width of sorted values without so many at either end.
func spread(sorted []float64, without int) float64 {
	return sorted[len(sorted)-1-without] - sorted[without]
}
