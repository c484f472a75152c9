package summary

import (
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring/group"
)

// label is what a row or column is of, in the language of the page.
func (c *summary) label(l group.Label) string {
	return c.Declared().Label(l, c.Adults, c.cleanName)
}

// short is a label in at most so many lines of a width. Classes taken together
// whose names take more are named by the first and the last.
func (c *summary) short(l group.Label, look kit.Face, width float64, most int) []kit.Line {
	text := c.label(l)
	lines := kit.BreakLines(text, look.Weight, width/look.Size)
	if len(lines) <= most {
		return lines
	}
	if kindOf(l) == groupKind && len(l.Of) > 2 {
		names := c.Declared().LabelNames(l, c.Adults, c.cleanName)
		text = c.Say("summary.range", kit.Words{"First": names[0], "Last": names[len(names)-1], "Count": len(names)})
		lines = kit.BreakLines(text, look.Weight, width/look.Size)
	}
	if len(lines) > most {
		// Room for the sign that something is left out.
		lines = kit.LimitLines(kit.BreakLines(text, look.Weight, width/look.Size-kit.TextWidth("…", look.Weight)), most)
	}
	return lines
}

func (c *summary) share(cell group.Cell) string {
	if !cell.HasShare {
		return ""
	}
	return c.Say("summary.share", kit.Words{"Percent": 100 * cell.Share})
}

// groupKind is what the keys of classes, departments and squads begin with.
const groupKind = "group"

// kindOf is what a label is of: a class, a sex, an age.
func kindOf(l group.Label) string {
	if l.Key == group.NoGroupKey {
		return groupKind
	}
	kind, _, _ := strings.Cut(l.Key, "-")
	return kind
}
