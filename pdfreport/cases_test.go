package pdfreport_test

import (
	"cmp"
	"strings"
	"testing"
	"time"

	"tenback/pdfreport/kit"
	"tenback/pdfreport/person"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/templates"
)

var english = func() *templates.Set {
	set, err := templates.Load("en", "")
	if err != nil {
		panic(err)
	}
	return set
}()

var testDay = time.Date(2026, 3, 12, 0, 0, 0, 0, time.UTC)

// made describes an invented person. Zero values are left out.
type made struct {
	name, group  string
	sex          scoring.Sex
	age, mass    float64
	rest         float64
	tests        []trial
	undated      bool
	problems     []person.Problem
	paper        kit.Paper
	shuttleStart float64
	stature      float64
	activity     float64                   // level 1 to 5, for an estimate without a test
	more         map[scoring.Input]float64 // further values, in the inputs' own units
	adults       *reference.GroupTable
	youth        string // ID of the table of health lines
	audience     templates.Audience
	brand        *kit.Brand
	mornings     int    // behind the resting rate
	school       bool   // someone of unknown age may be a child
	unscored     bool   // no number is expected
	beside       string // a test that others of the roster did
	doubted      bool   // the first test is not believed
	before       []past // earlier dates, oldest first
}

// past is an earlier date. Zero values are those of the last date.
type past struct {
	months int
	mass   float64
	rest   float64
	tests  []trial
	more   map[scoring.Input]float64
}

// then returns the person as they were.
func (m made) then(p past) made {
	m.before, m.mornings = nil, 0
	m.mass, m.rest = cmp.Or(p.mass, m.mass), cmp.Or(p.rest, m.rest)
	m.age -= float64(p.months) / 12
	m.tests = p.tests
	if p.more != nil {
		m.more = p.more
	}
	return m
}

type trial struct {
	test   string
	values map[scoring.Input]scoring.Quantity
}

func one(test string, in scoring.Input, amount float64, unit scoring.Unit) []trial {
	return []trial{{test, map[scoring.Input]scoring.Quantity{in: scoring.Q(amount, unit)}}}
}

func walk(minutes, pulse float64) []trial {
	return []trial{{"walk-1-mile", map[scoring.Input]scoring.Quantity{
		scoring.Time: scoring.Q(minutes, scoring.Minutes), scoring.ExerciseHR: scoring.Q(pulse, scoring.BeatsPerMinute)}}}
}

func stepping(pulse, minutes float64) []trial {
	return []trial{{"step-stage", map[scoring.Input]scoring.Quantity{
		scoring.ExerciseHR: scoring.Q(pulse, scoring.BeatsPerMinute), scoring.BenchHeight: scoring.Q(30, scoring.Centimetres),
		scoring.StepRate: scoring.Q(24, scoring.CyclesPerMinute), scoring.StageTime: scoring.Q(minutes, scoring.Minutes)}}}
}

// person returns the page's input.
func (m made) person(t testing.TB) person.Person {
	t.Helper()
	p, ok := m.score(t)
	if ok == m.unscored {
		t.Fatalf("%s: has a number: %v; refused: %+v", m.name, ok, p.Score.Refused)
	}
	return p
}

