package pdfreport

import (
	"strings"

	"tenback/scoring/group"
)

// label is what a row or column is of, in the language of the page.
func (c *summary) label(l group.Label) string {
	return c.declared().Label(l, c.Adults, c.cleanName)
}

// short is a label in at most so many lines of a width. Classes taken together
// whose names take more are named by the first and the last.
func (c *summary) short(l group.Label, look face, width float64, most int) []line {
	text := c.label(l)
	lines := breakLines(text, look.weight, width/look.size)
	if len(lines) <= most {
		return lines
	}
	if kindOf(l) == groupKind && len(l.Of) > 2 {
		names := c.declared().LabelNames(l, c.Adults, c.cleanName)
		text = c.say("summary.range", words{"First": names[0], "Last": names[len(names)-1], "Count": len(names)})
		lines = breakLines(text, look.weight, width/look.size)
	}
	if len(lines) > most {
		// Room for the sign that something is left out.
		lines = limitLines(breakLines(text, look.weight, width/look.size-textWidth("…", look.weight)), most)
	}
	return lines
}

func (c *summary) share(cell group.Cell) string {
	if !cell.HasShare {
		return ""
	}
	return c.say("summary.share", words{"Percent": 100 * cell.Share})
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
