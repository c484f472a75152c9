package scoring

import "slices"

// Doubt is why a value is not believed. Package plausible finds them; [Assess] uses
// no doubted value.
type Doubt struct {
	Trial  *Trial  // of the entry, none of whose values is used; nil for the person's own
	Inputs []Input // that do not fit; any of them may be wrong
	Cell   string  // of the first
	Read   string  // its text
	// Impossible means that no confirmation helps: the value cannot be.
	Impossible bool
	What, Fix  Said
	// Unread means that the cell is filled and holds no value that can be used.
	Unread bool
}

// refusal returns why a test is not scored because of the doubt.
func (d *Doubt) refusal(t *Test) Refusal {
	return Refusal{Test: t, Input: d.Inputs[0], Cell: d.Cell, Why: d.What, Fix: d.Fix, Doubt: d}
}

// aboutTrial returns the first doubt about a trial, an impossible value before others.
func (e *Entry) aboutTrial(t *Trial) *Doubt {
	return e.firstDoubt(func(d *Doubt) bool { return d.Trial == t })
}

// aboutPerson returns the first doubt about a value of the person.
func (e *Entry) aboutPerson(in Input) *Doubt {
	return e.firstDoubt(func(d *Doubt) bool { return d.Trial == nil && slices.Contains(d.Inputs, in) })
}

func (e *Entry) firstDoubt(is func(d *Doubt) bool) (first *Doubt) {
	for i := range e.Doubts {
		if d := &e.Doubts[i]; is(d) && (first == nil || d.Impossible && !first.Impossible) {
			first = d
		}
	}
	return first
}

// believed returns the entry without its doubted values. Someone whose age is doubted
// may be a child.
func (e *Entry) believed() *Entry {
	if len(e.Doubts) == 0 {
		return e
	}
	b := *e
	b.known = slices.DeleteFunc(slices.Clone(e.known), func(k known) bool { return e.aboutPerson(k.input) != nil })
	b.MayBeChild = e.MayBeChild || e.aboutPerson(Age) != nil
	b.Trials = nil
	for i := range e.Trials {
		if e.aboutTrial(&e.Trials[i]) == nil {
			b.Trials = append(b.Trials, e.Trials[i])
		}
	}
	return &b
}

// doubted reports whether a refusal is for a missing value that is only not believed,
// and then makes it say why.
func (s *Score) doubted(r *Refusal) bool {
	d := s.doubts.aboutPerson(r.Input)
	if d == nil || !r.Missing {
		return false
	}
	*r = d.refusal(r.Test)
	return true
}

// refuseDoubted refuses the trials in doubt.
func (s *Score) refuseDoubted(e *Entry) {
	for i := range e.Trials {
		t := &e.Trials[i]
		if d := e.aboutTrial(t); d != nil {
			r := d.refusal(t.Test)
			if result, ok := t.ResultOf(); ok {
				r.ResultCell = t.Cell(result.Input)
			}
			s.Refused = append(s.Refused, r)
		}
	}
}

// Confirm marks a value as right as it is, however odd.
func (v *Values) Confirm(in Input) {
	if k := v.find(in); k != nil {
		k.confirmed = true
	}
}

// Confirmed reports whether someone confirmed the value.
func (v *Values) Confirmed(in Input) bool {
	k := v.find(in)
	return k != nil && k.confirmed
}

// Annotate keeps the text of a cell with the values that were read from it, and whether
// it is confirmed.
func (e *Entry) Annotate(cell, text string, confirmed bool) {
	e.annotate(cell, text, confirmed)
	for i := range e.Trials {
		e.Trials[i].annotate(cell, text, confirmed)
	}
}

func (v *Values) annotate(cell, text string, confirmed bool) {
	for i := range v.known {
		if k := &v.known[i]; k.cell == cell && (!inputs[k.input].YesNo || k.amount != No) {
			k.text, k.confirmed = text, k.confirmed || confirmed
		}
	}
}

// Text returns the text that a value was read from; empty if it was not kept.
func (v *Values) Text(in Input) string {
	if k := v.find(in); k != nil {
		return k.text
	}
	return ""
}

// Take copies a value of other, with what is known of it, as read from a cell.
func (v *Values) Take(in Input, other *Values, cell string) {
	k := other.find(in)
	if k == nil {
		return
	}
	taken := *k
	taken.cell = cell
	if mine := v.find(in); mine != nil {
		*mine = taken
		return
	}
	v.known = append(v.known, taken)
}