// score returns the page's input and reports whether it has a number.
func (m made) score(t testing.TB) (person.Person, bool) {
	t.Helper()
	entry := &scoring.Entry{}
	entry.SetSex(m.sex, "C2")
	set := func(in scoring.Input, amount float64, unit scoring.Unit) {
		if amount != 0 {
			entry.Set(in, scoring.Q(amount, unit), "D2")
		}
	}
	set(scoring.Age, m.age, scoring.Years)
	set(scoring.BodyMass, m.mass, scoring.Kilograms)
	set(scoring.RestingHR, m.rest, scoring.BeatsPerMinute)
	set(scoring.ShuttleStart, m.shuttleStart, scoring.KmPerHour)
	set(scoring.Stature, m.stature, scoring.Centimetres)
	set(scoring.ActivityLevel, m.activity, scoring.ActivityLevel.Info().Unit)
	for in, amount := range m.more {
		entry.Set(in, scoring.Q(amount, in.Info().Unit), "E2")
	}
	for _, tr := range m.tests {
		test, ok := fieldtests.ByID(tr.test)
		if !ok {
			t.Fatalf("no test %s", tr.test)
		}
		trial := scoring.Trial{Test: test}
		for in, q := range tr.values {
			trial.Set(in, q, "F2")
		}
		entry.Trials = append(entry.Trials, trial)
	}
	if m.doubted {
		entry.Doubts = []scoring.Doubt{{Trial: &entry.Trials[0], Inputs: []scoring.Input{scoring.Time}, Cell: "D2", Read: "2:30", What: scoring.Verbatim("faster than the record")}}
	}
	entry.Mornings, entry.MayBeChild = m.mornings, m.school
	youth, _ := reference.YouthTableByID(m.youth)
	options := scoring.Options{Adults: m.adults, Youth: youth}
	if m.activity != 0 {
		options.Fallback = fieldtests.WithoutExercise()
	}
	score := options.Assess(entry)
	beside, _ := fieldtests.ByID(m.beside)
	p := person.Person{Name: m.name, Group: m.group, Score: &score, Tested: testDay, Paper: m.paper,
		Words: english, Program: "tenback 0.1", Problems: m.problems, Suits: fieldtests.Suiting(&score, []*scoring.Test{beside}), Audience: m.audience, Brand: m.brand}
	if m.undated {
		p.Tested = time.Time{}
	}
	if len(m.before) > 0 {
		var line []change.Dated
		for _, b := range m.before {
			then, _ := m.then(b).score(t)
			line = append(line, change.Dated{Day: testDay.AddDate(0, -b.months, 0), Score: then.Score})
		}
		p.Review = change.ReviewOf(append(line, change.Dated{Day: testDay, Score: p.Score}))
	}
	return p, score.Best() != nil || len(score.Norms) > 0
}

func measured(value float64) []trial {
	return one("measured", scoring.MeasuredVO2, value, scoring.MLPerKgMin)
}

func inPlace(count float64) []trial {
	return one("step-in-place-2-min", scoring.StepsInPlace, count, scoring.Laps)
}

// table returns a published table for adults.
func table(id string) *reference.GroupTable {
	t, ok := reference.AdultTable(id)
	if !ok {
		panic(id)
	}
	return t
}

// ownTable is an invented table with long names.
func ownTable() *reference.GroupTable {
	t, err := reference.OwnGroupTable("Harbour table.csv", [][]string{
		{"sex", "age_min", "age_max", "unit", "just starting out", "**fair** going", "sound", "strong enough for the rescue boat crew", "superb"},
		{"F", "18", "39", "mL/kg/min", "", "30", "34", "38", "45"},
		{"F", "40", "", "mL/kg/min", "", "26", "30", "34", "41"},
	})
	if err != nil {
		panic(err)
	}
	return t
}

var laboratory = map[scoring.Input]float64{scoring.MaxHR: 193, scoring.Threshold1HR: 148, scoring.Threshold2HR: 174,
	scoring.MaxVentilation: 128, scoring.ExchangeRatio: 1.14, scoring.StrokeVolume: 112}

// heartOnly allows the oxygen uptake to be worked out.
var heartOnly = map[scoring.Input]float64{scoring.MaxHR: 176, scoring.CardiacOutput: 17.5, scoring.OxygenDifference: 152}

func sixMinutes(metres float64) []trial {
	return one("walk-6-minute", scoring.Distance, metres, scoring.Metres)
}

// lowBench is stepping on 15 cm, 18 cycles a minute.
func lowBench(pulse float64) []trial {
	return []trial{{"step-stage", map[scoring.Input]scoring.Quantity{scoring.StepRate: scoring.Q(18, scoring.CyclesPerMinute), scoring.BenchHeight: scoring.Q(15, scoring.Centimetres),
		scoring.StageTime: scoring.Q(4, scoring.Minutes), scoring.ExerciseHR: scoring.Q(pulse, scoring.BeatsPerMinute)}}}
}

func run15(minutes float64) []trial {
	return one("run-1.5-mile", scoring.Time, minutes, scoring.Minutes)
}

// pace is a pulse at 7 miles an hour.
func pace(pulse float64) map[scoring.Input]float64 {
	return map[scoring.Input]float64{scoring.PaceSpeed: scoring.Q(7, scoring.MilesPerHour).In(scoring.KmPerHour), scoring.PaceHR: pulse}
}

