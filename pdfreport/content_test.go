package pdfreport_test

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/scoring/reference"
)

// textOf returns the text of a case's page.
func textOf(t *testing.T, name string) string {
	t.Helper()
	pdf, _ := pageOf(t, cases[name].person(t))
	return strings.Join(strings.Fields(dump(extract(t, pdf))), " ")
}

// TestContent checks what pages must and must not say.
func TestContent(t *testing.T) {
	for _, tt := range []struct {
		name      string
		has, lack []string
	}{
		// A clinician comes before all else.
		{"symptoms", []string{"Until then keep to gentle", "Test again only once the clinician agrees"},
			[]string{"8 to 12 weeks", "Near maximal", "mile walked", "In your test that is", "to go", "What training can bring"}},
		{"girl-symptoms", []string{"Until then no test", "only once the doctor agrees"}, []string{"8 to 12 weeks", "clinician", "In the same test"}},
		{"girl-15-fast", []string{"talk to whoever ran it", "once that is settled"}, []string{"8 to 12 weeks", "In the same test"}},
		{"girl-16-fast", []string{"112 times a minute", "Until then no test"}, []string{"8 to 12 weeks", "because of an answer"}},
		{"unscored-medicine", []string{"Never leave out a medicine", "6-minute walk", "your number was", "15:36 on"}, []string{"mL/kg/min", "8 to 12 weeks"}},
		{"unscored-school", []string{"what is missing: age", "young hearts"}, []string{"see a clinician", "most fit adults"}},
		{"norm-high", []string{"Until then keep"}, []string{"8 to 12 weeks", "Near maximal"}},
		{"rest-104", []string{"Until then keep"}, []string{"8 to 12 weeks", "Near maximal"}},
		// A medicine makes heart rates meaningless.
		{"medicine", []string{"Please read this first"}, []string{"Near maximal", "most fit adults", "metres in 12", "to go"}},
		{"medicine-cleared", []string{"Go by your breath"}, []string{"Near maximal", "most fit adults", "endurance athletes"}},
		// Heart rates: 185 − 57 = 128 (208 − 0.7 × 33.2 = 184.76); 57 + 0.4 × 127.76 = 108.
		{"greek", []string{"95–108", "108–134", "134–172", "172–185", "predicted from age", "about 5 (the lightest) to 11 (the hardest)", "Garber CE"}, nil},
		{"max-measured", []string{"the maximum that was measured, 182", "97–109"}, []string{"predicted from age", "Tanaka"}},
		{"squad-lab", []string{"up to 148", "148–174", "from 174", "128 L/min", "1.14", "112 mL a beat", "Cardiac output (worked out)", "21.6 L/min", "1.5-mile run: 8:42", "as far as their errors go"},
			[]string{"Garber CE", "Vigorous"}},
		{"lab-impossible", []string{"can't all be right", "may not have been a maximal one", "do not fit together"}, nil},
		{"lab-uptake", []string{"Oxygen uptake (worked out)", "2.66 L/min"}, nil},
		{"tests-differ", []string{"The tests differ by more than their errors allow", "12-minute run: 1620 m"}, []string{"as far as their errors go"}},
		{"norm-beside", []string{"2-minute step in place: 95", "Your other test"}, nil},
		// Tables have names, and only those in use are cited.
		{"friend-treadmill", []string{"is in the top quarter", "FRIEND 2022", "Kaminsky LA"}, []string{"falls in the group", "Mandsager"}},
		{"friend-cycle", []string{"on cycles", "FRIEND 2017", "less on a cycle"}, []string{"falls in the group", "Mandsager"}},
		{"almeida", []string{"Almeida AEM"}, []string{"Mandsager", "FRIEND", "have a lower value"}},
		{"nhanes", []string{"too high"}, []string{"Mandsager", "FRIEND", "have a lower value"}},
		{"by-stages", []string{"falls in the group", "15 to 25% above measured", "Mandsager"}, []string{"FRIEND", "have a lower value"}},
		{"no-row", []string{"has no row for your age"}, []string{"Mandsager"}},
		{"own-table", []string{"Harbour table.csv", "falls in the group strong enough for the rescue boat crew", "*fair* going"}, []string{"Mandsager"}},
		{"boy-other-line", []string{"health line for boys is 44.1", "comes from Lobelo 2009", "Lobelo F"}, []string{"Ruiz"}},
		{"boy-12-below", []string{"health line for boys is 41.8", "Ruiz JR"}, []string{"Lobelo"}},
		// The usual value, and what training brings, for those in its study.
		{"woman-45", []string{"about 29.5 is usual, give or take 7.2 (Myers 2017). Yours is 5.0 above that, inside that margin"}, []string{"What training can bring"}},
		{"woman-50-low", []string{"gave inactive people of your weight 4.0 more", "Bouchard C"}, nil},
		{"friend-treadmill", []string{"(de Souza e Silva 2018)"}, []string{"What training can bring"}},
		{"woman-71", nil, []string{"What training can bring", "Bouchard"}},
		{"squad-lab", nil, []string{"What training can bring"}},
		// Without an exercise test: rough, and nothing in terms of a test.
		{"no-test", []string{"Rough estimate", "No exercise test was done", "Wide range 18.7 to 36.0", "Do a field test"}, []string{"is usual, give or take", "8 to 12 weeks", "Estimated VO", "beyond this test"}},
		// The years ahead, from 50 on.
		{"man-55", []string{"at 80 takes 25.7 to 30.4 now; you have more", "at 90 takes 28.8 to 35.5 now", "no promise of years", "slow fall: 28.7", "fast fall: 22.1", "Paterson DH"}, nil},
		{"man-78-near", []string{"you have more", "you have less", "reaches down to it"}, nil},
		{"woman-50-low", []string{"below that line", "Building up now"}, []string{"you have less", "slow fall", "Paterson"}},
		{"man-92", []string{"least for living on your own: 18"}, []string{"slow fall", "at 90"}},
		{"woman-45", nil, []string{"living on your own"}},
		// Read against norms: a count, and no oxygen uptake.
		{"norm-man-67", []string{"86 times", "Men aged 65–69 reach 101 on average", "78 to 124", "within that range", "15 more than you", "Rikli RE", "8 to 12 weeks", "96–105", "This page is no diagnosis"},
			[]string{"mL/kg/min", "Mandsager", "Likely range"}},
		{"norm-woman-81", []string{"below that range"}, []string{"Heart rates to train at"}},
		{"norm-high", []string{"above that range", "You have reached that"}, nil},
		{"squad-62", []string{"Nine chances in ten: 57.4 to 66.6"}, nil},
		{"beyond-test", []string{"Nine chances in ten: 0.0 to"}, nil},
	} {
		text := textOf(t, tt.name)
		for _, want := range tt.has {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the page does not say %q:\n%s", tt.name, want, text)
			}
		}
		for _, not := range tt.lack {
			if strings.Contains(text, not) {
				t.Errorf("%s: the page says %q", tt.name, not)
			}
		}
	}
}

