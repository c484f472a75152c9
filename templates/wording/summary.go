package wording

import (
	"strconv"
	"strings"

	"tenback/scoring/fieldtests"
	"tenback/scoring/group"
	"tenback/scoring/reference"
)

// tableKeys are the names of the summary's tables in the words.
var tableKeys = map[group.TableID]string{
	group.PeopleTable: "summary.people", group.ByGroup: "summary.by-group", group.BySex: "summary.by-sex", group.ByAge: "summary.by-age",
	group.ByTest: "summary.by-test", group.ByStanding: "summary.by-standing", group.ByResting: "summary.by-resting", group.ByChange: "summary.by-change",
	group.ByReason: "summary.by-reason", group.GroupBySex: "summary.group-by-sex", group.AgeBySex: "summary.age-by-sex",
	group.GroupByStanding: "summary.group-by-standing",
}

// Part is what a part of the organiser's summary is called.
func (w Words) Part(part group.Part) string {
	return w.Say([...]string{"summary.part.adults", "summary.part.youth", "summary.part.none"}[part], nil)
}

// TableOf is the name of a table of the summary with that of its part.
func (w Words) TableOf(id group.TableID, part group.Part) string {
	if id == group.PeopleTable {
		part = group.Unplaced
	}
	return w.OfPart(w.Say(tableKeys[id], nil), part)
}

// OfPart adds the part's name to what; Unplaced has none.
func (w Words) OfPart(what string, part group.Part) string {
	if part == group.Unplaced {
		return what
	}
	return w.Say("summary.of", Slots{"What": what, "Part": w.Part(part)})
}

// Label names a row or column of the summary. Joined names have a plus between, as a
// name may hold a comma; ages are one range. adults is the table that people were
// read against. own makes a user's own name fit for where it goes.
func (w Words) Label(l group.Label, adults *reference.GroupTable, own func(string) string) string {
	if l.Ages != (reference.Ages{}) {
		return w.labelAges(l.Ages)
	}
	return strings.Join(w.LabelNames(l, adults, own), " + ")
}

// LabelNames returns the names that a label joins, or the one name.
func (w Words) LabelNames(l group.Label, adults *reference.GroupTable, own func(string) string) []string {
	if len(l.Of) == 0 {
		return []string{w.category(l.Key, l.Text, adults, own)}
	}
	var names []string
	for i, key := range l.Of {
		names = append(names, w.category(key, l.Texts[i], adults, own))
	}
	return names
}

func (w Words) labelAges(a reference.Ages) string {
	if a.Min == 0 {
		return w.Say("summary.ages-under", Slots{"Age": a.Max + 1})
	}
	return w.Ages(a)
}

func (w Words) category(key, text string, adults *reference.GroupTable, own func(string) string) string {
	kind, which, _ := strings.Cut(key, "-")
	switch kind {
	case "group":
		return own(text)
	case "test":
		if t, ok := fieldtests.ByID(which); ok {
			return w.Test(t)
		}
	case "adults":
		if n, err := strconv.Atoi(which); err == nil {
			name := w.Group(adults, reference.Group(n-1))
			if adults != nil && adults.Own {
				name = own(name)
			}
			return name
		}
	}
	return w.Say("summary."+key, nil)
}
