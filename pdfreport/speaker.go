package pdfreport

import (
	"tenback/templates"
	"tenback/templates/wording"
)

// words are the slots of a block.
type words map[string]any

// speaker says the words of a document. What goes wrong is kept for the end, so
// that the layout reads straight through.
type speaker struct {
	language *templates.Set
	said     func(key, text string) // called with every block said, if not nil
	err      error                  // the first that happened
}

// say fills a block of words.
func (s *speaker) say(key string, slots words) string {
	text, err := s.language.Say(key, map[string]any(slots))
	if err != nil && s.err == nil {
		s.err = err
	}
	if s.said != nil {
		s.said(s.language.Key(key), text)
	}
	return text
}

// declared are the words of what scoring declares, with the pages' typography.
func (s *speaker) declared() wording.Words {
	return wording.Words{Space: string(noBreakThinSpace), Say: func(key string, slots wording.Slots) string { return typeset(s.say(key, slots)) }, Number: s.language.Number}
}
