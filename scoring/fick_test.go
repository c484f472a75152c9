package scoring_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	. "tenback/scoring"
)

// The identity by units, worked on paper: 190 beats/min × 0.120 L/beat is
// 22.8 L/min of blood; times 160 mL/L that is 3648 mL/min of oxygen; divided
// by 75 kg that is 48.64 mL/kg/min.
func TestFickByUnits(t *testing.T) {
	full, _ := Fick{HeartRate: Q(190, BeatsPerMinute), StrokeVolume: Q(120, Millilitres), Difference: Q(160, MLPerLitre)}.Solve()
	uptake := full.Uptake
	if uptake.Unit != LPerMin || !near(uptake.Amount, 3.648, 1e-12) {
		t.Fatalf("uptake %v, want 3.648 L/min", uptake)
	}
	e := entryOf(t, "measured", "body-mass=75;age=30;sex=M")
	e.Trials[0].Set(MeasuredVO2Abs, uptake, "")
	if got := Assess(e); got.Best() == nil || !near(got.Best().VO2, 48.64, 1e-9) {
		t.Errorf("as a measured value: %+v", got.Best())
	}
}

// Whichever member is missing, the others give it back.
func TestFickSolvesForTheMissingMember(t *testing.T) {
	random := rand.New(rand.NewPCG(1870, 7))
	for range 200 {
		hr, sv, difference := 120+80*random.Float64(), 60+120*random.Float64(), 80+100*random.Float64()
		full := Fick{Q(hr, BeatsPerMinute), Q(sv, Millilitres), Q(hr*sv/1000, LitresOfBlood), Q(difference, MLPerLitre), Q(hr*sv*difference/1e6, LPerMin)}
		for name, c := range map[string]struct {
			without Fick
			found   []Input
		}{
			"heart rate":                {Fick{StrokeVolume: full.StrokeVolume, Difference: full.Difference, Uptake: full.Uptake}, []Input{MaxHR, CardiacOutput}},
			"stroke volume":             {Fick{HeartRate: full.HeartRate, Difference: full.Difference, Uptake: full.Uptake}, []Input{StrokeVolume, CardiacOutput}},
			"stroke volume from output": {Fick{HeartRate: full.HeartRate, CardiacOutput: full.CardiacOutput, Uptake: full.Uptake}, []Input{StrokeVolume, OxygenDifference}},
			"difference":                {Fick{HeartRate: full.HeartRate, StrokeVolume: full.StrokeVolume, Uptake: full.Uptake}, []Input{CardiacOutput, OxygenDifference}},
			"uptake":                    {Fick{HeartRate: full.HeartRate, StrokeVolume: full.StrokeVolume, Difference: full.Difference}, []Input{CardiacOutput, MeasuredVO2Abs}},
			"heart rate and uptake":     {Fick{StrokeVolume: full.StrokeVolume, CardiacOutput: full.CardiacOutput, Difference: full.Difference}, []Input{MaxHR, MeasuredVO2Abs}},
			"nothing":                   {full, nil},
		} {
			got, found := c.without.Solve()
			slices.Sort(found)
			slices.Sort(c.found)
			if !slices.Equal(found, c.found) {
				t.Fatalf("%s: found %v, want %v", name, found, c.found)
			}
			for _, pair := range [][2]Quantity{{got.HeartRate, full.HeartRate}, {got.StrokeVolume, full.StrokeVolume}, {got.CardiacOutput, full.CardiacOutput}, {got.Difference, full.Difference}, {got.Uptake, full.Uptake}} {
				if pair[0].Unit != pair[1].Unit || !near(pair[0].Amount, pair[1].Amount, 1e-9) {
					t.Fatalf("%s missing: %v, want %v", name, pair[0], pair[1])
				}
			}
			if doubts := got.Doubts(); len(doubts) != 0 {
				t.Fatalf("%s: %v", name, doubts)
			}
		}
	}
}

func TestFickWithTooLittle(t *testing.T) {
	got, found := Fick{HeartRate: Q(190, BeatsPerMinute), Uptake: Q(3, LPerMin)}.Solve()
	if len(found) != 0 || got.StrokeVolume.Amount != 0 || got.CardiacOutput.Amount != 0 || got.Difference.Amount != 0 {
		t.Errorf("two members gave %v", found)
	}
	if _, found := (Fick{}).Solve(); len(found) != 0 || len(Fick{}.Doubts()) != 0 {
		t.Errorf("nothing gave %v", found)
	}
}

