package evidence

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// sheetOf makes a sheet of columns, each a header and its cells with blanks
// between them. Numbers become stored numbers; a cell in quotes is a text.
func sheetOf(t testing.TB, columns ...string) *Sheet {
	t.Helper()
	s := &Sheet{}
	for _, column := range columns {
		header, cells, _ := strings.Cut(column, ": ")
		h, ok := heading.Match(header)
		if !ok {
			t.Fatalf("%q is no known header", header)
		}
		c := &Column{Header: header, Meaning: h.Meaning, Style: h.Style, Limits: func(int) (time.Duration, time.Duration, bool) {
			return 6 * time.Minute, 25 * time.Minute, h.Input == scoring.Time
		}}
		for _, text := range strings.Fields(cells) {
			r := cell.Raw{Kind: cell.Number, Text: text}
			if _, err := strconv.ParseFloat(text, 64); err != nil || h.Role == roster.Birth || h.Role == roster.TestDate {
				r = cell.Raw{Kind: cell.Text, Text: strings.Trim(text, `"`)}
			}
			c.Cells = append(c.Cells, r)
		}
		switch {
		case h.Role == roster.Birth || h.Role == roster.TestDate:
			c.Dates = &cell.DateColumn{}
			for _, r := range c.Cells {
				c.Dates.Observe(r, c.Context)
			}
		case h.Input == scoring.SexInput:
			c.Sexes = &cell.SexColumn{}
			c.Sexes.ObserveHeader(header)
			for _, r := range c.Cells {
				c.Sexes.Observe(r)
			}
		case h.Input == scoring.Age && h.Role == roster.InputData:
			for _, r := range c.Cells {
				x, _ := strconv.ParseFloat(r.Text, 64)
				s.Ages = append(s.Ages, x)
			}
		}
		s.Columns = append(s.Columns, c)
	}
	return s
}

var styleWords = map[cell.TimeStyle]string{cell.Dotted: "min:sec", cell.InMinutes: "min", cell.InSeconds: "s"}

// outcome says how the last column of a sheet is read: the choices of its question,
// or its unit, style, order or input.
func (s *Sheet) outcome() string {
	c := s.Columns[len(s.Columns)-1]
	if !c.Why.IsZero() {
		var all []string
		for _, choice := range c.Asked {
			all = append(all, choice.Meaning)
		}
		return "? " + strings.Join(all, " | ")
	}
	switch {
	case c.Dates != nil:
		return map[cell.DateOrder]string{cell.AnyOrder: "any", cell.DayFirst: "day first", cell.MonthFirst: "month first"}[c.Order]
	case c.Style != cell.Unsaid:
		return styleWords[c.Style]
	case c.Meaning.Unit != scoring.NoUnit && c.Meaning.Input != scoring.SexInput:
		return c.Meaning.Input.String() + " in " + c.Meaning.Unit.String()
	}
	return "as it is"
}

