package scoring_test

import (
	"encoding/binary"
	"math"
	"testing"
	"time"

	. "tenback/scoring"

	"tenback/scoring/fieldtests"
	"tenback/scoring/outlook"
)

// FuzzAssess scores entries made of any numbers at all, out of range, infinite
// and not numbers included. Nothing may panic, and what comes out is possible:
// a finite VO2max within the bounds of a measured one, with an error above
// zero, its chances summing to 1, its working and its targets readable.
func FuzzAssess(f *testing.F) {
	entry := func(test byte, values ...any) []byte {
		data := []byte{test}
		for i := 0; i+1 < len(values); i += 2 {
			data = append(data, byte(values[i].(Input)))
			data = binary.LittleEndian.AppendUint64(data, math.Float64bits(values[i+1].(float64)))
		}
		return data
	}
	for i := range fieldtests.All() {
		f.Add(entry(byte(i), SexInput, 1.0, Age, 45.0, BodyMass, 80.0, Stature, 180.0, RestingHR, 60.0, ExerciseHR, 130.0,
			Time, 840.0, Distance, 2400.0, ShuttleLevel, 7.0, RecoveryHR, 120.0, StepRate, 24.0, BenchHeight, 30.0,
			Power, 100.0, BeltSpeed, 5.0, Grade, 5.0, StepsInPlace, 90.0, MeasuredVO2, 40.0, ActivityLevel, 3.0))
		f.Add(entry(byte(i), ShuttleLevel, 0.0, ShuttleInLevel, 3.0, ActivityLevel, 9.0, Age, math.NaN()))
		f.Add(entry(byte(i), ShuttleLevel, 1e9, ShuttleLaps, math.Inf(1), Age, -3.0, SexInput, 0.5, Time, math.Inf(-1)))
		f.Add(entry(byte(i), SexInput, 0.0, Age, 70.0, RestingHR, 180.0, MaxHR, 180.0, ExerciseHR, 180.0, BodyMass, 0.0, Stature, 0.0))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) < 1 {
			return
		}
		test := fieldtests.All()[int(data[0])%len(fieldtests.All())]
		e := &Entry{Trials: []Trial{{Test: test}}}
		for data = data[1:]; len(data) >= 9; data = data[9:] {
			in := Input(int(data[0]) % int(InputCount))
			q := Q(math.Float64frombits(binary.LittleEndian.Uint64(data[1:])), in.Info().Unit)
			if in.Info().Personal {
				e.Set(in, q, "")
			} else {
				e.Trials[0].Set(in, q, "")
			}
		}
		var named []string
		for _, eq := range test.Equations {
			if eq.Choice {
				named = append(named, eq.ID)
			}
		}
		for _, o := range []Options{{}, {Fallback: fieldtests.WithoutExercise()}, {Equations: named}} {
			s := o.Assess(e)
			for i := range s.Estimates {
				est := &s.Estimates[i]
				if !(est.VO2 >= 8 && est.VO2 <= 97) || !(est.SD > 0) || math.IsInf(float64(est.SD), 0) {
					t.Fatalf("%s: %g ± %g", est.Equation.ID, float64(est.VO2), float64(est.SD))
				}
				if w := est.Working(); len(w.Steps) == 0 {
					t.Fatalf("%s: no working", est.Equation.ID)
				}
				_ = est.ResultText()
			}
			for _, st := range s.Adults {
				sum := 0.0
				for _, p := range st.Chances {
					sum += p
				}
				if math.Abs(sum-1) > 1e-9 {
					t.Fatalf("chances %v", st.Chances)
				}
				for _, d := range st.Decades() {
					for _, g := range d.Goals {
						_ = g.InTest.String()
					}
				}
			}
			for _, flag := range s.Flags {
				_ = flag.String()
			}
			outlook.Ranges(&s)
			FickOf(e).Doubts()
		}
	})
}

// FuzzAgeOn tries any two days: the age is never negative, and a day more
// never makes anyone younger.
func FuzzAgeOn(f *testing.F) {
	f.Add(int32(0), int32(20000))
	f.Add(int32(11016), int32(20148)) // a leap day, 28 February
	f.Fuzz(func(t *testing.T, born, tested int32) {
		const most = 400_000 // days from 1970, about a thousand years
		born, tested = born%most, tested%most
		on := func(days int32) time.Time { return day(1970, 1, 1).AddDate(0, 0, int(days)) }
		age, err := AgeOn(on(born), on(tested))
		if (err != nil) != (tested < born) {
			t.Fatalf("day %d to %d: %v", born, tested, err)
		}
		if err != nil {
			return
		}
		next, _ := AgeOn(on(born), on(tested+1))
		if age < 0 || next <= age {
			t.Fatalf("day %d to %d: %g, a day later %g", born, tested, age, next)
		}
	})
}
