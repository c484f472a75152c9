package health

import (
	"slices"

	"tenback/scoring"
)

// Danger is what a free text speaks of.
type Danger struct {
	Kind       scoring.Input // the question that it answers with yes
	DuringTest bool          // it showed in this test
	Past       bool          // no longer so, or not always
}

// Dangers returns the dangers that a free text of a row speaks of, one of each kind.
// What is denied, or is said of another person, is none. inResult is set for a text
// in the cell of a test's result, which is about that test.
func Dangers(text string, inResult bool) (all []Danger) {
	ps := known().parse(text)
	deny(ps)
	for i := range ps {
		p := &ps[i]
		kind := p.kind // also of an organ
		switch {
		case p.denied || kind != scoring.FamilySuddenDeath && ofOther(ps, i):
			continue
		case p.is(danger):
		case p.is(organ) && (only(ps, organ|doubt|past|number|asked|filler) || beside(ps, i, trouble)):
		default:
			continue
		}
		at := slices.IndexFunc(all, func(d Danger) bool { return d.Kind == kind })
		if at < 0 {
			at = len(all)
			all = append(all, Danger{Kind: kind})
		}
		all[at].Past = has(ps, past)
		shows := kind == scoring.Symptoms || (kind == scoring.Asthma || kind == scoring.Insulin) && has(ps, during)
		all[at].DuringTest = shows && (inResult || has(ps, during) || !all[at].Past)
	}
	return all
}

// ofOther reports whether a danger is another person's: "mum is pregnant", but not
// "mum says she fainted".
func ofOther(ps []piece, i int) bool {
	for k := i - 1; k >= 0; k-- {
		switch {
		case ps[k].is(self | says | during), ps[k+1].hard, ps[k+1].soft:
			return false
		case ps[k].is(elsePerson):
			return true
		}
	}
	return i+1 < len(ps) && !ps[i+1].hard && !ps[i+1].soft && ps[i+1].is(elsePerson) && !has(ps, self|says)
}

// beside reports whether a piece of a class is at most two pieces away in the same
// part of a sentence.
func beside(ps []piece, i int, c class) bool {
	for k := i + 1; k < len(ps) && k <= i+2 && !ps[k].soft && !ps[k].hard; k++ {
		if ps[k].is(c) && !ps[k].denied {
			return true
		}
	}
	for k := i - 1; k >= 0 && k >= i-2 && !ps[k+1].soft && !ps[k+1].hard; k-- {
		if ps[k].is(c) && !ps[k].denied {
			return true
		}
	}
	return false
}