func TestJudge(t *testing.T) {
	const adults, pupils = "Age: 34 41 29 55 38 47", "Age: 9 10 9 10 9 10"
	for _, tc := range []struct {
		columns []string // the last is judged
		want    string
	}{
		// Body mass.
		{[]string{adults, "Height (cm): 170 181 165 177 168 190", "Weight: 71 92 58 80 63 101"}, "body-mass in kg"},
		{[]string{adults, "Weight: 71 92 58 80 63 101"}, "body-mass in kg"},
		{[]string{adults, "Height (in): 66 71 64 69 67 73", "Weight: 156 203 128 176 139 222"}, "body-mass in lb"},
		{[]string{adults, `Height: 5'6" 5'11" 5'4" 5'9" 5'7" 6'1"`, "Weight: 156 203 128 176 139 222"}, "body-mass in lb"},
		{[]string{adults, "Weight: 156 203 128 176 139 222"}, "body-mass in lb"},
		{[]string{adults, "Height (cm): 170 181 165 177 168 190", "Weight: 156 203 128 176 139 222"}, "? Body mass (lb) | Body mass (kg) | ignore"},
		{[]string{adults, "Height (in): 66 71 64 69 67 73", "Weight: 71 92 58 80 63 101"}, "? Body mass (kg) | Body mass (lb) | ignore"},
		{[]string{adults, "Height (cm): 170 181 165 177 168 190", "Body mass (kg): 156 203 128 176 139 222"}, "? Body mass (lb) | Body mass (kg) | ignore"},
		{[]string{adults, "Height (cm): 170 181 165 177 168 190", "Body mass (kg): 24.6 28.1 21.3 25.5 22.3 28"}, "? ignore | Body mass (lb) | Body mass (kg)"}, // BMI
		{[]string{adults, "Body mass (kg): 22 18 25 31 28 24"}, "? ignore | Body mass (lb) | Body mass (kg)"},                                                   // body fat
		{[]string{pupils, "Weight: 31 35 28 40 30 33"}, "body-mass in kg"},
		{[]string{pupils, "Weight: 68 77 62 88 66 73"}, "body-mass in lb"},
		{[]string{pupils, "Weight (kg): 31 35 28 66 30 33"}, "body-mass in kg"},
		{[]string{"Age: 23 25 24 27 26 22", "Height (cm): 188 192 185 198 181 190", "Weight (kg): 112 118 104 121 99 110"}, "body-mass in kg"}, // forwards of a squad
		{[]string{"Age: 44", "Height (cm): 168", "Weight: 104"}, "body-mass in kg"},
		{[]string{"Age: 44", "Weight: 104"}, "? Body mass (kg) | Body mass (lb)"}, // very heavy, or light
		{[]string{"Age: 44", "Height (cm): 168", "Weight (kg): 44"}, "body-mass in kg"},
		{[]string{adults, "Weight (kg): 71 92 156 203 63 176"}, "? Body mass (kg) | Body mass (lb) | ignore"}, // two units in one column
		// Stature and waist.
		{[]string{adults, "Height: 1.7 1.81 1.65 1.77 1.68 1.9"}, "stature in m"},
		{[]string{adults, "Height: 66 71 64 69 67 73"}, "stature in in"},
		{[]string{pupils, "Height: 131 140 128 144 135 139"}, "stature in cm"},
		{[]string{adults, "Height (cm): 66 71 64 69 67 73"}, "? Stature (in) | Stature (cm) | ignore"},
		{[]string{adults, "Waist: 34 38 31 36 33 40"}, "waist in in"},
		// Distance.
		{[]string{adults, "12 minute run: 2400 2650 1900 2210 2050 2330"}, "distance in m"},
		{[]string{adults, "12 minute run: 2.4 2.65 1.9 2.21 2.05 2.33"}, "distance in km"},
		{[]string{adults, "12 minute run distance (m): 2.4 2.65 1.9 2.21 2.05 2.33"}, "? 12 minute run distance (km) | 12 minute run distance (mile) | ignore"},
		{[]string{adults, "Weight (lb): 156 203 128 176 139 222", "12 minute run: 2600 2890 2070 2410 2240 2540"}, "? 12 minute run distance (yd) | 12 minute run distance (m)"},
		{[]string{"Age: 34 41 36 29", "Height (cm): 62 78 83 66", "Body mass (kg): 165 178 181 170"}, "? Stature (cm) | Body mass (kg)"},
		{[]string{"Age: 34 41 36 29", "Body mass (kg): 22.8 24.6 25.3 23.1"}, "? ignore | Body mass (lb) | Body mass (kg)"},
		{[]string{"1 mile walk: 15:00", "1 mile walk pulse: 64 61 58", "Resting HR: 121 118 112"}, "? 1 mile walk pulse (beats/min) | Resting heart rate (beats/min)"},
		// Times.
		{[]string{"1.5 mile run: 11.37 10.6"}, "min"},
		{[]string{"1.5 mile run: 11.3667 12.05"}, "min"},
		{[]string{"1.5 mile run: 11.30"}, "? 1.5 mile run (min:sec) | 1.5 mile run (min)"},
		{[]string{"1.5 mile run: 11.05 12.59 10.42 9.31 13.14 12.22 11.48 10.16 12.07 11.55"}, "min:sec"},
		{[]string{"1.5 mile run: 11.05 12.59 10.42 9.31 13.14 12.22 11.48 10.16 12.07 11.85"}, "? 1.5 mile run (min) | 1.5 mile run (min:sec)"}, // a slip, or a fraction
		{[]string{"1.5 mile run: 11.45 11:30"}, "min:sec"},
		{[]string{"1.5 mile run: 690 731 655"}, "s"},
		{[]string{"1.5 mile run: 1130 690"}, "s"},
		{[]string{"1.5 mile run: 1130 1042"}, "? 1.5 mile run (min:sec) | 1.5 mile run (s)"},
		{[]string{"1.5 mile run (min): 11.5 12.25"}, "? 1.5 mile run (min:sec) | 1.5 mile run (min) | ignore"},
		{[]string{"1.5 mile run (min): 11.5 12.8"}, "min"},
		{[]string{"1.5 mile run (min): 11.5 12.75 9.4"}, "min"},
		{[]string{"1.5 mile run (min): 8.449999999999999 9.12 10.05 11.3 8:45"}, "? 1.5 mile run (min:sec) | 1.5 mile run (min) | ignore"},
		{[]string{"1.5 mile run (min:sec): 11.3 12.45 9.05"}, "min:sec"},
		{[]string{"1.5 mile run (min:sec): 11.75 12.9 9.62"}, "? 1.5 mile run (min) | ignore"},
		{[]string{"1.5 mile run (s): 11.5 12.1 9.4"}, "? 1.5 mile run (min:sec) | 1.5 mile run (min) | ignore"},
		{[]string{"1.5 mile run (min): 690 731 655"}, "? 1.5 mile run (s) | 1.5 mile run (min:sec) | ignore"},
		// Pulses.
		{[]string{"Resting HR: 64 71 58 49 66"}, "resting-hr in beats/min"},
		{[]string{"Resting HR: 40 44 42 38 47"}, "resting-hr in beats/min"}, // cyclists
		{[]string{"Resting HR: 16 18 14 17 20"}, "? Resting heart rate (15 s count) | Resting heart rate (10 s count) | Resting heart rate (beats/min) | ignore"},
		{[]string{"Resting HR: 33 36 30 37 35"}, "? Resting heart rate (30 s count) | Resting heart rate (beats/min) | ignore"},
		{[]string{"Resting HR: 70 66 74", "1 mile walk pulse: 62 65 60"}, "? 1 mile walk pulse (30 s count) | 1 mile walk pulse (beats/min) | ignore"},
		{[]string{"Resting HR: 60 66 64", "1 mile walk pulse: 92 121 104"}, "exercise-hr in beats/min"},
		{[]string{"1 mile walk: 15:00", "HR: 128 117 131"}, "exercise-hr in beats/min"},
		{[]string{"1 mile walk: 15:00", "HR: 68 59 74"}, "resting-hr in beats/min"},
		{[]string{"1 mile walk: 15:00", "HR: 96 99 92"}, "? Resting heart rate | Heart rate at the end of the exercise"},
		// Shuttles.
		{[]string{"20 m shuttle level: 5.4 7.2 6.1"}, "shuttle-level in levels"},
		{[]string{"20 m shuttle level: 41 52 38"}, "? 20 m shuttle laps | 20 m shuttle level"},
		{[]string{"20 m shuttle laps: 41 52 38"}, "shuttle-laps in laps"},
		{[]string{"20 m shuttle laps: 5.4 7.2 6.1"}, "? 20 m shuttle level | 20 m shuttle laps"},
		// Sexes.
		{[]string{"Sexo: V M V M"}, "as it is"},
		{[]string{"Sexo: H M M"}, "as it is"},
		{[]string{"Sexo: M M M"}, "? Sex (M=male) | Sex (M=female)"},
		{[]string{"Sesso: U D D"}, "as it is"},
		{[]string{"Sexe: H F"}, "as it is"},
		{[]string{"Geslacht: M V"}, "as it is"},
		{[]string{"Sex: V M V"}, "? Sex (M=male, V=female) | Sex (M=female, V=male)"},
		{[]string{"Sex: 1 2 1"}, "? Sex (1=male, 2=female) | Sex (1=female, 2=male)"},
		{[]string{"Sex (1=male, 2=female): 1 2 1"}, "as it is"},
		{[]string{"Sex (V=male, M=female): V M"}, "as it is"},
		// Dates.
		{[]string{"DOB: 03/04/2010 05/06/2010"}, "? Date of birth (dd/mm/yyyy) | Date of birth (mm/dd/yyyy)"},
		{[]string{"DOB: 03/04/2010 25/06/2010"}, "day first"},
		{[]string{"Test date: 10/23/2025", "DOB: 03/04/2010 05/06/2010"}, "month first"},
		{[]string{"Date of birth (dd/mm/yyyy): 03/04/2010"}, "day first"},
	} {
		s := sheetOf(t, tc.columns...)
		s.Judge()
		if got := s.outcome(); got != tc.want {
			t.Errorf("%q\n is %s\nnot %s", tc.columns, got, tc.want)
		}
	}
}

