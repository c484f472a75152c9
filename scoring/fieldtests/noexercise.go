package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var fallbackAges = reference.Ages{Min: 20, Max: 70}

// The estimates without an exercise test: of a lower grade, and made only when
// asked for.
var noExercise = &scoring.Test{
	ID: "no-exercise", Name: "No exercise test", Fallback: true,
	Extra: []scoring.Input{scoring.ActivityLevel},
	Suits: "People who could not be tested, when a rough figure is better than none. Never in place of a test.",
	Protocol: []string{
		"Resting heart rate after five quiet minutes seated; body mass and stature without shoes; the activity question of the equation.",
		"Made only with the setting \"Estimate without a test\", and marked on the page as a rough estimate.",
	},
	Choice: "In order of the people that each was checked on: 46,190 for Jurca 2005. The heart-rate ratio was made on trained men only and is used when named.",
	Equations: []*scoring.Equation{
		{
			ID: "jurca2005", Name: "Jurca 2005",
			Vars: []scoring.Var{bind("sex", scoring.SexInput, scoring.MaleOne), bind("age", scoring.Age, scoring.Years), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("m", scoring.Stature, scoring.Metres),
				bind("RHR", scoring.RestingHR, scoring.BeatsPerMinute)},
			Steps: []scoring.Step{massIndexStep(), {Symbol: "PA", Name: "score of the activity level", Unit: scoring.NoUnit, Source: "jurca2005",
				Lookup: func(c *scoring.Case) (scoring.Found, *scoring.Refusal) {
					scores := [5]float64{0, 0.32, 1.06, 1.76, 3.03}
					q, ok := c.Get(scoring.ActivityLevel)
					if !ok {
						return scoring.Found{}, c.Missing(scoring.ActivityLevel)
					}
					if problem := scoring.ActivityLevel.CheckRange(q); !problem.IsZero() {
						return scoring.Found{}, c.Refuse(scoring.ActivityLevel, problem, sayCheckActivity)
					}
					return scoring.Found{Value: scores[int(q.Amount)-1], How: sayActivityScores}, nil
				}}},
			Formula: "18.07 + 2.77*sex - 0.10*age - 0.17*BMI - 0.03*RHR + PA", Out: scoring.METUnit,
			Ages: fallbackAges, Population: "1863 people of 20-70; checked on 46,190 and 1706 others",
			Error: scoring.ErrorOfEstimate{SEE: 5.25, Note: "1.50 MET in 46,190 other people; 1.45 in the study itself, 1.97 in a third group"}, Correlation: "0.81", Source: "jurca2005",
			Outside: []scoring.Check{{People: 46190, Who: "adults of 20-70", SD: 5.25, Source: "jurca2005"}, {People: 1706, Who: "adults of 20-70", SD: 6.9, Source: "jurca2005"}},
			Status:  "error seen in the abstract, coefficients in a secondary text", Remark: scoring.FlagNoExercise,
		},
		{
			ID: "jackson1990", Name: "Jackson 1990",
			Vars: []scoring.Var{bind("PA", scoring.ActivityRating, scoring.NoUnit), bind("age", scoring.Age, scoring.Years), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("m", scoring.Stature, scoring.Metres),
				bind("sex", scoring.SexInput, scoring.MaleOne)},
			Steps:   []scoring.Step{massIndexStep()},
			Formula: "56.363 + 1.921*PA - 0.381*age - 0.754*BMI + 10.987*sex",
			Ages:    fallbackAges, Population: "2009 people of 20-70 (from memory)",
			Error: scoring.ErrorOfEstimate{SEE: 5.70}, Correlation: "0.78", Source: "jackson1990",
			Status: "seen in a review table", Remark: scoring.FlagNoExercise,
		},
		{
			ID: "jackson1990-fat", Name: "Jackson 1990, body-fat form",
			Vars:    []scoring.Var{bind("PA", scoring.ActivityRating, scoring.NoUnit), bind("age", scoring.Age, scoring.Years), bind("fat", scoring.BodyFat, scoring.Percent), bind("sex", scoring.SexInput, scoring.MaleOne)},
			Formula: "50.513 + 1.589*PA - 0.289*age - 0.552*fat + 5.863*sex",
			Ages:    fallbackAges, Population: "2009 people of 20-70 (from memory)",
			Error: scoring.ErrorOfEstimate{SEE: 5.35}, Correlation: "0.81", Source: "jackson1990",
			Status: "seen in a review table", Remark: scoring.FlagNoExercise,
		},
		nesWaist(scoring.Male, "men", "100.27 - 0.296*age - 0.369*waist - 0.155*RHR + 0.226*PA", 5.70, "2067 men of 20-90"),
		nesWaist(scoring.Female, "women", "74.74 - 0.247*age - 0.259*waist - 0.114*RHR + 0.198*PA", 5.14, "2193 women of 20-90"),
		nes2011(scoring.Male, "men", "92.05 - 0.327*age - 0.933*BMI - 0.167*RHR + 0.257*PA", 5.8, "2067 men of 20-90"),
		nes2011(scoring.Female, "women", "70.77 - 0.244*age - 0.749*BMI - 0.107*RHR + 0.213*PA", 5.1, "2193 women of 20-90"),
		{
			// Worked example: 170 and 75 beats/min give 34.7 (a public sheet).
			Choice: true, ID: "uth2004", Name: "Uth 2004, heart-rate ratio",
			Vars:    []scoring.Var{bind("HRrest", scoring.RestingHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years)},
			Steps:   []scoring.Step{uthMaxHR()},
			Formula: "15.3*HRmax/HRrest",
			Ages:    uthAges, Population: uthMen,
			When: func(c *scoring.Case) *scoring.Refusal {
				if c.Person().Has(scoring.MaxHR) {
					return c.NotFor(sayTopMeasured)
				}
				return nil
			},
			Error: scoring.ErrorOfEstimate{SEE: 7.5, Note: "in 31 fit men; 4.7 in the study itself, with a predicted maximum heart rate"}, Correlation: "not published", Source: "uth2004",
			Status: "seen in the abstract", Remark: scoring.FlagNoExercise, Notes: uthNotes,
		},
		{
			Choice: true, ID: "uth2004-measured", Name: "Uth 2004, heart-rate ratio with a measured maximum",
			Vars:    []scoring.Var{bind("HRmax", scoring.MaxHR, scoring.BeatsPerMinute), bind("HRrest", scoring.RestingHR, scoring.BeatsPerMinute)},
			Formula: "15.3*HRmax/HRrest",
			Ages:    uthAges, Population: uthMen,
			Error: scoring.ErrorOfEstimate{SEE: 7.5, Note: "as with a predicted maximum, for lack of outside data; 2.7 in the study itself"}, Correlation: "not published", Source: "uth2004",
			Status: "seen in the abstract", Remark: scoring.FlagNoExercise, Notes: uthNotes,
		},
		{
			Choice: true, ID: "voutilainen-ratio-men", Name: "Voutilainen, heart-rate ratio, middle-aged men",
			Vars:    []scoring.Var{bind("HRrest", scoring.RestingHR, scoring.BeatsPerMinute), bind("age", scoring.Age, scoring.Years)},
			Steps:   []scoring.Step{scoring.MaxHRStep()},
			Formula: "10.46 + 8.43*HRmax/HRrest", Sex: scoring.Male,
			Ages: reference.Ages{Min: 42, Max: 60}, Population: "men of about 50; the ages are taken as 42-60",
			Error: scoring.AssumedError(), Correlation: "not found", Source: "voutilainen",
			Status: "seen on a secondary page", Remark: scoring.FlagNoExercise,
		},
	},
	Sources: []scoring.Source{
		{Key: "jackson1990", Citation: "Jackson AS, et al. Prediction of functional aerobic capacity without exercise testing. Med Sci Sports Exerc 1990;22:863-870."},
		{Key: "jurca2005", Citation: "Jurca R, Jackson AS, LaMonte MJ, et al. Assessing cardiorespiratory fitness without performing exercise testing. Am J Prev Med 2005;29(3):185-193."},
		{Key: "nes2011", Citation: "Nes BM, Janszky I, Vatten LJ, Nilsen TIL, Aspenes ST, Wisloff U. Estimating VO2peak from a nonexercise prediction model: the HUNT Study, Norway. Med Sci Sports Exerc 2011;43(11):2024-2030."},
		{Key: "uth2004", Citation: "Uth N, Sorensen H, Overgaard K, Pedersen PK. Estimation of VO2max from the ratio between HRmax and HRrest. Eur J Appl Physiol 2004;91(1):111-115."},
		{Key: "voutilainen", Citation: "Voutilainen A, et al., University of Eastern Finland, as given on a public formula page."},
	},
}

