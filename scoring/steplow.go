package scoring

import "tenback/scoring/reference"

var recoveryPulse = Limit{Symbol: "HR", Min: 50, Max: 200, Refuse: true, Why: "no recovery pulse, in beats a minute"}

var _ = register(Test{
	ID: "step-20-cm", Name: "3-minute step test (20 cm)", Rank: 54,
	Names: []string{"20 cm step test", "step test 20 cm", "8 inch step test"},
	Results: []Result{{Input: RecoveryHR, Column: "20 cm step recovery pulse", Headers: []string{"20 cm step pulse"},
		Step: Q(2, BeatsPerMinute), Better: LowerIsBetter, Phrase: "a recovery pulse of %s beats/min"}},
	Suits: "Adults for whom higher benches are too much.",
	Protocol: []string{
		"Step of 20 cm. Metronome at 96 (24 cycles a minute). Step three minutes, then stand.",
		"Count the pulse for 30 seconds and write it as beats a minute (twice the count).",
	},
	Equations: []*Equation{{
		ID: "step20-milligan", Name: "Milligan",
		Vars: []Var{{"HR", RecoveryHR, BeatsPerMinute}, {"age", Age, Years}},
		// The equation takes the 30-second count, half of the beats a minute.
		Formula: "84.687 - 0.722*(HR/2) - 0.383*age",
		Ages:    adults, Accepts: adults, Population: "not stated in the texts that were seen",
		Limits: []Limit{recoveryPulse}, Error: assumed(), Correlation: "not stated", Source: "milligan",
		Status: "seen in the repository of an author who uses it",
	}},
})

var _ = register(Test{
	ID: "step-30-cm", Name: "3-minute step test (30 cm)", Rank: 52,
	Names: []string{"30 cm 3 minute step test", "12 inch step test", "3 minute step test 30 cm"},
	Results: []Result{{Input: RecoveryHR, Column: "30 cm step recovery pulse", Headers: []string{"30 cm step pulse", "12 inch step pulse"},
		Better: LowerIsBetter}},
	Suits: "Adults. No equation for it is good enough to be used unless you name it; the step test on any bench, with the pulse during stepping, does better.",
	Protocol: []string{
		"Box of 30 cm. Metronome at 96 (24 cycles a minute). Step three minutes, then rest.",
		"Heart rate 30 seconds after stopping.",
	},
	Equations: []*Equation{{
		ID: "step30-hong2019", Name: "Hong 2019, heart rate after 30 s", Choice: true,
		Vars:    []Var{{"sex", SexInput, MaleOneFemaleTwo}, {"age", Age, Years}, {"kg", BodyMass, Kilograms}, {"HR", RecoveryHR, BeatsPerMinute}},
		Formula: "84.5 - 10.2*sex - 0.4*age - 0.1*kg - 0.1*HR",
		Ages:    reference.Ages{Min: 19, Max: 50}, Accepts: adults, Population: "73 adults of about 31 (37 men, 36 women); the ages are taken as 19-50",
		Limits: []Limit{recoveryPulse}, Error: assumed(), Correlation: "0.85", Source: "hong2019",
		Status: "seen in the abstract, to one decimal only",
		Notes:  []string{"20 beats a minute move the answer by only 2, since the numbers are printed so coarsely"},
	}},
})