// Each choice is a header that the rest of the program knows, with the same input.
func TestChoicesAreKnown(t *testing.T) {
	for _, columns := range [][]string{
		{"Age: 34 41 29", "Body mass (kg): 22 18 25"}, {"Age: 34 41 29", "Height (cm): 66 71 64"}, {"1.5 mile run: 11.30"}, {"Resting HR: 16 18 14"},
		{"1 mile walk pulse: 31 30 29"}, {"1 mile walk: 15:00", "HR: 96 99 92"}, {"20 m shuttle level: 41 52 38"}, {"Sexo: M M M"}, {"Sex: 1 2"}, {"DOB: 03/04/2010"},
		{"3000 m run: 11.30"}, {"Step test recovery HR: 24 30 28"},
	} {
		s := sheetOf(t, columns...)
		s.Judge()
		c := s.Columns[len(s.Columns)-1]
		if len(c.Asked) == 0 {
			t.Errorf("%q is not asked about", columns)
		}
		for _, choice := range c.Asked {
			h, ok := heading.Match(choice.Meaning)
			sure := h.Role == c.Meaning.Role && h.Input == c.Meaning.Input && h.Distance == c.Meaning.Distance
			open := c.Meaning.Role == roster.HeartRate || c.Meaning.Input == scoring.ShuttleLevel
			if choice.Meaning != "ignore" && (!ok || !sure && !open || choice.Example.IsZero()) {
				t.Errorf("%q: the choice %q is %v, example %q", columns, choice.Meaning, h.Meaning, choice.Example)
			}
		}
	}
}

