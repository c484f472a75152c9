package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var recoveryPulse = scoring.Limit{Symbol: "HR", Min: 50, Max: 200, Refuse: true, Why: "no recovery pulse, in beats a minute"}

var step20Cm = &scoring.Test{
	ID: "step-20-cm", Name: "3-minute step test (20 cm)",
	Names: []string{"20 cm step test", "step test 20 cm", "8 inch step test"},
	Results: []scoring.Result{{Input: scoring.RecoveryHR, Column: "20 cm step recovery pulse", Headers: []string{"20 cm step pulse"},
		Step: scoring.Q(2, scoring.BeatsPerMinute), Better: scoring.LowerIsBetter, Phrase: "a recovery pulse of %s beats/min"}},
	Suits:    "Adults for whom higher benches are too much.",
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Step of 20 cm. Metronome at 96 (24 cycles a minute). Step three minutes, then stand.",
		"Count the pulse for 30 seconds and write it as beats a minute (twice the count).",
	},
	Day: &scoring.Day{Say: "step", WarmUp: "recovery", Clock: "step-20-cm", AtOnce: 12, Minutes: 12, PerHelper: 3,
		Needs: "benches", PerStation: 3, Count: scoring.Count30, Cadence: []int{24}},
	Choice: "Its people are not known, so it is used only when named.",
	Equations: []*scoring.Equation{{
		ID: "step20-milligan", Name: "Milligan",
		Vars: []scoring.Var{bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years)},
		// The equation takes the 30-second count, half of the beats a minute.
		Formula: "84.687 - 0.722*(HR/2) - 0.383*age",
		Ages:    scoring.Adults, Choice: true, Population: "not stated in the texts that were seen",
		Limits: []scoring.Limit{recoveryPulse}, Error: scoring.AssumedError(), Correlation: "not stated", Source: "milligan",
		Status: "seen in the repository of an author who uses it",
	}},
	Sources: []scoring.Source{
		{Key: "milligan", Citation: "Milligan G, as given by Hughes AD, Chaturvedi N. Estimation of maximum oxygen consumption and heart rate recovery using the Tecumseh sub-maximal step test. Artery Res 2017;18:29-35 and corrigendum 2021;27:51."},
	},
}

var step30Cm = &scoring.Test{
	ID: "step-30-cm", Name: "3-minute step test (30 cm)",
	Names: []string{"30 cm 3 minute step test", "12 inch step test", "3 minute step test 30 cm"},
	Results: []scoring.Result{{Input: scoring.RecoveryHR, Column: "30 cm step recovery pulse", Headers: []string{"30 cm step pulse", "12 inch step pulse"},
		Better: scoring.LowerIsBetter}},
	Suits:    "Adults. No equation for it is good enough to be used unless you name it; the step test on any bench, with the pulse during stepping, does better.",
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Box of 30 cm. Metronome at 96 (24 cycles a minute). Step three minutes, then rest.",
		"Heart rate 30 seconds after stopping.",
	},
	Day: &scoring.Day{Say: "step", WarmUp: "recovery", Clock: "step-30-cm", AtOnce: 6, Minutes: 12, PerHelper: 3,
		Needs: "benches", PerStation: 1, Cadence: []int{24}},
	Choice: "The numbers are printed so coarsely that it is used only when named.",
	Equations: []*scoring.Equation{{
		ID: "step30-hong2019", Name: "Hong 2019, heart rate after 30 s", Choice: true,
		Vars:    []scoring.Var{bind("sex", scoring.SexInput, scoring.MaleOneFemaleTwo), bind("age", scoring.Age, scoring.Years), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("HR", scoring.RecoveryHR, scoring.BeatsPerMinute)},
		Formula: "84.5 - 10.2*sex - 0.4*age - 0.1*kg - 0.1*HR",
		Ages:    reference.Ages{Min: 19, Max: 50}, Population: "73 adults of about 31 (37 men, 36 women); the ages are taken as 19-50",
		Limits: []scoring.Limit{recoveryPulse}, Error: scoring.AssumedError(), Correlation: "0.85", Source: "hong2019",
		Status: "seen in the abstract, to one decimal only",
		Notes:  []string{"20 beats a minute move the answer by only 2, since the numbers are printed so coarsely"},
	}},
	Sources: []scoring.Source{
		{Key: "hong2019", Citation: "Hong SH, et al. Int J Environ Res Public Health 2019;16:4858 (author from memory)."},
	},
}
