package heading

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// raceHeader matches a distance with or without words for running: "3000 m", "5
// km run", "Бег 3 км", "10K time (min)".
var raceHeader = sync.OnceValue(func() *regexp.Regexp {
	const words = `run|running|race|result|time|test|trial|tt|over|cross|road|track|min|mins|minutes|sec|` +
		`lauf|laufen|laufzeit|zeit|auf|uber|course|temps|chrono|sur|a pied|de|carrera|tiempo|corsa|tempo|corrida|` +
		`loop|hardlopen|lopen|tijd|lopning|lop|tid|lob|bieg|na|czas|бег|на|время|кросс|lari|waktu|kosu|走|跑步|跑|长跑|달리기|오래달리기`
	const between = `[ _-]*`
	return regexp.MustCompile(`^(?:(?:` + words + `)` + between + `)*` +
		`(\d{1,5}|\d{1,3}[.,]\d{1,3}|\d{1,2} \d{3})` + between +
		`(?:(km|kms|k|kilometers?|kilometres?|m|mtrs?|meters?|metres?|metros|metri|mi|miles?)\b|(км|м|метров|公里|千米|キロ|米|メートル|미터|킬로미터))` +
		`((?:` + between + `(?:` + words + `))*)$`)
})

// marathons holds the named distances in metres, by folded name.
var marathons = map[string]float64{"half marathon": 21097.5, "halfmarathon": 21097.5, "halbmarathon": 21097.5, "semi marathon": 21097.5,
	"media maraton": 21097.5, "mezza maratona": 21097.5, "halve marathon": 21097.5, "halvmaraton": 21097.5, "polmaraton": 21097.5, "полумарафон": 21097.5,
	"marathon": 42195, "maraton": 42195, "maratona": 42195, "марафон": 42195}

// raceDistance parses the distance in metres from the header of a run. told is
// false if the header is only the distance.
func raceDistance(header string) (metres float64, told, ok bool) {
	s := strings.Join(strings.Fields(withoutParentheses(header)), " ")
	if d, named := marathons[strings.ReplaceAll(s, "-", " ")]; named {
		return d, true, true
	}
	m := raceHeader().FindStringSubmatch(s)
	if m == nil {
		return 0, false, false
	}
	word := m[2] + m[3]
	unit, _ := cell.UnitOf(word)
	switch word {
	case "k", "キロ":
		unit = scoring.Kilometres
	case "metros", "metri":
		unit = scoring.Metres
	}
	number := strings.Replace(m[1], ",", ".", 1)
	if _, decimals, _ := strings.Cut(number, "."); unit == scoring.Metres && len(decimals) == 3 {
		number = strings.Replace(number, ".", "", 1) // "3.000 m" is three thousand
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(number, " ", ""), 64)
	told = s != m[1]+word && s != m[1]+" "+word && s != m[1]+"-"+word
	return scoring.Q(x, unit).In(scoring.Metres), told, err == nil && x > 0
}

// Race is the test that takes any distance within [RaceLimit].
var Race = MustTest("race")

// MustTest returns the declared test of an ID.
func MustTest(id string) *scoring.Test {
	t, ok := fieldtests.ByID(id)
	if !ok {
		panic("heading: there is no test " + id) // a fault in the program; every test run meets it
	}
	return t
}

// RaceLimit returns the limits of a symbol in the race's equation.
func RaceLimit(symbol string) (least, most float64) {
	for _, l := range Race.Equations[0].Limits {
		if l.Symbol == symbol {
			return l.Min, l.Max
		}
	}
	return 0, 0
}

// matchRace recognises a distance: another declared test, a race, or a run that
// is not scored.
func matchRace(header string, hints []string) (Heading, bool) {
	metres, told, ok := raceDistance(header)
	if !ok {
		return Heading{}, false
	}
	least, most := RaceLimit("d")
	m := roster.Meaning{Role: roster.InputData, Input: scoring.Time, Test: Race, Distance: metres}
	switch {
	case metres > 2390 && metres < 2420:
		m.Test, m.Distance = MustTest("run-1.5-mile"), 0
	case !told && (metres == 2000 || metres > 1600 && metres < 1620):
		return Heading{Meaning: roster.Meaning{Role: roster.Unscored}, Unclear: walkOrRun}, true
	case metres < least || metres > most:
		return Heading{Meaning: roster.Meaning{Role: roster.Unscored}}, true
	}
	return withHints([]roster.Meaning{m}, hints), true
}