// again is a pupil who ran the shuttle twice.
func again(age, mass, before, now float64) made {
	shuttle := func(level float64) []trial { return one("shuttle-20-m", scoring.ShuttleLevel, level, scoring.Levels) }
	m := made{name: "Ayla Demirtaş", group: "Class 8b", sex: scoring.Female, age: age, mass: mass, rest: 78, audience: templates.School, tests: shuttle(now),
		before: []past{{12, 41, 70, shuttle(before), nil}}}
	if now < before {
		m.before[0].months = 6
		m.name, m.sex, m.mornings = "Jonas Pettit", scoring.Male, 5
	}
	return m
}

// squadAgain is a runner who ran 1.5 miles twice.
func squadAgain(before, now float64) made {
	return made{name: "Ruben Aldous", group: "Otter squad", sex: scoring.Male, age: 29.3, mass: 71, rest: 51, audience: templates.Squad, tests: run15(now), more: pace(139),
		before: []past{{12, 72, 54, run15(before + 0.1), pace(150)}, {6, 72, 53, run15(before), pace(152)}}}
}

// cases are invented people, one for each kind of page.
var cases = map[string]made{
	"woman-45":         {name: "Marta Lindgren-Okafor", group: "Harbour office", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138)},
	"man-55":           {name: "Teodor Brandvik", group: "Harbour office", sex: scoring.Male, age: 55.1, mass: 84, rest: 58, tests: one("run-1.5-mile", scoring.Time, 13.4, scoring.Minutes)},
	"woman-71":         {name: "Ilse Marquand", sex: scoring.Female, age: 71.8, mass: 66, rest: 72, stature: 160, tests: sixMinutes(500)},
	"man-82-near":      {name: "Albin Korsgaard", group: "Tuesday walkers", sex: scoring.Male, age: 82.2, mass: 79, rest: 70, tests: lowBench(121)},
	"boy-12-below":     {name: "Jonas Pettit", group: "Class 7b", sex: scoring.Male, age: 12.4, mass: 44, rest: 82, tests: one("shuttle-20-m", scoring.ShuttleLevel, 3, scoring.Levels)},
	"girl-12-above":    {name: "Ayla Demirtaş", group: "Class 7b", sex: scoring.Female, age: 12.1, mass: 41, rest: 78, tests: one("shuttle-20-m", scoring.ShuttleLaps, 46, scoring.Laps)},
	"sex-not-given":    {name: "Robin Ashdown", group: "Harbour office", age: 38.6, mass: 70, rest: 61, tests: one("run-1.5-mile", scoring.Time, 12.5, scoring.Minutes)},
	"squad-62":         {name: "Kerstin Aalto", group: "Long-distance squad", sex: scoring.Female, age: 26.9, mass: 54, rest: 38, tests: append(measured(62), one("run-1.5-mile", scoring.Time, 8.7, scoring.Minutes)...)},
	"measured-no-rest": {name: "Paulo Quintão", sex: scoring.Male, age: 49.2, tests: measured(41.3)},
	"rest-104":         {name: "Nadia Ferrand", group: "Harbour office", sex: scoring.Female, age: 52.3, mass: 80, rest: 104, tests: stepping(148, 4)},
	"man-23":           {name: "Dario Vance", sex: scoring.Male, age: 23.3, mass: 77, rest: 63, tests: one("run-1.5-mile", scoring.Time, 10.9, scoring.Minutes)},
	"woman-29":         {name: "Femke Oosterhuis", sex: scoring.Female, age: 28.4, mass: 63, rest: 55, tests: one("run-12-minute", scoring.Distance, 2350, scoring.Metres)},
	"greek":            {name: "Ελευθερία Παπαγεωργίου", group: "Τμήμα Β΄", sex: scoring.Female, age: 33.2, mass: 60, rest: 57, tests: one("run-12-minute", scoring.Distance, 2100, scoring.Metres)},
	"vietnamese":       {name: "Nguyễn Thị Ngọc Ánh", group: "Đội chạy bộ", sex: scoring.Female, age: 30.2, mass: 52, rest: 64, tests: one("run-12-minute", scoring.Distance, 2200, scoring.Metres)},
	"cyrillic":         {name: "Світлана Їжакевич", group: "Цех № 3", sex: scoring.Female, age: 41.2, mass: 67, rest: 70, tests: walk(15.2, 132)},
	"long-name":        {name: "Maria-Magdalena Konstantina Featherstonehaugh von Hohenstein-Wallersdorf de Alcántara", group: strings.Repeat("Department of long titles, ", 5), sex: scoring.Female, age: 36.2, mass: 67, rest: 70, tests: walk(15.2, 132), paper: kit.Letter},
	"emoji":            {name: "Zoë 🏃‍♀️ Brandt 王", sex: scoring.Female, age: 36.2, mass: 67, rest: 70, tests: walk(15.2, 132)},
	"age-missing":      {name: "Sam Norling", sex: scoring.Male, rest: 74, tests: measured(35.5), undated: true},
	"value-10":         {name: "Otto Lowmark", sex: scoring.Male, age: 47, rest: 120, tests: measured(10)},
	"value-90":         {name: "Bella Topping", sex: scoring.Male, age: 18.5, rest: 30, tests: measured(90)},
	"letter-45":        {name: "Marta Lindgren-Okafor", group: "Harbour office", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), paper: kit.Letter},
	"youth-both":       {name: "Kim Sandoval", group: "Class 9a", age: 14.9, mass: 55, rest: 108, tests: one("shuttle-20-m", scoring.ShuttleSpeed, 11, scoring.KmPerHour)},
	"youth-measured":   {name: "Lea Strand", sex: scoring.Female, age: 16.2, tests: measured(44)},
	"child-7":          {name: "Milo Hartwig", sex: scoring.Male, age: 7.3, rest: 92, tests: measured(45)},
	"both-sexes-67":    {name: "Chris Vanterpool", age: 67.3, mass: 71, rest: 84, tests: measured(19.2)},
	"adult-shuttle":    {name: "Inés Calderón", sex: scoring.Female, age: 31.3, mass: 61, rest: 47, tests: one("shuttle-20-m", scoring.ShuttleLaps, 60, scoring.Laps), problems: []person.Problem{{What: scoring.Verbatim("body mass read as 61 kg though the header says lb")}, {Read: "11.30", What: scoring.Verbatim("this could be 11:30 (minutes and seconds) or 11.3 minutes (11:18)")}}},
	"steady-low-rest":  {name: "Björn Þórsson", sex: scoring.Male, age: 24.1, mass: 78, rest: 90, tests: []trial{{"run-1.5-mile", map[scoring.Input]scoring.Quantity{scoring.Time: scoring.Q(12, scoring.Minutes), scoring.ExerciseHR: scoring.Q(160, scoring.BeatsPerMinute)}}}},
	"tests-differ":     {name: "Wanda Pilch", sex: scoring.Female, age: 50.3, mass: 72, rest: 68, tests: append(walk(12, 100), one("run-12-minute", scoring.Distance, 1620, scoring.Metres)...)},
	"beyond-test":      {name: "Gita Holm", sex: scoring.Female, age: 31, mass: 118, rest: 59, tests: walk(19.8, 179)},
	"no-test":          {name: "Uma Brook", sex: scoring.Female, age: 51, mass: 70, rest: 63, stature: 166, activity: 3},
	"squad-lab": {name: "Kerstin Aalto", group: "Long-distance squad", sex: scoring.Female, age: 26.9, mass: 54, rest: 46, more: laboratory,
		tests: append(measured(59.4), append(one("run-1.5-mile", scoring.Time, 8.7, scoring.Minutes), one("run-12-minute", scoring.Distance, 3010, scoring.Metres)...)...)},
	"lab-impossible": {name: "Vigo Tamm", sex: scoring.Male, age: 34.1, mass: 75, rest: 62, tests: measured(52),
		more: map[scoring.Input]float64{scoring.MaxHR: 185, scoring.StrokeVolume: 120, scoring.CardiacOutput: 15, scoring.ExchangeRatio: 0.95, scoring.Threshold1HR: 160, scoring.Threshold2HR: 150}},
	"lab-uptake":        {name: "Jorun Vik", sex: scoring.Female, age: 41.2, rest: 58, tests: one("run-12-minute", scoring.Distance, 2300, scoring.Metres), more: heartOnly},
	"max-measured":      {name: "Oona Brask", sex: scoring.Female, age: 37.8, mass: 63, rest: 60, tests: one("run-12-minute", scoring.Distance, 2350, scoring.Metres), more: map[scoring.Input]float64{scoring.MaxHR: 182}},
	"medicine":          {name: "Gunnar Almqvist", sex: scoring.Male, age: 51.4, mass: 82, rest: 52, tests: one("run-12-minute", scoring.Distance, 1650, scoring.Metres), more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes}},
	"medicine-cleared":  {name: "Gunnar Almqvist", sex: scoring.Male, age: 51.4, mass: 82, rest: 52, tests: one("run-12-minute", scoring.Distance, 1650, scoring.Metres), more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes, scoring.Cleared: scoring.Yes}},
	"symptoms":          {name: "Runa Halvors", group: "Harbour office", sex: scoring.Female, age: 57.3, mass: 74, rest: 71, tests: walk(15.9, 131), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}},
	"symptoms-medicine": {name: "Leif Odin", sex: scoring.Male, age: 79.3, mass: 74, rest: 71, stature: 170, tests: sixMinutes(330), more: map[scoring.Input]float64{scoring.KnownDisease: scoring.Yes, scoring.HeartRateDrug: scoring.Yes}},
	"man-78-near":       {name: "Sixten Wahl", group: "Tuesday walkers", sex: scoring.Male, age: 78.3, mass: 77, rest: 66, stature: 174, tests: sixMinutes(495)},
	"man-92":            {name: "Ambrose Lind", sex: scoring.Male, age: 92.3, mass: 68, rest: 66, tests: measured(18.9)},
	"woman-50-low":      {name: "Tove Ekman", sex: scoring.Female, age: 50.2, mass: 101, rest: 78, stature: 161, tests: measured(13.5)},
	"norm-man-67":       {name: "Anselm Birk", group: "Tuesday walkers", sex: scoring.Male, age: 67.4, mass: 82, rest: 68, tests: inPlace(86)},
	"norm-woman-81":     {name: "Perpetua Sand", sex: scoring.Female, age: 81.6, tests: inPlace(48)},
	"norm-high":         {name: "Cyrus Hagen", sex: scoring.Male, age: 72.6, rest: 58, tests: inPlace(128), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}},
	"norm-beside":       {name: "Alma Reyes", sex: scoring.Female, age: 66.2, mass: 66, rest: 64, tests: append(walk(16.5, 122), inPlace(95)...)},
	"friend-treadmill":  {name: "Teodor Brandvik", group: "Harbour office", sex: scoring.Male, age: 55.1, mass: 84, rest: 58, stature: 181, tests: one("run-1.5-mile", scoring.Time, 13.4, scoring.Minutes), adults: table("friend-2022-treadmill")},
	"friend-cycle":      {name: "Marta Lindgren-Okafor", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), adults: table("friend-2017-cycle")},
	"by-stages":         {name: "Teodor Brandvik", group: "Harbour office", sex: scoring.Male, age: 55.1, mass: 84, rest: 58, tests: one("run-1.5-mile", scoring.Time, 13.4, scoring.Minutes), adults: table("adult-groups")},
	"almeida":           {name: "Marta Lindgren-Okafor", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), adults: table("almeida-2019")},
	"nhanes":            {name: "Marta Lindgren-Okafor", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), adults: table("nhanes-2001-2004")},
	"no-row":            {name: "Teodor Brandvik", sex: scoring.Male, age: 55.1, mass: 84, rest: 58, tests: one("run-1.5-mile", scoring.Time, 13.4, scoring.Minutes), adults: table("nhanes-2001-2004")},
	"own-table":         {name: "Marta Lindgren-Okafor", group: "Harbour office", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), adults: ownTable()},
	"boy-other-line":    {name: "Jonas Pettit", group: "Class 7b", sex: scoring.Male, age: 12.4, mass: 44, rest: 82, tests: one("shuttle-20-m", scoring.ShuttleLevel, 3, scoring.Levels), youth: "lobelo2009"},
	"girl-symptoms":     {name: "Ayla Demirtaş", group: "Class 7b", sex: scoring.Female, age: 12.1, mass: 41, rest: 78, tests: one("shuttle-20-m", scoring.ShuttleLaps, 26, scoring.Laps), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}},
	"tests-near":        {name: "Runo Halvorsen", sex: scoring.Male, age: 34.3, mass: 74, rest: 55, tests: append(run15(9.65), one("run-12-minute", scoring.Distance, 2400, scoring.Metres)...)},
	"tests-agree":       {name: "Solveig Ness", sex: scoring.Female, age: 44.3, mass: 64, rest: 63, stature: 168, tests: append(walk(14.2, 130), one("run-12-minute", scoring.Distance, 2010, scoring.Metres)...)},
	"school-adult":      {name: "Marta Lindgren-Okafor", group: "Staff", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), audience: templates.School},
	"school-18":         {name: "Dario Vance", group: "Class 12a", sex: scoring.Male, age: 18.6, mass: 77, rest: 63, tests: one("shuttle-20-m", scoring.ShuttleLaps, 71, scoring.Laps), audience: templates.School, brand: harbour},
	"school-girl":       {name: "Ayla Demirtaş", group: "Class 7b", sex: scoring.Female, age: 12.1, mass: 41, rest: 78, tests: one("shuttle-20-m", scoring.ShuttleLaps, 46, scoring.Laps), audience: templates.School, brand: school},
	"school-symptoms":   {name: "Jonas Pettit", group: "Class 7b", sex: scoring.Male, age: 12.4, mass: 44, rest: 82, tests: one("shuttle-20-m", scoring.ShuttleLaps, 26, scoring.Laps), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}, audience: templates.School, brand: school, paper: kit.Letter},
	"work-woman":        {name: "Marta Lindgren-Okafor", group: "Harbour office", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), audience: templates.Workplace, brand: harbour},
	"work-symptoms":     {name: "Runa Halvors", group: "Harbour office", sex: scoring.Female, age: 57.3, mass: 74, rest: 71, tests: walk(15.9, 131), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}, audience: templates.Workplace, brand: harbour},
	"work-16":           {name: "Lea Strand", group: "Apprentices", sex: scoring.Female, age: 16.2, mass: 58, rest: 69, tests: one("shuttle-20-m", scoring.ShuttleLaps, 38, scoring.Laps), audience: templates.Workplace, brand: longOwner},
	"work-long":         {name: "Maria-Magdalena Konstantina Featherstonehaugh von Hohenstein-Wallersdorf de Alcántara", group: "Harbour office", sex: scoring.Female, age: 61.2, mass: 67, rest: 70, tests: walk(15.2, 132), audience: templates.Workplace, brand: longOwner, paper: kit.Letter},
	"squad-runner": {name: "Inés Calderón", group: "Quillhaven Striders", sex: scoring.Female, age: 41.3, mass: 61, rest: 47, stature: 168, audience: templates.Squad, brand: striders,
		tests: append(one("run-1.5-mile", scoring.Time, 12.2, scoring.Minutes), append(one("run-12-minute", scoring.Distance, 2350, scoring.Metres), one("shuttle-20-m", scoring.ShuttleLaps, 60, scoring.Laps)...)...)},
	"squad-full": {name: "Kerstin Aalto", group: "Long-distance squad", sex: scoring.Female, age: 46.9, mass: 54, rest: 46, more: laboratory, audience: templates.Squad,
		tests: append(measured(43.4), append(one("run-1.5-mile", scoring.Time, 11.2, scoring.Minutes), one("run-12-minute", scoring.Distance, 2500, scoring.Metres)...)...)},
	"squad-youth": {name: "Jonas Pettit", group: "Juniors", sex: scoring.Male, age: 15.4, mass: 58, rest: 61, audience: templates.Squad, brand: striders,
		tests: append(one("shuttle-20-m", scoring.ShuttleLaps, 64, scoring.Laps), one("run-1-mile", scoring.Time, 7.2, scoring.Minutes)...)},
	"squad-symptoms": {name: "Leif Odin", group: "Long-distance squad", sex: scoring.Male, age: 33.3, mass: 74, rest: 71, tests: one("run-1.5-mile", scoring.Time, 11.4, scoring.Minutes), more: map[scoring.Input]float64{scoring.Symptoms: scoring.Yes}, audience: templates.Squad, brand: striders, paper: kit.Letter},
	"squad-norm":     {name: "Anselm Birk", group: "Tuesday walkers", sex: scoring.Male, age: 67.4, mass: 82, rest: 68, tests: append(walk(15.2, 120), inPlace(86)...), audience: templates.Squad},
	"school-low":     {name: "Otto Lowmark", sex: scoring.Male, age: 47, rest: 74, tests: measured(14), audience: templates.School},
	"school-high":    {name: "Bella Topping", sex: scoring.Female, age: 29.5, rest: 44, tests: measured(63), audience: templates.School},
	"squad-top":      {name: "Bella Topping", sex: scoring.Female, age: 26.5, rest: 41, tests: measured(63), audience: templates.Squad},
	"below-line":     {name: "Edda Nordahl", sex: scoring.Female, age: 84, mass: 60, rest: 76, tests: measured(13.1)},

	// Tested, and no number.
	"unscored-medicine": {name: "Gunnar Almqvist", sex: scoring.Male, age: 51.4, mass: 82, rest: 52, unscored: true, tests: walk(15.1, 98), more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes},
		before: []past{{12, 82, 70, walk(15.6, 128), map[scoring.Input]float64{scoring.HeartRateDrug: scoring.No}}}},
	"unscored-cleared": {name: "Runa Halvors", group: "Harbour office", sex: scoring.Female, age: 66.3, mass: 70, rest: 54, unscored: true, audience: templates.Workplace, tests: one("walk-6-minute", scoring.Distance, 455, scoring.Metres),
		more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes, scoring.Cleared: scoring.Yes}},
	"unscored-unclear": {name: "Leif Odin", sex: scoring.Male, age: 50.2, mass: 85, rest: 60, unscored: true, tests: walk(15, 110), more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Unclear}},
	"unscored-girl":    {name: "Lea Strand", group: "Class 9a", sex: scoring.Female, age: 15.2, mass: 56, rest: 61, unscored: true, tests: walk(16, 110), more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes}, audience: templates.School},
	"unscored-school":  {name: "Jonas Pettit", group: "Class 7b", sex: scoring.Male, mass: 44, rest: 104, unscored: true, school: true, tests: one("shuttle-20-m", scoring.ShuttleLaps, 24, scoring.Laps), audience: templates.School},
	"unscored-doubt":   {name: "Ayla Demirtaş", group: "Class 7b", sex: scoring.Female, age: 12.1, mass: 90, stature: 120, rest: 78, unscored: true, doubted: true, tests: []trial{{"run-1-mile", map[scoring.Input]scoring.Quantity{scoring.Time: scoring.Q(9.5, scoring.Minutes)}}}, audience: templates.School},
	"girl-15-fast":     {name: "Lea Strand", group: "Class 9a", sex: scoring.Female, age: 15.2, mass: 52, rest: 118, tests: one("shuttle-20-m", scoring.ShuttleLaps, 30, scoring.Laps), audience: templates.School},
	"girl-16-fast":     {name: "Lea Strand", group: "Class 10a", sex: scoring.Female, age: 16.2, mass: 58, rest: 112, tests: one("shuttle-20-m", scoring.ShuttleLaps, 38, scoring.Laps), audience: templates.School},
	"unscored-boy-9":   {name: "Iven Rosdahl", group: "Class 3", sex: scoring.Male, age: 9.3, mass: 30, rest: 90, unscored: true, tests: one("run-12-minute", scoring.Distance, 1650, scoring.Metres), audience: templates.School},
	"unscored-beyond": {name: "Hanno Velde", sex: scoring.Male, age: 64.2, mass: 98, rest: 78, stature: 174, unscored: true, tests: []trial{{"walk-2-km", map[scoring.Input]scoring.Quantity{
		scoring.Time: scoring.Q(21.5, scoring.Minutes), scoring.ExerciseHR: scoring.Q(150, scoring.BeatsPerMinute)}}}},
	"unscored-no-norms": {name: "Anselm Birk", group: "Tuesday walkers", sex: scoring.Male, age: 49.4, mass: 82, rest: 68, unscored: true, tests: inPlace(120), beside: "step-stage"},
	"unscored-missing":  {name: "Otto Lowmark", sex: scoring.Male, age: 52.3, rest: 70, unscored: true, tests: append(walk(14, 120), one("step-30-cm", scoring.RecoveryHR, 100, scoring.BeatsPerMinute)...)},
	"unscored-unread":   {name: "Edda Nordahl", sex: scoring.Female, age: 38.1, mass: 62, rest: 60, unscored: true, problems: []person.Problem{{Read: "11:3", What: scoring.Verbatim("one digit behind the colon is ambiguous"), Unread: true}}},

	// Tested again: every verdict, for every audience.
	"again-rise": {name: "Halvard Strøm", group: "Harbour office", sex: scoring.Male, age: 44.2, mass: 84, rest: 59, tests: run15(11.3), more: pace(115),
		before: []past{{24, 90, 71, run15(14.6), nil}, {12, 88, 68, run15(14.2), pace(150)}, {6, 86, 66, run15(12.9), pace(141)}}},
	"again-unclear": {name: "Marta Lindgren-Okafor", group: "Harbour office", sex: scoring.Female, age: 45.4, mass: 68, rest: 66, tests: walk(14.6, 138), more: pace(147),
		before: []past{{6, 68, 68, walk(14.9, 139), pace(150)}}},
	"again-fall": {name: "Corvin Ashby", group: "Harbour office", sex: scoring.Male, age: 51.3, mass: 83, rest: 69, mornings: 5, tests: run15(13.9), more: pace(158),
		before: []past{{30, 79, 60, run15(10.9), pace(141)}}},
	"again-probable-rise": {name: "Silke Nordhoff", sex: scoring.Female, age: 31.3, mass: 61, rest: 62, tests: one("shuttle-20-m", scoring.ShuttleLevel, 9, scoring.Levels), more: pace(143),
		before: []past{{7, 61, 55, one("shuttle-20-m", scoring.ShuttleLevel, 7, scoring.Levels), pace(150)}}},
	"again-probable-fall": {name: "Emre Falk", sex: scoring.Male, age: 36.1, mass: 78, rest: 62, mornings: 4, tests: run15(12.35), before: []past{{6, 78, 56, run15(11), nil}}},
	"again-other-test": {name: "Wibke Ahrend", group: "Harbour office", sex: scoring.Female, age: 47.2, mass: 66, tests: one("run-12-minute", scoring.Distance, 2200, scoring.Metres),
		before: []past{{12, 66, 0, walk(15.1, 140), nil}, {5, 66, 0, walk(14.8, 136), nil}}},
	"again-equations": {name: "Niels Overgaard", sex: scoring.Male, age: 24.3, mass: 78, tests: run15(10.6),
		before: []past{{6, 78, 0, []trial{{"run-1.5-mile", map[scoring.Input]scoring.Quantity{scoring.Time: scoring.Q(13, scoring.Minutes), scoring.ExerciseHR: scoring.Q(160, scoring.BeatsPerMinute), scoring.Effort: scoring.Q(scoring.EffortSteady, scoring.NoUnit)}}}, nil}}},
	"again-lab": {name: "Kerstin Aalto", group: "Long-distance squad", sex: scoring.Female, age: 26.9, mass: 54, rest: 46, tests: append(measured(59.4), one("run-12-minute", scoring.Distance, 3010, scoring.Metres)...),
		audience: templates.Squad, before: []past{{5, 54, 48, one("run-12-minute", scoring.Distance, 2900, scoring.Metres), nil}}},
	"again-norm":         {name: "Anselm Birk", group: "Tuesday walkers", sex: scoring.Male, age: 67.4, mass: 82, rest: 68, mornings: 3, tests: inPlace(86), before: []past{{6, 82, 60, inPlace(80), nil}}},
	"again-school-adult": {name: "Tilde Vang", group: "Staff", sex: scoring.Female, age: 41.2, mass: 66, rest: 60, tests: run15(12.1), audience: templates.School, before: []past{{12, 66, 66, run15(15.2), nil}}},
	"again-medicine": {name: "Gunnar Almqvist", sex: scoring.Male, age: 51.4, mass: 82, rest: 52, tests: one("run-12-minute", scoring.Distance, 1650, scoring.Metres),
		more: map[scoring.Input]float64{scoring.HeartRateDrug: scoring.Yes}, before: []past{{12, 82, 70, one("run-12-minute", scoring.Distance, 1600, scoring.Metres), map[scoring.Input]float64{scoring.HeartRateDrug: scoring.No}}}},
	"again-girl-rise":    again(13.1, 50, 4, 10),
	"again-girl-likely":  again(13.1, 46, 4, 7),
	"again-girl-unclear": again(13.1, 41, 4, 5),
	"again-boy-fall":     again(14.4, 60, 9, 4),
	"again-boy-likely":   again(14.8, 55, 7, 5),
	"again-squad-rise":   squadAgain(13.4, 11),
	"again-squad-likely": squadAgain(12.6, 11),
	"again-squad-same":   squadAgain(11.2, 11),
	"again-squad-lower":  squadAgain(11, 12.6),
	"again-squad-fall":   squadAgain(11, 13.5),
}
