package scoring

import "tenback/scoring/reference"

var _ = register(Test{
	ID: "walk-1-mile", Name: "1-mile walk", Rank: 30,
	Names: []string{"1 mile walk", "one mile walk", "mile walk", "1.6 km walk", "1609 m walk"},
	Results: []Result{{Input: Time, Column: "1 mile walk", Headers: []string{"1 mile walk time", "mile walk time", "1 mile walk min"},
		Step: Q(1, Seconds), Better: LowerIsBetter, Phrase: "the mile walked in %s at the same heart rate"}},
	Suits: "Adults of 30 to 69, also those who do not run. Fit walkers of under 30 are read too low.",
	Protocol: []string{
		"Flat measured mile (1609 m): on a 400 m track four laps and 9 m. Not on a treadmill.",
		"Walk as fast as you can keep up; no running.",
		"Heart rate over the last quarter mile by monitor, or pulse counted in the last ten seconds and turned into beats a minute.",
		"Write minutes and seconds, the heart rate in beats a minute and the body mass.",
	},
	Equations: []*Equation{{
		// Worked example: woman, 52 years, 130 lb, 12:45, 147 beats/min gives
		// 38.06. The page with these inputs answers 57.2, for it put a
		// ten-second count in place of the heart rate.
		ID: "walk1-kline1987", Name: "Kline 1987",
		Vars:    []Var{{"lb", BodyMass, Pounds}, {"age", Age, Years}, {"sex", SexInput, MaleOne}, {"T", Time, Minutes}, {"HR", ExerciseHR, BeatsPerMinute}},
		Formula: "132.853 - 0.0769*lb - 0.3877*age + 6.315*sex - 3.2649*T - 0.1565*HR",
		Ages:    reference.Ages{Min: 30, Max: 69}, Accepts: adults, Population: "343 people of 30-69 (165 men, 178 women)",
		Limits: []Limit{{Symbol: "T", Min: 8, Max: 30, Refuse: true, Why: "no time for a mile at a walk"}},
		Error:  ErrorOfEstimate{SEE: 5.0}, Correlation: "0.88", Source: "kline1987",
		Status: "seen in several secondary texts; the L/min form in the abstract",
	}},
})
