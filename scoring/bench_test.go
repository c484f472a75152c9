package scoring_test

import (
	"testing"

	. "tenback/scoring"
)

// Typical rows, with all that is worked out of them: standing, targets in the
// test, resting heart rate, flags.
func BenchmarkAssess(b *testing.B) {
	for _, c := range []struct{ name, test, text string }{
		{"measured", "measured", "sex=F;age=45;measured-vo2max=32;resting-hr=62"},
		{"run of 1.5 miles", "run-1.5-mile", "sex=M;age=34;body-mass=78;time=12:40;resting-hr=58"},
		{"walk with pulse", "walk-1-mile", "sex=F;age=52;body-mass=59;time=12:45;exercise-hr=147;resting-hr=66"},
		{"shuttle, child", "shuttle-20-m", "sex=F;age=12;shuttle-level=4;shuttle-in-level=3"},
		{"shuttle, sex not given", "shuttle-20-m", "age=30;shuttle-laps=60"},
		{"step stage", "step-stage", "sex=F;age=45;resting-hr=66;step-rate=24;bench-height=30;exercise-hr=134;stage-time=3"},
		{"step line", "step-stage", "sex=M;age=40;bench-height=30;step-rate=16;exercise-hr=115;step-rate-2=20;stage-hr-2=128;step-rate-3=24;stage-hr-3=140"},
	} {
		b.Run(c.name, func(b *testing.B) {
			e := entryOf(b, c.test, c.text)
			b.ReportAllocs()
			for b.Loop() {
				s := Assess(e)
				if s.Best() == nil {
					b.Fatal(s.Refused)
				}
				for _, st := range s.Adults {
					st.Decades()
				}
			}
		})
	}
}

// The working of one row, as `explain` and the page ask for it.
func BenchmarkWorking(b *testing.B) {
	s := Assess(entryOf(b, "step-stage", "sex=F;age=45;resting-hr=66;step-rate=24;bench-height=30;exercise-hr=134"))
	b.ReportAllocs()
	for b.Loop() {
		if len(s.Best().Working().Steps) == 0 {
			b.Fatal("no working")
		}
	}
}
