package scoring_test

import (
	"slices"
	"testing"

	. "tenback/scoring"
	"tenback/scoring/reference"
)

// measuredAs is a laboratory value of someone.
func measuredAs(t *testing.T, who, value string) Score {
	t.Helper()
	return Assess(entryOf(t, "measured", who+";measured-vo2max="+value))
}

// byStages is the same, read against the table of treadmill stages.
func byStages(t *testing.T, who, value string) Score {
	t.Helper()
	return Options{Adults: reference.AdultGroups}.Assess(entryOf(t, "measured", who+";measured-vo2max="+value))
}

// Groups are decided in METs rounded to one decimal: 34.83 is 9.951 MET and
// counts as 10.0, 34.82 is 9.949 and does not.
func TestGroupAtTheRoundingEdge(t *testing.T) {
	for _, c := range []struct {
		who, value string
		want       reference.Group
	}{
		{"sex=F;age=75", "34.82", reference.Fourth},
		{"sex=F;age=75", "34.83", reference.Highest},
		{"sex=M;age=55", "34.82", reference.Second},
		{"sex=M;age=55", "34.83", reference.Third},
	} {
		st := byStages(t, c.who, c.value).Adults[0]
		if st.Group != c.want {
			t.Errorf("%s at %s: group %d, want %d", c.who, c.value, st.Group, c.want)
		}
		for _, g := range st.Decades()[0].Goals {
			if g.Reached != (g.Group <= c.want) {
				t.Errorf("%s at %s: goal %d reached is %v", c.who, c.value, g.Group, g.Reached)
			}
			if g.Reached && g.Gap > 0 {
				t.Errorf("%s at %s: goal %d is reached with %.2f missing", c.who, c.value, g.Group, float64(g.Gap))
			}
			if !g.Reached && g.Gap <= 0 {
				t.Errorf("%s at %s: goal %d is not reached with nothing missing", c.who, c.value, g.Group)
			}
		}
	}
}

// The decades shown: own, and one and two younger as far as adult rows exist. One that
// falls into the same row is left out, and the others keep their distance.
func TestDecades(t *testing.T) {
	for _, c := range []struct {
		age     string
		stages  bool // the table of treadmill stages
		want    []string
		younger []int
	}{
		{"18", false, []string{"20–29"}, []int{0}},
		{"19.9", false, []string{"20–29"}, []int{0}},
		{"29.9", false, []string{"20–29"}, []int{0}},
		{"30", false, []string{"30–39", "20–29"}, []int{0, 1}},
		{"38", false, []string{"30–39", "20–29"}, []int{0, 1}},
		{"40", false, []string{"40–49", "30–39", "20–29"}, []int{0, 1, 2}},
		{"71", false, []string{"70–79", "60–69", "50–59"}, []int{0, 1, 2}},
		{"89.9", false, []string{"80–89", "70–79", "60–69"}, []int{0, 1, 2}},
		{"18", true, []string{"18–19"}, []int{0}},
		{"28", true, []string{"20–29", "18–19"}, []int{0, 1}},
		{"38", true, []string{"30–39", "20–29", "18–19"}, []int{0, 1, 2}},
		{"80", true, []string{"80 and over", "70–79", "60–69"}, []int{0, 1, 2}},
		{"90", true, []string{"80 and over", "70–79"}, []int{0, 2}},
	} {
		read := measuredAs
		if c.stages {
			read = byStages
		}
		st := read(t, "sex=F;age="+c.age, "30").Adults[0]
		var got []string
		var younger []int
		for _, d := range st.Decades() {
			got, younger = append(got, d.Ages.String()), append(younger, d.Younger)
		}
		if !slices.Equal(got, c.want) || !slices.Equal(younger, c.younger) {
			t.Errorf("age %s: %v %v, want %v %v", c.age, got, younger, c.want, c.younger)
		}
	}
}