func TestFickDoubts(t *testing.T) {
	for _, c := range []struct {
		name string
		f    Fick
		want string // "" for none
	}{
		{"possible", Fick{HeartRate: Q(190, BeatsPerMinute), StrokeVolume: Q(120, Millilitres), Uptake: Q(3.648, LPerMin)}, ""},
		{"stroke volume at the top", Fick{StrokeVolume: Q(250, Millilitres)}, ""},
		{"stroke volume above", Fick{StrokeVolume: Q(251, Millilitres)}, "stroke volume: 251 mL is outside 20 to 250 mL"},
		{"stroke volume below", Fick{StrokeVolume: Q(19, Millilitres)}, "stroke volume: 19 mL is outside"},
		{"difference at the top", Fick{Difference: Q(220, MLPerLitre)}, ""},
		{"difference above", Fick{Difference: Q(221, MLPerLitre)}, "arteriovenous oxygen difference: 221 mL/L is outside 20 to 220 mL/L"},
		{"difference below", Fick{Difference: Q(19, MLPerLitre)}, "arteriovenous oxygen difference: 19 mL/L is outside"},
		// 4.5 L/min by 150 beats of 100 mL leaves 300 mL for each litre of blood.
		{"difference worked out", Fick{HeartRate: Q(150, BeatsPerMinute), StrokeVolume: Q(100, Millilitres), Uptake: Q(4.5, LPerMin)}, "arteriovenous oxygen difference: 300 mL/L is outside"},
		// 4.5 L/min at 150 mL/L asks for 30 L of blood, so 300 mL a beat.
		{"stroke volume worked out", Fick{HeartRate: Q(100, BeatsPerMinute), Difference: Q(150, MLPerLitre), Uptake: Q(4.5, LPerMin)}, "stroke volume: 300 mL is outside"},
		{"output agrees within 5 %", Fick{HeartRate: Q(190, BeatsPerMinute), StrokeVolume: Q(120, Millilitres), CardiacOutput: Q(22, LitresOfBlood)}, ""},
		{"output contradicts", Fick{HeartRate: Q(190, BeatsPerMinute), StrokeVolume: Q(120, Millilitres), CardiacOutput: Q(20, LitresOfBlood)}, "heart rate times stroke volume gives 22.8 L/min of blood, not 20 L/min of blood"},
		{"uptake contradicts", Fick{CardiacOutput: Q(20, LitresOfBlood), Difference: Q(150, MLPerLitre), Uptake: Q(4, LPerMin)}, "cardiac output times oxygen difference gives 3 L/min, not 4 L/min"},
	} {
		got := saidAll(c.f.Doubts())
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestFickOfAnEntry(t *testing.T) {
	e := entryOf(t, "measured", "body-mass=75;max-hr=190;stroke-volume=120;measured-vo2max=48.64")
	got, found := FickOf(e).Solve()
	if !near(got.Uptake.Amount, 3.648, 1e-9) || !near(got.Difference.Amount, 160, 1e-9) || len(found) != 2 {
		t.Errorf("%+v, found %v", got, found)
	}
	e = entryOf(t, "measured", "max-hr=190;cardiac-output=22.8;oxygen-difference=160;measured-vo2max-abs=3.648")
	if got, _ := FickOf(e).Solve(); !near(got.StrokeVolume.Amount, 120, 1e-9) || got.Uptake != Q(3.648, LPerMin) {
		t.Errorf("%+v", got)
	}
	// Without a body mass a relative value says nothing about litres.
	if got := FickOf(entryOf(t, "measured", "measured-vo2max=48.64")); got.Uptake.Amount != 0 {
		t.Errorf("uptake %v", got.Uptake)
	}
}

// What cannot be is flagged on the score, and only that.
func TestImpossibleLab(t *testing.T) {
	for text, want := range map[string]bool{
		"max-hr=190;stroke-volume=120;cardiac-output=22.8": false,
		"max-hr=190;stroke-volume=120;cardiac-output=15":   true,
		"max-hr=190": false,
	} {
		if s := Assess(personOf(t, text)); hasFlag(s.Flags, FlagImpossibleLab) != want {
			t.Errorf("%s: flags %v", text, s.Flags)
		}
	}
}

func saidAll(all []Said) string {
	var texts []string
	for _, s := range all {
		texts = append(texts, s.String())
	}
	return strings.Join(texts, "; ")
}

func TestLaboratoryDoubts(t *testing.T) {
	for _, c := range []struct {
		text                string
		maximal, thresholds bool // flagged
	}{
		{"respiratory-exchange-ratio=1.15", false, false},
		{"respiratory-exchange-ratio=1", false, false},
		{"respiratory-exchange-ratio=0.99", true, false},
		{"threshold-1-hr=130;threshold-2-hr=160;max-hr=185", false, false},
		{"threshold-1-hr=160;threshold-2-hr=160", false, true},
		{"threshold-1-hr=170;threshold-2-hr=160", false, true},
		{"threshold-2-hr=185;max-hr=185", false, false},
		{"threshold-2-hr=186;max-hr=185", false, true},
	} {
		s := Assess(personOf(t, c.text))
		if a, b := hasFlag(s.Flags, FlagNotMaximal), hasFlag(s.Flags, FlagThresholds); a != c.maximal || b != c.thresholds {
			t.Errorf("%s: not maximal %v, thresholds %v", c.text, a, b)
		}
	}
}
