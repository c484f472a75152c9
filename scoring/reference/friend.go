package reference

import (
	"fmt"
	"slices"
	"strings"
)

const friendFile = "friend_percentiles.csv"

// FRIENDEdition names one edition and exercise mode of the FRIEND tables.
type FRIENDEdition struct{ Edition, Mode string }

// id is the edition's short name as an adult table: friend-2022-treadmill.
func (e FRIENDEdition) id() string { return "friend-" + e.year() + "-" + e.Mode }

// source is the edition's key in the bibliography.
func (e FRIENDEdition) source() string { return "kaminsky" + e.year() }

func (e FRIENDEdition) year() string { return strings.TrimPrefix(e.Edition, "Kaminsky")[:len("2022")] }

// FRIENDDefault is the newest edition; its values are the selection of tests
// with a respiratory exchange ratio of at least 1.10, on a treadmill.
var FRIENDDefault = FRIENDEdition{"Kaminsky2022_RER1.10", "treadmill"}

// friendPercents are the percentiles kept from the tables.
var friendPercents = []int{5, 10, 20, 25, 30, 40, 50, 60, 70, 75, 80, 90, 95}

type friendRow struct {
	edition FRIENDEdition
	sex     Sex
	ages    Ages
	points  []point
}

var friendRows = func() []friendRow {
	records, _ := load(friendFile)
	rows := make([]friendRow, 0, len(records))
	for _, r := range records {
		row := friendRow{FRIENDEdition{r.text("edition"), r.text("mode")}, r.sex(), r.ages(), nil}
		for _, p := range friendPercents {
			row.points = append(row.points, point{float64(p), r.number(fmt.Sprintf("p%d", p))})
		}
		rows = append(rows, row)
	}
	return rows
}()

// FRIENDEditions lists the editions and modes in the table.
func FRIENDEditions() []FRIENDEdition {
	var all []FRIENDEdition
	for _, r := range friendRows {
		if !slices.Contains(all, r.edition) {
			all = append(all, r.edition)
		}
	}
	return all
}

// FRIENDPercentile places an uptake among people of the same sex and decade.
// ok is false where the edition has no row (under 20; over 79, or 89 in 2022).
//
// Source: kaminsky2015, kaminsky2017, kaminsky2022.
func FRIENDPercentile(edition FRIENDEdition, sex Sex, years int, v VO2) (p Percentile, ok bool) {
	for _, r := range friendRows {
		if r.edition == edition && r.sex == sex && r.ages.Contains(years) {
			return percentileOf(r.points, float64(v)), true
		}
	}
	return Percentile{}, false
}