// TestClinicianBeginsNext: the advice starts with the clinician.
func TestClinicianBeginsNext(t *testing.T) {
	text := textOf(t, "symptoms")
	if first, move := strings.Index(text, "when the clinician agrees"), strings.Index(text, "Move on most days"); first < 0 || first > move {
		t.Errorf("the clinician comes at %d, moving at %d", first, move)
	}
}

// TestEveryFlagHasWords: each remark has a block that some page says.
func TestEveryFlagHasWords(t *testing.T) {
	elsewhere := regexp.MustCompile("^(error-assumed|independence|sex-missing|age-missing|no-table|youngest-row|no-exercise|tests-differ)$")
	for _, code := range scoring.FlagCodes() {
		p := cases["woman-45"].person(t)
		p.Score.Flags = append(p.Score.Flags, scoring.Flag{Code: code, Detail: scoring.Verbatim("detail")})
		said := false
		hear := func(key, _ string) { said = said || key == "flag."+code.ID() }
		p.Words = p.Words.Heard(hear)
		if _, err := person.Write(io.Discard, p); err != nil {
			t.Fatal(err)
		}
		if !said && !elsewhere.MatchString(code.ID()) {
			t.Errorf("no page says %s", code.ID())
		}
	}
}

// TestDifferencesAreThoseOfTheNumbersPrinted: a printed difference is that of the
// printed numbers.
func TestDifferencesAreThoseOfTheNumbersPrinted(t *testing.T) {
	adults, err := reference.OwnGroupTable("club", [][]string{
		{"sex", "age_min", "age_max", "unit", "weak", "fair", "sound", "strong", "superb"},
		{"F", "18", "", "mL/kg/min", "", "20", "25", "30", "35.04"}})
	if err != nil {
		t.Fatal(err)
	}
	// 32.66 and 35.04 are 2.38 apart, but 32.7 and 35.0 are 2.3.
	pdf, _ := pageOf(t, made{name: "Ida Fjordvik", sex: scoring.Female, age: 42, tests: measured(32.66), adults: adults}.person(t))
	text := dump(extract(t, pdf))
	for _, want := range []string{"32.7", "35.0", "2.3 to go"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}
