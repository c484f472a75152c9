package people

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// asksConsent reports whether a sheet has a column of consent.
func asksConsent(s *roster.Sheet) bool {
	return slices.ContainsFunc(s.Columns, func(c roster.Column) bool {
		return c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.Consent
	})
}

// withhold marks the visits without consent. A list that asks for consent asks
// everybody, so that a name that is missing in it counts as no. A visit on sheets
// that do not ask follows the person's others.
func (m *matching) withhold(visits []Visit) {
	asks := map[*roster.Sheet]bool{}
	any := m.listAsks
	for _, line := range m.lines {
		if _, known := asks[line.Sheet]; !known {
			asks[line.Sheet] = asksConsent(line.Sheet)
			any = any || asks[line.Sheet]
		}
	}
	if !any {
		return
	}
	refused := map[int]bool{} // by person
	asked := make([]bool, len(visits))
	for i := range visits {
		v := &visits[i]
		asked[i] = m.listAsks || slices.ContainsFunc(v.Lines(), func(l Line) bool { return asks[l.Sheet] })
		v.Withheld = asked[i] && !v.Row.Entry.Says(scoring.Consent)
		refused[v.Person] = refused[v.Person] || v.Withheld
	}
	for i := range visits {
		visits[i].Withheld = visits[i].Withheld || !asked[i] && refused[visits[i].Person]
	}
}
