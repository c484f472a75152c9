package heading

import (
	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// marathons holds the named distances in metres, by folded name.
var marathons = map[string]float64{"half mara": 21097.5, "half": 21097.5, "half marathon": 21097.5, "halfmarathon": 21097.5, "halbmarathon": 21097.5, "semi marathon": 21097.5,
	"media maraton": 21097.5, "mezza maratona": 21097.5, "halve marathon": 21097.5, "halvmaraton": 21097.5, "polmaraton": 21097.5, "полумарафон": 21097.5,
	"marathon": 42195, "maraton": 42195, "maratona": 42195, "марафон": 42195}

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