// Sound rosters of very different people raise no question: children, the very fit,
// the unfit, the old, the tall, in groups of one to thirty.
func TestSoundRostersAreNotAskedAbout(t *testing.T) {
	for _, who := range []struct {
		name                                            string
		age, mass, stature, rest, pulse, laps, distance float64 // means
	}{
		{"children of 6", 6, 21, 116, 88, 165, 16, 1400},
		{"children of 9", 9, 29, 133, 80, 160, 26, 1700},
		{"pupils of 13", 13, 48, 157, 74, 155, 42, 2000},
		{"heavy pupils of 13", 13, 72, 160, 82, 160, 14, 1400},
		{"sixth form", 17, 66, 172, 68, 150, 60, 2300},
		{"runners", 24, 60, 172, 47, 140, 120, 3300},
		{"forwards", 26, 112, 190, 56, 145, 75, 2500},
		{"basketball", 23, 95, 201, 55, 145, 90, 2700},
		{"office", 42, 79, 172, 69, 128, 35, 1900},
		{"unfit office", 50, 98, 170, 80, 132, 18, 1400},
		{"old", 72, 72, 165, 70, 104, 17, 1300},
		{"gymnasts", 15, 40, 150, 60, 150, 55, 2200},
	} {
		rng := rand.New(rand.NewPCG(1, uint64(who.age)))
		for round := range 60 {
			n := 1 + round%30
			column := func(header string, mean, share float64, format string) string {
				for range n {
					header += fmt.Sprintf(format, mean*(1+share*max(-2, min(2, rng.NormFloat64()))))
				}
				return header
			}
			columns := []string{column("Age:", who.age, 0.05, " %.0f"), column("Height (cm):", who.stature, 0.045, " %.0f"), column("Weight:", who.mass, 0.15, " %.1f"),
				column("Resting HR:", who.rest, 0.1, " %.0f"), column("1 mile walk pulse:", who.pulse, 0.1, " %.0f"),
				column("20 m shuttle laps:", who.laps, 0.25, " %.0f"), column("12 minute run:", who.distance, 0.12, " %.0f")}
			if round >= 30 { // feet, inches and pounds
				columns[1], columns[2] = column("Height (in):", who.stature/2.54, 0.045, " %.0f"), column("Weight (lb):", who.mass/0.4536, 0.15, " %.0f")
				columns = columns[:6]
			}
			s := sheetOf(t, columns...)
			s.School = who.age < 18
			s.Judge()
			for _, c := range s.Columns {
				if !c.Why.IsZero() {
					t.Errorf("%s: %s is asked about; %q", who.name, c.Header, columns)
				}
			}
		}
	}
}

