package starter

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring/group"
	"tenback/scoring/reference"
)

// groupSummary is a summary with one of everything that a sheet shows.
func groupSummary() group.Summary {
	keys := map[string]string{"18 and over": "adults", "under 18": "youth", "All": "all", "female": "sex-female", "male": "sex-male", "=1+1": "group-7"}
	label := func(text string) group.Label { return group.Label{Key: keys[text], Text: text} }
	shown := func(n int, share float64) group.Cell {
		return group.Cell{Shown: true, Count: n, Share: share, HasShare: true}
	}
	joint := group.Label{Key: "group-1+group-2", Text: "Stores, north, Gate", Of: []string{"group-1", "group-2"}, Texts: []string{"Stores, north", "Gate"}}
	ages := group.Label{Key: "ages-50-120", Text: "50 and over", Of: []string{"c", "d"}, Texts: []string{"50–59", "60–69"}, Ages: reference.Ages{Min: 50, Max: 120}}
	return group.Summary{
		Smallest: 5,
		Tables: []group.Table{
			{ID: group.PeopleTable, Rows: []group.Label{label("18 and over"), label("under 18"), label("All")}, Columns: []group.Label{label("All")},
				Cells: [][]group.Cell{{{Shown: true, Count: 40}}, {{}}, {{}}}},
			{ID: group.GroupBySex, Rows: []group.Label{joint, ages, label("=1+1")}, Columns: []group.Label{label("female"), label("male"), label("All")},
				Cells: [][]group.Cell{{shown(5, 0.25), shown(15, 0.75), shown(20, 0.5)}, {shown(9, 0.45), shown(11, 0.55), shown(20, 0.5)},
					{shown(14, 0.35), shown(26, 0.65), shown(40, 1)}}},
		},
		Figures: []group.Figure{
			{Of: label("All"), People: group.Cell{Shown: true, Count: 40}, LowerQuartile: group.Value{Shown: true, Amount: 31}, Median: group.Value{Shown: true, Amount: 36}},
			{Of: label("All"), Quantity: group.RestingRate, Median: group.Value{Shown: true, Amount: 66}},
		},
		TooSmall: []group.Part{group.Youth},
		Withheld: []group.Withheld{{Part: group.Adults, ID: group.ByAge}},
	}
}

func groupBook(t *testing.T, s group.Summary) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := WriteGroup(&out, s, reference.AdultGroups, time.Date(2026, time.May, 12, 0, 0, 0, 0, time.UTC), nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestGroupSheet reads the sheet back: names as texts, numbers as numbers, and a
// word where a number is hidden.
func TestGroupSheet(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(groupBook(t, groupSummary())))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got := f.GetSheetList(); !slices.Equal(got, []string{"Group summary"}) {
		t.Errorf("sheets %q", got)
	}
	rows, err := f.GetRows("Group summary", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, r := range rows {
		lines = append(lines, strings.Join(r, " | "))
	}
	for _, want := range []string{
		"18 and over, with a place in the tables | 40",
		"Under 18, with a side of the health line | not shown",
		" | female | Share | male | Share | All | Share",
		"Stores, north + Gate | 5 | 0.25 | 15 | 0.75 | 20 | 0.5",
		"50 and over | 9 | 0.45 | 11 | 0.55 | 20 | 0.5",
		"=1+1 | 14 | 0.35 | 26 | 0.65 | 40 | 1",
		"VO₂max in mL/kg/min, 18 and over",
		"All | 40 | 31 | 36 | not shown",
		"Resting heart rate in beats/min, 18 and over",
		"All | not shown | not shown | 66 | not shown",
		"People: under 18 | fewer than 5, perhaps none",
		"Age, 18 and over | a count would be too small, or it says nothing new",
	} {
		if !slices.Contains(lines, want) {
			t.Errorf("no row %q in\n%s", want, strings.Join(lines, "\n"))
		}
	}
	at := 1 + slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "=1+1") })
	name, number := "A"+strconv.Itoa(at), "B"+strconv.Itoa(at)
	if formula, _ := f.GetCellFormula("Group summary", name); formula != "" {
		t.Errorf("a name became the formula %q", formula)
	}
	if kind, _ := f.GetCellType("Group summary", number); kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber {
		t.Errorf("a count is of the type %v", kind)
	}
}

// TestGroupSheetSameBytes: the file's date is the day of the test.
func TestGroupSheetSameBytes(t *testing.T) {
	first := groupBook(t, groupSummary())
	if !bytes.Equal(first, groupBook(t, groupSummary())) {
		t.Error("the bytes differ between runs")
	}
	f, err := excelize.OpenReader(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	props, err := f.GetDocProps()
	if err != nil {
		t.Fatal(err)
	}
	if props.Created != "2026-05-12T00:00:00Z" || props.Modified != props.Created {
		t.Errorf("dated %s, %s", props.Created, props.Modified)
	}
}

func TestGroupSheetTooSmall(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(groupBook(t, group.Summary{Smallest: 5, TooSmall: []group.Part{group.Adults, group.Youth, group.Unplaced}})))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("Group summary")
	if err != nil {
		t.Fatal(err)
	}
	if n := len(rows); n != 4 || !strings.Contains(rows[3][0], "too few people") {
		t.Errorf("%d rows: %q", n, rows)
	}
}