// The heart-rate ratio was made on trained men only, and its two forms are 9 apart in
// the same man of 42, so both are used by choice only.
var (
	uthAges  = reference.Ages{Min: 21, Max: 51}
	uthNotes = []string{"reads about 25% high in ordinary middle-aged men"}
)

// uthMaxHR is the predicted maximum without its error, which the paper's own error
// of 4.7 contains.
func uthMaxHR() scoring.Step {
	s := scoring.MaxHRStep()
	s.HasInst, s.Own, s.Error = false, false, 0
	return s
}

const uthMen = "46 well-trained men of 21-51"

func nesWaist(sex scoring.Sex, who, formula string, see scoring.VO2, population string) *scoring.Equation {
	return &scoring.Equation{
		ID: "nes2011-waist-" + who, Name: "Nes 2011, waist form, " + who,
		Vars:    []scoring.Var{bind("age", scoring.Age, scoring.Years), bind("waist", scoring.Waist, scoring.Centimetres), bind("RHR", scoring.RestingHR, scoring.BeatsPerMinute), bind("PA", scoring.ActivityIndex, scoring.NoUnit)},
		Formula: formula, Sex: sex,
		Ages: reference.Ages{Min: 20, Max: 90}, Population: population,
		Error: scoring.ErrorOfEstimate{SEE: see}, Correlation: "0.75 to 0.78 (from memory)", Source: "nes2011",
		Status: "seen in secondary texts; one prints 0.266 for 0.226, a slip", Remark: scoring.FlagNoExercise,
		Notes: []string{"how the activity index is built differs between texts"},
	}
}

