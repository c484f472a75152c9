package header

import (
	"strconv"

	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// levels is the most rows that make one header.
const levels = 3

// Texts returns the texts of the header. It joins rows, such as "1.5 mile run"
// over "min" and "s". depth counts the rows from the header row on.
func (ns Names) Texts(rows []Row, at int) (texts []string, depth int) {
	texts = ns.withAbove(rows, at)
	for depth = 1; depth < levels && at+depth < len(rows) && rows[at+depth].Number == rows[at].Number+depth; depth++ {
		joined, ok := ns.withBelow(texts, &rows[at+depth])
		if !ok {
			break
		}
		texts = joined
	}
	return texts, depth
}

// withAbove completes the texts of a row with those of the rows above, if they
// are not enough by themselves. A row without numbers and people takes the cells
// that are merged into it from above.
func (ns Names) withAbove(rows []Row, at int) []string {
	own := rows[at].texts()
	for up := 1; up < levels && at >= up && rows[at-up].Number == rows[at].Number-up; up++ {
		above := &rows[at-up]
		if above.isTitle(&rows[at]) {
			break
		}
		texts := above.labels()
		if up == 1 && ns.isSubheader(own, texts) {
			for len(own) < len(texts) {
				own = append(own, "")
			}
			for i, text := range texts {
				if own[i] == "" && ns.isKnown(text) {
					own[i] = text
				}
			}
		}
		for i, text := range own[:min(len(own), Width)] {
			if over := carried(texts, i); text != "" && over != text {
				own[i] = ns.join(over, text)
			}
		}
	}
	return own
}

// isTitle reports whether a row has only a title of the row below, or a label and
// its value, such as a date.
func (h *Row) isTitle(below *Row) bool {
	for _, c := range h.Cells {
		text := cell.Label(c.Raw)
		if n, err := strconv.Atoi(text); (c.Kind != cell.Text || !cell.HasLetters(text)) && (err != nil || n < 1 || n > 12 && n < 1990 || n > 2100) {
			return true
		}
	}
	return len(h.Cells) == 1 && len(below.Cells) > 0 && h.Cells[0].Col <= below.Cells[0].Col
}

// isSubheader reports whether the texts of a row can be a second line of the
// headers above.
func (ns Names) isSubheader(own, above []string) bool {
	for i, text := range own {
		if text != "" && !cell.HasLetters(text) {
			return false
		}
		if over := carried(above, i); text != "" && ns.namesPerson(over) && !ns.isKnown(text) {
			return false
		}
	}
	return true
}

// join returns a header with what stands over it, if that is needed and known;
// else the header alone.
func (ns Names) join(above, below string) string {
	if above == "" {
		return below
	}
	text := above + heading.Under + below
	joined, ok := ns.Match(text)
	own, known := ns.Match(below)
	switch {
	case !ok:
		return below
	case !known:
		return text
	case joined.Role == roster.Other || joined.Role == roster.Unscored:
		if own.Role == roster.InputData || needsMore(own) {
			return text // such as Target over Body mass
		}
		return below
	case needsMore(own):
		return text
	case joined.Meaning == own.Meaning && (joined.Term != own.Term || joined.Attempt != own.Attempt || joined.Best != own.Best):
		return text
	}
	return below
}

// carried returns the text of a column or of the nearest filled one to its left,
// as under a merged cell.
func carried(texts []string, i int) string {
	for i = min(i, len(texts)-1); i >= 0; i-- {
		if texts[i] != "" {
			return texts[i]
		}
	}
	return ""
}

// needsMore reports whether a known header is not enough by itself.
func needsMore(h heading.Heading) bool {
	switch h.Role {
	case roster.InputData:
		return h.Test == nil && !h.Input.Info().Personal
	case roster.Result, roster.Minutes, roster.SecondsOf, roster.HeartRate, roster.LevelPart, roster.ShuttlePart, roster.Unscored:
		return true
	}
	return false
}

func (ns Names) isKnown(header string) bool {
	_, ok := ns.Match(header)
	return ok
}

// withBelow joins a row below the header that completes it: words such as "min"
// and "pulse" below a test's name, attempts, or units. A row of units may have
// other words too.
func (ns Names) withBelow(own []string, row *Row) ([]string, bool) {
	joined := append([]string(nil), own...)
	if ns.headsBlock(row, own) {
		return nil, false
	}
	person := false // the row has a cell of someone
	for _, c := range row.Cells {
		person = person || c.Col <= len(own) && ns.namesPerson(own[c.Col-1])
	}
	completed, units, others := 0, 0, 0
	for _, c := range row.Cells {
		i := c.Col - 1
		below := row.label(c)
		if n, err := strconv.Atoi(below); !isDate(c.Raw) && len(heading.Dates(c.Raw)) != 1 && (c.Kind != cell.Text || !cell.HasLetters(below)) && (err != nil || n < 1 || n > 12) {
			if person {
				return nil, false
			}
			others++
			continue
		}
		for len(joined) <= i {
			joined = append(joined, "")
		}
		head := carried(own, i)
		isUnit := heading.IsUnit(below)
		text := ns.join(head, below)
		if isUnit {
			text = head + " (" + below + ")"
			units++
		}
		switch known := ns.isKnown(text) && (isUnit || text != below || ns.isKnown(below)); {
		case known && !(text == below && ns.namesPerson(head)):
			joined[i] = text
			if text != below || i >= len(own) || own[i] == "" {
				completed++
			}
		case isUnit:
		case ns.namesPerson(head):
			return nil, false // someone's name
		default:
			others++
		}
	}
	return joined, completed > 0 && (others == 0 || units > others || !person && completed > others)
}

// headsBlock reports whether a row has only the name of a test, such as "10 km",
// for the people below it, and not as part of the header above.
func (ns Names) headsBlock(row *Row, above []string) bool {
	if len(row.Cells) != 1 || heading.BlockTest(row.label(row.Cells[0])).Test == nil {
		return false
	}
	h, ok := ns.Match(carried(above, row.Cells[0].Col-1))
	return !ok || !needsMore(h)
}

func (ns Names) namesPerson(header string) bool {
	h, ok := ns.Match(header)
	return ok && h.Role.IsPerson()
}
