package workbook

import (
	"io"
	"math"
	"time"

	"tenback/scoring"
)

// demoSeason is an earlier round of testing in Quillhaven.
type demoSeason struct {
	name string
	back int // rounds before the one of WriteDemo, half a year each
}

var demoSeasons = []demoSeason{{"May 2025", 2}, {"November 2025", 1}}

// Who stands out between the seasons.
const (
	demoFell     = "Mattis Koskela"      // a real fall
	demoRose     = "Bogdan Corăbieru"    // a real rise
	demoRetested = "Hervé Le Quai"       // had another test before
	demoTired    = "Freya Otterburn"     // resting heart rate up for two rounds
	demoSlower   = "Torbjørn Elvestrand" // far fewer beats at the same pace
)

// demoLeavers were tested in earlier rounds only.
var demoLeavers = map[Setting][]demoPerson{
	School: {{name: "Iwo Zatoka", sex: male, age: 13, uptake: 41}, {name: "Lumi Rantala", sex: female, age: 13, uptake: 39}},
	Workplace: {{name: "Aurelio Faro", sex: male, age: 44, uptake: 33, tests: []string{"walk-1-mile"}}, {name: "Signe Bølge", sex: female, age: 37, uptake: 34, tests: []string{"walk-1-mile"}},
		{name: "Mirko Obala", sex: male, age: 52, uptake: 31, tests: []string{"walk-2-km"}}, {name: "Teresa Cais", sex: female, age: 60, uptake: 26, tests: []string{"walk-1-mile"}}},
	Squad: {{name: "Ottilie Strand", sex: female, age: 28, uptake: 47, tests: []string{"run-1.5-mile"}}, {name: "Ville Joki", sex: male, age: 33, uptake: 51, tests: []string{"run-12-minute"}}},
}

// seasonGain is what people of a sheet gained from one round to the next, in
// mL/kg/min.
var seasonGain = map[Setting]scoring.VO2{School: 0.6, Workplace: 1.5, Squad: 1}

// WriteDemoEarlier writes the two rounds of testing before that of [WriteDemo]:
// the same people half a year and a year earlier, with true changes and the
// chance of the day, some who have left since and none of those who came later.
// One date of birth has day and month exchanged, and one person had another
// test. It is the same every time.
func WriteDemoEarlier(w io.Writer) error {
	now := newDemoDraw()
	then := newSeasonsDraw()
	var sheets []demoSheet
	var rows [][]demoRow
	for _, sheet := range demoSheets() {
		people, err := now.rows(sheet)
		if err != nil {
			return err
		}
		left, err := then.leavers(sheet)
		if err != nil {
			return err
		}
		for _, season := range demoSeasons {
			earlier := sheet
			earlier.name = sheet.name + ", " + season.name
			if sheet.title != "" {
				earlier.title = sheet.name + ", " + season.name
			}
			mine := then.season(people, left, sheet.setting, season.back)
			if sheet.setting == Squad && season.back == 1 {
				exchangeBirth(mine)
			}
			sheets, rows = append(sheets, earlier), append(rows, mine)
		}
	}
	return writeDemoSheets(w, "Quillhaven, earlier fitness weeks", "2025-11-28T12:00:00Z", sheets, rows)
}

// season makes the rows of an earlier round.
func (d *demoDraw) season(people, left []demoRow, setting Setting, back int) []demoRow {
	var all []demoRow
	for i := range people {
		// One in six came with the last round, another with the one before.
		if r := (i + 1) % 6; r == 5 || r == 2 && back == 2 {
			continue
		}
		if row, ok := d.then(&people[i], setting, back); ok {
			all = append(all, row)
		}
	}
	for i := range left {
		if row, ok := d.then(&left[i], setting, back); ok {
			all = append(all, row)
		}
	}
	return all
}

// leavers are those who are in earlier rounds only, as they would be now.
func (d *demoDraw) leavers(sheet demoSheet) ([]demoRow, error) {
	sheet.people, sheet.number = demoLeavers[sheet.setting], sheet.number+500
	return d.rows(sheet)
}

// then is a person as they were so many half years ago.
func (d *demoDraw) then(now *demoRow, setting Setting, back int) (demoRow, bool) {
	r := demoRow{demoPerson: now.demoPerson, number: now.number}
	r.mess = mess{}
	e := &r.entry
	e.Born, e.Tested = now.entry.Born, now.entry.Tested.AddDate(0, -6*back, 0)
	years, err := scoring.AgeOn(e.Born, e.Tested)
	if err != nil {
		return r, false
	}
	e.Set(scoring.Age, scoring.Q(years, scoring.Years), "")
	e.SetSex(now.sex, "")
	half := float64(back) / 2 // years
	stature, _ := now.entry.Get(scoring.Stature)
	mass, _ := now.entry.Get(scoring.BodyMass)
	if years < 16 {
		stature.Amount, mass.Amount = stature.Amount-math.Round(6*half), mass.Amount-math.Round(5*half)
	} else {
		mass.Amount += math.Round(d.around(0, 1.2))
	}
	e.Set(scoring.Stature, stature, "")
	e.Set(scoring.BodyMass, mass, "")
	resting, _ := now.entry.Get(scoring.RestingHR)
	resting.Amount += math.Round(d.around(1.5*float64(back), 1.5))
	if now.name == demoTired && back == 2 {
		resting.Amount -= 12
	}
	e.Set(scoring.RestingHR, resting, "")
	r.uptake = max(14, now.uptake-seasonGain[setting]*scoring.VO2(back)+scoring.VO2(d.around(0, 1.3)))
	switch now.name {
	case demoFell:
		r.uptake = now.uptake + 10
	case demoRose:
		r.uptake = now.uptake - 4 - 3*scoring.VO2(back)
	}
	tests := make([]*scoring.Test, len(now.entry.Trials))
	for i := range tests {
		tests[i] = now.entry.Trials[i].Test
	}
	if other, ok := scoring.TestByID("run-12-minute"); ok && now.name == demoRetested {
		tests = []*scoring.Test{other}
	}
	for _, test := range tests {
		if !d.add(&r, test, false) {
			return r, false
		}
	}
	if setting == Squad {
		r.setPace(back)
		if pulse, _ := e.Get(scoring.PaceHR); now.name == demoSlower {
			pulse.Amount += 20
			e.Set(scoring.PaceHR, pulse, "")
		}
	}
	return r, true
}

// setPace gives a runner the pulse at 7 miles an hour that goes with their
// uptake, up to a few beats.
func (r *demoRow) setPace(by int) {
	r.entry.Set(scoring.PaceSpeed, scoring.Q(7, scoring.MilesPerHour), "")
	r.entry.Set(scoring.PaceHR, scoring.Q(math.Round(212-1.3*float64(r.uptake))+float64(by*by%5-2), scoring.BeatsPerMinute), "")
}

// exchangeBirth writes the day and the month of birth of one person the wrong way
// round, of the first where that makes another date.
func exchangeBirth(rows []demoRow) {
	for i := range rows {
		born := rows[i].entry.Born
		if born.Day() > 12 || born.Day() == int(born.Month()) {
			continue
		}
		wrong := time.Date(born.Year(), time.Month(born.Day()), int(born.Month()), 0, 0, 0, 0, time.UTC)
		rows[i].mess = mess{messBirth, typed{wrong, formatDate}}
		return
	}
}
