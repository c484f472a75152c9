package person

import (
	"io"
	"math"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
)

// personOf returns an invented person with a measured VO2max, read against
// adults.
func personOf(t *testing.T, sex scoring.Sex, age, vo2, rest float64, adults *reference.GroupTable) Person {
	t.Helper()
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	entry := &scoring.Entry{}
	entry.SetSex(sex, "")
	entry.Set(scoring.Age, scoring.Q(age, scoring.Years), "")
	entry.Set(scoring.RestingHR, scoring.Q(rest, scoring.BeatsPerMinute), "")
	trial := scoring.Trial{Test: fieldtests.Measured}
	trial.Set(scoring.MeasuredVO2, scoring.Q(vo2, scoring.MLPerKgMin), "")
	entry.Trials = []scoring.Trial{trial}
	score := scoring.Options{Adults: adults}.Assess(entry)
	return Person{Name: "x", Score: &score, Words: words}
}

// apart checks labels for order, distance and bounds.
func apart(t *testing.T, where string, labels []kit.Label, width float64) {
	t.Helper()
	end := 0.0
	for _, l := range labels {
		if l.At-l.Width/2 < end-1e-6 {
			t.Errorf("%s: %q begins at %.1f, before %.1f", where, l.Text, l.At-l.Width/2, end)
		}
		end = l.At + l.Width/2
	}
	if end > width+1e-6 {
		t.Errorf("%s: labels end at %.1f of %.1f", where, end, width)
	}
}

// TestLabelsNeverCollide draws the group scale for every row of the table and
// every VO2max from 8 to 97 mL/kg/min.
func TestLabelsNeverCollide(t *testing.T) {
	for _, sex := range []scoring.Sex{scoring.Female, scoring.Male} {
		for years := 18.5; years < 90; years += 10 {
			for v := 8.0; v <= 97; v++ {
				c := newPage(personOf(t, sex, years, v, 60, nil))
				st := c.adults[0]
				own := st.Decades()[0]
				a := c.groupAxis(st.Decades()[:1], c.Width)
				where := sex.String() + " " + c.ages(own.Ages) + " " + c.one(c.best.VO2)
				apart(t, where, standingChapter{c}.openingLabels(a, own), c.Width)
				apart(t, where, standingChapter{c}.groupLabels(a, st), c.Width)
				low, high := c.best.Likely()
				for _, end := range []scoring.VO2{low, high} {
					text := kit.Labelled(0, c.one(end), kit.SmallFace)
					if at := a.At(float64(end)); at < text.Width+4 && end == low || c.Width-at < text.Width+4 && end == high {
						t.Errorf("%s: no room for %s beside the band", where, text.Text)
					}
				}
				for _, g := range reference.Groups() {
					if from, to := segment(a, own, g); to <= from {
						t.Errorf("%s: group %d has no width", where, g)
					}
				}
			}
		}
	}
}

// TestGroupLabelsOfOtherTables draws the names of every other table.
func TestGroupLabelsOfOtherTables(t *testing.T) {
	own, err := reference.OwnGroupTable("Harbour table.csv", [][]string{
		{"sex", "age_min", "age_max", "unit", "just starting out", "**fair** going", "sound", "strong enough for the rescue boat crew", "superb"},
		{"F", "18", "", "mL/kg/min", "", "26", "30", "34", "41"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, table := range append([]*reference.GroupTable{own}, reference.AdultTables[1:]...) {
		for _, years := range []float64{20.5, 45.5} {
			for v := 8.0; v <= 97; v += 3 {
				c := newPage(personOf(t, scoring.Female, years, v, 60, table))
				st := c.adults[0]
				a := c.groupAxis(st.Decades()[:1], c.Width)
				where := table.ID + " " + c.ages(st.Decades()[0].Ages) + " " + c.one(c.best.VO2)
				apart(t, where, standingChapter{c}.openingLabels(a, st.Decades()[0]), c.Width)
				apart(t, where, standingChapter{c}.groupLabels(a, st), c.Width)
			}
		}
	}
}

// TestRestingLabels draws the resting scale for every rate that can be typed.
func TestRestingLabels(t *testing.T) {
	for rate := 25.0; rate <= 150; rate++ {
		p := personOf(t, scoring.Female, 45.4, 34.5, rate, nil)
		c := newPage(p)
		a := restingAxis(rate, c.Width)
		if at := a.At(rate); at < 0 || at > c.Width {
			t.Errorf("%.0f lies outside the scale", rate)
		}
		p5, _ := reference.RestingValue(scoring.Female, c.years, 5)
		p95, _ := reference.RestingValue(scoring.Female, c.years, 95)
		const width = 26
		if name := whoseAt(a.At(p5), a.At(p95), width, a.At(rate)); math.Abs(name-a.At(rate)) < width/2 {
			t.Errorf("%.0f: the line runs through the name of the bar", rate)
		}
		low := kit.Labelled(0, c.Say("resting.mark.symptoms", nil), kit.SmallFace).Width
		high := kit.Labelled(0, c.Say("resting.mark.clinician", nil), kit.SmallFace).Width
		room := a.At(scoring.RestingClinicalHigh) - a.At(scoring.RestingClinicalLow)
		if low+high+12 > room {
			t.Errorf("%.0f: the words at the clinical lines take %.0f of %.0f", rate, low+high+12, room)
		}
		if _, err := Write(io.Discard, p); err != nil {
			t.Errorf("%.0f: %v", rate, err)
		}
	}
}
