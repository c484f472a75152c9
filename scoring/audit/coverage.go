package audit

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/testdata/evidence"
)

// Coverage is how an equation does on people other than those it was made on.
type Coverage struct {
	Equation *scoring.Equation
	People   int // or stages of people
	Who      string
	Bias, SD float64 // of estimated less measured, mL/kg/min; SD 0 where it is not printed
	// Likely and Nine are the shares of people inside the likely range and inside nine
	// chances in ten.
	Likely, Nine float64
	// Data means that the shares were counted. Else they follow from bias and SD at a
	// value of 40, for a normal distribution.
	Data   bool
	Source string
}

// Coverages lists what is known of each equation that is used unasked, the data sets of
// this project first. An equation without outside people has one entry with People 0.
func Coverages() ([]Coverage, error) {
	counted, err := countedCoverages()
	if err != nil {
		return nil, err
	}
	var all []Coverage
	for _, t := range fieldtests.All() {
		for _, e := range t.Equations {
			if e.Choice || t.Measured {
				continue
			}
			known := len(all)
			for _, c := range counted {
				if c.Equation == e {
					all = append(all, c)
				}
			}
			for _, check := range e.Outside {
				if !slices.ContainsFunc(all[known:], func(c Coverage) bool { return c.Source == check.Source }) {
					all = append(all, printed(e, check))
				}
			}
			if len(all) == known {
				all = append(all, Coverage{Equation: e})
			}
		}
	}
	return all, nil
}

// printed is the coverage that follows from a bias and a spread.
func printed(e *scoring.Equation, check scoring.Check) Coverage {
	c := Coverage{Equation: e, People: check.People, Who: check.Who, Bias: float64(check.Bias), SD: float64(check.SD), Source: check.Source}
	if c.SD > 0 {
		stated := float64(e.Error.At(40, 75))
		differences := distuv.Normal{Mu: c.Bias, Sigma: c.SD}
		inside := func(half float64) float64 { return differences.CDF(half) - differences.CDF(-half) }
		c.Likely, c.Nine = inside(stated), inside(distuv.UnitNormal.Quantile(0.95)*stated)
	}
	return c
}

// tally gathers estimates beside measured values.
type tally struct {
	Coverage
	differences  []float64
	likely, nine int
}

func (t *tally) add(e *scoring.Entry, eq *scoring.Equation, measured float64) error {
	est, refusal := e.EstimateBy(eq)
	if refusal != nil {
		return fmt.Errorf("%s: %s", eq.ID, refusal.Why)
	}
	t.differences = append(t.differences, float64(est.VO2)-measured)
	if low, high := est.Likely(); measured >= float64(low) && measured <= float64(high) {
		t.likely++
	}
	if low, high := est.Range90(); measured >= float64(low) && measured <= float64(high) {
		t.nine++
	}
	return nil
}

func (t *tally) coverage() Coverage {
	c := t.Coverage
	c.People = len(t.differences)
	c.Bias, c.SD = stat.MeanStdDev(t.differences, nil)
	c.Likely, c.Nine = float64(t.likely)/float64(c.People), float64(t.nine)/float64(c.People)
	c.Data = true
	return c
}

func countedCoverages() ([]Coverage, error) {
	run, err := men31()
	if err != nil {
		return nil, err
	}
	stages, err := astrand()
	return append(stages, run), err
}

// men31 reads the 1.5-mile run of 31 men of 38 to 57 whose uptake was measured.
func men31() (Coverage, error) {
	men, err := evidence.Men31()
	if err != nil {
		return Coverage{}, err
	}
	test, eq, _ := fieldtests.Equation("run15-acsm")
	t := tally{Coverage: Coverage{Equation: eq, Who: "men of 38-57", Source: "men31"}}
	for _, man := range men {
		e := scoring.Entry{Trials: []scoring.Trial{{Test: test}}}
		e.SetSex(scoring.Male, "")
		e.Set(scoring.Age, scoring.Q(man.Age, scoring.Years), "")
		e.Trials[0].Set(scoring.Time, scoring.Q(man.RunTime, scoring.Minutes), "")
		if err := t.add(&e, eq, man.VO2max); err != nil {
			return Coverage{}, err
		}
	}
	return t.coverage(), nil
}

// astrand reads the cycle stages of 23 people by one stage and by each two stages. The
// load is the one that costs the measured uptake, so the error of that cost is not in it.
func astrand() ([]Coverage, error) {
	rows, err := evidence.Astrand1964()
	if err != nil {
		return nil, err
	}
	test, one, _ := fieldtests.Equation("cycle-hrr")
	_, line, _ := fieldtests.Equation("cycle-line")
	byOne := tally{Coverage: Coverage{Equation: one, Who: "stages of 23 people of 20-31", Source: "astrand1964"}}
	byTwo := tally{Coverage: Coverage{Equation: line, Who: "pairs of stages of 23 people of 20-31", Source: "astrand1964"}}
	for len(rows) > 0 {
		n := 1
		for n < len(rows) && rows[n].Subject == rows[0].Subject {
			n++
		}
		person := rows[:n]
		rows = rows[n:]
		measured := perKg(person[n-1])
		for i, first := range person[1 : n-1] {
			if used := reserveUsed(person, first); used >= 0.5 && used <= 1.05 {
				if err := byOne.add(cycled(test, person, first), one, measured); err != nil {
					return nil, err
				}
			}
			for _, second := range person[i+2 : n-1] {
				if second.Pulse-first.Pulse < 20 || second.Uptake <= first.Uptake {
					continue
				}
				if err := byTwo.add(cycled(test, person, first, second), line, measured); err != nil {
					return nil, err
				}
			}
		}
	}
	return []Coverage{byOne.coverage(), byTwo.coverage()}, nil
}

func perKg(s evidence.Stage) float64 { return 1000 * s.Uptake / s.BodyMass }

// reserveUsed is the share of the reserve up to the maximum predicted from age.
func reserveUsed(person []evidence.Stage, s evidence.Stage) float64 {
	top, _ := scoring.PredictedMaxHR(person[0].Age)
	return (s.Pulse - person[0].Pulse) / (top - person[0].Pulse)
}

// cycled is a person who did these stages.
func cycled(test *scoring.Test, person []evidence.Stage, stages ...evidence.Stage) *scoring.Entry {
	e := &scoring.Entry{Trials: []scoring.Trial{{Test: test}}}
	e.Set(scoring.Age, scoring.Q(person[0].Age, scoring.Years), "")
	e.Set(scoring.BodyMass, scoring.Q(person[0].BodyMass, scoring.Kilograms), "")
	e.Set(scoring.RestingHR, scoring.Q(person[0].Pulse, scoring.BeatsPerMinute), "")
	power, pulse := []scoring.Input{scoring.Power, scoring.Power2}, []scoring.Input{scoring.ExerciseHR, scoring.StageHR2}
	for i, s := range stages {
		watts := math.Max(0, (perKg(s)-7)*s.BodyMass/10.8) // cycling costs 10.8 W/kg + 7
		e.Trials[0].Set(power[i], scoring.Q(watts, scoring.Watts), "")
		e.Trials[0].Set(pulse[i], scoring.Q(s.Pulse, scoring.BeatsPerMinute), "")
	}
	return e
}