// Woman of 45 at 38.0 (10.857, so 10.9 MET). Own decade opens at 7.4, 9.0,
// 10.4, 13.3 MET; 30-39 at 7.7, 9.4, 10.9, 13.7; 20-29 at 8.0, 10.0, 11.5, 14.3.
func TestGoals(t *testing.T) {
	st := byStages(t, "sex=F;age=45", "38").Adults[0]
	want := [][]struct {
		vo2     VO2
		reached bool
	}{
		{{25.9, true}, {31.5, true}, {36.4, true}, {46.55, false}},
		{{26.95, true}, {32.9, true}, {38.15, true}, {47.95, false}},
		{{28, true}, {35, true}, {40.25, false}, {50.05, false}},
	}
	groups := []reference.Group{reference.Fourth, reference.Fourth, reference.Third}
	for i, d := range st.Decades() {
		if d.Group != groups[i] {
			t.Errorf("%s: group %d, want %d", d.Ages, d.Group, groups[i])
		}
		for j, g := range d.Goals {
			if !near(g.VO2, want[i][j].vo2, 1e-9) || g.Reached != want[i][j].reached || g.Group != reference.Group(j+1) {
				t.Errorf("%s: goal %+v, want %d at %.2f, reached %v", d.Ages, g, reference.Group(j+1), float64(want[i][j].vo2), want[i][j].reached)
			}
			if !g.Reached && !near(g.Gap, g.VO2-38, 1e-9) {
				t.Errorf("%s: %d misses %.2f", d.Ages, g.Group, float64(g.Gap))
			}
		}
	}
	if st.Next == nil || st.Next.Group != reference.Highest || !near(st.Next.VO2, 46.55, 1e-9) {
		t.Errorf("next %+v", st.Next)
	}
	if st.Independence != 15 || st.HasPercent {
		t.Errorf("independence %g, percentile %v", float64(st.Independence), st.HasPercent)
	}
}

func TestNextGroup(t *testing.T) {
	for _, c := range []struct {
		value string
		want  reference.Group
	}{
		{"20", reference.Second}, {"28", reference.Third}, {"34", reference.Fourth}, {"40", reference.Highest},
	} {
		st := byStages(t, "sex=F;age=45", c.value).Adults[0]
		if st.Next == nil || st.Next.Group != c.want || st.Next.Group != st.Group+1 {
			t.Errorf("at %s (%d): next %+v, want %d", c.value, st.Group, st.Next, c.want)
		}
	}
	if st := byStages(t, "sex=F;age=45", "50").Adults[0]; st.Next != nil || st.Group != reference.Highest {
		t.Errorf("at 50 (%d): next %+v", st.Group, st.Next)
	}
}

// Lines of independent living: 18 in men and 15 in women (shephard2009).
func TestIndependenceLines(t *testing.T) {
	if Independence(Male) != 18 || Independence(Female) != 15 {
		t.Errorf("men %g, women %g", float64(Independence(Male)), float64(Independence(Female)))
	}
}

// One table says group and percentile: FRIEND 2022, which begins at 20, serves at 18
// and 19, and ends at 89 (kaminsky2022).
func TestOneScale(t *testing.T) {
	for _, c := range []struct {
		who, value string
		group      reference.Group
		percentile reference.Percentile
	}{
		{"sex=M;age=55", "29.4", reference.Third, reference.Percentile{At: 50}},
		{"sex=M;age=55", "29.39", reference.Second, reference.Percentile{At: 49.96}},
		{"sex=M;age=25", "45.4", reference.Third, reference.Percentile{At: 50}},
		{"sex=M;age=18", "45.4", reference.Third, reference.Percentile{At: 50}},
		{"sex=F;age=45", "37.5", reference.Fourth, reference.Percentile{At: 90}},
		{"sex=M;age=55", "90", reference.Highest, reference.Percentile{At: 95, Above: true}},
		{"sex=M;age=55", "9", reference.Lowest, reference.Percentile{At: 5, Below: true}},
	} {
		s := measuredAs(t, c.who, c.value)
		st := s.Adults[0]
		if st.Table.ID != "friend-2022-treadmill" || st.Group != c.group || !st.HasPercent ||
			st.Percentile.Above != c.percentile.Above || st.Percentile.Below != c.percentile.Below || !near(VO2(st.Percentile.At), VO2(c.percentile.At), 0.01) {
			t.Errorf("%s at %s: %s, group %d, %+v; want group %d, %+v", c.who, c.value, st.Table.ID, st.Group, st.Percentile, c.group, c.percentile)
		}
		said := slices.ContainsFunc(s.Flags, func(f Flag) bool { return f.Code == FlagYoungestRow })
		if said != (c.who == "sex=M;age=18") {
			t.Errorf("%s: read with the youngest row: %v", c.who, said)
		}
	}
	if s := measuredAs(t, "sex=M;age=90", "15"); len(s.Adults) != 0 {
		t.Error("a row at 90, where the table has none")
	}
	cycle := Assess(entryOf(t, "cycle-stage", "sex=M;age=45;body-mass=80;power=100;exercise-hr=130;resting-hr=60"))
	if len(cycle.Adults) != 1 || cycle.Adults[0].Table.ID != "friend-2022-cycle" {
		t.Errorf("a test on a cycle: %+v %+v", cycle.Adults, cycle.Refused)
	}
}

