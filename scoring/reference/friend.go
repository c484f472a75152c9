package reference

import (
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

// friendRows holds the rows of each edition.
var friendRows = func() map[FRIENDEdition][]percentileRow {
	records, _ := load(friendFile)
	all := map[FRIENDEdition][]percentileRow{}
	for _, e := range FRIENDEditions() {
		own := slices.DeleteFunc(slices.Clone(records), func(r record) bool { return editionOf(r) != e })
		all[e] = percentileRows(own, 5, 10, 20, 25, 30, 40, 50, 60, 70, 75, 80, 90, 95)
	}
	return all
}()

func editionOf(r record) FRIENDEdition { return FRIENDEdition{r.text("edition"), r.text("mode")} }

// FRIENDEditions lists the editions and modes in the table.
func FRIENDEditions() []FRIENDEdition {
	var all []FRIENDEdition
	records, _ := load(friendFile)
	for _, r := range records {
		if !slices.Contains(all, editionOf(r)) {
			all = append(all, editionOf(r))
		}
	}
	return all
}

// FRIENDPercentile places an uptake among people of the same sex and decade.
// ok is false where the edition has no row (under 20; over 79, or 89 in 2022).
//
// Source: kaminsky2015, kaminsky2017, kaminsky2022.
func FRIENDPercentile(edition FRIENDEdition, sex Sex, years int, v VO2) (p Percentile, ok bool) {
	row := rowFor(friendRows[edition], sex, years)
	if row == nil {
		return Percentile{}, false
	}
	return percentileOf(row.points, float64(v)), true
}
