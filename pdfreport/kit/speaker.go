package kit

import (
	"regexp"
	"strings"

	"tenback/templates"
	"tenback/templates/wording"
)

// Words are the slots of a block.
type Words map[string]any

// Speaker says the words of a document. What goes wrong is kept for the end, so
// that the layout reads straight through.
type Speaker struct {
	Language *templates.Set
	Err      error // the first that happened
}

// Say fills a block of words.
func (s *Speaker) Say(key string, slots Words) string {
	text, err := s.Language.Say(key, map[string]any(slots))
	if err != nil && s.Err == nil {
		s.Err = err
	}
	return text
}

// Declared are the words of what scoring declares, with the pages' typography.
func (s *Speaker) Declared() wording.Words {
	return wording.Words{Space: string(noBreakThinSpace), Say: func(key string, slots wording.Slots) string { return Typeset(s.Say(key, slots)) }, Number: s.Language.Number}
}

// typography is what gives texts of the scoring package the page's looks.
var typography = []struct{ plain, set string }{{"VO2", "VO₂"}, {" mL/kg/min", "\u202fmL/kg/min"},
	{" beats/min", "\u202fbeats/min"}, {" km/h", "\u202fkm/h"}}

// ageRange finds ranges of whole numbers, which take a dash and not a hyphen.
var ageRange = regexp.MustCompile(`\b(\d+)-(\d+)\b`)

func Typeset(text string) string {
	for _, t := range typography {
		text = strings.ReplaceAll(text, t.plain, t.set)
	}
	if strings.Contains(text, "-") {
		text = ageRange.ReplaceAllString(text, "$1–$2")
	}
	return text
}
