package templates

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// Blocks with the language's forms of numbers and dates.
const (
	keyDecimal = "format.decimal" // the decimal mark
	keyMonths  = "format.months"  // the twelve month names, in order
	keyDate    = "format.date"    // slots: Day Month Year
)

const (
	minus = "−"
	// thinSpace separates a number from its unit and does not break.
	thinSpace = "\u202f"
)

// format is how a language writes numbers and dates.
type format struct {
	decimal string
	months  []string
}

func (s *Set) readFormat() error {
	decimal, err := s.Say(keyDecimal, nil)
	if err != nil {
		return err
	}
	months, err := s.Say(keyMonths, nil)
	if err != nil {
		return err
	}
	s.format = format{decimal, strings.Fields(months)}
	if n := len(s.format.months); n != 12 {
		return fmt.Errorf("%s: the block %q has %d month names, not 12", s.blocks[keyMonths].file, keyMonths, n)
	}
	return nil
}

func number(x any) (float64, error) {
	switch v := x.(type) {
	case float64:
		return v, nil
	case int:
		return float64(v), nil
	}
	return 0, fmt.Errorf("%v is not a number", x)
}

// Number formats x with 0 to 3 decimals, the language's decimal mark and a minus
// sign.
func (s *Set) Number(x float64, decimals int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', min(max(decimals, 0), 3), 64)
	if x < 0 && strings.Trim(text, "0.") != "" {
		text = minus + text
	}
	return strings.Replace(text, ".", s.format.decimal, 1)
}

// Date formats a day.
func (s *Set) Date(t time.Time) (string, error) {
	return s.Say(keyDate, map[string]any{
		"Day": t.Day(), "Month": s.format.months[t.Month()-1], "Year": t.Year()})
}