func nes2011(sex scoring.Sex, who, formula string, see scoring.VO2, population string) *scoring.Equation {
	return &scoring.Equation{
		ID: "nes2011-" + who, Name: "Nes 2011, body-mass-index form, " + who,
		Vars: []scoring.Var{bind("age", scoring.Age, scoring.Years), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("m", scoring.Stature, scoring.Metres),
			bind("RHR", scoring.RestingHR, scoring.BeatsPerMinute), bind("PA", scoring.ActivityIndex, scoring.NoUnit)},
		Steps: []scoring.Step{massIndexStep()}, Formula: formula, Sex: sex,
		Ages: reference.Ages{Min: 20, Max: 90}, Population: population,
		Error: scoring.ErrorOfEstimate{SEE: see}, Correlation: "0.76", Source: "nes2011",
		Status: "seen in secondary texts", Remark: scoring.FlagNoExercise,
		Notes: []string{"how the activity index is built differs between texts"},
	}
}

// Reasons and details.
var (
	sayTopMeasured    = phrases.Say("top-measured", "the maximum heart rate was measured")
	sayCheckActivity  = phrases.Say("check-activity", "check the activity level")
	sayActivityScores = phrases.Say("activity-scores", "0, 0.32, 1.06, 1.76 or 3.03 for level 1 to 5")
)
