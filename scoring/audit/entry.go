package audit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring"
)

// ParseQuantity reads a value in the plain form of a worked example: a number
// with or without a unit ("130 lb"), a time ("12:45"), "F" or "M", "all-out"
// or "steady". It is strict; what people type into sheets is another matter.
func ParseQuantity(in scoring.Input, text string) (scoring.Quantity, error) {
	words := map[scoring.Input][]string{scoring.SexInput: {"F", "M"}, scoring.Effort: {"steady", "all-out"}}
	switch {
	case words[in] != nil:
		if i := slices.Index(words[in], text); i >= 0 {
			return scoring.Q(float64(i), in.Info().Unit), nil
		}
		return scoring.Quantity{}, fmt.Errorf("%s %q is not one of %q", in, text, words[in])
	case strings.Contains(text, ":"):
		var seconds float64
		for field := range strings.SplitSeq(text, ":") {
			x, err := strconv.ParseFloat(field, 64)
			if err != nil {
				return scoring.Quantity{}, err
			}
			seconds = 60*seconds + x
		}
		return scoring.Q(seconds, scoring.Seconds), nil
	}
	number, symbol, hasUnit := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return scoring.Quantity{}, err
	}
	unit := in.Info().Unit
	if hasUnit {
		var known bool
		if unit, known = scoring.UnitBySymbol(symbol); !known {
			return scoring.Quantity{}, fmt.Errorf("no unit %q", symbol)
		}
	}
	if !unit.Converts(in.Info().Unit) {
		return scoring.Quantity{}, fmt.Errorf("%s is not measured in %s", in, unit)
	}
	return scoring.Q(x, unit), nil
}

// Put stores a value as written on paper, such as 130 lb, with its input's short
// name: with the trial what belongs to a test, with the person the rest, or all
// without a trial.
func Put(e *scoring.Entry, trial *scoring.Trial, name, text, cell string) error {
	in, ok := scoring.InputByID(name)
	if !ok {
		return fmt.Errorf("no input %q", name)
	}
	q, err := ParseQuantity(in, text)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if trial == nil || in.Info().Personal {
		e.Set(in, q, cell)
	} else {
		trial.Set(in, q, cell)
	}
	return nil
}