// Under 18 there is the health line and no group: 41.8 for boys, 34.6 for
// girls (ruiz2016).
func TestYouth(t *testing.T) {
	for _, c := range []struct {
		who, value string
		line       VO2
		above      bool
	}{
		{"sex=M;age=12", "41.8", 41.8, true},
		{"sex=M;age=12", "41.79", 41.8, false},
		{"sex=F;age=12", "34.6", 34.6, true},
		{"sex=F;age=12", "34.59", 34.6, false},
		{"sex=M;age=8", "41.8", 41.8, true},
		{"sex=F;age=17.99", "34.59", 34.6, false},
	} {
		s := measuredAs(t, c.who, c.value)
		if len(s.Adults) != 0 || len(s.Youth) != 1 {
			t.Fatalf("%s: %d adult and %d youth readings", c.who, len(s.Adults), len(s.Youth))
		}
		if got := s.Youth[0]; got.Line != c.line || got.Above != c.above {
			t.Errorf("%s at %s: %+v", c.who, c.value, got)
		}
	}
	if s := measuredAs(t, "sex=M;age=18", "41"); len(s.Youth) != 0 || len(s.Adults) != 1 {
		t.Errorf("at 18: %d adult and %d youth readings", len(s.Adults), len(s.Youth))
	}
	if s := measuredAs(t, "age=12", "41"); len(s.Youth) != 2 || s.Youth[0].Above != true || s.Youth[1].Above != false {
		t.Errorf("sex not given: %+v", s.Youth)
	}
}

// Another table is read when asked for, with its own names and rows: men of 45
// in fifths at 26.53, 30.43, 34.30 and 39.07 (almeida2019).
func TestOtherTables(t *testing.T) {
	adults, _ := reference.AdultTable("almeida-2019")
	youth, _ := reference.YouthTableByID("lobelo2009")
	o := Options{Adults: adults, Youth: youth}
	s := o.Assess(entryOf(t, "run-1.5-mile", "sex=M;age=45;time=16:00"))
	st := s.Adults[0] // 3.5 + 483/16 = 33.69
	if st.Table != adults || st.Name(st.Group) != "middle fifth" || st.Next == nil || st.Next.VO2 != 34.30 {
		t.Fatalf("%+v", st)
	}
	// 483/(34.30 − 3.5) is 15.68 min, so 15:40; 15:41 gives 34.296.
	if got := st.Next.InTest.String(); got != "1.5 miles in 15:40" {
		t.Errorf("next group by %q", got)
	}
	if s := o.Assess(entryOf(t, "measured", "sex=M;age=14;measured-vo2max=44")); len(s.Youth) != 1 || s.Youth[0].Line != 44.1 || s.Youth[0].Above {
		t.Errorf("youth %+v", s.Youth)
	}
	if st := measuredAs(t, "sex=M;age=45", "33").Adults[0]; st.Table != reference.DefaultAdults(false) {
		t.Errorf("by default %s", st.Table.ID)
	}
}
