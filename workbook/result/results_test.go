package result

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
	"tenback/templates"
	"tenback/workbook/people"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// outcomeOf scores what is given, as a row that was read.
func outcomeOf(t *testing.T, set func(e *scoring.Entry), problems ...roster.Problem) *Outcome {
	t.Helper()
	row := &roster.Row{Sheet: "People", Number: 2, Person: roster.Person{Name: "Ann"}, Problems: problems}
	set(&row.Entry)
	o := New(&people.Visit{Row: row}, &scoring.Options{}, nil)
	o.Report = "Ann.pdf"
	return &o
}

func person(e *scoring.Entry, sex scoring.Sex, age float64) {
	e.SetSex(sex, "B2")
	e.Set(scoring.Age, scoring.Q(age, scoring.Years), "C2")
}

// trial adds a test with its values: pairs of input and amount in the input's
// own unit.
func trial(t *testing.T, e *scoring.Entry, id string, values map[scoring.Input]float64) {
	t.Helper()
	test, ok := fieldtests.ByID(id)
	if !ok {
		t.Fatalf("no test %s", id)
	}
	tr := scoring.Trial{Test: test}
	for in, x := range values {
		tr.Set(in, scoring.Q(x, in.Info().Unit), "D2")
	}
	e.Trials = append(e.Trials, tr)
}

// run gives the entry of an all-out 1.5-mile run that took so many seconds;
// without body mass only 3.5 + 483/T reads it.
func run(t *testing.T, sex scoring.Sex, age, seconds float64) func(*scoring.Entry) {
	return func(e *scoring.Entry) {
		person(e, sex, age)
		trial(t, e, "run-1.5-mile", map[scoring.Input]float64{scoring.Time: seconds})
	}
}

func valueOf(t *testing.T, o *Outcome, id string) Value {
	t.Helper()
	for _, c := range Columns(sheetwords.Of(nil)) {
		if c.ID == id {
			return c.Value(o, o.Score(&scoring.Options{}))
		}
	}
	t.Fatalf("no result column %s", id)
	return Value{}
}

func TestResultColumnsAreComplete(t *testing.T) {
	ids, headers := map[string]bool{}, map[string]bool{}
	for _, c := range Columns(sheetwords.Of(nil)) {
		if ids[c.ID] || headers[c.Header] || c.ID == "" || c.Header == "" || c.Explain == "" || c.Value == nil {
			t.Errorf("column %q is declared by halves, or twice", c.Header)
		}
		ids[c.ID], headers[c.Header] = true, true
	}
}

func TestResultTexts(t *testing.T) {
	// 3.5 + 483/T: 960 s give 33.69.
	for _, c := range []struct {
		name string
		set  func(*scoring.Entry)
		want map[string]string
	}{
		{"man of 55", run(t, scoring.Male, 55.5, 960), map[string]string{
			"estimated-from": "1.5-mile run: running cost at the mean speed, all-out",
			// Men of 50-59: 23.9, 29.4, 35.5 and 46.8 open the groups (kaminsky2022),
			// and 905 s give 35.52.
			"group":   "third quarter",
			"next":    "top quarter from 35.5 (1.8 more): 1.5 miles in 15:05",
			"resting": "",
			"report":  "Ann.pdf",
		}},
		{"measured", func(e *scoring.Entry) {
			person(e, scoring.Female, 35)
			trial(t, e, "measured", map[scoring.Input]float64{scoring.MeasuredVO2: 70})
		}, map[string]string{
			"estimated-from": "measured",
			"group":          "top twentieth",
			"percentile":     "above the 95th",
			"next":           "top group reached",
			"decade-1":       "20–29: top twentieth, top group reached",
			"decade-2":       "",
		}},
		{"girl above the line", func(e *scoring.Entry) {
			person(e, scoring.Female, 13.5)
			e.Set(scoring.RestingHR, scoring.Q(82, scoring.BeatsPerMinute), "E2")
			trial(t, e, "shuttle-20-m", map[scoring.Input]float64{scoring.ShuttleLevel: 9})
		}, map[string]string{
			"group": "at or above the health line", "percentile": "", "next": "", "decade-1": "", "decade-2": "",
		}},
		{"boy below the line", func(e *scoring.Entry) {
			person(e, scoring.Male, 13.5)
			trial(t, e, "shuttle-20-m", map[scoring.Input]float64{scoring.ShuttleLevel: 3})
		}, map[string]string{
			"group": "below the health line", "percentile": "", "decade-1": "", "decade-2": "",
		}},
		{"nothing done", func(e *scoring.Entry) { person(e, scoring.Male, 40) }, map[string]string{
			"vo2max": "", "likely-low": "", "likely-high": "", "estimated-from": "", "group": "", "next": "",
			"flags": "not scored: no test result in this row",
		}},
		{"too young for the test", run(t, scoring.Female, 13.5, 720), map[string]string{"vo2max": "", "group": ""}},
		{"read against norms of its own", func(e *scoring.Entry) { // women of 70-74: 84 with an SD of 25; 89 (rikli-jones)
			person(e, scoring.Female, 71)
			trial(t, e, "step-in-place-2-min", map[scoring.Input]float64{scoring.StepsInPlace: 58})
		}, map[string]string{
			"vo2max": "", "group": "",
			"flags": "2-minute step in place: 58, below the usual 59 to 109 at 70–74, and below the 89 of people who stay independent",
		}},
		{"pulse of someone of unknown age, who may be a child", func(e *scoring.Entry) {
			e.Set(scoring.RestingHR, scoring.Q(78, scoring.BeatsPerMinute), "E2")
		}, map[string]string{"resting": "78"}},
		{"resting rate of 104", func(e *scoring.Entry) {
			person(e, scoring.Male, 40)
			e.Set(scoring.RestingHR, scoring.Q(104, scoring.BeatsPerMinute), "E2")
		}, map[string]string{
			"resting": "104: fast; above the 97.5th percentile (low is slow)",
			"flags":   "resting heart rate 100 or more: see a clinician before hard exercise; not scored: no test result in this row",
		}},
	} {
		o := outcomeOf(t, c.set)
		for id, want := range c.want {
			if v := valueOf(t, o, id); v.Text != want || v.IsNumber() {
				t.Errorf("%s: %s is %+v, want %q", c.name, id, v, want)
			}
		}
	}
}

