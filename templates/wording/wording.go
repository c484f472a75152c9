// Package wording says what package scoring and the field tests declare in the words
// of a language: tests, equations, inputs, units, and what a score has to say. The
// English is that of the declarations, see [Declared]; the other languages have the
// same blocks in declared.tmpl and roster.tmpl.
package wording

import (
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tenback/scoring"
	"tenback/scoring/reference"
)

// Slots fill a block.
type Slots = map[string]any

// Words say what is declared. Say keeps its own errors.
type Words struct {
	Say    func(key string, slots Slots) string
	Number func(x float64, decimals int) string
	Space  string // between a number and its unit
}

// Test is a test's name.
func (w Words) Test(t *scoring.Test) string { return w.Say(testKey(t, "name"), nil) }

// Suits says whom a test suits.
func (w Words) Suits(t *scoring.Test) string { return w.Say(testKey(t, "suits"), nil) }

// Protocol is how a test is run, step by step.
func (w Words) Protocol(t *scoring.Test) []string { return w.lines(testKey(t, "protocol")) }

// Caution says what holds for tests as hard as this one; empty for one at rest.
func (w Words) Caution(t *scoring.Test) string {
	if t.Exertion == scoring.AtRest {
		return ""
	}
	return w.Say("exertion."+t.Exertion.ID()+".caution", nil)
}

// Column is the header of a test's own column for an input.
func (w Words) Column(t *scoring.Test, in scoring.Input) string {
	return w.Say(testKey(t, "column."+in.String()), nil)
}

// ScreenFirst is what to ask before any test.
func (w Words) ScreenFirst() []string { return w.lines("safety.first") }

// StopSigns says when to stop someone, and what to have at hand.
func (w Words) StopSigns() []string { return w.lines("safety.stop") }

func (w Words) lines(key string) []string { return strings.Split(w.Say(key, nil), "\n") }

// Equation is an equation's name.
func (w Words) Equation(e *scoring.Equation) string { return w.Say("equation."+e.ID+".name", nil) }

// People says whom an equation was checked on.
func (w Words) People(e *scoring.Equation) string { return w.Say("equation."+e.ID+".people", nil) }

// Input is an input's name, as in the middle of a sentence.
func (w Words) Input(in scoring.Input) string { return w.Say("input."+in.String()+".name", nil) }

// Meaning says in a sentence what an input is.
func (w Words) Meaning(in scoring.Input) string { return w.Say("input."+in.String()+".meaning", nil) }

// Unit is a unit's symbol.
func (w Words) Unit(u scoring.Unit) string {
	if u == scoring.NoUnit {
		return ""
	}
	return w.Say(unitKey(u), nil)
}

// Quantity is an amount with its unit; times are m:ss.
func (w Words) Quantity(q scoring.Quantity) string {
	if q.Unit.Converts(scoring.Seconds) {
		return q.String()
	}
	return strings.TrimSuffix(w.trimmed(q.Amount, 2)+w.Space+w.Unit(q.Unit), w.Space)
}

// trimmed is a number with at most that many decimals.
func (w Words) trimmed(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	_, after, _ := strings.Cut(text, ".")
	return w.Number(x, len(after))
}

// Ages is a range of ages.
func (w Words) Ages(a reference.Ages) string {
	if a.IsOpen() {
		return w.Say("ages.open", Slots{"From": a.Min})
	}
	return w.Say("ages", Slots{"From": a.Min, "To": a.Max})
}

// Group names a group of a table; a user's own table brings the names.
func (w Words) Group(t *reference.GroupTable, g reference.Group) string {
	if t == nil {
		t = reference.DefaultAdults(false)
	}
	if t.Own {
		return t.Names[g]
	}
	return w.Say(groupKey(t.Kind, g), nil)
}

// groupKey is the key of a group's name, by the kind of its table.
func groupKey(kind string, g reference.Group) string { return kind + "." + strconv.Itoa(int(g)+1) }

// Percentile is a place as an ordinal, or the side beyond what is printed.
func (w Words) Percentile(p reference.Percentile) string {
	key, at := "percentile", p.Shown()
	switch {
	case p.Below:
		key = "percentile.below"
	case p.Above:
		key = "percentile.above"
	}
	return w.Say(key, Slots{"Number": w.trimmed(at, 1), "Ordinal": reference.Ordinal(at)})
}

