package scoring

import (
	"math"
)

// Fick holds the members of the Fick identity at one moment, as a rule at
// maximal effort. A member whose amount is zero is not known.
//
//	cardiac output = heart rate × stroke volume
//	oxygen uptake  = cardiac output × arteriovenous oxygen difference
//
// Common practice, no source: it is the conservation of oxygen.
type Fick struct {
	HeartRate     Quantity // beats/min
	StrokeVolume  Quantity // mL a beat
	CardiacOutput Quantity // L/min of blood
	Difference    Quantity // mL of oxygen given off by a litre of blood
	Uptake        Quantity // L/min of oxygen
}

// FickOf returns the members that an entry knows; the uptake is a measured trial's.
func FickOf(e *Entry) Fick {
	var f Fick
	f.HeartRate, _ = e.Get(MaxHR)
	f.StrokeVolume, _ = e.Get(StrokeVolume)
	f.CardiacOutput, _ = e.Get(CardiacOutput)
	f.Difference, _ = e.Get(OxygenDifference)
	mass, hasMass := e.Get(BodyMass)
	for i := range e.Trials {
		if q, ok := e.Trials[i].Get(MeasuredVO2Abs); ok {
			f.Uptake = q
			break
		}
		if q, ok := e.Trials[i].Get(MeasuredVO2); ok && hasMass {
			f.Uptake = Q(q.Amount*mass.In(Kilograms)/1000, LPerMin)
			break
		}
	}
	return f
}

// Solve works out every member that the others determine, and lists those found.
func (f Fick) Solve() (solved Fick, found []Input) {
	const mLPerL = 1000
	hr, sv := f.HeartRate.Amount, f.StrokeVolume.Amount
	flow, difference, uptake := f.CardiacOutput.Amount, f.Difference.Amount, f.Uptake.Amount
	set := func(x *float64, in Input, value float64) {
		if *x == 0 && value > 0 && !math.IsInf(value, 0) {
			*x, found = value, append(found, in)
		}
	}
	set(&flow, CardiacOutput, hr*sv/mLPerL)
	set(&flow, CardiacOutput, uptake*mLPerL/difference)
	set(&hr, MaxHR, flow*mLPerL/sv)
	set(&sv, StrokeVolume, flow*mLPerL/hr)
	set(&difference, OxygenDifference, uptake*mLPerL/flow)
	set(&uptake, MeasuredVO2Abs, flow*difference/mLPerL)
	return Fick{Q(hr, BeatsPerMinute), Q(sv, Millilitres), Q(flow, LitresOfBlood), Q(difference, MLPerLitre), Q(uptake, LPerMin)}, found
}

// fickAgreement is the share by which two ways to the same member may differ
// before it is remarked; our own figure, a little wider than rounding.
const fickAgreement = 0.05

// Doubts returns what cannot be: members outside the inputs' bounds, given or worked
// out, and members that contradict one another. That blood carries about 200 mL of
// oxygen a litre, and that no heart pumps more than some 250 mL a beat, are from
// memory.
func (f Fick) Doubts() []Said {
	solved, _ := f.Solve()
	var doubts []Said
	for _, m := range []struct {
		in Input
		q  Quantity
	}{
		{MaxHR, solved.HeartRate}, {StrokeVolume, solved.StrokeVolume}, {CardiacOutput, solved.CardiacOutput},
		{OxygenDifference, solved.Difference}, {MeasuredVO2Abs, solved.Uptake},
	} {
		if m.q.Amount == 0 {
			continue
		}
		if problem := m.in.CheckRange(m.q); !problem.IsZero() {
			doubts = append(doubts, sayOfInput.With(m.in, problem))
		}
	}
	agree := func(what *Phrase, given, product Quantity) {
		if given.Amount != 0 && product.Amount != 0 && math.Abs(product.Amount/given.Amount-1) > fickAgreement {
			doubts = append(doubts, what.With(product, given))
		}
	}
	agree(sayFlowDiffers, solved.CardiacOutput,
		Q(solved.HeartRate.Amount*solved.StrokeVolume.Amount/1000, LitresOfBlood))
	agree(sayUptakeDiffers, solved.Uptake,
		Q(solved.CardiacOutput.Amount*solved.Difference.Amount/1000, LPerMin))
	return doubts
}
