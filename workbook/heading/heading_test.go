package heading

import (
	"testing"

	"tenback/scoring"
	"tenback/workbook/roster"
)

func TestHeadings(t *testing.T) {
	for header, want := range map[string]string{
		"Name":                       "name",
		" STUDENT  NAME: ":           "name",
		"AttendeeName":               "name",
		"Vorname":                    "given name",
		"Nazwisko":                   "family name",
		"Student #":                  "ID",
		"学号":                         "ID",
		"№":                          "number in the list, not used",
		"Grade":                      "group",
		"班级名称":                       "group",
		"DateOfBirth":                "date of birth",
		"Date of birth (dd/mm/yyyy)": "date of birth",
		"Rok urodzenia":              "date of birth",
		"Test_Date":                  "test date",
		"Płeć":                       "sex",
		"Sex (1=male, 2=female)":     "sex",
		"M/W":                        "sex",
		"wt_pounds":                  "body mass in lb",
		"Weight [kg]":                "body mass in kg",
		"Shoe size in cm":            "known, not used", "Körpergröße in cm": "stature in cm",
		"ht_inches":                          "stature in in",
		"hr_rest":                            "resting heart rate in beats/min",
		"Frecuencia cardiaca en reposo, lpm": "resting heart rate in beats/min",
		"HR":                                 "heart rate, not clear which, not used",
		"RunPulse":                           "heart rate at the end of the exercise in beats/min",
		"Body fat (%)":                       "body fat in %",
		"RunTime":                            "result of the test named in the row",
		"1.5 Mile Run Time":                  "1.5-mile run: time in s",
		"1,5 mile run":                       "1.5-mile run: time in s",
		"1.5-mile run (min)":                 "1.5-mile run: time in min",
		"15 mile run":                        "Race result over 24140.16 m: time in s",
		"500 m run":                          "a test that is not scored",
		"1 mile":                             "a test that is not scored",
		"10 km":                              "Race result over 10000 m: time in s",
		"Lauf 3.000 m (min)":                 "Race result over 3000 m: time in min",
		"5 km bike":                          "",
		"Level":                              "level of a shuttle run beside its shuttle",
		"Beep test level":                    "20 m shuttle run: shuttle level in levels",
		"1.5 mile run heart rate":            "1.5-mile run: heart rate at the end of the exercise in beats/min",
		"1-mile walk pulse":                  "1-mile walk: heart rate at the end of the exercise in beats/min",
		"Pulse at end":                       "heart rate at the end of the exercise in beats/min",
		"HR at end of 1 mile walk":           "1-mile walk: heart rate at the end of the exercise in beats/min",
		"walk HR":                            "heart rate at the end of the exercise in beats/min",
		"1.5 mile run effort":                "1.5-mile run: effort",
		"resting HR before the walk":         "resting heart rate in beats/min",
		"20-MST Stage & Shuttle":             "20 m shuttle run: shuttle level in levels",
		"(20 meter) Laps":                    "20 m shuttle run: 20 m laps in laps",
		"My Goal: laps":                      "known, not used",
		"20mシャトルラン(回)":                       "20 m shuttle run: 20 m laps in laps",
		"Week 8 beep test":                   "20 m shuttle run: shuttle level in levels",
		"Measured VO2max (L/min)":            "Measured VO2max: measured VO2max in L/min",
		"Measured VO2max":                    "Measured VO2max: measured VO2max in mL/kg/min",
		"12 minute run (km)":                 "12-minute run: distance in km",
		"800米跑":                              "a test that is not scored",
		"E-mail":                             "e-mail address",
		"E-Mail der Eltern":                  "e-mail address of a parent or guardian",
		"Mot de passe":                       "password of the page",
		"Min.":                               "minutes",
		"Parent signature":                   "consent",
		"姓名\nName":                           "name",
		"學號 No.":                             "number in the list, not used",
		"體重Weight (lb)":                      "body mass in lb",
		"Nom / Name":                         "name",
		"Sexe/Sex":                           "sex",
		"Age / Sex":                          "age and sex",
		"Weight (st)":                        "body mass in kg",
		"Bleep test level":                   "20 m shuttle run: shuttle level in levels",
		"Personalnr.":                        "ID",
		"2-km-Gehen Zeit":                    "2 km walk: time in s",
		"Stufentest Puls":                    "Step test on any bench: heart rate at the end of the exercise in beats/min",
		"VE max (L/min)":                     "maximum ventilation in L/min of air",
		"RER":                                "respiratory exchange ratio",
		"HR at VT1":                          "heart rate at the first threshold in beats/min",
		"Pace (km/h)":                        "fixed pace in km/h",
		"Pace":                               "effort",
		"Beep test - Sept":                   "20 m shuttle run: shuttle level in levels",
		"2025/26 beep test":                  "20 m shuttle run: shuttle level in levels",
		"1.5 mile run 12.05.2026":            "1.5-mile run: time in s",
		"May 2026":                           "result of the test named in the row",
		"Height / Weight":                    "",
		"備考 20 m shuttle run laps":           "known, not used",
		"What is your full name? *":          "name",
		"Wie ist Ihr Gewicht (kg)?":          "body mass in kg",
		"How tall are you? (cm)":             "stature in cm",
		"What is your resting heart rate?":   "resting heart rate in beats/min",
		"Time for the 1 mile walk (mm:ss)":   "1-mile walk: time in s",
		"":                                   "",
		"12":                                 "",
		"(kg)":                               "",
	} {
		got := ""
		if h, ok := Match(header); ok {
			got = h.Meaning.String()
		}
		if got != want {
			t.Errorf("%q is %q, want %q", header, got, want)
		}
	}
}

// The words of headings.csv must not contradict each other: one word, one
// meaning, but for measured values, whose unit tells them apart.
func TestHeadingsHaveOneMeaning(t *testing.T) {
	for key, meanings := range known().words {
		if len(meanings) > 1 && !(meanings[0].Test != nil && meanings[0].Test == meanings[1].Test) {
			t.Errorf("%q is %v", key, meanings)
		}
	}
}

func FuzzHeading(f *testing.F) {
	for _, s := range []string{"1.5 mile run (min)", "1-mile walk pulse", "Height (ft.) (in.)", "800/1000米(分′秒″)", "Week 1 Body Mass", "№", "VO2max (mL/kg/min)"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		h, ok := Match(s)
		if ok && h.Role == roster.Unknown {
			t.Errorf("%q is recognised as nothing", s)
		}
		if ok && h.Role == roster.InputData && h.Test != nil && !h.Test.Takes(h.Input) {
			t.Errorf("%q is an input that its test does not have", s)
		}
		TestNamed(s)
		if len(s) < 50 {
			Nearest(s)
			NearestTest(s)
		}
	})
}

func TestSexIn(t *testing.T) {
	for title, want := range map[string]scoring.Sex{
		"Girls": scoring.Female, "Year 9 boys - beep test": scoring.Male, "Men's U15": scoring.Male, "9b Mädchen": scoring.Female, "男子": scoring.Male,
		"Boys and girls": scoring.SexUnspecified, "Manchester": scoring.SexUnspecified, "Frau Tarn": scoring.SexUnspecified, "Girls & ladies": scoring.Female,
		"": scoring.SexUnspecified, "One man": scoring.SexUnspecified,
	} {
		if got := SexIn(title); got != want {
			t.Errorf("%q is of %v, want %v", title, got, want)
		}
	}
}
