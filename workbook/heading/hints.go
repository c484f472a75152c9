package heading

import (
	"slices"
	"strings"
	"unicode"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// withHints picks the meaning that fits the header's units, and sets its unit.
func withHints(found []roster.Meaning, hints []string) Heading {
	units, feet, style := readHints(hints)
	if m := found[0]; m.Role == roster.InputData && m.Input == scoring.Effort && slices.ContainsFunc(units, func(u scoring.Unit) bool { return u.Converts(scoring.KmPerHour) }) {
		found = []roster.Meaning{{Role: roster.InputData, Input: scoring.PaceSpeed}} // "Pace (km/h)" is a speed, "Pace" alone all-out or steady
	}
	h := Heading{Meaning: found[0]}
	if !holdsAmount(found[0]) {
		return h
	}
	if found[0].Input == scoring.BodyMass && len(units) == 0 && slices.ContainsFunc(hints, isStones) {
		h.Unit, h.Unclear = scoring.Kilograms, InStones
		return h
	}
	for _, m := range found {
		want := unitOf(m)
		for _, u := range units {
			if u.Converts(want) || cell.SameWord(u, want) {
				h.Meaning = m
				return h.withUnits(units, feet, style)
			}
		}
	}
	return h.withUnits(units, feet, style)
}

func holdsAmount(m roster.Meaning) bool {
	return (m.Role == roster.InputData || m.Role == roster.Result) && m.Input != scoring.SexInput
}

// unitOf returns the unit in which a column's input is kept.
func unitOf(m roster.Meaning) scoring.Unit {
	if m.Input >= scoring.InputCount {
		return scoring.NoUnit
	}
	return m.Input.Info().Unit
}

func (h Heading) withUnits(units []scoring.Unit, feet bool, style cell.TimeStyle) Heading {
	want := unitOf(h.Meaning)
	h.Unit = want
	var fitting []scoring.Unit
	for _, u := range units {
		if cell.SameWord(u, want) {
			u = want
		}
		if u.Converts(want) && !slices.Contains(fitting, u) && want != scoring.NoUnit {
			fitting = append(fitting, u)
		}
	}
	isTime := h.Input == scoring.Time || h.Role == roster.Result && h.Input == scoring.InputCount
	switch {
	case feet && scoring.Metres.Converts(want):
		h.Unclear = InFeet
	case isTime && style == cell.Dotted:
		h.Style = cell.Dotted
	case len(fitting) > 1:
		h.Unclear = unclearUnits.With(fitting[0], fitting[1])
	case len(fitting) == 1:
		h.Unit, h.UnitGiven = fitting[0], true
	}
	if isTime && h.UnitGiven {
		h.Style = map[scoring.Unit]cell.TimeStyle{scoring.Seconds: cell.InSeconds, scoring.Minutes: cell.InMinutes}[h.Unit]
	}
	return h
}

// readHints returns the units in a header's hints, and whether they mean minutes
// and seconds together, as (min:sec) and (分′秒″) do.
func readHints(hints []string) (units []scoring.Unit, feet bool, style cell.TimeStyle) {
	minutes, seconds := false, false
	for _, hint := range hints {
		words := strings.FieldsFunc(hint, func(r rune) bool {
			return unicode.IsSpace(r) || strings.ContainsRune(`.:,;/'"&+|-`, r)
		})
		if len(words) == 2 && isMinutes(words[0]) && words[1] == "s" {
			minutes, seconds = true, true
			continue
		}
		if u, ok := cell.UnitOf(hint); ok {
			units = append(units, u)
			continue
		}
		for _, w := range words {
			u, ok := cell.UnitOf(w)
			switch {
			case w == "mm" || w == "мм" || u == scoring.Minutes:
				minutes = true
			case w == "ss" || w == "сс" || u == scoring.Seconds:
				seconds = true
			}
			if ok {
				units = append(units, u)
			}
			feet = feet || isFeet(w)
		}
	}
	for _, hint := range hints {
		feet = feet || isFeet(strings.Trim(hint, ". "))
	}
	if minutes && seconds {
		style = cell.Dotted
	}
	return units, feet, style
}

// isMinutes reports whether a word before "s" is minutes.
func isMinutes(word string) bool {
	u, _ := cell.UnitOf(word)
	return u == scoring.Minutes || word == "m" || word == "mm"
}

// IsUnit reports whether a text is a unit, or minutes and seconds together.
func IsUnit(text string) bool {
	if _, ok := cell.UnitOf(text); ok {
		return true
	}
	text = cell.Fold(text)
	inner := strings.Trim(text, "()[]（） ")
	if _, ok := cell.UnitOf(inner); ok {
		return true
	}
	_, _, style := readHints([]string{inner})
	return style == cell.Dotted
}

// unitInPhrase sets the unit in the parentheses of a header whose phrase holds
// them, such as "12 minute run distance (m)".
func (h *Heading) unitInPhrase(header string) {
	_, inside := cutParentheses(cell.Fold(shorten(header)))
	for _, text := range inside {
		if u, ok := cell.UnitOf(text); ok && !h.UnitGiven && h.Unclear.IsZero() && u == h.Unit {
			h.UnitGiven = true
		}
	}
}
