package result

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tenback/workbook/splice"
)

// TestKeptRows: what is kept packed comes back as it was, or as places alone.
func TestKeptRows(t *testing.T) {
	e := &sheetEdit{columns: []placedColumn{{col: 4}, {col: 5}, {col: 9}}}
	styles := cellStyles{body: []int{2, 1, 3}}
	rows := []int{7, 8, 11}
	filled := []columnSet{0b101, 0, 0b111}
	cells := []splice.Cell{
		{Row: 7, Col: 4, Style: 2, Kind: splice.Text, Text: strings.Repeat("Ő and 青木 ", 1000)},
		{Row: 7, Col: 9, Style: 3, Kind: splice.Number, Number: -0.1},
		{Row: 11, Col: 4, Style: 2, Kind: splice.Text},
		{Row: 11, Col: 5, Style: 1, Kind: splice.Number, Number: math.MaxFloat64},
		{Row: 11, Col: 9, Style: 3, Kind: splice.Text, Text: "\x00"},
	}
	kept := keep(cells, filled)
	if got := kept.cells(e, rows, styles); !reflect.DeepEqual(got, cells) {
		t.Errorf("got %v", got)
	}
	for i := range cells {
		cells[i].Kind, cells[i].Text, cells[i].Number = splice.Empty, "", 0
	}
	if got := kept.places(e, rows, styles); !reflect.DeepEqual(got, cells) {
		t.Errorf("the places are %v", got)
	}
}

func TestColumnSetHoldsAllColumns(t *testing.T) {
	columns := len(columns)
	if columns > 64 {
		t.Fatalf("%d result columns are more than a columnSet can tell apart", columns)
	}
	if got, want := slices.Collect(columnSet(1<<63|1<<5|1).all()), []int{0, 5, 63}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