func TestExamples(t *testing.T) {
	for _, tc := range []struct{ column, want string }{
		{"1.5 mile run: 8.45", "8.45 is 8 min 45 s, which is 8:45; 8.45 is 8.45 min, which is 8:27"},
		{"Resting HR: 16", "16 is 16 beats/15 s, which is 64 beats/min; 16 is 16 beats/10 s, which is 96 beats/min; 16 is 16 beats/min; "},
		{"Sex: 1 2", "1 is male; 1 is female"},
	} {
		s := sheetOf(t, tc.column)
		s.Judge()
		var all []string
		for _, c := range s.Columns[0].Asked {
			all = append(all, c.Example.String())
		}
		if got := strings.Join(all, "; "); got != tc.want {
			t.Errorf("%s: %s, want %s", tc.column, got, tc.want)
		}
	}
}

// FuzzJudge holds every decision to be one reading or a question with choices.
func FuzzJudge(f *testing.F) {
	f.Add(uint8(0), "71 92 58", "170 181 165", uint8(34))
	f.Add(uint8(1), "8.45 9.12 8:45", "8.999999 0 -3", uint8(9))
	f.Add(uint8(2), "M V", "1 2", uint8(0))
	f.Add(uint8(3), "03/04/2010", "30000000000 1e300", uint8(5))
	headers := [][2]string{{"Height", "Weight"}, {"1.5 mile run", "1.5 mile run (min)"}, {"Sexo", "Sex"}, {"DOB", "Test date"}, {"Resting HR", "HR"}, {"20 m shuttle level", "12 minute run"}}
	f.Fuzz(func(t *testing.T, which uint8, a, b string, age uint8) {
		pair := headers[int(which)%len(headers)]
		s := sheetOf(t, pair[0]+": "+a, pair[1]+": "+b)
		n := max(len(s.Columns[0].Cells), len(s.Columns[1].Cells))
		for _, c := range s.Columns {
			c.Cells = append(c.Cells, make([]cell.Raw, n-len(c.Cells))...)
		}
		for range n {
			s.Ages = append(s.Ages, float64(age))
		}
		s.School = age < 20
		s.Judge()
		for _, c := range s.Columns {
			if c.Why.IsZero() != (len(c.Asked) == 0) || !c.Why.IsZero() && !c.Remark.IsZero() {
				t.Errorf("%s is asked %v with %d choices and remark %v", c.Header, c.Why, len(c.Asked), c.Remark)
			}
			if c.Meaning.UnitGiven && math.IsNaN(scoring.Q(1, c.Meaning.Unit).Amount) {
				t.Error(fmt.Sprint(c.Meaning))
			}
		}
	})
}
