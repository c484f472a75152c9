package people

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/plausible"
	"tenback/workbook/roster"
)

// judge sets the doubts of all visits: first those that the others of the sheet and of
// the group give rise to, then those of the values of each.
func judge(visits []Visit) {
	type group struct {
		sheet *roster.Sheet
		name  string
	}
	bySheet, byGroup := map[*roster.Sheet][]*plausible.Member{}, map[group][]*plausible.Member{}
	days := map[int]int{} // of each person
	members := make([]plausible.Member, len(visits))
	for i := range visits {
		days[visits[i].Person]++
	}
	for i := range visits {
		v, m := &visits[i], &members[i]
		e := &v.Row.Entry
		e.Doubts = slices.DeleteFunc(slices.Clone(e.Doubts), func(d scoring.Doubt) bool { return !d.Unread || e.Has(d.Inputs[0]) })
		*m = plausible.Member{Entry: &v.Row.Entry, DayCell: v.First.TestedCell, DayRead: v.First.TestedRead, DayConfirmed: v.First.TestedConfirmed, Again: days[v.Person] > 1}
		bySheet[v.Sheet] = append(bySheet[v.Sheet], m)
		g := group{v.Sheet, v.Row.Person.Group}
		byGroup[g] = append(byGroup[g], m)
	}
	for _, all := range bySheet {
		plausible.JudgeDays(all)
	}
	for _, all := range byGroup {
		plausible.JudgeGroup(all)
	}
	for i := range visits {
		if v := &visits[i]; v.Doubt.IsZero() {
			v.Doubt = members[i].DayDoubt
		}
		plausible.Judge(members[i].Entry)
	}
}
