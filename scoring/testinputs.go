package scoring

import "slices"

// HasResult reports whether an input is a result of the test.
func (t *Test) HasResult(in Input) bool {
	return slices.ContainsFunc(t.Results, func(r Result) bool { return r.Input == in })
}

// Takes reports whether the test can use an input, as its result or beside it.
func (t *Test) Takes(in Input) bool {
	return t.HasResult(in) || slices.Contains(t.Needs(), in) ||
		in == ShuttleInLevel && t.HasResult(ShuttleLevel) ||
		slices.ContainsFunc(t.Also, func(a Also) bool { return a.Input == in })
}
