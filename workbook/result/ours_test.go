package result

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/people"
	"tenback/workbook/sheetwords"
)

// TestWhatIsWrittenIsRecognised holds every text that a result column writes, in
// each language, to what the column is known to hold.
func TestWhatIsWrittenIsRecognised(t *testing.T) {
	all := manyOutcomes(t)
	for seconds := 480.0; seconds < 1500; seconds += 120 {
		for _, sex := range []scoring.Sex{scoring.SexUnspecified, scoring.Female, scoring.Male} {
			all = append(all, outcomeOf(t, run(t, sex, 15+seconds/20, seconds)), changed(t, 800, seconds))
		}
	}
	all = append(all, &Outcome{Visit: people.Visit{Row: all[0].Row, Doubt: people.DayUnknown}})
	for _, lang := range templates.Languages() {
		for i, c := range Columns(sheetwords.Of(sheetwords.Builtin()[lang])) {
			for _, o := range all {
				v := c.Value(o, o.Score(&scoring.Options{}))
				if r := rawOf(v); !v.IsBlank() && !columns[i].holds(builtinTexts(), r) {
					t.Errorf("%s, %s: %q is taken for a text that somebody typed", lang, c.ID, r.Text)
				}
			}
		}
	}
}

func rawOf(v Value) cell.Raw {
	if v.IsNumber() {
		return cell.Raw{Kind: cell.Number, Text: strconv.FormatFloat(v.Number, 'f', -1, 64)}
	}
	return cell.Raw{Kind: cell.Text, Text: v.Text}
}

func TestWhatPeopleTypeIsRecognised(t *testing.T) {
	for _, c := range columns {
		for _, text := range []string{"see doctor first!", "ok", "7b", "knee, see mother", "absent", "=1+1"} {
			if c.holds(builtinTexts(), cell.Raw{Kind: cell.Text, Text: text}) {
				t.Errorf("%s: %q is taken for a result", c.id, text)
			}
		}
	}
	for id, text := range map[string]string{"group": "High!!", "next": "Elite from 46.6 (4.5 more): talk to him", "flags": "age not given: no table can be used; phoned mother"} {
		if columns[numberOf(id)].holds(builtinTexts(), cell.Raw{Kind: cell.Text, Text: text}) {
			t.Errorf("%s: %q is taken for a result", id, text)
		}
	}
}

// grownUps are the results of three runners, by ID.
func grownUps(t *testing.T) map[string][]cell.Raw {
	all := map[string][]cell.Raw{}
	for _, seconds := range []float64{600, 710, 830} {
		o := outcomeOf(t, run(t, scoring.Male, 45.5, seconds))
		for _, c := range Columns(sheetwords.Of(nil)) {
			all[c.ID] = append(all[c.ID], rawOf(c.Value(o, o.Score(&scoring.Options{}))))
		}
	}
	return all
}

// sheetOf lays out columns: an ID of ours with its header and values, "ID=header" for
// another header over those values, ":header=value" for a user's column.
func sheetOf(t *testing.T, layout string) (head []ooxml.Cell, below [][]ooxml.Cell) {
	results := grownUps(t)
	below = make([][]ooxml.Cell, 3)
	for i, part := range strings.Split(layout, "|") {
		id, header, given := strings.Cut(part, "=")
		values := results[id]
		switch user, isUser := strings.CutPrefix(id, ":"); {
		case isUser:
			kind := cell.Text
			if _, err := strconv.ParseFloat(header, 64); err == nil {
				kind = cell.Number
			}
			for n := range 3 {
				values = append(values, cell.Raw{Kind: kind, Text: header + strings.Repeat("0", n)})
			}
			header = user
		case !given:
			header = columns[numberOf(id)].header
		}
		if header != "" {
			head = append(head, ooxml.Cell{Col: i + 1, Raw: cell.Raw{Kind: cell.Text, Text: header}})
		}
		for n, v := range values {
			if v.Text != "" {
				below[n] = append(below[n], ooxml.Cell{Col: i + 1, Raw: v})
			}
		}
	}
	return head, below
}

// namedAt are the names of results at columns: "3 vo2max|4 likely-low".
func namedAt(names string) (all []ooxml.NamedCell) {
	for _, part := range strings.Split(names, "|") {
		if at, id, ok := strings.Cut(part, " "); ok {
			col, _ := strconv.Atoi(at)
			all = append(all, ooxml.NamedCell{Address: grid.Address{Row: 1, Col: col}, Name: "1_" + strings.ReplaceAll(id, "-", "_")})
		}
	}
	return all
}

