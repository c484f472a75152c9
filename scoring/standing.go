package scoring

import "tenback/scoring/reference"

// Standing is where an adult's estimate stands in the tables of one sex.
type Standing struct {
	Sex          Sex
	Table        *reference.GroupTable
	Group        reference.Group
	Chances      [5]float64 // of each group, in their order; they sum to 1
	Next         *Goal      // the opening of the next group up; nil in the top group
	Percentile   reference.Percentile
	HasPercent   bool // the table prints percentiles
	Independence VO2  // uptake that living independently asks for

	estimate *Estimate // what is read
	years    int       // whole years lived
}

// Name is what the table used calls a group.
func (s Standing) Name(g reference.Group) string {
	return s.Table.Names[g]
}

// Decade is the adult table's row for the person's own age group or a younger
// one, with what each group there would take.
type Decade struct {
	Younger int // 0, 1 or 2 decades
	Ages    reference.Ages
	Group   reference.Group // the group the estimate would fall in
	Goals   []Goal          // the openings of the four upper groups, rising
}

// Goal is a value to reach.
type Goal struct {
	Group   reference.Group
	VO2     VO2
	Gap     VO2 // what is missing; 0 or less once reached
	Reached bool
	Chance  float64 // that the true uptake is there already
	// InTest is the result in the test done that would reach the value.
	InTest Target
}

// Independence is the uptake (mL/kg/min) that living independently asks for in
// the years around 80 to 85.
//
// Source: shephard2009 (18 in men, 15 in women); another study puts the start
// of a decline in daily function at 20 in both sexes (cress2003).
func Independence(sex Sex) VO2 {
	if sex == Male {
		return 18
	}
	return 15
}

// IndependenceFrom is the age in whole years from which the line of
// independent living is shown and flagged.
const IndependenceFrom = 60

// decadesBack is how many decades younger are shown.
const decadesBack = 2

// standing reads the estimate against the adult table's row for a person of
// that many whole years.
func (e *Estimate) standing(row reference.GroupRow, years int) Standing {
	st := Standing{estimate: e, years: years, Sex: row.Sex, Table: row.Table, Group: row.Group(e.VO2), Chances: e.groupChances(row), Independence: Independence(row.Sex)}
	st.Percentile, st.HasPercent = row.Percentile(e.VO2)
	if st.Group < reference.Highest {
		seeker := e.seeker()
		next := e.goal(row, st.Group, st.Group+1, seeker)
		st.Next = &next
	}
	return st
}

// Decades returns the own decade, and one and two decades younger as far as adult
// rows exist. They are computed on each call to keep scores small.
func (s Standing) Decades() []Decade {
	var all []Decade
	seeker := s.estimate.seeker()
	for _, r := range s.rows() {
		all = append(all, s.estimate.decade(r.row, r.back, seeker))
	}
	return all
}

// Ahead returns the ages and group of one of the Decades and its first goal not yet
// reached, nil if all are. ok is false where there is no such decade.
func (s Standing) Ahead(back int) (ages reference.Ages, group reference.Group, next *Goal, ok bool) {
	for _, r := range s.rows() {
		if r.back != back {
			continue
		}
		group = r.row.Group(s.estimate.VO2)
		if group < reference.Highest {
			goal := s.estimate.goal(r.row, group, group+1, s.estimate.seeker())
			next = &goal
		}
		return r.row.Ages, group, next, true
	}
	return reference.Ages{}, 0, nil, false
}

// youngerRow is the table's row for people that many decades younger.
type youngerRow struct {
	back int
	row  reference.GroupRow
}

func (s Standing) rows() []youngerRow {
	all := make([]youngerRow, 0, 1+decadesBack)
	for back := 0; back <= decadesBack; back++ {
		younger, ok := s.Table.Row(s.Sex, s.years-10*back)
		if !ok || (back > 0 && younger.Ages == all[len(all)-1].row.Ages) {
			continue // at 80 and over one row holds several decades
		}
		all = append(all, youngerRow{back, younger})
	}
	return all
}

func (e *Estimate) decade(row reference.GroupRow, back int, s *seeker) Decade {
	groups := reference.Groups()[1:]
	d := Decade{Younger: back, Ages: row.Ages, Group: row.Group(e.VO2), Goals: make([]Goal, 0, len(groups))}
	for _, g := range groups {
		d.Goals = append(d.Goals, e.goal(row, d.Group, g, s))
	}
	return d
}

// goal returns the opening of group g for a person in the group own.
func (e *Estimate) goal(row reference.GroupRow, own, g reference.Group, s *seeker) Goal {
	goal := Goal{Group: g, VO2: row.Opens(g), Reached: own >= g}
	goal.Gap = goal.VO2 - e.VO2
	if goal.Reached {
		goal.Gap = min(goal.Gap, 0) // a hair under the printed limit counts as there
	}
	goal.Chance = e.ChanceAbove(row.Reaches(g))
	if !goal.Reached {
		goal.InTest = s.target(func(v VO2) bool { return row.Group(v) >= g })
	}
	return goal
}

// Targets returns, for each decade of a standing and each of its goals, the result
// in this estimate's own test that would reach it, or the present one if it is
// reached. The standing may be that of another test of the person.
func (e *Estimate) Targets(st Standing) [][]Target {
	var all [][]Target
	s := e.seeker()
	for _, d := range st.Decades() {
		row, _ := st.Table.Row(st.Sex, d.Ages.Min)
		var targets []Target
		for _, g := range d.Goals {
			targets = append(targets, s.target(func(v VO2) bool { return row.Group(v) >= g.Group }))
		}
		all = append(all, targets)
	}
	return all
}

// HealthLine is where an estimate stands against the line for people under 18.
type HealthLine struct {
	Sex    Sex
	Line   VO2
	Above  bool    // at the line or above
	Chance float64 // that the true uptake is at the line or above
	Source string  // of the line: a key of the bibliography
	InTest Target
}

func (e *Estimate) againstLine(sex Sex, line VO2, source string) HealthLine {
	h := HealthLine{Sex: sex, Line: line, Above: e.VO2 >= line, Chance: e.ChanceAbove(line), Source: source}
	if !h.Above {
		seeker := e.seeker()
		h.InTest = seeker.target(func(v VO2) bool { return v >= line })
	}
	return h
}
