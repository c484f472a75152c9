package reference

import (
	"io"
	"strings"
	"testing"
	"testing/iotest"
)

const ownHead = "sex,age_min,age_max,unit,weak,fair,sound,strong,superb\n"

func TestOwnTable(t *testing.T) {
	for name, text := range map[string]string{
		"commas":               ownHead + "F,20,39,mL/kg/min,,28,33,38,45\nF,40,,MET,,7,9,10.5,12\n",
		"semicolons":           strings.ReplaceAll(ownHead, ",", ";") + "f; 20;39;ml/kg/min;0;28;33;38;45\nF;40;;mets;;7;9;10,5;12\n",
		"byte order and notes": "\ufeff" + ownHead + "# from the club\nF,20,39,mL/kg/min,,28,33,38,45\nF,40,,MET,,7,9,10.5,12\n",
	} {
		table, err := ReadGroupTable("club", strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !table.Own || table.ID != "club" || table.Source != "club" || table.Names[Lowest] != "weak" || table.Names[Highest] != "superb" {
			t.Errorf("%s: %+v", name, table)
		}
		for _, c := range []struct {
			years int
			v     VO2
			want  Group
		}{{20, 27.9, 0}, {39, 28, 1}, {30, 45, 4}, {40, 36.74, 2}, {40, 36.75, 3}, {110, 42, 4}} {
			row, ok := table.Row(Female, c.years)
			if got := row.Group(c.v); !ok || got != c.want {
				t.Errorf("%s: %g at %d is group %d, %v; want %d", name, float64(c.v), c.years, got, ok, c.want)
			}
		}
		if _, ok := table.Row(Male, 30); ok {
			t.Errorf("%s: a row for men", name)
		}
	}
}

// Errors say which row, and what should stand there.
func TestOwnTableFaults(t *testing.T) {
	const row = "F,20,29,mL/kg/min,,28,33,38,45\n"
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "a header and at least one row are needed"},
		{"header only", ownHead, "a header and at least one row are needed"},
		{"no table at all", "\"", "club:"},
		{"too few columns", "sex,age_min,age_max,unit,weak\nF,20,29,MET,3\n", "row 1: 9 columns are needed"},
		{"a column of another name", strings.Replace(ownHead, "age_min", "from", 1) + row, `row 1: column 2 should be "age_min", not "from"`},
		{"a group without a name", strings.Replace(ownHead, "fair", " ", 1) + row, "row 1: column 6 needs the name of a group"},
		{"too few cells", ownHead + "F,20,29\n", "row 2: 3 cells, not 9"},
		{"sex", ownHead + "X,20,29,MET,,7,9,10,12\n", `row 2: sex should be F or M, not "X"`},
		{"no age", ownHead + "F,,29,MET,,7,9,10,12\n", "row 2: age_min should be whole years from 18 on"},
		{"a child's age", ownHead + "F,17,29,MET,,7,9,10,12\n", `age_min should be whole years from 18 on, not "17"`},
		{"ages backwards", ownHead + "F,30,29,MET,,7,9,10,12\n", `age_max should be whole years from 30 on, not "29"`},
		{"an age in words", ownHead + "F,30,old,MET,,7,9,10,12\n", `age_max should be whole years from 30 on, not "old"`},
		{"unit", ownHead + "F,20,29,L/min,,2,3,4,5\n", `unit should be mL/kg/min or MET, not "L/min"`},
		{"a word for a number", ownHead + "F,20,29,MET,,7,nine,10,12\n", `sound needs a number, not "nine"`},
		{"not rising", ownHead + "F,20,29,MET,,7,7,10,12\n", "sound should open above the group before it"},
		{"below nothing", ownHead + "F,20,29,MET,,-1,7,10,12\n", "fair should open above the group before it"},
		{"not a number", ownHead + "F,20,29,MET,,NaN,7,10,12\n", "fair should open above the group before it"},
		{"without end", ownHead + "F,20,29,MET,,7,9,10,Inf\n", "superb should open above the group before it and below 120"},
		{"in the second row", ownHead + row + "M,20,29,MET,,7,9,ten,12\n", "row 3: strong needs a number"},
		{"overlap", ownHead + row + "F,29,39,mL/kg/min,,28,33,38,45\n", "the ages 20–29 and 29–39 overlap"},
		{"overlap with an open end", ownHead + "F,20,,mL/kg/min,,28,33,38,45\nF,60,,mL/kg/min,,28,33,38,45\n", "overlap"},
		{"more than is read", ownHead + row + strings.Repeat("#\n", maxOwnBytes/2) + row, "larger than 1 MB"},
		{"too many rows", ownHead + strings.Repeat(row, maxOwnRows+1), "more than 1000 rows"},
	} {
		if _, err := ReadGroupTable("club", strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "club") {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	// The same ages for both sexes do not overlap.
	if _, err := ReadGroupTable("club", strings.NewReader(ownHead+row+strings.Replace(row, "F", "M", 1))); err != nil {
		t.Error(err)
	}
	if _, err := ReadGroupTable("club", iotest.ErrReader(io.ErrUnexpectedEOF)); err == nil {
		t.Error("a file that cannot be read")
	}
}

// FuzzReadGroupTable reads anything; a table that is let in has rising groups
// and rows that do not overlap.
func FuzzReadGroupTable(f *testing.F) {
	f.Add(ownHead + "F,20,39,mL/kg/min,,28,33,38,45\nF,40,,MET,,7,9,10.5,12\n")
	f.Add(strings.ReplaceAll(ownHead, ",", ";") + "M;20;39;ml/kg/min;0;28;33;38,5;45\n")
	f.Add(ownHead + "F,20,29,MET,,7,NaN,10,1e400\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := ReadGroupTable("club", strings.NewReader(text))
		if err != nil {
			return
		}
		for _, sex := range bothSexes {
			for years := 18; years < 121; years++ {
				row, ok := table.Row(sex, years)
				if !ok {
					continue
				}
				for g := Second; g < groupCount; g++ {
					if !(row.Opens(g) > row.Opens(g-1)) || row.Group(row.Opens(g)) != g {
						t.Fatalf("%s %d: group %d opens at %g after %g", sex, years, g, float64(row.Opens(g)), float64(row.Opens(g-1)))
					}
				}
			}
		}
	})
}
