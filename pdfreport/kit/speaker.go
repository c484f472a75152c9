package kit

import (
	"regexp"
	"strings"

	"tenback/templates"
	"tenback/templates/wording"
)

// Words holds the slots of a block of words, by name.
type Words map[string]any

// Speaker says the words of a document. It keeps the first error for the end, to
// keep the layout simple.
type Speaker struct {
	Language *templates.Set
	Err      error // the first one
}

// Say fills a block of words.
func (s *Speaker) Say(key string, slots Words) string {
	text, err := s.Language.Say(key, map[string]any(slots))
	if err != nil && s.Err == nil {
		s.Err = err
	}
	return text
}

// Declared returns the words of what scoring declares, in the pages' typography.
func (s *Speaker) Declared() wording.Words {
	return wording.Words{Space: string(noBreakThinSpace), Say: func(key string, slots wording.Slots) string { return Typeset(s.Say(key, slots)) }, Number: s.Language.Number}
}

// typography gives texts of package scoring the pages' looks.
var typography = []struct{ plain, set string }{{"VO2", "VO₂"}, {" mL/kg/min", "\u202fmL/kg/min"},
	{" beats/min", "\u202fbeats/min"}, {" km/h", "\u202fkm/h"}}

// ageRange matches ranges of whole numbers, which take a dash instead of a
// hyphen.
var ageRange = regexp.MustCompile(`\b(\d+)-(\d+)\b`)

// Typeset returns a text of package scoring in the pages' typography.
func Typeset(text string) string {
	for _, t := range typography {
		text = strings.ReplaceAll(text, t.plain, t.set)
	}
	if strings.Contains(text, "-") {
		text = ageRange.ReplaceAllString(text, "$1–$2")
	}
	return text
}
