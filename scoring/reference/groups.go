package reference

import (
	"fmt"
	"math"
)

const groupsFile = "adult_groups_mandsager2018.csv"

// Group is one of the five groups of an adult table, counted from 0, the lowest. What
// it is called is up to the table.
type Group int

// The five groups. Two tables cut at the 25th, 50th and 75th percentile, and the others
// at the 20th, 40th, 60th and 80th.
const (
	Lowest Group = iota
	Second
	Third
	Fourth
	Highest
	groupCount
)

// Groups lists the five groups in rising order of fitness.
func Groups() []Group { return []Group{Lowest, Second, Third, Fourth, Highest} }

// Naming is what the groups of a kind of table are called.
type Naming struct {
	Kind  string // begins the keys of the translations; empty for a table of the user's own
	Names [groupCount]string
}

// The names of the published tables' groups.
var (
	quarters = Naming{"quarter", [groupCount]string{"lowest quarter", "second quarter", "third quarter", "top quarter", "top twentieth"}}
	fifths   = Naming{"fifth", [groupCount]string{"lowest fifth", "second fifth", "middle fifth", "fourth fifth", "top fifth"}}
	stages   = Naming{"group", [groupCount]string{"Low", "Below average", "Above average", "High", "Elite"}}
)

// Namings lists the names of the published tables' groups, those of the default first.
func Namings() []Naming { return []Naming{quarters, fifths, stages} }

// GroupTable sorts adults of the same sex and age into five groups.
type GroupTable struct {
	ID string
	Naming
	// Tenths marks a table printed in METs to one decimal; values are compared after
	// rounding to it.
	Tenths bool
	// Source is a key into the bibliography of package scoring; for a table of
	// the user's own it is where it was read.
	Source string
	Own    bool // a table of the user's own
	// Cycle marks a table of uptake measured on cycles.
	Cycle bool
	rows  []GroupRow
}

// GroupRow is the row of an adult table for one sex and age group.
type GroupRow struct {
	Table *GroupTable
	Sex   Sex
	Ages  Ages
	opens [groupCount]VO2 // opens[Lowest] is zero
	// percentiles are the printed ones, rising; nil for a table without them.
	percentiles []point
}

// Percentile places an uptake among the people of the row. ok is false where the table
// prints no percentiles.
func (r GroupRow) Percentile(v VO2) (p Percentile, ok bool) {
	if r.percentiles == nil {
		return Percentile{}, false
	}
	return percentileOf(r.percentiles, float64(v)), true
}

// Opens is the value that opens the group in this row, as printed.
func (r GroupRow) Opens(g Group) VO2 { return r.opens[g] }

// Reaches is the smallest uptake that counts as the group: the opening value,
// or half a printed step below it where the table is compared after rounding.
func (r GroupRow) Reaches(g Group) VO2 {
	if r.Table.Tenths && g > Lowest {
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
	g := Lowest
	for next := Second; next < groupCount; next++ {
		if v >= r.opens[next]-1e-9 {
			g = next
		}
	}
	return g
}

// RoundMET rounds to the one decimal that the treadmill-stage table is printed with.
func RoundMET(m MET) MET { return MET(math.Round(float64(m)*10) / 10) }

// Row finds the row for a sex and an age in whole years. At 18 and 19 a published table
// that begins at 20 is read at its youngest row, whose Ages tell. ok is false where the
// table has no row.
func (t *GroupTable) Row(sex Sex, years int) (row GroupRow, ok bool) {
	for _, r := range t.rows {
		if r.Sex == sex && (r.Ages.Contains(years) || !t.Own && r.Ages.Min == 20 && (years == 18 || years == 19)) {
			return r, true
		}
	}
	return GroupRow{}, false
}

// AdultGroups is the table of patients by the treadmill stage that they reached.
//
// Source: mandsager2018, Table 2.
var AdultGroups = func() *GroupTable {
	t := &GroupTable{ID: "adult-groups", Naming: stages, Tenths: true, Source: "mandsager2018"}
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

// grouped reads a table of percentiles as five groups; the four upper ones open at the
// percentiles of opens.
func grouped(t GroupTable, file string, opens [groupCount]int, keep func(record) bool) *GroupTable {
	records, _ := load(file)
	for _, r := range records {
		if !keep(r) {
			continue
		}
		row := GroupRow{Table: &t, Sex: r.sex(), Ages: r.ages()}
		for g, percent := range opens {
			if percent > 0 {
				row.opens[g] = VO2(r.number(fmt.Sprintf("p%d", percent)))
			}
		}
		t.rows = append(t.rows, row)
	}
	return &t
}

// opensFifths are the percentiles that open the groups of tables in fifths.
var opensFifths = [groupCount]int{0, 20, 40, 60, 80}

// AdultTables lists the tables that adults can be read against, the two defaults first.
var AdultTables = func() []*GroupTable {
	everyone := func(record) bool { return true }
	adults := func(r record) bool { return r.number("age_min") >= 20 }
	return append(friendTables,
		AdultGroups,
		grouped(GroupTable{ID: "almeida-2019", Naming: fifths, Source: "almeida2019"}, almeidaFile, opensFifths, everyone),
		grouped(GroupTable{ID: "nhanes-2001-2004", Naming: fifths, Source: "nhanes0104"}, nhanesFile, opensFifths, adults))
}()

// DefaultAdults returns the table that adults are read against unless another is chosen:
// uptake measured on treadmills, or on cycles for a test on a cycle.
func DefaultAdults(cycle bool) *GroupTable {
	if cycle {
		return friendTables[1]
	}
	return friendTables[0]
}

// AdultTable finds an adult table by its short name.
func AdultTable(id string) (*GroupTable, bool) {
	for _, t := range AdultTables {
		if t.ID == id {
			return t, true
		}
	}
	return nil, false
}
