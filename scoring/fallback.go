package scoring

import "tenback/scoring/reference"

var fallbackAges = reference.Ages{Min: 20, Max: 70}

// The estimates without an exercise test: of a lower grade, and made only when
// asked for.
var _ = register(Test{
	ID: "no-exercise", Name: "No exercise test", Rank: 90, Fallback: true,
	Extra: []Input{ActivityLevel},
	Suits: "People who could not be tested, when a rough figure is better than none. Never in place of a test.",
	Protocol: []string{
		"Resting heart rate after five quiet minutes seated; body mass and stature without shoes; the activity question of the equation.",
		"Made only with the option --fallback, and marked on the page as a rough estimate.",
	},
	Equations: []*Equation{
		{
			ID: "jurca2005", Name: "Jurca 2005",
			Vars: []Var{{"sex", SexInput, MaleOne}, {"age", Age, Years}, {"kg", BodyMass, Kilograms}, {"m", Stature, Metres},
				{"RHR", RestingHR, BeatsPerMinute}},
			Steps: []Step{massIndexStep(), {Symbol: "PA", Name: "score of the activity level", Unit: NoUnit, Source: "jurca2005",
				Lookup: func(c *Case) (Found, *Refusal) {
					scores := [5]float64{0, 0.32, 1.06, 1.76, 3.03}
					q, ok := c.Get(ActivityLevel)
					if !ok {
						return Found{}, missing(c.trial.Test, ActivityLevel)
					}
					if problem := ActivityLevel.CheckRange(q); !problem.IsZero() {
						return Found{}, c.refuse(ActivityLevel, problem, sayCheckActivity.With())
					}
					return Found{Value: scores[int(q.Amount)-1], How: sayActivityScores.With()}, nil
				}}},
			Formula: "18.07 + 2.77*sex - 0.10*age - 0.17*BMI - 0.03*RHR + PA", Out: METUnit,
			Ages: fallbackAges, Accepts: adults, Population: "1863 people of 20-70; checked on 46,190 and 1706 others",
			Error: ErrorOfEstimate{SEE: 5.1, Note: "1.45 MET; 1.50 and 1.97 in other groups"}, Correlation: "0.81", Source: "jurca2005",
			Status: "error seen in the abstract, coefficients in a secondary text", Remark: FlagNoExercise,
		},
		{
			ID: "jackson1990", Name: "Jackson 1990",
			Vars: []Var{{"PA", ActivityRating, NoUnit}, {"age", Age, Years}, {"kg", BodyMass, Kilograms}, {"m", Stature, Metres},
				{"sex", SexInput, MaleOne}},
			Steps:   []Step{massIndexStep()},
			Formula: "56.363 + 1.921*PA - 0.381*age - 0.754*BMI + 10.987*sex",
			Ages:    fallbackAges, Accepts: adults, Population: "2009 people of 20-70 (from memory)",
			Error: ErrorOfEstimate{SEE: 5.70}, Correlation: "0.78", Source: "jackson1990",
			Status: "seen in a review table", Remark: FlagNoExercise,
		},
		{
			ID: "jackson1990-fat", Name: "Jackson 1990, body-fat form",
			Vars:    []Var{{"PA", ActivityRating, NoUnit}, {"age", Age, Years}, {"fat", BodyFat, Percent}, {"sex", SexInput, MaleOne}},
			Formula: "50.513 + 1.589*PA - 0.289*age - 0.552*fat + 5.863*sex",
			Ages:    fallbackAges, Accepts: adults, Population: "2009 people of 20-70 (from memory)",
			Error: ErrorOfEstimate{SEE: 5.35}, Correlation: "0.81", Source: "jackson1990",
			Status: "seen in a review table", Remark: FlagNoExercise,
		},
		nesWaist(Male, "men", "100.27 - 0.296*age - 0.369*waist - 0.155*RHR + 0.226*PA", 5.70, "2067 men of 20-90"),
		nesWaist(Female, "women", "74.74 - 0.247*age - 0.259*waist - 0.114*RHR + 0.198*PA", 5.14, "2193 women of 20-90"),
		nes2011(Male, "men", "92.05 - 0.327*age - 0.933*BMI - 0.167*RHR + 0.257*PA", 5.8, "2067 men of 20-90"),
		nes2011(Female, "women", "70.77 - 0.244*age - 0.749*BMI - 0.107*RHR + 0.213*PA", 5.1, "2193 women of 20-90"),
		{
			// Worked example: 170 and 75 beats/min give 34.7 (a public sheet).
			ID: "uth2004", Name: "Uth 2004, heart-rate ratio",
			Vars:    []Var{{"HRrest", RestingHR, BeatsPerMinute}, {"age", Age, Years}},
			Steps:   []Step{uthMaxHR},
			Formula: "15.3*HRmax/HRrest",
			Ages:    uthAges, Accepts: adults, Population: uthMen,
			When: func(c *Case) *Refusal {
				if c.entry.Has(MaxHR) {
					return c.notFor(sayTopMeasured)
				}
				return nil
			},
			Error: ErrorOfEstimate{SEE: 4.7, Note: "with a predicted maximum heart rate, whose error it contains"}, Correlation: "not published", Source: "uth2004",
			Status: "seen in the abstract", Remark: FlagNoExercise, Notes: uthNotes, Grade: 1,
		},
		{
			ID: "uth2004-measured", Name: "Uth 2004, heart-rate ratio with a measured maximum",
			Vars:    []Var{{"HRmax", MaxHR, BeatsPerMinute}, {"HRrest", RestingHR, BeatsPerMinute}},
			Formula: "15.3*HRmax/HRrest",
			Ages:    uthAges, Accepts: adults, Population: uthMen,
			Error: ErrorOfEstimate{SEE: 2.7, Note: "with a measured maximum heart rate"}, Correlation: "not published", Source: "uth2004",
			Status: "seen in the abstract", Remark: FlagNoExercise, Notes: uthNotes, Grade: 1,
		},
		{
			ID: "voutilainen-ratio-men", Name: "Voutilainen, heart-rate ratio, middle-aged men",
			Vars:    []Var{{"HRrest", RestingHR, BeatsPerMinute}, {"age", Age, Years}},
			Steps:   []Step{maxHRStep()},
			Formula: "10.46 + 8.43*HRmax/HRrest", Sex: Male,
			Ages: reference.Ages{Min: 42, Max: 60}, Accepts: adults, Population: "men of about 50; the ages are taken as 42-60",
			Error: assumed(), Correlation: "not found", Source: "voutilainen",
			Status: "seen on a secondary page", Remark: FlagNoExercise, Grade: 1,
		},
	},
})

