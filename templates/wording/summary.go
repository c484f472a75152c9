package wording

import "tenback/scoring/group"

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

// OfPart is what something is called in a part; those without a place have no
// name of their own.
func (w Words) OfPart(what string, part group.Part) string {
	if part == group.Unplaced {
		return what
	}
	return w.Say("summary.of", Slots{"What": what, "Part": w.Part(part)})
}
