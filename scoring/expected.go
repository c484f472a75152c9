package scoring

import "tenback/scoring/formula"

// Expected is the VO2max usual for someone's age, sex and body size: a
// comparison, not an estimate of the person's own.
type Expected struct {
	VO2    VO2
	SEE    VO2
	Source string // key of the bibliography: desouza2018, or myers2017 without a stature
}

// expectedForm is the reference equation for a treadmill test (mode 1).
//
//	45.2 − 0.35 age − 10.9 sex − 0.15 lb + 0.68 in − 0.46 mode
//
// Age in years, sex 1 male and 2 female, body mass in pounds, stature in
// inches. SEE 6.6, r 0.79, 20-85 years, n 10,881. Source: desouza2018.
var expectedForm = formula.Lazy("45.2 - 0.35*age - 10.9*sex - 0.15*lb + 0.68*in - 0.46*1", "age", "sex", "lb", "in")

const expectedSEE VO2 = 6.6

// myersForm needs no stature.
//
//	79.9 − 0.39 age − 13.7 sex − 0.127 lb
//
// Age in years, sex 0 male and 1 female, body mass in pounds. SEE 7.20,
// r 0.79, 20-79 years, n 7783. Source: myers2017.
var myersForm = formula.Lazy("79.9 - 0.39*age - 13.7*sex - 0.127*lb", "age", "sex", "lb")

const myersSEE VO2 = 7.20

// expected gives the usual value; nil under 20, over 85 (79 without a
// stature), or where age, sex or body mass is not known.
func expected(e *Entry) *Expected {
	age, hasAge := e.Get(Age)
	sex, hasSex := e.Get(SexInput)
	mass, hasMass := e.Get(BodyMass)
	stature, hasStature := e.Get(Stature)
	switch {
	case !hasAge || !hasSex || !hasMass || age.Amount < 20:
		return nil
	case hasStature && age.Amount < 86:
		v := expectedForm().Eval([]float64{age.Amount, sex.In(MaleOneFemaleTwo), mass.In(Pounds), stature.In(Inches)})
		return &Expected{VO2(v), expectedSEE, "desouza2018"}
	case age.Amount < 80:
		v := myersForm().Eval([]float64{age.Amount, sex.In(FemaleOne), mass.In(Pounds)})
		return &Expected{VO2(v), myersSEE, "myers2017"}
	}
	return nil
}
