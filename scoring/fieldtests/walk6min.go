package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var walk6 = scoring.Limit{Symbol: "d", Min: 150, Max: 1000, Refuse: true, Why: "no distance for a six-minute walk"}

var walk6Minute = &scoring.Test{
	ID: "walk-6-minute", Name: "6-minute walk",
	Names: []string{"6 minute walk", "6 min walk", "6MWT", "six minute walk"},
	Results: []scoring.Result{{Input: scoring.Distance, Column: "6 minute walk distance (m)", Headers: []string{"6 minute walk", "6 min walk distance", "6MWD"},
		Step: scoring.Q(5, scoring.Metres), Better: scoring.HigherIsBetter, Phrase: "%s m in 6 minutes"}},
	Suits:    "Adults for whom a brisk walk is hard enough. Distance counts for little here: 100 m move the estimate by 2.3; age, body mass and resting heart rate carry the rest.",
	Exertion: scoring.OwnPace,
	Protocol: []string{
		"A flat 30 m stretch with a cone at each end, or 15 m if there is no more room.",
		"Walk as far as you can in six minutes; slowing and resting are allowed. Tell the minutes gone, in an even voice.",
		"A second try goes about 5% further: let everyone practise once.",
	},
	Day: &scoring.Day{Say: "walk-6-minute", WarmUp: "walk", Clock: "walk-6-minute", AtOnce: 4, Minutes: 15, PerHelper: 1,
		Needs: "walkway", PerStation: 1, Lengths: true},
	Equations: []*scoring.Equation{
		{
			// Worked example: woman, 30 years, 65 kg, resting 60 beats/min, 600 m
			// gives 41.9 (a unit test in a public repository).
			ID: "walk6-burr2011", Name: "Burr 2011",
			Vars: []scoring.Var{bind("d", scoring.Distance, scoring.Metres), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("sex", scoring.SexInput, scoring.FemaleOne),
				bind("RHR", scoring.RestingHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years)},
			Formula: "70.161 + 0.023*d - 0.276*kg - 6.79*sex - 0.193*RHR - 0.191*age",
			Ages:    reference.Ages{Min: 20, Max: 65}, Accepts: scoring.Adults, Population: "44 healthy people of working age (23 men, 21 women); the ages are taken as 20-65",
			Limits: []scoring.Limit{walk6}, Error: scoring.AssumedError(), Correlation: "0.85", Source: "burr2011", Status: "seen in the abstract",
		},
		{
			// Worked example: 500 m gives 16.4 (a unit test in a public repository).
			ID: "walk6-ross2010", Name: "Ross 2010, patients",
			Vars: []scoring.Var{bind("d", scoring.Distance, scoring.Metres)}, Formula: "4.948 + 0.023*d", Choice: true,
			Ages: scoring.Adults, Accepts: scoring.Adults, Population: "1083 patients with heart or lung disease",
			Limits: []scoring.Limit{walk6}, Error: scoring.ErrorOfEstimate{SEE: 3.82}, Correlation: "not seen", Source: "ross2010",
			Status: "equation in secondary texts, error in the abstract", Remark: scoring.FlagPatientsOnly,
			Notes: []string{"made on patients and never right for healthy people: 600 m give 18.7 here and about 42 in the healthy form"},
		},
	},
	Sources: []scoring.Source{
		{Key: "burr2011", Citation: "Burr JF, Bredin SSD, Faktor MD, Warburton DER. The 6-minute walk test as a predictor of objectively measured aerobic fitness in healthy working-aged adults. Phys Sportsmed 2011;39(2):133-139."},
		{Key: "ross2010", Citation: "Ross RM, Murthy JN, Wollak ID, Jackson AS. The six minute walk test accurately estimates mean peak oxygen uptake. BMC Pulm Med 2010;10:31."},
	},
}
