package scoring_test

import (
	"fmt"
	"strings"
	"testing"

	. "tenback/scoring"
)

// The lines of pressure and pulse: see the sources at their declaration. The 97.5th
// percentiles are those of nhanes0104: girls of 12 to 15 104, of 6 to 8 108, boys
// of 12 to 15 104, of 6 to 8 110.
func TestTalkFirst(t *testing.T) {
	for _, c := range []struct{ person, want string }{
		{"sex=F;age=45;resting-hr=99;symptoms=0;systolic-bp=159;diastolic-bp=99;inactive=0", ""},
		{"sex=F;age=45;symptoms=0.5", "symptoms 2"},
		{"sex=F;age=45;symptoms=1;cleared=1;known-disease=1;insulin=1;heart-rate-drug=1;pregnant=1;family-sudden-death=1", "symptoms 2"},
		{"sex=F;age=45;known-disease=1;cleared=0.5", "known-disease 2"},
		{"sex=F;age=45;asthma=1;recent-illness=1;sickle-cell-trait=1;insulin=1", "insulin 2, recent-illness 1, sickle-cell-trait 1, asthma 0"},
		{"sex=F;age=45;systolic-bp=160", "systolic-bp 2"},
		{"sex=F;age=45;diastolic-bp=100;cleared=1", "diastolic-bp 2"},
		{"sex=F;age=45;systolic-bp=170;diastolic-bp=110", "diastolic-bp 2"},
		{"sex=F;age=17;systolic-bp=140", "systolic-bp 2"},
		{"sex=F;age=18;systolic-bp=140", ""},
		{"sex=M;age=16;resting-hr=100", "resting-hr 2"},
		{"sex=M;age=15.99;resting-hr=104", ""},
		{"sex=F;age=15;resting-hr=105", "resting-hr 1"},
		{"age=8;resting-hr=110", ""},
		{"sex=F;age=8;resting-hr=109", "resting-hr 1"},
		{"resting-hr=100", "resting-hr 2"},
		{"sex=F;age=40;inactive=1", "inactive 1"},
		{"sex=F;age=39;inactive=1", ""},
		{"sex=F;age=40;inactive=1;cleared=1", ""},
		{"sex=F;age=52;activity-level=1", "activity-level 1"},
		{"sex=F;age=52;activity-rating=2", ""},
	} {
		e := personOf(t, c.person)
		if got := reasonsOf(e); got != c.want {
			t.Errorf("%s: %q, want %q", c.person, got, c.want)
		}
		s := Assess(e)
		if grave := strings.Contains(c.want, " 2"); s.SeeClinicianFirst() != grave {
			t.Errorf("%s: a clinician first: %v", c.person, s.SeeClinicianFirst())
		}
	}
}

func reasonsOf(e *Entry) string {
	var all []string
	for _, r := range e.TalkFirst() {
		all = append(all, fmt.Sprint(r.Input, " ", r.Advice))
	}
	return strings.Join(all, ", ")
}

// A note is named once, at its cell, and none of its words is in a flag.
func TestTalkFirstOfNotes(t *testing.T) {
	e := personOf(t, "sex=F;age=30;cleared=1;asthma=1")
	e.Set(Asthma, Q(Unclear, NoUnit), "J7")
	e.Notes = []DangerNote{{"J7", "inhaler used", Asthma, false, false}, {"K7", "fainted on lap 3", Symptoms, true, false}, {"L7", "sugar", Insulin, false, false}, {"M7", "low sugar", Insulin, true, false}}
	if got, want := reasonsOf(e), "symptoms 2, insulin 2, asthma 0"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if all := e.TalkFirst(); all[0].Cell != "K7" || all[1].Cell != "M7" {
		t.Errorf("cells %v", all)
	}
	for _, f := range Assess(e).Flags {
		if strings.Contains(f.String(), "lap") {
			t.Errorf("a flag holds the words of a note: %s", f)
		}
	}
}

// Someone of unknown age in a school has a child's line.
func TestTalkFirstOfUnknownAge(t *testing.T) {
	e := personOf(t, "sex=F;resting-hr=108")
	e.MayBeChild = true
	if got := reasonsOf(e); got != "" {
		t.Errorf("108: %q", got)
	}
	e.Set(RestingHR, Q(109, BeatsPerMinute), "")
	if got := reasonsOf(e); got != "resting-hr 1" {
		t.Errorf("109: %q", got)
	}
}

// The words of an answer that says more than yes are part of the reason.
func TestTalkFirstNamesAnswers(t *testing.T) {
	for _, c := range []struct {
		answer float64
		text   string
		want   string
	}{{Yes, "", "symptoms"}, {Yes, "ja", "symptoms"}, {Yes, "chest pain", `symptoms: "chest pain"`}, {Unclear, "", "symptoms: the answer is not clear; ask"}, {Unclear, "?", `symptoms: "?" is not a clear answer; ask`}} {
		e := &Entry{}
		e.Set(Symptoms, Q(c.answer, NoUnit), "F3")
		e.Annotate("F3", c.text, false)
		if all := e.TalkFirst(); len(all) != 1 || all[0].Why.String() != c.want {
			t.Errorf("%v %q: %v, want %q", c.answer, c.text, all, c.want)
		}
	}
	e := &Entry{}
	e.Set(HeartRateDrug, Q(No, NoUnit), "G3")
	e.Notes = []DangerNote{{Cell: "H3", Text: "bisoprolol until 2024", Kind: HeartRateDrug, Past: true}}
	if got := reasonsOf(e); got != "heart-rate-drug 0" {
		t.Errorf("a medicine of the past: %q", got)
	}
}