func TestOwn(t *testing.T) {
	for _, c := range []struct{ name, layout, names, want string }{
		{"none", ":Name=Ann|:Sex=F", "", ""},
		{"generic headers prove nothing", ":Name=Ann|:Group=7b|:VO2max (mL/kg/min)=44|:Percentile=50|:Report=good|:Flags=none", "", ""},
		{"in our order", "vo2max|likely-low|likely-high|estimated-from|group", "", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 group"},
		{"in any order, apart", "likely-high|:Notes=x|likely-low|:Notes=x|estimated-from", "", "1 likely-high|3 likely-low|5 estimated-from"},
		{"two of ours alone", "likely-low|likely-high|:Name=Ann", "", ""},
		{"two and the texts of a third", "likely-low|likely-high|:Name=Ann|flags", "", "1 likely-low|2 likely-high|4 flags"},
		{"a laboratory's own values", ":VO2max (mL/kg/min)=44|:Group=7b|likely-low|likely-high|estimated-from|group", "",
			"3 likely-low|4 likely-high|5 estimated-from|6 group"},
		{"a user's group and percentile, ours deleted", ":Group=High|:Percentile=5|vo2max|likely-low|likely-high|estimated-from", "",
			"3 vo2max|4 likely-low|5 likely-high|6 estimated-from"},
		{"the first header shortened", ":Age=40|vo2max=VO2max|likely-low|likely-high|estimated-from", "",
			"2 vo2max|3 likely-low|4 likely-high|5 estimated-from"},
		{"spaces and case", "vo2max= VO2MAX (mL/kg/min)|likely-low=likely low |likely-high|estimated-from", "", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from"},
		{"another language", "vo2max=VO2max (ml/kg/min)|likely-low=Wahrscheinlich von|likely-high=Wahrscheinlich bis|estimated-from=Geschätzt aus|percentile=Perzentil", "",
			"1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 percentile"},
		{"a percentile elsewhere", "likely-low|likely-high|estimated-from|:Notes=x|percentile", "", "1 likely-low|2 likely-high|3 estimated-from"},
		{"a copy", "likely-low|likely-high|estimated-from|:Notes=x|vo2max|likely-low|likely-high|estimated-from", "",
			"1 likely-low|2 likely-high|3 estimated-from|5 vo2max|6 |7 |8 "},

		{"named, every header changed", ":Age=40|vo2max=a|likely-low=b|likely-high=c|estimated-from=d|group=e|percentile=f|next=g", "2 vo2max|3 likely-low|4 likely-high|5 estimated-from|6 group|7 percentile|8 next",
			"2 vo2max|3 likely-low|4 likely-high|5 estimated-from|6 group|7 percentile|8 next"},
		{"named, a header deleted", "vo2max=|likely-low|likely-high", "1 vo2max|2 likely-low|3 likely-high", "1 vo2max|2 likely-low|3 likely-high"},
		{"named, an empty column", "vo2max|report=Files", "1 vo2max|2 report", "1 vo2max|2 report"},
		{"the user's now", "vo2max|likely-low|likely-high|:Body mass (kg)=60", "1 vo2max|2 likely-low|3 likely-high|4 percentile", "1 vo2max|2 likely-low|3 likely-high"},
		{"values of a laboratory over ours", ":VO2max lab=44|likely-low|likely-high|estimated-from|group", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 group",
			"2 likely-low|3 likely-high|4 estimated-from|5 group"},
		{"names left behind by an insert", ":Notes=x|vo2max|likely-low|likely-high|estimated-from|group|percentile", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 group|6 percentile",
			"2 vo2max|3 likely-low|4 likely-high|5 estimated-from|6 group|7 percentile"},
		{"names left behind in the middle", "vo2max|likely-low|:Notes=x|likely-high|estimated-from|group", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 group",
			"1 vo2max|2 likely-low|4 likely-high|5 estimated-from|6 group"},
		{"names left behind by an insert, headers changed", ":Notes=x|vo2max=VO2max|likely-low=from|likely-high|estimated-from|group=Team|percentile", "1 vo2max|2 likely-low|3 likely-high|4 estimated-from|5 group|6 percentile",
			"2 vo2max|3 likely-low|4 likely-high|5 estimated-from|6 group|7 percentile"},
		{"names left behind by a deletion, a header changed", ":Age=40|vo2max=VO2max|likely-high|estimated-from|group|percentile", "2 vo2max|3 likely-low|4 likely-high|5 estimated-from|6 group|7 percentile",
			"2 vo2max|3 likely-high|4 estimated-from|5 group|6 percentile"},
		{"a user's group, ours deleted", ":Group=Low|vo2max|likely-low|likely-high|estimated-from", "2 vo2max|3 likely-low|4 likely-high|5 estimated-from",
			"2 vo2max|3 likely-low|4 likely-high|5 estimated-from"},
		{"a name of nothing known", "vo2max|likely-low|:Years=3", "1 vo2max|2 likely-low|3 of-later", "1 vo2max|2 likely-low"},
	} {
		head, below := sheetOf(t, c.layout)
		own := Own(head, below, namedAt(c.names))
		var got []string
		for _, col := range slices.Sorted(maps.Keys(own)) {
			got = append(got, fmt.Sprint(col, " ", own[col]))
		}
		if g := strings.Join(got, "|"); g != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, g, c.want)
		}
	}
}

// FuzzOwn: whatever the headers, only columns with a header of ours are taken without
// names, and never fewer than three.
func FuzzOwn(f *testing.F) {
	f.Add("Name,VO2max (mL/kg/min),Likely low,Likely high,Group")
	f.Add("VO2max (mL/kg/min),Likely low,Notes,Estimated from,Group,VO2max (mL/kg/min)")
	f.Add(",,Report,Flags")
	f.Fuzz(func(t *testing.T, row string) {
		var head []ooxml.Cell
		for i, text := range strings.Split(row, ",") {
			head = append(head, ooxml.Cell{Col: i + 1, Raw: cell.Raw{Kind: cell.Text, Text: text}})
		}
		own := Own(head, nil, nil)
		if len(own) > 0 && len(own) < 3 {
			t.Fatalf("%d columns are too few to be sure: %v of %q", len(own), own, row)
		}
		for col := range own {
			if resultIndex(head[col-1].Text) < 0 {
				t.Fatalf("columns %v of %q", own, row)
			}
		}
	})
}

// The middle of the likely range must be the estimate, because a column of estimates
// is recognised by it.
func TestEstimateIsTheMiddle(t *testing.T) {
	values := grownUps(t)
	for i := range values["vo2max"] {
		x, _ := amount(values["vo2max"][i])
		low, _ := amount(values["likely-low"][i])
		high, _ := amount(values["likely-high"][i])
		if math.Abs(2*x-low-high) > 1e-9 {
			t.Errorf("%v is not between %v and %v", x, low, high)
		}
	}
}
