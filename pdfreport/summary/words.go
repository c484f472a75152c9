package summary

import (
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring/group"
)

// label names a row or column.
func (c *summary) label(l group.Label) string {
	return c.Declared().Label(l, c.Adults, c.cleanName)
}

// short is label on at most so many lines. Many classes taken together are named
// by the first and the last.
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
		// leaves space for the ellipsis
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

// groupKind begins the keys of classes, departments and squads.
const groupKind = "group"

// kindOf returns what a label is about: a class, a sex, an age.
func kindOf(l group.Label) string {
	if l.Key == group.NoGroupKey {
		return groupKind
	}
	kind, _, _ := strings.Cut(l.Key, "-")
	return kind
}