func TestNumbersAreNumbers(t *testing.T) {
	o := outcomeOf(t, run(t, scoring.Male, 40, 720))
	vo2, low, high, place := valueOf(t, o, "vo2max"), valueOf(t, o, "likely-low"), valueOf(t, o, "likely-high"), valueOf(t, o, "percentile")
	for _, v := range []Value{vo2, low, high, place} {
		if !v.IsNumber() {
			t.Fatalf("%+v is no number", v)
		}
	}
	if vo2.Number != 3.5+483.0/12 {
		t.Errorf("VO2max is %v, want 43.75", vo2.Number)
	}
	// The standard error of 3.5 + 483/T is assumed to be 5.0.
	if low.Number != 38.75 || high.Number != 48.75 {
		t.Errorf("likely range is %v to %v, want 38.75 to 48.75", low.Number, high.Number)
	}
}

// The gap printed is the difference of the two numbers printed, and the result
// that is named does open the group.
func TestNextGroupCanBeChecked(t *testing.T) {
	o := outcomeOf(t, run(t, scoring.Male, 55.5, 960)) // 33.69, and the top quarter opens at 35.5 (kaminsky2022)
	got := valueOf(t, o, "next").Text
	group, goal := valueOf(t, o, "group").Text, o.Score(&scoring.Options{}).Adults[0].Next
	if group == "" || goal == nil {
		t.Fatalf("group %q, no next group", group)
	}
	if !strings.HasPrefix(got, "top quarter from ") || !strings.Contains(got, "more): 1.5 miles in ") {
		t.Errorf("next group: %q", got)
	}
	_, clock, _ := strings.Cut(got, "1.5 miles in ")
	var minutes, seconds float64
	if n, err := fmt.Sscanf(clock, "%f:%f", &minutes, &seconds); n != 2 || err != nil {
		t.Fatalf("%q holds no time: %v", got, err)
	}
	reached := outcomeOf(t, run(t, scoring.Male, 55.5, minutes*60+seconds))
	if reached.Score(&scoring.Options{}).Adults[0].Group != goal.Group {
		t.Errorf("%s lands in %v, not in %v", clock, reached.Score(&scoring.Options{}).Adults[0].Group, goal.Group)
	}
	if slower := outcomeOf(t, run(t, scoring.Male, 55.5, minutes*60+seconds+1)); slower.Score(&scoring.Options{}).Adults[0].Group == goal.Group {
		t.Errorf("a second more than %s would do too", clock)
	}
}

func TestTwoTablesAreNamed(t *testing.T) {
	o := outcomeOf(t, run(t, scoring.SexUnspecified, 55.5, 960))
	for id, prefix := range map[string]string{"group": "", "percentile": "", "next": "", "decade-1": "40–49, ", "decade-2": "30–39, "} {
		v := valueOf(t, o, id).Text
		text, begins := strings.CutPrefix(v, prefix)
		women, men, ok := strings.Cut(text, "; ")
		if !begins || !ok || !strings.HasPrefix(women, "women: ") || !strings.HasPrefix(men, "men: ") {
			t.Errorf("%s does not name its tables: %q", id, v)
		}
	}
}

