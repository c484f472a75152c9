package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var walk2km = scoring.Limit{Symbol: "T", Min: 10, Max: 35, Refuse: true, Why: "no time for 2 km at a walk"}

// walk2kmAges are the ages of the body-mass forms; the other forms print 20-65.
var walk2kmAges = reference.Ages{Min: 20, Max: 65}

var walk2Km = &scoring.Test{
	ID: "walk-2-km", Name: "2 km walk",
	Names: []string{"2 km walk", "2km walk", "2000 m walk", "two kilometre walk"},
	Results: []scoring.Result{{Input: scoring.Time, Column: "2 km walk", Headers: []string{"2 km walk time", "2000 m walk"},
		Step: scoring.Q(1, scoring.Seconds), Better: scoring.LowerIsBetter, Phrase: "2 km walked in %s at the same heart rate"}},
	Also:     []scoring.Also{{Input: scoring.ExerciseHR, Column: "2 km walk pulse", Headers: []string{"2 km walk heart rate"}}},
	Suits:    "Adults of 20 to 65 who do not run. Very fit walkers are read too low.",
	Ceiling:  walkedIn(2000),
	Exertion: scoring.OwnPace,
	Protocol: []string{
		"Flat 2000 m on firm ground: five laps of a 400 m track.",
		"Walk as briskly as health allows; no running. Heart rate at the end, by monitor or a ten-second count turned into beats a minute.",
		"Write minutes and seconds, the heart rate, body mass and stature.",
	},
	Day: &scoring.Day{Say: "walk", WarmUp: "walk", AtOnce: 12, Minutes: 35, PerHelper: 4,
		Needs: "pulse-track", Course: 2000, Laps: 5, Count: scoring.Count10},
	Choice: "The form with body mass index explains more than the one with body mass (Oja 1991) and was checked up to an index of 40 (Laukkanen 1992). The two forms are up to 9 apart, so the other serves by choice only.",
	Equations: []*scoring.Equation{
		walk2kmMassIndex(scoring.Male, "men", "184.9 - 4.65*T - 0.22*HR - 0.26*age - 1.05*BMI",
			scoring.Check{People: 87, Who: "men of 24-62", Bias: 0.05, SD: 4.6, Source: "zakarias2003"}),
		walk2kmMassIndex(scoring.Female, "women", "116.2 - 2.98*T - 0.11*HR - 0.14*age - 0.39*BMI"),
		walk2kmMass(scoring.Male, "men", "189.6 - 5.32*T - 0.22*HR - 0.32*age - 0.24*kg", 6.2, "0.81"),
		walk2kmMass(scoring.Female, "women", "121.4 - 2.81*T - 0.12*HR - 0.16*age - 0.24*kg", 4.5, "0.87"),
	},
}

// walk2kmMassIndex is the form with the body mass index. The paper prints an error of 9
// to 15 % of the mean; the middle is used.
func walk2kmMassIndex(sex scoring.Sex, who, formula string, outside ...scoring.Check) *scoring.Equation {
	return &scoring.Equation{
		ID: "walk2km-index-" + who, Name: "Oja and Laukkanen, body-mass-index form, " + who,
		Vars: []scoring.Var{bind("T", scoring.Time, scoring.Minutes), bind("HR", scoring.ExerciseHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years),
			bind("kg", scoring.BodyMass, scoring.Kilograms), bind("m", scoring.Stature, scoring.Metres)},
		Steps: []scoring.Step{massIndexStep()}, Formula: formula, Sex: sex,
		Ages: walk2kmAges, Population: "159 adults of 20-65 (79 men, 80 women); checked by others up to a body mass index of 40",
		Limits: []scoring.Limit{walk2km, {Symbol: "BMI", Min: 16, Max: 40, Refuse: true, Why: "checked up to a body mass index of 40"}},
		Error:  scoring.ErrorOfEstimate{Share: 0.12, Note: "9 to 15% of the mean"}, Correlation: "0.85 (Zakarias 2003)", Outside: outside,
		Source: "oja1991", Status: "seen in several secondary texts",
	}
}

func walk2kmMass(sex scoring.Sex, who, formula string, see scoring.VO2, r string) *scoring.Equation {
	return &scoring.Equation{
		ID: "walk2km-mass-" + who, Name: "Oja 1991, body-mass form, " + who,
		Vars:    []scoring.Var{bind("T", scoring.Time, scoring.Minutes), bind("HR", scoring.ExerciseHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years), bind("kg", scoring.BodyMass, scoring.Kilograms)},
		Formula: formula, Sex: sex,
		Ages: reference.Ages{Min: 25, Max: 65}, Choice: true, Population: "adults of 25-65",
		Limits: []scoring.Limit{walk2km}, Error: scoring.ErrorOfEstimate{SEE: see}, Correlation: r,
		Source: "oja1991", Status: "seen in a textbook table",
	}
}
