package group

import (
	"fmt"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/reference"
)

// The limits of the smallest number of people that a printed cell may hold.
const (
	DefaultSmallest = 5
	LeastSmallest   = 3
)

// Summary holds only what may be printed about a roster; hidden cells are empty.
type Summary struct {
	Smallest int // no shown cell holds fewer people
	Tables   []Table
	Figures  []Figure
	TooSmall []Part     // with fewer than Smallest people, perhaps none
	Withheld []Withheld // tables in which nothing could be shown
	Seasons  *Seasons   // change since the last round; nil after one round
}

// Withheld names a table that is not there.
type Withheld struct {
	Part Part
	ID   TableID
}

// Table is one table of counts. Its last row and its last column are totals
// and have the key "all"; a table of counts by one thing has no other column.
type Table struct {
	ID      TableID
	Part    Part // not used by PeopleTable, which is about all three
	Rows    []Label
	Columns []Label
	Cells   [][]Cell // by row, then column
}

// Cell is one count of people.
type Cell struct {
	Shown bool
	Count int // 0 if hidden
	// Share is Count as a part (0 to 1) of its row's total, in the last column of
	// everyone. It is present only where that total is shown.
	Share    float64
	HasShare bool
}

// TableID says what a table is about.
type TableID uint8

// The tables.
const (
	PeopleTable     TableID = iota // how many people of each part
	ByGroup                        // people by class, department or squad
	BySex                          // people by sex
	ByAge                          // people by decade of age
	ByTest                         // people by the test that their value comes from
	ByStanding                     // adults by the five groups, youths by the side of the health line
	ByResting                      // adults by band of the resting heart rate
	ByReason                       // people without a place, by why
	ByChange                       // people by whether their VO2max really changed since the last round
	GroupBySex                     // class by sex
	AgeBySex                       // decade by sex
	GroupByStanding                // class by lower and upper groups, or by side of the health line
	tableCount
)

// Label heads a row or a column, or names the people of a figure.
type Label struct {
	// Key is the same in every language: "all", "sex-female", "ages-30-39",
	// "test-" with the test's ID, "reason-" with the reason's, "group-1" and on in
	// the order of the roster, "no-group" ... Joined keys have "+" between, or are
	// the whole range of ages.
	Key   string
	Text  string         // the roster's name of a group; else empty
	Of    []string       // keys of a joined row or column; empty for a single one
	Texts []string       // of Of, one by one, because names may hold commas
	Ages  reference.Ages // of a row of ages; else zero
}

// Quantity is what a figure measures.
type Quantity uint8

// The quantities.
const (
	VO2max      Quantity = iota // mL/kg/min
	RestingRate                 // beats/min
)

// Unit is the quantity's unit.
func (q Quantity) Unit() scoring.Unit {
	return [...]scoring.Unit{scoring.MLPerKgMin, scoring.BeatsPerMinute}[q]
}

// Figure is the middle and the spread of a quantity in a set of people.
type Figure struct {
	Part     Part
	Quantity Quantity
	Of       Label // whose: "all", or a row of ByGroup, BySex or ByAge
	People   Cell  // hidden where it would give away what a table hides

	LowerQuartile, Median, UpperQuartile Value
}

// Value is a figure's number.
type Value struct {
	Shown  bool
	Amount float64 // whole units; 0 if hidden
}

// Summarise returns the summary of a roster in which no shown cell holds fewer than
// smallest people, at least LeastSmallest. The order of members decides only the
// order of groups and the spelling of their names.
func Summarise(members []Member, smallest int) (Summary, error) {
	if smallest < LeastSmallest {
		return Summary{}, fmt.Errorf("the smallest group shown cannot be %d: a cell of fewer than %d people exposes the others; use %d or more",
			smallest, LeastSmallest, LeastSmallest)
	}
	s := Summary{Smallest: smallest}
	var parts [partCount][]person
	var names roll
	left := 0
	for _, m := range members {
		if m.Presence != change.OneRound && s.Seasons == nil {
			s.Seasons = &Seasons{}
		}
		if m.Presence == change.Left {
			left++
			continue
		}
		p := personOf(m)
		p.group = names.place(m.Group)
		parts[p.part] = append(parts[p.part], p)
	}
	if s.Seasons != nil && left >= smallest {
		s.Seasons.Left = Cell{Shown: true, Count: left}
	}
	s.addPeople(parts)
	for part := range partCount {
		s.addPart(part, parts[part], &names)
	}
	return s, nil
}
