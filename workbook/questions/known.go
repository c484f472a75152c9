package questions

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// Ignored is the answer that leaves a column out, as options have it.
const Ignored = "ignore"

// ignoreKey is the block of that answer in plain words.
const ignoreKey = "questions.ignore"

// rightKey is the block of the answer that a cell is right as it is.
const rightKey = "questions.right"

// knownHeader is a header in plain words, and what it means.
type knownHeader struct {
	text    string
	meaning roster.Meaning
}

// roleBlocks are the headers of columns without an input.
var roleBlocks = []struct {
	key  string
	role roster.Role
}{
	{"starter.name.header", roster.Name}, {"questions.given-name", roster.GivenName}, {"questions.family-name", roster.FamilyName},
	{"starter.id.header", roster.ID}, {roster.School.GroupKey(), roster.Group}, {"starter.born.header", roster.Birth}, {"starter.tested.header", roster.TestDate},
	{"starter.email.header", roster.Email}, {"starter.guardian.header", roster.GuardianEmail}, {"starter.audience.header", roster.Audience},
	{"starter.language.header", roster.Language}, {"starter.test.header", roster.TestName}, {"starter.result.header", roster.Result},
}

// knownHeaders lists the headers that a column can be read by.
func knownHeaders(words *sheetwords.Words) []knownHeader {
	var all []knownHeader
	add := func(text string, m roster.Meaning) {
		// Capitals and blanks aside, a text is listed once, and only if it is read as meant.
		if h, ok := heading.Match(text); ok && h.Role == m.Role && (m.Role != roster.InputData || h.Input == m.Input && h.Test == m.Test) &&
			!slices.ContainsFunc(all, func(k knownHeader) bool { return heading.Key(k.text) == heading.Key(text) }) {
			m.Input = h.Input
			all = append(all, knownHeader{text, m})
		}
	}
	for _, b := range roleBlocks {
		add(words.Say(b.key, nil), roster.Meaning{Role: b.role})
	}
	for in := range scoring.InputCount {
		if in.Info().Personal {
			add(words.Input(in), roster.Meaning{Role: roster.InputData, Input: in})
		}
	}
	for _, t := range fieldtests.All() {
		for _, r := range t.Results {
			add(words.Column(t, r.Input), roster.Meaning{Role: roster.InputData, Input: r.Input, Test: t})
		}
		for _, a := range t.Also {
			add(words.Column(t, a.Input), roster.Meaning{Role: roster.InputData, Input: a.Input, Test: t})
		}
	}
	for in := range scoring.InputCount {
		if !in.Info().Personal {
			add(words.Input(in), roster.Meaning{Role: roster.InputData, Input: in})
		}
	}
	return all
}

// isWord reports whether a text is a block's in some language.
func isWord(text, key string) bool {
	return slices.ContainsFunc(sheetwords.Every(key), func(word string) bool { return heading.Key(word) == heading.Key(text) })
}
