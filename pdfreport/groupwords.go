package pdfreport

import (
	"strings"

	"tenback/scoring"
	"tenback/scoring/group"
	"tenback/scoring/reference"
)

// label is what a row or column is of, in the language of the page. What is
// taken together is named by all its names.
func (c *groupComposer) label(l group.Label) string {
	switch {
	case l.Ages.Max >= oldest:
		return c.say("ages.open", words{"From": l.Ages.Min})
	case l.Ages.Max > 0 && l.Ages.Min == 0:
		return c.say("summary.ages-under", words{"Age": l.Ages.Max + 1})
	case l.Ages.Max > 0:
		return c.ages(l.Ages)
	case strings.HasPrefix(l.Key, groupPrefix):
		return strings.Join(c.groupNames(l), together)
	case strings.HasPrefix(l.Key, adultsPrefix) && c.Adults.Own:
		return strings.Join(c.groupNames(l), together)
	case len(l.Of) == 0:
		return c.single(l.Key)
	}
	var names []string
	for _, key := range l.Of {
		names = append(names, c.single(key))
	}
	return strings.Join(names, together)
}

// together stands between the names of what is taken together.
const together = " + "

// The beginnings of labels' keys.
const (
	groupPrefix  = "group-"
	adultsPrefix = "adults-"
	testPrefix   = "test-"
	noGroupKey   = "no-group"
)

// groupNames are those of classes as the roster has them.
func (c *groupComposer) groupNames(l group.Label) []string {
	if len(l.Of) == 0 {
		return []string{c.cleanName(l.Text)}
	}
	var names []string
	for i, key := range l.Of {
		name := c.cleanName(l.Texts[i])
		if key == noGroupKey { // not the roster's word
			name = c.single(key)
		}
		names = append(names, name)
	}
	return names
}

func (c *groupComposer) single(key string) string {
	if id, ok := strings.CutPrefix(key, testPrefix); ok {
		if t, known := scoring.TestByID(id); known {
			return c.declared().Test(t)
		}
	}
	if n, ok := strings.CutPrefix(key, adultsPrefix); ok && len(n) == 1 {
		return c.declared().Group(c.Adults, reference.Group(n[0]-'1'))
	}
	return c.say("summary."+key, nil)
}

// short is a label in at most so many lines of a width. Classes taken together
// whose names take more are named by the first and the last.
func (c *groupComposer) short(l group.Label, look face, width float64, most int) []line {
	text := c.label(l)
	lines := c.fonts.breakLines(text, look.weight, width/look.size)
	if len(lines) <= most {
		return lines
	}
	if strings.HasPrefix(l.Key, groupPrefix) && len(l.Of) > 2 {
		names := c.groupNames(l)
		text = c.say("summary.range", words{"First": names[0], "Last": names[len(names)-1], "Count": len(names)})
		lines = c.fonts.breakLines(text, look.weight, width/look.size)
	}
	if len(lines) > most {
		// Room for the sign that something is left out.
		lines = c.fonts.limitLines(c.fonts.breakLines(text, look.weight, width/look.size-c.fonts.width("…", look.weight)), most)
	}
	return lines
}

func (c *groupComposer) share(cell group.Cell) string {
	if !cell.HasShare {
		return ""
	}
	return c.say("summary.share", words{"Percent": 100 * cell.Share})
}
