package scoring_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	. "tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// What is declared must be whole: a newcomer who forgets a part of a test
// meets it here.

var shortName = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9.]+)*$`)

// fold is how two headers are compared: case and spaces do not count.
func fold(s string) string {
	return strings.Join(strings.Fields(strings.ToLower(s)), " ")
}

func inBibliography(key string) bool {
	return slices.ContainsFunc(fieldtests.Bibliography(), func(s Source) bool { return s.Key == key })
}

func TestTestsAreWhole(t *testing.T) {
	ids := map[string]bool{}
	columns, names := map[string]string{}, map[string]string{}
	for _, test := range fieldtests.All() {
		t.Run(test.ID, func(t *testing.T) {
			if !shortName.MatchString(test.ID) || ids[test.ID] {
				t.Errorf("id %q is no short name or is used twice", test.ID)
			}
			ids[test.ID] = true
			if test.Name == "" || !strings.HasSuffix(test.Suits, ".") || len(test.Protocol) == 0 {
				t.Error("name, suits or protocol is missing")
			}
			for _, line := range test.Protocol {
				if !strings.HasSuffix(line, ".") {
					t.Errorf("a protocol line is no sentence: %q", line)
				}
			}
			for _, name := range append([]string{test.Name, test.ID}, test.Names...) {
				if other, taken := names[fold(name)]; taken && other != test.ID {
					t.Errorf("the name %q is also one of %s", name, other)
				}
				names[fold(name)] = test.ID
			}
			if (len(test.Results) == 0) != test.Fallback || (len(test.Equations) == 0) != (test.Norm != nil) {
				t.Fatal("only a fall-back has no result, only a test with norms of its own no equation")
			}
			for _, r := range test.Results {
				if r.Column == "" {
					t.Errorf("%s has no column", r.Input)
				}
				for _, header := range append([]string{r.Column}, r.Headers...) {
					owner := test.ID + " " + r.Input.String()
					if other, taken := columns[fold(header)]; taken && other != owner {
						t.Errorf("the header %q of %s also means %s", header, owner, other)
					}
					columns[fold(header)] = owner
				}
				if r.Input.Info().Personal {
					t.Errorf("the result %s belongs to the person, not to the test", r.Input)
				}
				if r.Better != LowerIsBetter && r.Better != HigherIsBetter {
					t.Errorf("%s: which way is better?", r.Input)
				}
				if hasStep := r.Step.Amount != 0; hasStep != (strings.Count(r.Phrase, "%s") == 1) {
					t.Errorf("%s: step %s and phrase %q do not go together", r.Input, r.Step, r.Phrase)
				} else if hasStep && !r.Step.Unit.Converts(r.Input.Info().Unit) {
					t.Errorf("%s: step in %s", r.Input, r.Step.Unit)
				}
			}
			youth := false
			for _, e := range test.Equations {
				youth = youth || e.Ages.Min < 18 && !e.Choice
			}
			if test.Choice == "" && test.Norm == nil {
				t.Error("nothing says why its equations are chosen")
			}
			if test.Youth != youth {
				t.Errorf("youth is %v, but an equation accepting people under 18: %v", test.Youth, youth)
			}
			for _, in := range test.Extra {
				if !slices.Contains(test.Needs(), in) {
					t.Errorf("%s is not among the needs", in)
				}
			}
			for _, in := range test.Needs() {
				if slices.ContainsFunc(test.Results, func(r Result) bool { return r.Input == in }) {
					t.Errorf("the result %s is listed as a need", in)
				}
			}
		})
	}
}

func TestEquationsAreWhole(t *testing.T) {
	ids := map[string]bool{}
	for _, test := range fieldtests.All() {
		for _, e := range test.Equations {
			t.Run(e.ID, func(t *testing.T) {
				if !shortName.MatchString(e.ID) || ids[e.ID] {
					t.Error("the id is no short name or is used twice")
				}
				ids[e.ID] = true
				if e.Name == "" || e.Population == "" || e.Status == "" {
					t.Error("name, population or status is missing")
				}
				if !inBibliography(e.Source) {
					t.Errorf("source %q is not in the bibliography", e.Source)
				}
				if e.Ages.Min > e.Ages.Max {
					t.Errorf("for %v", e.Ages)
				}
				figures := 0
				for _, x := range []float64{float64(e.Error.SEE), e.Error.Share, e.Error.LPerMin} {
					if x > 0 {
						figures++
					}
				}
				if e.Error.Curve != nil {
					figures++
				}
				if figures != 1 {
					t.Errorf("one error figure is needed: %+v", e.Error)
				}
				if e.Error.Status == ErrorAssumed && e.Error.Note == "" {
					t.Error("an assumed error needs a note")
				}
				if !e.OutUnit().Converts(MLPerKgMin) {
					t.Errorf("the result is in %s", e.OutUnit())
				}
				for _, v := range e.Vars {
					if !uses(e, v.Symbol) {
						t.Errorf("%s is declared and never used", v.Symbol)
					}
				}
				for i, s := range e.Steps {
					if s.Symbol == "" || s.Name == "" || !inBibliography(s.Source) {
						t.Errorf("step %q: name or source %q", s.Symbol, s.Source)
					}
					if (s.Formula == "") == (s.Lookup == nil) {
						t.Errorf("step %s needs a formula or a look-up", s.Symbol)
					}
					if s.HasInst && !s.Unit.Converts(s.Instead.Info().Unit) {
						t.Errorf("step %s in %s replaced by %s in %s", s.Symbol, s.Unit, s.Instead, s.Instead.Info().Unit)
					}
					if !uses(e, s.Symbol) {
						t.Errorf("step %s is worked out and never used", s.Symbol)
					}
					if !strings.HasPrefix(e.PrintedStep(i), s.Symbol+" = ") {
						t.Errorf("step printed as %q", e.PrintedStep(i))
					}
				}
				for _, l := range e.Limits {
					if l.Min >= l.Max || l.Why == "" {
						t.Errorf("limit %+v", l)
					}
				}
				if !strings.HasPrefix(e.Printed(), "VO2max = ") {
					t.Errorf("printed as %q", e.Printed())
				}
			})
		}
	}
}

// uses reports whether a formula of the equation reads the symbol.
func uses(e *Equation, symbol string) bool {
	mark := regexp.MustCompile(`\b` + symbol + `\b`)
	return mark.MatchString(e.Formula) || slices.ContainsFunc(e.Steps, func(s Step) bool { return mark.MatchString(s.Formula) })
}

func TestInputsAreWhole(t *testing.T) {
	ids := map[string]bool{}
	for in := Input(0); in < InputCount; in++ {
		info := in.Info()
		if !shortName.MatchString(info.ID) || ids[info.ID] {
			t.Errorf("input %d: id %q is no short name or is used twice", in, info.ID)
		}
		ids[info.ID] = true
		if info.Name == "" || info.Min >= info.Max || !strings.HasSuffix(info.Meaning, ".") {
			t.Errorf("%s: name, range %g to %g or meaning %q", in, info.Min, info.Max, info.Meaning)
		}
		if in.String() != info.ID {
			t.Errorf("%s is written %s", info.ID, in)
		}
	}
}

func TestUnitsAreWhole(t *testing.T) {
	symbols := map[string]bool{}
	for u := Unit(0); u < UnitCount; u++ {
		if u != NoUnit && u.String() == "" || symbols[u.String()] {
			t.Errorf("unit %d: symbol %q is empty or used twice", u, u)
		}
		symbols[u.String()] = true
		if u.Factor() == 0 {
			t.Errorf("%s has no factor", u)
		}
	}
}

func TestFlagsAreWhole(t *testing.T) {
	ids := map[string]bool{}
	for _, code := range FlagCodes() {
		if !shortName.MatchString(code.ID()) || ids[code.ID()] {
			t.Errorf("flag %d: id %q is no short name or is used twice", code, code.ID())
		}
		ids[code.ID()] = true
		if code.Short() == "" || code.Severity() > Clinician {
			t.Errorf("%s: short form %q, severity %d", code.ID(), code.Short(), code.Severity())
		}
		plain, detailed := Flag{Code: code}.String(), Flag{Code: code, Detail: Verbatim("17")}.String()
		if detailed != plain+" (17)" {
			t.Errorf("%s with a detail reads %q", code.ID(), detailed)
		}
	}
}

func TestTablesCiteTheBibliography(t *testing.T) {
	for _, table := range reference.Tables() {
		if !inBibliography(table.Source) {
			t.Errorf("%s: source %q is not in the bibliography", table.ID, table.Source)
		}
	}
}

func TestBibliography(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range fieldtests.Bibliography() {
		if seen[s.Key] || s.Key == "" || len(s.Citation) < 20 {
			t.Errorf("source %q: twice, or no citation", s.Key)
		}
		seen[s.Key] = true
		if fieldtests.Cite(s.Key) != s.Citation {
			t.Errorf("%s is cited as %q", s.Key, fieldtests.Cite(s.Key))
		}
	}
	if got := fieldtests.Cite("nobody1900"); got != "nobody1900" {
		t.Errorf("an unknown key is cited as %q", got)
	}
}

// A fault in a declaration says where it is.
func TestFaultyDeclarations(t *testing.T) {
	hr := Var{"HR", ExerciseHR, BeatsPerMinute}
	for _, c := range []struct {
		name string
		e    *Equation
		want string
	}{
		{"a unit that does not fit", &Equation{Vars: []Var{{"HR", ExerciseHR, Kilograms}}, Formula: "HR"}, "HR: exercise-hr does not convert to kg"},
		{"a formula that does not read", &Equation{Vars: []Var{hr}, Formula: "HR +"}, "expected operand"},
		{"a symbol that is not there", &Equation{Vars: []Var{hr}, Formula: "HR + T"}, "unknown symbol T"},
		{"a step that uses what comes later", &Equation{Vars: []Var{hr}, Steps: []Step{{Symbol: "a", Formula: "b"}, {Symbol: "b", Formula: "HR"}}, Formula: "a"}, "unknown symbol b"},
		{"a limit on nothing", &Equation{Vars: []Var{hr}, Formula: "HR", Limits: []Limit{{Symbol: "T"}}}, "limit on unknown symbol T"},
		{"too many symbols", &Equation{Vars: []Var{{"a", Age, Years}, {"b", Age, Years}, {"c", Age, Years}, {"d", Age, Years}, {"e", Age, Years}, {"f", Age, Years},
			{"g", Age, Years}, {"h", Age, Years}, {"i", Age, Years}, {"j", Age, Years}, {"k", Age, Years}, {"l", Age, Years}, {"m", Age, Years}}, Formula: "a"}, "13 symbols, at most 12"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := Compile(c.e); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %q in it", err, c.want)
			}
		})
	}
}

func TestNeeds(t *testing.T) {
	needs := testOf(t, "run-1.5-mile").Needs()
	for _, in := range []Input{Age, BodyMass, SexInput, Effort, ExerciseHR, MaxHR} {
		if !slices.Contains(needs, in) {
			t.Errorf("%s is not among the needs %v", in, needs)
		}
	}
	for i, in := range needs {
		if slices.Contains(needs[i+1:], in) {
			t.Errorf("%s is needed twice", in)
		}
	}
	if test := (&Test{Also: []Also{{Input: Distance}}}); !slices.Contains(test.Needs(), Distance) {
		t.Error("a column of the test alone is not among its needs")
	}
}
