package testday

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
)

// raceSheets are those of a race.
func raceSheets(t *testing.T, people []Listed) *recording {
	t.Helper()
	words, err := templates.Load("en", "")
	if err != nil {
		t.Fatal(err)
	}
	race, _ := fieldtests.ByID("race")
	return &recording{papers: newPapers(kit.A4, words, ""), Recording: Recording{Test: race, People: people}, day: race.Day}
}

// TestEveryTestHasSheets: all tests but the laboratory's and the one without
// any exercise can be printed.
func TestEveryTestHasSheets(t *testing.T) {
	for _, test := range fieldtests.All() {
		if want := !test.Fallback && !test.Measured; Recordable(test) != want {
			t.Errorf("%s: recordable %v, want %v", test.ID, !want, want)
		}
	}
}

// TestDayTestsAgreeWithProtocols: lengths and cadences are those of the test's own
// protocol.
func TestDayTestsAgreeWithProtocols(t *testing.T) {
	counts := map[scoring.PulseCount]string{scoring.Count10: `ten[- ]second|ten seconds`, scoring.Count15: `second 5 to second 20.*multiply by 4`, scoring.Count30: `30 seconds.*twice the count`}
	for _, test := range fieldtests.All() {
		if !Recordable(test) {
			continue
		}
		d := test.Day
		protocol := strings.Join(test.Protocol, " ")
		holds := func(what, pattern string) {
			if !regexp.MustCompile(pattern).MatchString(protocol) {
				t.Errorf("%s: the protocol does not have %s (%s)", test.ID, what, pattern)
			}
		}
		if d.Course > 0 {
			holds("the length", fmt.Sprintf(`\b%.0f m\b`, d.Course))
			if laps := int(d.Course / lapLength); laps != d.Laps {
				t.Errorf("%s: %d laps to cross out, the course has %d", test.ID, d.Laps, laps)
			}
		}
		if pattern, ok := counts[d.Count]; ok {
			holds("the pulse count", pattern)
		}
		if len(d.Cadence) < 3 { // those of a set cadence
			for _, cycles := range d.Cadence {
				holds("the cadence", fmt.Sprintf(`\b%d\b`, cycles))
				holds("the metronome", fmt.Sprintf(`\b%d\b`, cycles*beatsInCycle))
			}
		}
	}
}

// TestNeeds: what a test takes, by the declared rule of thumb.
func TestNeeds(t *testing.T) {
	shuttle := &scoring.Day{AtOnce: 12, Minutes: 20, PerHelper: 4, PerStation: 1}
	bench := &scoring.Day{AtOnce: 12, Minutes: 12, PerHelper: 3, PerStation: 3}
	track := &scoring.Day{AtOnce: 15, Minutes: 35, PerHelper: 5}
	for _, tt := range []struct {
		name   string
		d      *scoring.Day
		people int
		want   need
	}{
		{"one person", shuttle, 1, need{1, 1, 35, 1, 1}},
		{"a full wave", shuttle, 12, need{12, 1, 35, 3, 12}},
		{"one more", shuttle, 13, need{12, 2, 55, 3, 12}},
		{"benches shared", bench, 31, need{12, 3, 51, 4, 4}},
		{"few at benches", bench, 4, need{4, 1, 27, 2, 2}},
		{"one track", track, 400, need{15, 27, 960, 3, 1}},
	} {
		if got := needFor(tt.d, tt.people); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

func TestSections(t *testing.T) {
	person := func(sheet, group string) Listed { return Listed{Name: "x", Sheet: sheet, Group: group} }
	big := make([]Listed, groupOnOwnPage)
	for i := range big {
		big[i] = person("S", "big")
	}
	for _, tt := range []struct {
		name   string
		people []Listed
		want   []section // people left out
	}{
		{"one list", []Listed{person("S", ""), person("S", "")}, []section{{newPage: true}}},
		{"small groups follow on", []Listed{person("S", "a"), person("S", "b")}, []section{{heading: "a", newPage: true}, {heading: "b"}}},
		{"a large group begins a page", append([]Listed{person("S", "a")}, big...), []section{{heading: "a", newPage: true}, {heading: "big", newPage: true}}},
		{"groups that alternate", []Listed{person("S", "a"), person("S", "b"), person("S", "a")}, []section{{newPage: true, mixed: true}}},
		{"sheets", []Listed{person("S", "a"), person("T", "T")}, []section{{heading: "S · a", newPage: true}, {heading: "T", newPage: true}}},
	} {
		q := list{newColumns(raceSheets(t, tt.people))}
		got := q.sections()
		if len(got) != len(tt.want) {
			t.Errorf("%s: %d sections, want %d", tt.name, len(got), len(tt.want))
			continue
		}
		for i, s := range got {
			w := tt.want[i]
			if s.heading != w.heading || s.newPage != w.newPage || s.mixed != w.mixed {
				t.Errorf("%s: section %d is %q, new page %v, mixed %v", tt.name, i, s.heading, s.newPage, s.mixed)
			}
		}
	}
}

// TestNamesFitTheirLines: a name of any length fits between the rules.
func TestNamesFitTheirLines(t *testing.T) {
	q := list{newColumns(raceSheets(t, nil))}
	for n := 1; n <= 600; n += 7 {
		for _, group := range []string{"", "Group"} {
			for _, name := range []string{strings.Repeat("W", n), strings.Repeat("Ann ", n)} {
				if h := q.nameLines(q.clean(name), group).Height(); h > writeHeight-1 {
					t.Errorf("%d letters, group %q: %.1f high in a line of %.1f", len(name), group, h, writeHeight)
				}
			}
		}
	}
}
