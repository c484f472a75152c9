package workbook

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// TestHeadersByStrangers reads headers that people wrote who had not seen the code,
// each in a small sheet. The golden file lists those that are not read as they
// meant: "missed" is asked or left alone, "misread" is used as something else.
func TestHeadersByStrangers(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 2,000 sheets")
	}
	files, err := filepath.Glob("../testdata/strangers/headers*.csv")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	dir := t.TempDir()
	var open []string
	for _, path := range files {
		for i, rec := range readCSV(t, path)[1:] {
			h := strangeHeader{header: rec[0], above: rec[2], title: rec[3], values: strings.Split(rec[4], "|"), meaning: rec[5]}
			verdict, got := h.read(t, filepath.Join(dir, fmt.Sprintf("%s-%d.csv", filepath.Base(path), i)))
			if verdict != "right" {
				open = append(open, fmt.Sprintf("%s %s %q above %q title %q is %s, read as %s", verdict, rec[1], h.header, h.above, h.title, h.meaning, got))
			}
		}
	}
	slices.Sort(open)
	wantFile(t, filepath.Join("..", "testdata", "strangers", "open.txt"), strings.Join(open, "\n")+"\n")
}

func readCSV(t *testing.T, path string) [][]string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(path, err)
	}
	return all
}

// strangeHeader is a header with what its writer meant.
type strangeHeader struct {
	header, above, title string
	values               []string
	meaning              string
}

// columnOf is a column of the sheet around a header.
type columnOf struct {
	header, meaning string
	values          []string
}

// read reads the header in a sheet of four people.
func (h *strangeHeader) read(t *testing.T, path string) (verdict, got string) {
	var around []columnOf
	for _, c := range []columnOf{{"Name", "name", []string{"Ada Fern", "Bo Marsh", "Cy Reed", "Di Moss"}}, {"Sex", "sex", []string{"F", "M", "M", "F"}},
		{"Age", "age", []string{"31", "42", "27", "38"}}, {"Resting HR", "rhr", []string{"61", "66", "72", "58"}}} {
		part := (h.meaning == "given" || h.meaning == "family") && c.meaning == "name"
		if c.meaning != h.meaning && !part && !(h.meaning == "birth" && c.meaning == "age") {
			around = append(around, c)
		}
	}
	beside := map[string]columnOf{"given": {"Surname", "", []string{"Fern", "Marsh", "Reed", "Moss"}}, "family": {"First name", "", []string{"Ada", "Bo", "Cy", "Di"}},
		"result": {"Test", "", []string{"1.5 mile run", "12 minute run", "beep test", "1 mile run"}}, "shuttle-shuttle": {"Level", "", []string{"5", "6", "7", "4"}}}
	if c, ok := beside[h.meaning]; ok && !(h.meaning == "result" && h.title != "") {
		around = append(around, c)
	}
	at := len(around)
	around = append(around, columnOf{h.header, h.meaning, h.values})
	if h.meaning == "shuttle-level" {
		around = append(around, columnOf{"Shuttle", "", []string{"1", "2", "3", "2"}})
	}
	var rows [][]string
	if h.title != "" {
		rows = append(rows, []string{h.title})
	}
	if h.above != "" {
		row := make([]string, len(around))
		row[at] = h.above
		rows = append(rows, row)
	}
	for n := range 5 {
		var row []string
		for _, c := range around {
			all := append([]string{c.header}, c.values...)
			row = append(row, append(all, "", "", "", "", "")[n])
		}
		rows = append(rows, row)
	}
	var b strings.Builder
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := Open(path, ReadOptions{})
	if err != nil {
		if h.meaning == "none" || h.meaning == "notes" {
			return "right", ""
		}
		return "missed", "no sheet of people"
	}
	for _, c := range append(slices.Clone(r.Sheets), r.Lists...)[0].Columns {
		if c.Index == at+1 {
			asked := slices.ContainsFunc(r.Questions, func(q roster.Question) bool { return q.Header == c.Header })
			return h.judge(c.Meaning, asked), c.Meaning.String()
		}
	}
	return "missed", "no column"
}

// personal maps what writers call inputs to the inputs.
var personal = map[string]scoring.Input{"age": scoring.Age, "sex": scoring.SexInput, "mass": scoring.BodyMass, "stature": scoring.Stature, "waist": scoring.Waist,
	"bodyfat": scoring.BodyFat, "rhr": scoring.RestingHR, "maxhr": scoring.MaxHR, "hrend": scoring.ExerciseHR, "hrrec": scoring.RecoveryHR, "effort": scoring.Effort,
	"betablocker": scoring.HeartRateDrug, "disease": scoring.KnownDisease, "symptoms": scoring.Symptoms, "pregnant": scoring.Pregnant, "cleared": scoring.Cleared,
	"consent": scoring.Consent, "bp": scoring.SystolicBP, "asthma": scoring.Asthma,
	"shuttle-level": scoring.ShuttleLevel, "shuttle-shuttle": scoring.ShuttleInLevel, "shuttle-laps": scoring.ShuttleLaps}

// identity maps what writers call columns about people to the roles.
var identity = map[string][]roster.Role{"name": {roster.Name}, "given": {roster.GivenName}, "family": {roster.FamilyName}, "id": {roster.ID},
	"listno": {roster.ListNumber, roster.ID}, "group": {roster.Group}, "birth": {roster.Birth}, "testdate": {roster.TestDate}, "testname": {roster.TestName},
	"email": {roster.Email}, "guardianemail": {roster.GuardianEmail}}

func (h *strangeHeader) judge(m roster.Meaning, asked bool) string {
	unused := slices.Contains([]roster.Role{roster.Unknown, roster.Other, roster.Unscored, roster.HeartRate, roster.ListNumber}, m.Role)
	is := false
	if in, ok := personal[h.meaning]; ok {
		is = m.Input == in && (m.Role == roster.InputData || m.Role == roster.Minutes) || h.meaning == "effort" && unused
	} else if roles, ok := identity[h.meaning]; ok {
		is = slices.Contains(roles, m.Role)
	} else {
		test, distance, _ := strings.Cut(h.meaning, ":")
		switch test {
		case "none", "notes", "bmi":
			is = unused
		case "ask":
			is = unused || asked
		case "result":
			is = m.Role == roster.Result || m.Test != nil && m.Test.HasResult(m.Input)
		case "race":
			is = m.Test != nil && (m.Test.ID == "race" && strings.HasPrefix(distance, fmt.Sprintf("%.0f", m.Distance)[:2]) || m.Test.ID == "run-1.5-mile" && distance == "2400")
		default:
			is = m.Test != nil && m.Test.ID == test && m.Test.HasResult(m.Input)
		}
	}
	switch {
	case is:
		return "right"
	case unused || asked:
		return "missed"
	}
	return "misread"
}
