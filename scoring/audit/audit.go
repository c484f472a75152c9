// Package audit compares what scoring computes with testdata/evidence: worked
// examples, table points and measured people. Its tests and `tenback evidence` use it.
package audit

import (
	"fmt"
	"math"
	"strconv"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
	"tenback/testdata/evidence"
)

// Example is a worked example beside our own result.
type Example struct {
	evidence.Row
	Ours float64
	Err  error // why ours could not be worked out
}

// slack keeps a difference of exactly half a printed digit inside it.
const slack = 1e-9

// Difference is ours less the published value.
func (x Example) Difference() float64 { return x.Ours - x.Expected }

// Agrees reports whether ours is within half the last printed digit; for a value
// known to be wrong, whether it is not.
func (x Example) Agrees() bool {
	if x.Err != nil {
		return false
	}
	within := math.Abs(x.Difference()) <= x.Tolerance+slack
	return within != (x.Status == evidence.Rejected)
}

// Examples works out every worked example.
func Examples() ([]Example, error) {
	rows, err := evidence.Equations()
	if err != nil {
		return nil, err
	}
	all := make([]Example, len(rows))
	for i, row := range rows {
		all[i].Row = row
		q, err := workOut(row)
		switch {
		case err != nil:
			all[i].Err = err
		case q.Unit.String() != row.Unit:
			all[i].Err = fmt.Errorf("ours is in %s, the evidence in %s", q.Unit, row.Unit)
		default:
			all[i].Ours = q.Amount
		}
	}
	return all, nil
}

// workOut computes what a row gives: the whole equation, or one step of it.
func workOut(row evidence.Row) (scoring.Quantity, error) {
	test, eq, ok := fieldtests.Equation(row.Equation)
	if !ok {
		return scoring.Quantity{}, fmt.Errorf("no equation %q", row.Equation)
	}
	e := scoring.Entry{Trials: []scoring.Trial{{Test: test}}}
	for _, given := range row.Inputs {
		if err := Put(&e, &e.Trials[0], given.Name, given.Text, given.Name); err != nil {
			return scoring.Quantity{}, err
		}
	}
	if row.Gives != "VO2max" {
		return e.StepValue(eq, row.Gives)
	}
	est, refusal := e.EstimateBy(eq)
	if refusal != nil {
		return scoring.Quantity{}, fmt.Errorf("refused: %s", refusal.Why)
	}
	return scoring.Q(float64(est.VO2), scoring.MLPerKgMin), nil
}

// Point is a point of a published table beside our own reading.
type Point struct {
	evidence.TablePoint
	Ours string
}

// Agrees reports whether the readings are the same.
func (p Point) Agrees() bool { return p.Ours == p.Expected }

// Points reads every table point.
func Points() ([]Point, error) {
	rows, err := evidence.TablePoints()
	if err != nil {
		return nil, err
	}
	all := make([]Point, len(rows))
	for i, row := range rows {
		all[i] = Point{row, read(row)}
	}
	return all, nil
}

var sexes = map[string]scoring.Sex{"F": scoring.Female, "M": scoring.Male, "any": scoring.SexUnspecified}

// read reads a value off a table, in the words of the evidence.
func read(p evidence.TablePoint) string {
	unit, ok := scoring.UnitBySymbol(p.Unit)
	if !ok {
		return "no unit " + p.Unit
	}
	q := scoring.Q(p.Value, unit)
	switch p.Table {
	case "friend-percentiles":
		return friend(p, scoring.VO2(q.In(scoring.MLPerKgMin)))
	case "resting-rate":
		return percentile(reference.RestingPercentile(sexes[p.Sex], p.Age, q.In(scoring.BeatsPerMinute)))
	case "resting-clinical":
		return clinical(p.Age, q)
	case "youth-health-lines":
		return side(p, scoring.VO2(q.In(scoring.MLPerKgMin)))
	}
	return group(p, scoring.VO2(q.In(scoring.MLPerKgMin)))
}

const noRow = "no row"

// friend is the percentile of a value in the FRIEND table of an edition and a mode.
func friend(p evidence.TablePoint, v scoring.VO2) string {
	table, ok := reference.AdultTable(p.Part)
	if !ok {
		return "no table " + p.Part
	}
	row, ok := table.Row(sexes[p.Sex], p.Age)
	if !ok {
		return noRow
	}
	return percentile(row.Percentile(v))
}

// group names the group that an adult table puts a value in.
func group(p evidence.TablePoint, v scoring.VO2) string {
	table, ok := reference.AdultTable(p.Table)
	if !ok {
		return "no table " + p.Table
	}
	row, ok := table.Row(sexes[p.Sex], p.Age)
	if !ok {
		return noRow
	}
	return table.Names[row.Group(v)]
}

// side returns on which side of a health line a value is.
func side(p evidence.TablePoint, v scoring.VO2) string {
	table, ok := reference.YouthTableByID(p.Part)
	if !ok {
		return "no table " + p.Part
	}
	line, ok := table.Line(sexes[p.Sex], p.Age)
	switch {
	case !ok:
		return noRow
	case v >= line:
		return "at or above"
	}
	return "below"
}

// clinical returns which clinical line a resting heart rate crosses.
func clinical(age int, rate scoring.Quantity) string {
	e := scoring.Entry{}
	e.Set(scoring.Age, scoring.Q(float64(age), scoring.Years), "")
	e.Set(scoring.RestingHR, rate, "")
	s := scoring.Assess(&e)
	for _, f := range s.Flags {
		switch f.Code {
		case scoring.FlagRestingHigh:
			return "high"
		case scoring.FlagRestingLow:
			return "low"
		}
	}
	return "none"
}

func percentile(p reference.Percentile, ok bool) string {
	at := "P" + strconv.FormatFloat(math.Round(p.At*100)/100, 'f', -1, 64)
	switch {
	case !ok:
		return noRow
	case p.Below:
		return "below " + at
	case p.Above:
		return "above " + at
	}
	return at
}