// Target is a result to reach in the terms of its test; empty if there is none.
func (w Words) Target(t *scoring.Test, target scoring.Target) string {
	if !target.OK {
		return ""
	}
	return w.Phrase(t, target.Result.Input, w.TargetValue(target))
}

// Phrase puts a value of a result, already in words, in the terms of a test.
func (w Words) Phrase(t *scoring.Test, in scoring.Input, value string) string {
	return w.Say(testKey(t, "phrase."+in.String()), Slots{"Value": value})
}

// TargetValue is the number of a target alone.
func (w Words) TargetValue(target scoring.Target) string {
	if target.Quantity.Unit.Converts(scoring.Seconds) {
		return target.Quantity.String()
	}
	return w.trimmed(target.Quantity.Amount, 1)
}

// Result is what someone reached in a test; empty if nothing is known.
func (w Words) Result(t *scoring.Trial) string {
	in, q, shuttle, ok := t.Reached()
	switch {
	case !ok:
		return ""
	case in == scoring.ShuttleLevel:
		level := w.trimmed(q.Amount, 0)
		if shuttle >= 0 {
			level += "." + strconv.Itoa(shuttle)
		}
		return w.Say("result.level", Slots{"Level": level})
	}
	return w.Quantity(q)
}

// TestAndResult is a test with what someone reached in it.
func (w Words) TestAndResult(t *scoring.Trial) string {
	result := w.Result(t)
	if result == "" {
		return w.Test(t.Test)
	}
	return w.Say("say.test-gave", Slots{"Test": w.Test(t.Test), "Value": result})
}

// Remark is the short form of a remark, with its details.
func (w Words) Remark(f scoring.Flag) string {
	text := w.Say("remark."+f.Code.ID(), nil)
	if !f.Detail.IsZero() {
		text += " (" + w.Said(f.Detail) + ")"
	}
	return text
}

// Said says what a score, or the reading of a roster, had to say.
func (w Words) Said(s scoring.Said) string {
	p, filled := s.Phrase()
	if p == nil {
		return s.String()
	}
	slots := Slots{}
	for i, name := range p.Slots {
		slots[name] = w.slot(filled[i])
	}
	return w.Say("say."+p.ID, slots)
}

// slot puts what fills a slot into words.
func (w Words) slot(value any) any {
	switch v := value.(type) {
	case scoring.Quantity:
		return w.Quantity(v)
	case scoring.Input:
		return w.Input(v)
	case *scoring.Test:
		return w.Test(v)
	case reference.Ages:
		return w.Ages(v)
	case scoring.Number:
		return w.Number(v.Amount, v.Decimals)
	case scoring.Said:
		return w.Said(v)
	case scoring.Unit:
		return w.Unit(v)
	case scoring.Header:
		return w.Column(v.Test, v.Input)
	case scoring.Quoted:
		return w.Say("say.quoted", Slots{"Text": visible(string(v))})
	case time.Time:
		return w.Say("say.day", Slots{"Day": v})
	case time.Duration:
		return scoring.Clock(v)
	}
	return value
}

// visible replaces control characters and those that change the writing direction.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return ' '
		}
		return r
	}, text)
}

var (
	decimals   = regexp.MustCompile(`(\d)\.(\d)`)
	withSymbol = regexp.MustCompile(`(\d) ([\pL/%²·]+(?: of (?:blood|air))?)`)
)

// Arithmetic translates numbers and units of a line of arithmetic, not its symbols.
func (w Words) Arithmetic(text string) string {
	text = withSymbol.ReplaceAllStringFunc(text, func(part string) string {
		digit, symbol, _ := strings.Cut(part, " ")
		if u, ok := scoring.UnitBySymbol(symbol); ok {
			return digit + w.Space + w.Unit(u)
		}
		return part
	})
	mark := w.mark()
	if mark == "." {
		return text
	}
	return decimals.ReplaceAllString(text, "${1}"+mark+"${2}")
}

// mark returns the decimal mark.
func (w Words) mark() string { return strings.Trim(w.Number(0.5, 1), "05") }

// Capital returns a text with its first character in upper case.
func Capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

func testKey(t *scoring.Test, what string) string { return "test." + t.ID + "." + what }

// unitKey makes a name of a symbol: "beats/min" is unit.beats-per-min.
func unitKey(u scoring.Unit) string { return "unit." + unitSigns.Replace(u.String()) }

var unitSigns = strings.NewReplacer("/", "-per-", " ", "-", ",", "", "%", "percent", "²", "2")
