package outlook

import (
	"tenback/scoring"
	"tenback/scoring/formula"
)

// Usual is the VO2max usual for someone's age, sex and body size: a
// comparison, not an estimate of the person's own.
type Usual struct {
	VO2    scoring.VO2
	SEE    scoring.VO2
	Source string // key of the bibliography: desouza2018, or myers2017 without a stature
}

// formByStature is the reference equation for a treadmill test (mode 1).
//
//	45.2 − 0.35 age − 10.9 sex − 0.15 lb + 0.68 in − 0.46 mode
//
// Age in years, sex 1 male and 2 female, body mass in pounds, stature in
// inches. SEE 6.6, r 0.79, 20-85 years, n 10,881. Source: desouza2018.
var formByStature = formula.Lazy("45.2 - 0.35*age - 10.9*sex - 0.15*lb + 0.68*in - 0.46*1", "age", "sex", "lb", "in")

const seeByStature scoring.VO2 = 6.6

// formByMass needs no stature.
//
//	79.9 − 0.39 age − 13.7 sex − 0.127 lb
//
// Age in years, sex 0 male and 1 female, body mass in pounds. SEE 7.20,
// r 0.79, 20-79 years, n 7783. Source: myers2017.
var formByMass = formula.Lazy("79.9 - 0.39*age - 13.7*sex - 0.127*lb", "age", "sex", "lb")

const seeByMass scoring.VO2 = 7.20

// UsualOf returns what is usual for a person; nil under 20, over 85 (79 without a
// stature), or where age, sex or body mass is not known.
func UsualOf(e *scoring.Entry) *Usual {
	age, hasAge := e.Get(scoring.Age)
	sex, hasSex := e.Get(scoring.SexInput)
	mass, hasMass := e.Get(scoring.BodyMass)
	stature, hasStature := e.Get(scoring.Stature)
	switch {
	case !hasAge || !hasSex || !hasMass || age.Amount < 20:
		return nil
	case hasStature && age.Amount < 86:
		v := formByStature().Eval([]float64{age.Amount, sex.In(scoring.MaleOneFemaleTwo), mass.In(scoring.Pounds), stature.In(scoring.Inches)})
		return &Usual{scoring.VO2(v), seeByStature, "desouza2018"}
	case age.Amount < 80:
		v := formByMass().Eval([]float64{age.Amount, sex.In(scoring.FemaleOne), mass.In(scoring.Pounds)})
		return &Usual{scoring.VO2(v), seeByMass, "myers2017"}
	}
	return nil
}
