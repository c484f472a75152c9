// Package health reads answers to health questions, and finds in free text what
// speaks of a danger. A wrong "no" may hurt somebody, so an answer is a no only if
// every word of it says so.
package health

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
)

// dashes are the marks of a cell that holds no answer.
const dashes = "-_/. "

// Answer returns scoring.Yes, scoring.No or scoring.Unclear, which a cell says to a
// health question. ok is false for no answer: an empty cell, or a dash, which some
// write for "no" and others for "not asked". An x is a yes, as in a form.
func Answer(in scoring.Input, r cell.Raw) (answer float64, ok bool) {
	text := strings.Trim(cell.Fold(r.Text), "()[]")
	if r.IsBlank() || strings.Trim(text, dashes) == "" {
		return scoring.No, false
	}
	if strings.HasPrefix(text, "#") || r.Kind == cell.Number && !cell.IsZero(r) && text != "1" || r.Kind == cell.Error || r.Kind == cell.Uncached {
		return scoring.Unclear, true
	}
	if x, doubt := cell.ParseYesNo(cell.Raw{Kind: r.Kind, Text: text}); doubt == nil && (text != "ok" || in.Permits()) {
		return x, true
	}
	ps := known().parse(r.Text)
	if len(ps) == 0 {
		return scoring.Unclear, true // only marks
	}
	deny(ps)
	if in.Permits() {
		return agreement(ps), true
	}
	return answerTo(in, ps), true
}

// has reports whether some piece is of a class.
func has(ps []piece, c class) bool {
	return slices.ContainsFunc(ps, func(p piece) bool { return p.is(c) })
}

// only reports whether each piece is of one of the classes.
func only(ps []piece, c class) bool {
	return !slices.ContainsFunc(ps, func(p piece) bool { return !p.is(c) })
}

// doubtful reports whether a word makes an answer unclear. "Sí" is none at the
// beginning, though "si" is an if.
func doubtful(ps []piece) bool {
	for i, p := range ps {
		if p.is(doubt) && !(i == 0 && p.is(yes)) {
			return true
		}
	}
	return false
}

// agreement reads the answer of a clinician or a parent. A condition makes it
// unclear.
func agreement(ps []piece) float64 {
	switch {
	case doubtful(ps), has(ps, but|past|aware|terms):
		return scoring.Unclear
	case has(ps, no|not):
		if has(ps, yes) || !ps[0].is(no|not) {
			return scoring.Unclear
		}
		return scoring.No
	case has(ps[:min(len(ps), 3)], yes|agreed):
		return scoring.Yes
	}
	return scoring.Unclear
}

// answerTo reads the answer to a question whose yes is a danger.
func answerTo(in scoring.Input, ps []piece) float64 {
	isDanger := func(p piece) bool { return p.is(danger) && !p.denied }
	own := slices.ContainsFunc(ps, func(p piece) bool {
		return isDanger(p) && p.kind == in || p.is(short) && !p.denied && in == scoring.HeartRateDrug
	})
	harmless := filler | asked | number | dose | joins | terms
	switch in {
	case scoring.HeartRateDrug:
		harmless |= safeDrug
	case scoring.KnownDisease:
		harmless |= safe | fine | aware
	case scoring.Symptoms:
		harmless |= fine
	case scoring.Pregnant:
		harmless |= male
	}
	means := harmless & (safeDrug | safe | fine | male)
	saysNo := has(ps, no|not)
	switch {
	case doubtful(ps), has(ps, yes) && has(ps, no):
		return scoring.Unclear
	case own && !has(ps, past|elsePerson|no|not), has(ps, yes) && !has(ps, past|not):
		return scoring.Yes
	case own, slices.ContainsFunc(ps, isDanger), has(ps, yes):
		return scoring.Unclear
	case ps[0].is(no) && only(ps, no|not|harmless|agreed|danger|organ|trouble|past|elsePerson|short|but|self):
		if has(ps, but) && !has(ps, safe|safeDrug|elsePerson) {
			return scoring.Unclear
		}
		return scoring.No
	case saysNo && only(ps, no|not|harmless|agreed|danger|organ|trouble|short), has(ps, safeDrug) && only(ps, harmless|but), !saysNo && has(ps, means) && only(ps, harmless):
		return scoring.No
	}
	return scoring.Unclear
}

// deny marks the dangers that a "no" before them denies, or an answer behind them.
// A comma ends what is denied unless an "or" follows; an unknown word does as well.
func deny(ps []piece) {
	denied := false
	for i := range ps {
		p := &ps[i]
		switch {
		case p.hard, p.is(but), p.soft && denied && !goesOn(ps[i:]):
			denied = false
		}
		switch {
		case p.is(not|no) && !p.is(danger):
			denied = p.is(not) // the Italian never is the French May
			if p.is(no) && i > 0 && ps[i-1].is(danger|asked|organ|trouble) && (i+1 == len(ps) || ps[i+1].soft || ps[i+1].hard) {
				for k := i - 1; k >= 0 && !ps[k+1].soft && !ps[k+1].hard; k-- {
					ps[k].denied = true // "chest pain: none"
				}
			}
		case !p.is(danger | filler | asked | past | joins | organ | trouble | dose | safe | short | elsePerson):
			denied = false
		default:
			p.denied = denied
		}
	}
}

// goesOn reports whether an "or" joins more to a list before the sentence ends.
func goesOn(ps []piece) bool {
	for i, p := range ps {
		switch {
		case i > 0 && p.hard, p.is(but):
			return false
		case p.is(joins):
			return true
		}
	}
	return false
}
