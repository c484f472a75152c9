package reference

import (
	"fmt"
	"math"
)

const groupsFile = "adult_groups_mandsager2018.csv"

// Group is one of the five groups of an adult table, counted from 0, the
// lowest. What it is called is up to the table; the names below are those of
// the default one.
type Group int

// The groups of Mandsager et al. 2018 in rising order of fitness: below the
// 25th percentile of the paper's patients of the same sex and decade, 25th to
// 49th, 50th to 74th, 75th to 97.6th, and above.
const (
	Low Group = iota
	BelowAverage
	AboveAverage
	High
	Elite
	groupCount
)

// Groups lists the five groups in rising order.
func Groups() []Group { return []Group{Low, BelowAverage, AboveAverage, High, Elite} }

// String names the group as the default table does.
func (g Group) String() string { return AdultGroups.Names[g] }

// GroupTable sorts adults of the same sex and age into five groups.
type GroupTable struct {
	ID    string
	Names [groupCount]string
	// Tenths marks a table printed in METs to one decimal; values are compared after
	// rounding to it.
	Tenths bool
	// Source is a key into the bibliography of package scoring; for a table of
	// the user's own it is where it was read.
	Source string
	Own    bool // a table of the user's own
	rows   []GroupRow
}

// GroupRow is the row of an adult table for one sex and age group.
type GroupRow struct {
	Table *GroupTable
	Sex   Sex
	Ages  Ages
	opens [groupCount]VO2 // opens[Low] is zero
}

// Opens is the value that opens the group in this row, as printed.
func (r GroupRow) Opens(g Group) VO2 { return r.opens[g] }

// Reaches is the smallest uptake that counts as the group: the opening value,
// or half a printed step below it where the table is compared after rounding.
func (r GroupRow) Reaches(g Group) VO2 {
	if r.Table.Tenths && g > Low {
		return (r.opens[g].METs() - 0.05).VO2()
	}
	return r.opens[g]
}

// Group classifies an uptake. For a table in METs the comparison is made
// after rounding to one decimal, so a value a hair under a printed limit
// reaches it.
func (r GroupRow) Group(v VO2) Group {
	if r.Table.Tenths {
		v = RoundMET(v.METs()).VO2()
	}
	g := Low
	for next := BelowAverage; next < groupCount; next++ {
		if v >= r.opens[next]-1e-9 {
			g = next
		}
	}
	return g
}

// RoundMET rounds to the one decimal that the default table is printed with.
func RoundMET(m MET) MET { return MET(math.Round(float64(m)*10) / 10) }

// Row finds the row for a sex and an age in whole years. ok is false where the
// table has no row.
func (t *GroupTable) Row(sex Sex, years int) (row GroupRow, ok bool) {
	for _, r := range t.rows {
		if r.Sex == sex && r.Ages.Contains(years) {
			return r, true
		}
	}
	return GroupRow{}, false
}

// AdultGroups is the default adult table.
//
// Source: mandsager2018, Table 2.
var AdultGroups = func() *GroupTable {
	t := &GroupTable{ID: "adult-groups", Tenths: true, Source: "mandsager2018",
		Names: [groupCount]string{"Low", "Below average", "Above average", "High", "Elite"}}
	records, _ := load(groupsFile)
	for _, r := range records {
		row := GroupRow{Table: t, Sex: r.sex(), Ages: r.ages()}
		for g, column := range []string{"", "met_p25", "met_p50", "met_p75", "met_p97_7"} {
			if column != "" {
				row.opens[g] = MET(r.number(column)).VO2()
			}
		}
		t.rows = append(t.rows, row)
	}
	return t
}()

// fifths are the groups of tables that print the 20th, 40th, 60th and 80th
// percentile.
var fifths = [groupCount]string{"lowest fifth", "second fifth", "middle fifth", "fourth fifth", "top fifth"}

// Fifths lists the names of the groups of tables in fifths, from the lowest.
func Fifths() []string { return fifths[:] }

// fifthsOf reads a table of percentiles as five equal groups.
func fifthsOf(id, file, source string, keep func(record) bool) *GroupTable {
	t := &GroupTable{ID: id, Names: fifths, Source: source}
	records, _ := load(file)
	for _, r := range records {
		if !keep(r) {
			continue
		}
		row := GroupRow{Table: t, Sex: r.sex(), Ages: r.ages()}
		for g, percent := range []int{0, 20, 40, 60, 80} {
			if percent > 0 {
				row.opens[g] = VO2(r.number(fmt.Sprintf("p%d", percent)))
			}
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// AdultTables lists the tables that adults can be read against, the default
// first.
var AdultTables = func() []*GroupTable {
	all := []*GroupTable{AdultGroups}
	for _, e := range FRIENDEditions() {
		all = append(all, fifthsOf(e.id(), friendFile, e.source(), func(r record) bool {
			return editionOf(r) == e
		}))
	}
	everyone := func(record) bool { return true }
	adults := func(r record) bool { return r.number("age_min") >= 20 }
	return append(all,
		fifthsOf("almeida-2019", almeidaFile, "almeida2019", everyone),
		fifthsOf("nhanes-2001-2004", nhanesFile, "nhanes0104", adults))
}()

// AdultTable finds an adult table by its short name.
func AdultTable(id string) (*GroupTable, bool) {
	for _, t := range AdultTables {
		if t.ID == id {
			return t, true
		}
	}
	return nil, false
}
