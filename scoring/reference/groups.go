package reference

import "math"

const groupsFile = "adult_groups_mandsager2018.csv"

// Group is one of the five adult groups of Mandsager et al. 2018.
type Group int

// The groups in rising order of fitness: below the 25th percentile of the
// paper's patients of the same sex and decade, 25th to 49th, 50th to 74th,
// 75th to 97.6th, and above.
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

func (g Group) String() string {
	return [...]string{"Low", "Below average", "Above average", "High", "Elite"}[g]
}

// GroupRow is the row of the adult table for one sex and decade of age.
type GroupRow struct {
	Sex   Sex
	Ages  Ages
	opens [groupCount]MET // opens[Low] is zero
}

// Opens is the smallest value of the group in this row, as printed (METs).
func (r GroupRow) Opens(g Group) MET { return r.opens[g] }

// Group classifies an uptake. As in the paper the comparison is made in METs
// rounded to one decimal, so a value a hair under a printed limit reaches it.
func (r GroupRow) Group(v VO2) Group {
	met := RoundMET(v.METs())
	g := Low
	for next := BelowAverage; next < groupCount; next++ {
		if met >= r.opens[next] {
			g = next
		}
	}
	return g
}

// RoundMET rounds to the one decimal that the adult table is printed with.
func RoundMET(m MET) MET { return MET(math.Round(float64(m)*10) / 10) }

var groupRows = func() []GroupRow {
	records, _ := load(groupsFile)
	rows := make([]GroupRow, 0, len(records))
	for _, r := range records {
		rows = append(rows, GroupRow{Sex: r.sex(), Ages: r.ages(), opens: [groupCount]MET{
			0, MET(r.number("met_p25")), MET(r.number("met_p50")), MET(r.number("met_p75")), MET(r.number("met_p97_7"))}})
	}
	return rows
}()

// GroupRowFor finds the row for a sex and an age in whole years (18 and over).
// ok is false where the table has no row.
//
// Source: mandsager2018, Table 2.
func GroupRowFor(sex Sex, years int) (row GroupRow, ok bool) {
	for _, r := range groupRows {
		if r.Sex == sex && r.Ages.Contains(years) {
			return r, true
		}
	}
	return GroupRow{}, false
}
