package workbook

import (
	"time"

	"tenback/scoring"
)

// demoPerson is one invented person of the demonstration roster. Only what
// makes them worth showing is written here; the rest is drawn.
type demoPerson struct {
	name    string
	sex     scoring.Sex
	age     int
	uptake  scoring.VO2 // what their test is to give, mL/kg/min
	resting float64     // beats/min; drawn if 0
	tests   []string    // IDs; chosen to fit if empty
	steady  bool        // ran at an even pace instead of all-out
	group   string      // class or department, if not the sheet's own
	mess    mess
}

// mess is what someone got wrong when filling in the row: the input, or the
// result of the first test, that gets this value instead of a good one.
type mess struct {
	column messColumn
	typed  typed
}

type messColumn uint8

const (
	noMess   messColumn = iota
	noColumn            // of a column in which nothing goes wrong
	messResult
	messResting
	messBirth
	messMass
)

const (
	unknown = scoring.SexUnspecified
	female  = scoring.Female
	male    = scoring.Male
)

// Names of many scripts, for a group's names are never all of one. Any
// likeness to a living person is chance.
var (
	demoPupils = []demoPerson{
		{name: "Łucja Brzegowska", sex: female, age: 13, uptake: 41},
		{name: "Nguyễn Hải Đăng", sex: male, age: 14, uptake: 47},
		{name: "Çağla Öztepe", sex: female, age: 13, uptake: 36, resting: 104},
		{name: "Никола Береговой", sex: male, age: 14, uptake: 39},
		{name: "Ελένη Καλογήρου", sex: female, age: 14, uptake: 33},
		{name: "Szymon Żaba-Wiśniak", sex: male, age: 13, uptake: 52, resting: 58},
		{name: "Þórdís Hafdal", sex: female, age: 14, uptake: 45, tests: []string{"shuttle-20-m", "run-1-mile"}},
		{name: "Jiří Třešňák", sex: male, age: 14, uptake: 43, tests: []string{"shuttle-20-m", "run-1-mile"}},
		{name: "Zsófia Kőhegyi", sex: female, age: 13, uptake: 38, mess: mess{messResult, typed{"DNF", ""}}},
		{name: "Ștefan Țepușel", sex: male, age: 13, uptake: 35},
		{name: "Ieva Krūmiņa-Jūra", sex: female, age: 14, uptake: 40, tests: []string{"shuttle-20-m", "run-12-minute"}},
		{name: "Óscar Peñalba Ría", sex: male, age: 14, uptake: 49, tests: []string{"run-12-minute"}},
		{name: "Aoife Ní Thoinn", sex: female, age: 14, uptake: 37, tests: []string{"walk-1-mile"}},
		{name: "Søren Åkjær", sex: male, age: 13, uptake: 45},
		{name: "Mira 🌊 Sandvær", sex: female, age: 13, uptake: 43},
		{name: "Тарас Їжакович", sex: male, age: 14, uptake: 36, mess: mess{messResult, typed{6.1, "0.0"}}},
		{name: "Kai Umbra", sex: unknown, age: 14, uptake: 42},
		{name: "Maëlle Corbière", sex: female, age: 13, uptake: 34},
		{name: "Joãozinho Maré", sex: male, age: 13, uptake: 46},
		{name: "Poppy Fernquill", sex: female, age: 9, uptake: 46, group: "guest, 4A"},
	}
	demoStaff = []demoPerson{
		{name: "Doğan Ğazi Reisoğlu", sex: male, age: 46, uptake: 34},
		{name: "Wilhelmina Dreyfuß-Tiede", sex: female, age: 39, uptake: 33},
		{name: "Phạm Thị Ngọc Ánh", sex: female, age: 28, uptake: 38},
		{name: "Γιώργος Λιμανάκης", sex: male, age: 58, uptake: 29, resting: 104},
		{name: "Halldóra Æsudóttir", sex: female, age: 62, uptake: 27},
		{name: "Tadeusz Śluza", sex: male, age: 33, uptake: 37, tests: []string{"walk-1-mile"}, mess: mess{messMass, typed{nil, ""}}},
		{name: "Оксана Причал", sex: female, age: 51, uptake: 26, resting: 88},
		{name: "Bríd Ó Calafort", sex: female, age: 44, uptake: 31},
		{name: "Lőrinc Hídvégi", sex: male, age: 66, uptake: 25},
		{name: "Anneli Sääsk", sex: female, age: 36, uptake: 35, tests: []string{"walk-2-km"}, mess: mess{messResting, typed{720, ""}}},
		{name: "Renārs Ķeizarsils", sex: male, age: 25, uptake: 45},
		{name: "Maud van den Sluyse", sex: female, age: 84, uptake: 15.6, resting: 74, tests: []string{"walk-1-mile"}, group: "retired"},
		{name: "Edvard Ljósavík", sex: male, age: 81, uptake: 19.5, group: "retired"},
		{name: "Giulia Scogliera", sex: female, age: 72, uptake: 22, tests: []string{"step-in-place-2-min"}, group: "retired"},
		{name: "Hervé Le Quai", sex: male, age: 52, uptake: 33},
		{name: "Sanja Đurđević-Luka", sex: female, age: 31, uptake: 36, mess: mess{messBirth, typed{time.Date(2031, time.February, 14, 0, 0, 0, 0, time.UTC), formatDate}}},
		{name: "Robin Calloway-Teal", sex: unknown, age: 41, uptake: 35},
		{name: "Ignacio Muelle Ñu", sex: male, age: 48, uptake: 31},
		{name: "Žofie Přístavní", sex: female, age: 22, uptake: 40, tests: []string{"step-41-cm"}},
		{name: "Ümit Balıkçıoğlu", sex: male, age: 29, uptake: 42, tests: []string{"step-41-cm"}},
		{name: "Catrin Môr-Davies", sex: female, age: 57, uptake: 28},
		{name: "Bogdan Corăbieru", sex: male, age: 37, uptake: 36},
		{name: "Ingeborg Skærbæk", sex: female, age: 69, uptake: 23, resting: 66},
		{name: "Osman Kvist", sex: male, age: 55, uptake: 38, tests: []string{"run-1.5-mile"}, mess: mess{messResult, typed{11.30, "0.00"}}},
	}
	demoRunners = []demoPerson{
		{name: "Torbjørn Elvestrand", sex: male, age: 34, uptake: 61.4, resting: 38, tests: []string{"measured", "run-1.5-mile"}},
		{name: "Agnieszka Rzeka", sex: female, age: 27, uptake: 52, resting: 47, tests: []string{"run-1.5-mile"}},
		{name: "Maarten Uiterwaard", sex: male, age: 22, uptake: 56},
		{name: "Δήμητρα Ποταμού", sex: female, age: 31, uptake: 47},
		{name: "=HYPERLINK(\"x\")", sex: male, age: 41, uptake: 46, tests: []string{"run-12-minute"}},
		{name: "Lê Thanh Sông", sex: male, age: 19, uptake: 58},
		{name: "Freya Otterburn", sex: female, age: 45, uptake: 42},
		{name: "Юрий Бережной", sex: male, age: 55, uptake: 41},
		{name: "Célestine Gué", sex: female, age: 38, uptake: 45},
		{name: "Balázs Folyó", sex: male, age: 29, uptake: 54},
		{name: "Runa Åmot", sex: female, age: 23, uptake: 48},
		{name: "Xabier Ibaiondo", sex: male, age: 48, uptake: 44},
		{name: "Elif Irmak", sex: female, age: 35, uptake: 39, tests: []string{"run-1.5-mile"}, steady: true},
		{name: "Mattis Koskela", sex: male, age: 63, uptake: 36},
		{name: "Nia Afonwen", sex: female, age: 17, uptake: 46, tests: []string{"shuttle-20-m"}},
		{name: "Jonas Upė", sex: male, age: 26, uptake: 50, tests: []string{"shuttle-20-m", "run-12-minute"}},
	}
)
