package formula

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var symbols = map[string]int{"T": 0, "kg": 1, "HR": 2}

func TestCompile(t *testing.T) {
	at := []float64{12, 70, 150}
	for _, c := range []struct {
		text, printed, numbers string
		value                  float64
	}{
		{"3.5 + 483/T", "3.5 + 483 / T", "3.5 + 483 / 12", 43.75},
		{"88 - 2*T - 0.5*kg", "88 − 2 × T − 0.5 × kg", "88 − 2 × 12 − 0.5 × 70", 29},
		{"(HR - 60)/(kg + 20)", "(HR − 60) / (kg + 20)", "(150 − 60) / (70 + 20)", 1},
		{"-T + 20", "−T + 20", "−12 + 20", 8},
		{"T - -kg", "T − −kg", "12 − −70", 82},
		{"T*T", "T²", "12²", 144},
		{"2*T*T + 1", "2 × T² + 1", "2 × 12² + 1", 289},
		{"T*T*T", "T × T²", "12 × 12²", 1728},
		{"kg*T", "kg × T", "70 × 12", 840},
		{"kg/T*T", "kg / T × T", "70 / 12 × 12", 70},
		{"100*exp(-T/12)", "100 × exp(−T / 12)", "100 × exp(−12 / 12)", 100 / math.E},
		{"10 - (4 - 3)", "10 − (4 − 3)", "10 − (4 − 3)", 9},
	} {
		f, err := Compile(c.text, symbols)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if got := f.String(); got != c.printed {
			t.Errorf("%s is printed %q, want %q", c.text, got, c.printed)
		}
		if got := f.With(func(s string) string { return strconv.FormatFloat(at[symbols[s]], 'f', -1, 64) }); got != c.numbers {
			t.Errorf("%s with numbers is %q, want %q", c.text, got, c.numbers)
		}
		if got := f.Eval(at); math.Abs(got-c.value) > 1e-12 {
			t.Errorf("%s = %g, want %g", c.text, got, c.value)
		}
	}
}

func TestCompileRefuses(t *testing.T) {
	for _, c := range []struct{ text, why string }{
		{"", "expected operand"},
		{"3 +", "expected operand"},
		{"3.5 + 483/X", "unknown symbol X"},
		{"T^2", "operator ^"},
		{"T % 2", "operator %"},
		{"+T", "operator +"},
		{"!T", "operator !"},
		{"log(T)", "only exp(x) and min(x, y)"},
		{"exp(T, kg)", "only exp(x) and min(x, y)"},
		{"exp(T...)", "only exp(x) and min(x, y)"},
		{"math.exp(T)", "only exp(x) and min(x, y)"},
		{"exp(X)", "unknown symbol X"},
		{"-X", "unknown symbol X"},
		{"X + T", "unknown symbol X"},
		{"T + X", "unknown symbol X"},
		{"T[0]", "IndexExpr is not allowed"},
		{"func() {}", "FuncLit is not allowed"},
		{`"T"`, "invalid syntax"},
		{"1e999", "out of range"},
		{"3; T", "expected"},
	} {
		f, err := Compile(c.text, symbols)
		if err == nil || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%q: formula %v, error %v, want %q in it", c.text, f, err, c.why)
		}
	}
}

func TestLazyPanicsOnAFault(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a faulty formula in the program must stop it")
		}
	}()
	Lazy("208 - 0.7*old", "age")()
}

var squared = regexp.MustCompile(`([A-Za-z]+|[0-9.]+)²`)

// readable turns a printed formula back into what Compile reads.
func readable(printed string) string {
	plain := squared.ReplaceAllString(printed, "$1*$1")
	return strings.NewReplacer("×", "*", "−", "- ").Replace(plain)
}

func FuzzCompile(f *testing.F) {
	for _, text := range []string{"3.5 + 483/T", "108.94 - 8.41*T + 0.34*T*T", "(kg - HR)/(T + 60)", "0.8 + 0.19*exp(-0.013*T)", "min(T, 12.37)"} {
		f.Add(text)
	}
	f.Add("T*T*T - -kg/(HR*HR)")
	f.Add(strings.Repeat("(", 200) + "T")
	f.Add(strings.Repeat("-", 50) + "T")
	at := []float64{11.5, 70.25, 151}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1000 {
			return // formulas are part of the program and short
		}
		form, err := Compile(text, symbols)
		if err != nil {
			return
		}
		value := form.Eval(at)
		printed := form.String()
		again, err := Compile(readable(printed), symbols)
		if err != nil {
			t.Fatalf("%q is printed %q, which does not read back: %v", text, printed, err)
		}
		if got := again.Eval(at); got != value && !(math.IsNaN(got) && math.IsNaN(value)) {
			t.Errorf("%q = %g, but printed as %q it is %g", text, value, printed, got)
		}
	})
}