// The heart-rate ratio was made on trained men only, so it never leads where
// another equation works.
var (
	uthAges  = reference.Ages{Min: 21, Max: 51}
	uthNotes = []string{"reads about 25% high in ordinary middle-aged men"}
	// uthMaxHR is the predicted maximum without its error, which the paper's
	// own error of 4.7 contains.
	uthMaxHR = Step{Symbol: "HRmax", Name: "maximum heart rate", Unit: BeatsPerMinute, Formula: tanaka, Source: "tanaka2001"}
)

const uthMen = "46 well-trained men of 21-51"

func nesWaist(sex Sex, who, formula string, see VO2, population string) *Equation {
	return &Equation{
		ID: "nes2011-waist-" + who, Name: "Nes 2011, waist form, " + who,
		Vars:    []Var{{"age", Age, Years}, {"waist", Waist, Centimetres}, {"RHR", RestingHR, BeatsPerMinute}, {"PA", ActivityIndex, NoUnit}},
		Formula: formula, Sex: sex,
		Ages: reference.Ages{Min: 20, Max: 90}, Accepts: adults, Population: population,
		Error: ErrorOfEstimate{SEE: see}, Correlation: "0.75 to 0.78 (from memory)", Source: "nes2011",
		Status: "seen in secondary texts; one prints 0.266 for 0.226, a slip", Remark: FlagNoExercise,
		Notes: []string{"how the activity index is built differs between texts"},
	}
}

func nes2011(sex Sex, who, formula string, see VO2, population string) *Equation {
	return &Equation{
		ID: "nes2011-" + who, Name: "Nes 2011, body-mass-index form, " + who,
		Vars: []Var{{"age", Age, Years}, {"kg", BodyMass, Kilograms}, {"m", Stature, Metres},
			{"RHR", RestingHR, BeatsPerMinute}, {"PA", ActivityIndex, NoUnit}},
		Steps: []Step{massIndexStep()}, Formula: formula, Sex: sex,
		Ages: reference.Ages{Min: 20, Max: 90}, Accepts: adults, Population: population,
		Error: ErrorOfEstimate{SEE: see}, Correlation: "0.76", Source: "nes2011",
		Status: "seen in secondary texts", Remark: FlagNoExercise,
		Notes: []string{"how the activity index is built differs between texts"},
	}
}
