package scoring_test

import (
	"strings"
	"testing"

	. "tenback/scoring"
)

// The lower limit of a 6-minute walk (italy2022), by hand: for a woman of 50 with 162 cm
// and 62 kg 405 + 260.82 − 61.38 − 250 + 222.55 − 96 = 481; for a man of 50 with 175 cm
// and 78 kg 1340 + 1480.5 − 35.1 − 150 − 1137.5 − 890.18 − 122 = 486. Without the last
// number both are within 5 m of the mean that the paper prints, 581 and 609.
func TestLowResults(t *testing.T) {
	const woman = "sex=F;age=50;stature=162;body-mass=62;resting-hr=60;"
	for _, c := range []struct {
		test, text string
		limit      string // empty where the result is no reason to talk
		leads      bool   // the estimate would reassure
	}{
		{"walk-6-minute", woman + "distance=480", "481 m", true},
		{"walk-6-minute", woman + "distance=481", "", false},
		{"walk-6-minute", "sex=M;age=50;stature=175;body-mass=78;resting-hr=60;distance=485", "486 m", true},
		{"walk-6-minute", "sex=M;age=50;stature=175;body-mass=78;resting-hr=60;distance=486", "", false},
		{"walk-6-minute", "sex=F;age=50;stature=162;body-mass=95;resting-hr=85;distance=400", "448 m", false}, // the estimate is low too
		{"walk-6-minute", "sex=F;age=79;stature=162;body-mass=62;distance=200", "", false},                    // beyond the ages of the study
		{"walk-6-minute", "age=50;stature=162;body-mass=62;resting-hr=60;distance=200", "", false},
		// 95 − 1.645 × 23 = 57 (rikli-jones).
		{"step-in-place-2-min", "sex=M;age=72;steps-in-place=56", "57 steps", false},
		{"step-in-place-2-min", "sex=M;age=72;steps-in-place=57", "", false},
	} {
		e := entryOf(t, c.test, c.text)
		why := ""
		for _, r := range e.TalkFirst() {
			if r.Advice == OnlyTalk {
				why += r.Why.String()
			}
		}
		if (why == "") != (c.limit == "") || !strings.HasSuffix(why, c.limit) {
			t.Errorf("%s: a reason to talk %q, want %s", c.text, why, c.limit)
		}
		if s := Assess(e); hasFlag(s.Flags, FlagLowerReading) != c.leads {
			t.Errorf("%s: the lower reading leads: %v", c.text, !c.leads)
		}
	}
}
