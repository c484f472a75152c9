package terminal

import "errors"

// hinted is an error with a piece of advice.
type hinted struct {
	error
	hint string
}

func (h hinted) Unwrap() error { return h.error }

// Hinted adds a piece of advice to an error.
func Hinted(err error, hint string) error { return hinted{err, hint} }

// HintOf returns the advice of an error; empty if it has none.
func HintOf(err error) string {
	var h hinted
	if errors.As(err, &h) {
		return h.hint
	}
	return ""
}
