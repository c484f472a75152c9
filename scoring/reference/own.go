package reference

import (
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Bounds of a table of the user's own; the published ones have tens of rows.
const (
	maxOwnRows  = 1000
	maxOwnBytes = 1 << 20
)

// ReadGroupTable reads a table of the user's own from CSV with commas or
// semicolons; see [OwnGroupTable] for its form.
func ReadGroupTable(name string, r io.Reader) (*GroupTable, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxOwnBytes+1))
	if err != nil {
		return nil, err
	}
	if len(text) > maxOwnBytes {
		return nil, fmt.Errorf("%s: larger than %d MB, and your own table may have at most %d rows", name, maxOwnBytes>>20, maxOwnRows)
	}
	reader := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(text), "\ufeff")))
	reader.Comment = '#'
	reader.FieldsPerRecord = -1
	if head, _, _ := strings.Cut(string(text), "\n"); strings.Count(head, ";") > strings.Count(head, ",") {
		reader.Comma = ';'
	}
	rows, err := reader.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return OwnGroupTable(name, rows)
}

// OwnGroupTable makes a table of the user's own from rows of text:
//
//	sex, age_min, age_max, unit, weak, fair, sound, strong, superb
//	F,   20,      29,      mL/kg/min, , 28, 33, 38, 45
//
// The last five headers name the groups, the lowest first; below them stand
// the values that open each group (the lowest needs none). Sex is F or M, the
// unit mL/kg/min or MET. Ages are whole years and must not overlap; an empty
// age_max means "and over". Errors name the row.
func OwnGroupTable(name string, rows [][]string) (*GroupTable, error) {
	if len(rows) < 2 {
		return nil, fmt.Errorf("%s: a header and at least one row are needed", name)
	}
	if len(rows) > maxOwnRows {
		return nil, fmt.Errorf("%s: more than %d rows", name, maxOwnRows)
	}
	header := rows[0]
	fixed := []string{"sex", "age_min", "age_max", "unit"}
	if len(header) != len(fixed)+int(groupCount) {
		return nil, fmt.Errorf("%s, row 1: %d columns are needed: %s and five groups", name, len(fixed)+int(groupCount), strings.Join(fixed, ", "))
	}
	t := &GroupTable{ID: name, Source: name, Own: true}
	for i, want := range fixed {
		if !strings.EqualFold(strings.TrimSpace(header[i]), want) {
			return nil, fmt.Errorf("%s, row 1: column %d should be %q, not %q", name, i+1, want, header[i])
		}
	}
	for g := range t.Names {
		t.Names[g] = strings.TrimSpace(header[len(fixed)+g])
		if t.Names[g] == "" {
			return nil, fmt.Errorf("%s, row 1: column %d needs the name of a group", name, len(fixed)+g+1)
		}
	}
	for i, cells := range rows[1:] {
		row, err := t.ownRow(cells)
		if err != nil {
			return nil, fmt.Errorf("%s, row %d: %w", name, i+2, err)
		}
		t.rows = append(t.rows, row)
	}
	return t, t.checkAges(name)
}

func (t *GroupTable) ownRow(cells []string) (GroupRow, error) {
	row := GroupRow{Table: t}
	if len(cells) != 4+int(groupCount) {
		return row, fmt.Errorf("%d cells, not %d", len(cells), 4+int(groupCount))
	}
	switch strings.ToUpper(strings.TrimSpace(cells[0])) {
	case "F":
		row.Sex = Female
	case "M":
		row.Sex = Male
	default:
		return row, fmt.Errorf("sex should be F or M, not %q", cells[0])
	}
	var err error
	if row.Ages.Min, err = strconv.Atoi(strings.TrimSpace(cells[1])); err != nil || row.Ages.Min < 18 {
		return row, fmt.Errorf("age_min should be whole years from 18 on, not %q", cells[1])
	}
	row.Ages.Max = openEnd
	if text := strings.TrimSpace(cells[2]); text != "" {
		if row.Ages.Max, err = strconv.Atoi(text); err != nil || row.Ages.Max < row.Ages.Min {
			return row, fmt.Errorf("age_max should be whole years from %d on, not %q", row.Ages.Min, cells[2])
		}
	}
	factor := VO2(1)
	switch unit := strings.TrimSpace(cells[3]); {
	case strings.EqualFold(unit, "mL/kg/min"):
	case strings.EqualFold(unit, "MET"), strings.EqualFold(unit, "METs"):
		factor = MLPerKgMinPerMET
	default:
		return row, fmt.Errorf("unit should be mL/kg/min or MET, not %q", cells[3])
	}
	for g := Second; g < groupCount; g++ {
		text := strings.Replace(strings.TrimSpace(cells[4+g]), ",", ".", 1)
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return row, fmt.Errorf("%s needs a number, not %q", t.Names[g], cells[4+g])
		}
		row.opens[g] = VO2(x) * factor
		if !(row.opens[g] > row.opens[g-1]) || row.opens[g] > 120 {
			return row, fmt.Errorf("%s should open above the group before it and below 120 mL/kg/min, not at %s", t.Names[g], text)
		}
	}
	return row, nil
}

// checkAges refuses a table in which an age falls into two rows.
func (t *GroupTable) checkAges(name string) error {
	rows := slices.Clone(t.rows)
	slices.SortFunc(rows, func(a, b GroupRow) int {
		return cmp.Or(cmp.Compare(a.Sex, b.Sex), cmp.Compare(a.Ages.Min, b.Ages.Min))
	})
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; a.Sex == b.Sex && b.Ages.Min <= a.Ages.Max {
			return errors.New(name + ": the ages " + a.Ages.String() + " and " + b.Ages.String() + " overlap")
		}
	}
	return nil
}
