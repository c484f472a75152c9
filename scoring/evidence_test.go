package scoring_test

import (
	"testing"

	. "tenback/scoring"
	"tenback/scoring/reference"
)

// Whole-number charts in common practice (no source) ask for the openings
// below. They round the published METs upwards: ours lie under them, by no
// more than 1.2 mL/kg/min.
func TestCommonPracticeCharts(t *testing.T) {
	const most VO2 = 1.2
	for _, c := range []struct {
		sex   Sex
		years int
		group reference.Group
		chart VO2
	}{
		{Female, 45, reference.Third, 32},
		{Female, 45, reference.Fourth, 37}, // above average is 32 to 36
		{Female, 45, reference.Highest, 47},
		{Female, 71, reference.Second, 18},
		{Female, 71, reference.Third, 22},
		{Female, 71, reference.Fourth, 25}, // above average is 22 to 24
		{Female, 71, reference.Highest, 36},
		{Female, 61, reference.Highest, 40}, // one decade younger than 71
		{Female, 51, reference.Highest, 46}, // two decades younger
		{Male, 55, reference.Third, 36},
		{Male, 55, reference.Fourth, 41}, // above average is 36 to 40; at 40 ours says high
		{Male, 55, reference.Highest, 50},
	} {
		row, ok := reference.AdultGroups.Row(c.sex, c.years)
		if !ok {
			t.Fatalf("no row for %s %d", c.sex, c.years)
		}
		if opens := row.Opens(c.group); opens > c.chart || opens < c.chart-most {
			t.Errorf("%s %d: group %d opens at %.2f, the chart says %.0f", c.sex, c.years, c.group, float64(opens), float64(c.chart))
		}
	}
}

// The same readings through Assess, with the decades beside them.
func TestCommonPracticeWoman71(t *testing.T) {
	s := byStages(t, "sex=F;age=71", "23")
	decades := s.Adults[0].Decades()
	if len(decades) != 3 {
		t.Fatalf("%d decades, want 3", len(decades))
	}
	for i, chart := range []VO2{36, 40, 46} {
		top := decades[i].Goals[len(decades[i].Goals)-1]
		if top.Group != reference.Highest || top.VO2 > chart || top.VO2 < chart-1.2 {
			t.Errorf("%d decades younger: group %d opens at %.2f, the chart says %.0f", i, top.Group, float64(top.VO2), float64(chart))
		}
	}
	if got := s.Adults[0].Group; got != reference.Third {
		t.Errorf("23 is in group %d, want above average", got)
	}
}