// TestColumnsCanBeReadWhole goes through all places in the tables, of people
// whose sex is not given, whose texts are the longest.
func TestColumnsCanBeReadWhole(t *testing.T) {
	for _, language := range templates.Languages() {
		words, err := templates.Load(language, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range Columns(sheetwords.Of(words)) {
			if !slices.Contains([]string{"group", "percentile", "decade-1", "decade-2"}, c.ID) {
				continue
			}
			for seconds := 480.0; seconds < 1600; seconds += 15 {
				for age := 20.5; age < 90; age += 5 {
					o := outcomeOf(t, run(t, scoring.SexUnspecified, age, seconds))
					if text := c.Value(o, o.Score(&scoring.Options{})).Text; textWidth*float64(utf8.RuneCountInString(text))+textSpace > maxWidth {
						t.Errorf("%s, %s: %d characters: %q", language, c.ID, utf8.RuneCountInString(text), text)
					}
				}
			}
		}
	}
}

func TestFlagsTellWhatStoodInTheWay(t *testing.T) {
	ambiguous := roster.Problem{Sheet: "People", Cell: "D2", Read: "11.30", What: scoring.Verbatim("11 min 30 s or 11.3 minutes"), Fix: scoring.Verbatim("type 11:30 or 11:18"), Blocking: true}
	remark := roster.Problem{Sheet: "People", Cell: "E2", What: scoring.Verbatim("a remark")}
	o := outcomeOf(t, func(e *scoring.Entry) {
		person(e, scoring.Male, 40)
		trial(t, e, "walk-1-mile", map[scoring.Input]float64{scoring.Time: 840, scoring.ExerciseHR: 130})
	}, ambiguous, remark)
	want := "not scored: D2: 11 min 30 s or 11.3 minutes → type 11:30 or 11:18; D2: 1-mile walk needs the body mass → add a column for the body mass"
	if got := valueOf(t, o, "flags").Text; got != want {
		t.Errorf("flags:\n got %q\nwant %q", got, want)
	}
}

// TestChangeColumns: the three columns of seasons, and that they are blank for
// who was never tested before.
func TestChangeColumns(t *testing.T) {
	outcome := func(first, last float64) *Outcome { return changed(t, first, last) }
	for _, c := range []struct {
		name                string
		o                   *Outcome
		change, chance, not string
	}{
		// 483/11 less 483/14 is 9.41; by 3.54 2.66 standard errors.
		{"a real rise", outcome(840, 660), "9.4", "0.99", "1 March 2026: real rise; pulse at 11.3 km/h 28 lower"},
		{"no change that can be told", outcome(720, 700), "1.1", "0.62", "1 March 2026: no change that the tests can tell; pulse at 11.3 km/h 28 lower"},
		{"a doubt", &Outcome{Visit: people.Visit{Row: &roster.Row{}, Doubt: people.DayUnknown}}, "", "", "not compared: the day of this test is not known"},
		{"never tested before", &Outcome{Visit: people.Visit{Row: &roster.Row{}}}, "", "", ""},
	} {
		for id, want := range map[string]string{"change": c.change, "chance": c.chance} {
			v := valueOf(t, c.o, id)
			got := ""
			if v.IsNumber() {
				got = fmt.Sprintf(map[string]string{"change": "%.1f", "chance": "%.2f"}[id], v.Number)
			}
			if got != want {
				t.Errorf("%s: %s is %q, want %q", c.name, id, got, want)
			}
		}
		if got := valueOf(t, c.o, "since").Text; got != c.not {
			t.Errorf("%s: since %q, want %q", c.name, got, c.not)
		}
	}
}

// changed compares two runs of so many seconds.
func changed(t *testing.T, first, last float64) *Outcome {
	dated := func(day int, seconds float64) change.Dated {
		e := &scoring.Entry{}
		run(t, scoring.Male, 40, seconds)(e)
		e.Set(scoring.PaceSpeed, scoring.Q(7, scoring.MilesPerHour), "")
		e.Set(scoring.PaceHR, scoring.Q(160-float64(day), scoring.BeatsPerMinute), "")
		s := scoring.Assess(e)
		return change.Dated{Day: time.Date(2026, time.March, day, 0, 0, 0, 0, time.UTC), Score: &s}
	}
	return &Outcome{Visit: people.Visit{Row: &roster.Row{}}, Review: change.ReviewOf([]change.Dated{dated(1, first), dated(29, last)})}
}

// The result columns tell the language of the run that wrote them.
func TestLanguage(t *testing.T) {
	for _, lang := range templates.Languages() {
		sheet := &roster.Sheet{}
		for _, c := range Columns(sheetwords.Of(sheetwords.Builtin()[lang])) {
			sheet.Columns = append(sheet.Columns, roster.Column{Header: c.Header, Meaning: roster.Meaning{Role: roster.Ours}})
		}
		if got := Language(&roster.Roster{Sheets: []*roster.Sheet{sheet}}); got != lang {
			t.Errorf("columns in %s are taken for %q", lang, got)
		}
	}
	own := &roster.Sheet{Columns: []roster.Column{{Header: "VO2max (mL/kg/min)"}}}
	if got := Language(&roster.Roster{Sheets: []*roster.Sheet{own}}); got != "" {
		t.Errorf("a roster without result columns has the language %q", got)
	}
}
