package heading

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/roster"
)

// Naming returns a known header in English that means what a column holds; empty
// if there is none.
func Naming(m roster.Meaning) string {
	switch {
	case m.Role == roster.InputData && m.Test != nil:
		return scoring.Header{Test: m.Test, Input: m.Input}.String()
	case m.Role == roster.InputData:
		return m.Input.Info().Name
	case m.Role == roster.Name || m.Role == roster.Birth || m.Role == roster.TestDate:
		return roster.Meaning{Role: m.Role}.String()
	}
	return ""
}

// Related returns what a header that is not recognised may mean by those of its
// words that are known, the likeliest first.
func Related(header string) (all []roster.Meaning) {
	v := known()
	ps := slices.DeleteFunc(v.lexicon.parse(header), func(p piece) bool { return p.is(unknown) })
	if len(ps) > 0 {
		if h, ok := v.compose(ps); ok {
			all = append(all, h.Meaning)
		}
	}
	for i := range ps {
		all = append(all, ps[i].meanings...)
	}
	d := v.whatWasDone(ps)
	for _, t := range fieldtests.All() {
		for _, r := range t.Results {
			level := slices.ContainsFunc(all, func(m roster.Meaning) bool { return m.Role == roster.LevelPart || m.Role == roster.ShuttlePart })
			if d.test == t || v.activity[t]&d.activity != 0 || level && r.Input == scoring.ShuttleLevel {
				all = append(all, roster.Meaning{Role: roster.InputData, Input: r.Input, Test: t})
			}
		}
	}
	return all
}
