package header

import (
	"maps"
	"slices"

	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Answered returns the Names that find the header of a sheet with answers about
// its columns. Columns of one header are not told apart yet.
func (ns Names) Answered(answers []roster.ColumnAnswer) Names {
	if len(answers) == 0 {
		return ns
	}
	ns.Renamed = maps.Clone(ns.Renamed)
	for _, a := range answers {
		if a.Meaning != "" {
			ns.Renamed[heading.Key(a.Header)] = a.Meaning
		}
	}
	return ns
}

// Placed returns the Names for a header whose texts are known. Each answer holds
// for one column. It also returns the answers whose column is gone, or may be
// another one since columns of one header were moved.
func (ns Names) Placed(answers []roster.ColumnAnswer, texts []string) (placed Names, gone []roster.ColumnAnswer) {
	placed = ns
	placed.at = map[int]string{}
	now := map[string][]string{} // letters by key of the header
	for i, text := range texts {
		if text != "" {
			key := heading.Key(text)
			now[key] = append(now[key], grid.Column(i+1))
		}
	}
	asked := map[string][]string{}
	for _, a := range answers {
		key := heading.Key(a.Header)
		asked[key] = append(asked[key], a.Column)
	}
	for _, a := range answers {
		key := heading.Key(a.Header)
		letter := a.Column
		switch was, is := asked[key], now[key]; {
		case a.Meaning == "":
			continue
		case len(was) == 1 && len(is) == 1:
			letter = is[0]
		case len(was) != len(is) || !slices.Contains(is, letter) || slices.ContainsFunc(was, func(l string) bool { return !slices.Contains(is, l) }):
			gone = append(gone, a)
			continue
		}
		at, _ := grid.ParseAddress(letter + "1")
		placed.at[at.Col] = a.Meaning
	}
	return placed, gone
}

// Told returns the text that a column, counted from 1, is read by: what the user
// called it, else its header.
func (ns Names) Told(column int, header string) (known string, told bool) {
	if known, ok := ns.at[column]; ok {
		return known, true
	}
	if known, ok := ns.Renamed[heading.Key(header)]; ok {
		return known, true
	}
	return header, false
}

// MatchAt finds the meaning of the header of a column.
func (ns Names) MatchAt(column int, header string) (heading.Heading, bool) {
	if known, told := ns.Told(column, header); told {
		return named(known)
	}
	return heading.Match(header)
}
