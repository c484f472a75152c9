package group

import (
	"tenback/scoring"
	"tenback/scoring/change"
)

// Seasons is what may be printed of the change since the last round of testing.
type Seasons struct {
	// Left is how many people of earlier rounds were not tested in the last one.
	Left    Cell
	Changes []MeanChange // by part, where there are enough people
}

// MeanChange is the mean change of VO2max (mL/kg/min) of the people of a part who
// were tested in the last round and before, each against themselves.
type MeanChange struct {
	Part   Part
	People Cell // hidden where it would give away what the table hides
	// Mean and its 95 % interval, to the tenth.
	Mean, Low, High float64
	Verdict         change.Verdict
}

// changeLabels are the rows of the table of changes. Rows of people who are not
// compared exist only if they have people.
var changeLabels = []Label{
	{Key: "change-undated"},
	{Key: "change-new"},
	{Key: "change-other"},
	{Key: "change-fall"},
	{Key: "change-unclear"},
	{Key: "change-rise"},
}

// placeOfChange sorts a person into a row of the table of changes.
func placeOfChange(p *person) int {
	switch {
	case p.presence == change.Undated:
		return 0
	case p.presence == change.Newcomer:
		return 1
	case p.change == nil:
		return 2
	case p.change.Verdict == change.RealFall:
		return 3
	case p.change.Verdict == change.RealRise:
		return 5
	}
	return 4
}

// compared is the first row of people who are compared.
const compared = 3

// addChange adds the table of changes of a part and its mean change, which needs as
// many people as quartiles. Its number of people is printed only where the table
// shows how many are not in it.
func (s *Summary) addChange(part Part, people []person) {
	v := sortPeople(people, changeLabels, func(i int) bool { return i < compared }, placeOfChange).classify(s.Smallest)
	s.addOneWay(ByChange, part, v)
	var differences []float64
	count := true
	for i := range people {
		if placeOfChange(&people[i]) >= compared {
			differences = append(differences, float64(people[i].change.Difference))
		} else if v.classes[v.of[i]].joined() {
			count = false
		}
	}
	paired, ok := change.PairedOf(differences)
	if !ok || paired.N < QuartilesFrom(s.Smallest) {
		return
	}
	tenths := func(x float64) float64 { return float64(scoring.VO2(x).Tenths()) }
	m := MeanChange{Part: part, Mean: tenths(paired.Mean), Low: tenths(paired.Low), High: tenths(paired.High), Verdict: paired.Verdict()}
	if count {
		m.People = Cell{Shown: true, Count: paired.N}
	}
	s.Seasons.Changes = append(s.Seasons.Changes, m)
}
