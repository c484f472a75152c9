package desk

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jedib0t/go-pretty/v6/text"

	"tenback/cmd/internal/batch"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func clock(minute int) time.Time { return time.Date(2026, 5, 11, 14, minute, 5, 0, time.UTC) }

// fullDay is a desk in the afternoon.
func fullDay() *Board {
	var b Board
	b.Take(Reading{At: clock(0), People: 90, Visits: 90, Untested: 90})
	names := []string{"Ida Calloway", "Wren Otterburn", "Łukasz Żuraw", "王小明", "Someone Whose Name Is Longer Than Any Table Has Room For", "Bo\x1b[2J\u202eMarsh"}
	var results []Result
	for i := range 30 {
		name := names[i%len(names)]
		results = append(results, Result{Entered: fmt.Sprint(i), Name: name, Group: "8B", Test: "1-mile walk", Place: fmt.Sprintf("Class 8B row %d", i+2),
			Value: fmt.Sprintf("%.1f (%.1f to %.1f)", 30+float64(i), 25+float64(i), 35+float64(i)), Page: fmt.Sprintf("%d.pdf", i), Made: true})
		b.Take(Reading{At: clock(i + 1), People: 90, Visits: 90, Untested: 89 - i, Results: results})
	}
	last := Reading{At: clock(40), People: 90, Visits: 90, Untested: 55, Results: results}
	for i := range 5 {
		last.Cautions = append(last.Cautions, Caution{Place: fmt.Sprintf("Class 8B row %d", i+40), Name: "Tarn Fell",
			Why: "see a clinician before testing or hard exercise (symptoms); resting heart rate of 104, which is above 100"})
		last.ToMend = append(last.ToMend, Mend{Name: "Jo Wick", Cell: fmt.Sprintf("Class 8B!I%d", i+2), Read: "0:99",
			What: "there are no 99 seconds in a minute", Fix: "type minutes and seconds with a colon, such as 11:30"})
	}
	last.ToMend = append(last.ToMend, Mend{Name: "Corrin Dale", Cell: "Class 8B!J7", Read: "24",
		What: "a medicine that changes the heart rate makes a test by pulse read wrong", Fix: "use a test by time or distance alone, if a clinician agrees", OtherTest: true})
	last.Another = 1
	b.Take(last)
	return &b
}

// quietDay is a desk that has just opened.
func quietDay() *Board {
	var b Board
	b.Take(Reading{At: clock(0), People: 3, Visits: 3, Untested: 3})
	return &b
}

// week returns the configuration of a desk that writes to w.
func week(w io.Writer) Config {
	return Config{Roster: "week.xlsx", Scored: "week-scored.xlsx", Pages: &batch.Folder{Path: "week-reports"}, Screen: w}
}

func screenView(b *Board) *view {
	v := newView(week(&bytes.Buffer{}))
	v.now = func() time.Time { return clock(41) }
	v.size = func() (width, height int) { return 80, 24 }
	v.board = b
	return v
}

// The screen at the sizes of small and large terminals. Update the golden files
// with -update and look at them.
func TestDeskScreen(t *testing.T) {
	trouble := screenView(fullDay())
	trouble.stand(ofRoster, "The roster is not there: it was deleted or renamed, or its drive is not connected. Waiting for it")
	trouble.stand(ofColumns, "week-scored.xlsx is open in another program (see ~$week-scored.xlsx), so the columns wait until it is closed. Pages are still made")
	trouble.say("Printed: Ida Calloway.pdf")
	early := screenView(nil)
	early.stand(ofRoster, "The roster cannot be read: no row below the header has a name or an ID. Waiting until it is saved again")
	for name, v := range map[string]*view{"full": screenView(fullDay()), "quiet": screenView(quietDay()), "trouble": trouble, "early": early} {
		for _, size := range [][2]int{{80, 24}, {120, 40}, {30, 8}, {1, 1}} {
			got := v.screen(size[0], size[1])
			lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
			if len(lines) > size[1] {
				t.Errorf("%s: %d lines in %d", name, len(lines), size[1])
			}
			for _, line := range lines {
				if text.StringWidth(line) > size[0] || strings.ContainsAny(line, "\x1b\u202e") {
					t.Errorf("%s: %q in %d columns", name, line, size[0])
				}
			}
			if size[0] < 80 {
				continue
			}
			golden := filepath.Join("testdata", fmt.Sprintf("%s-%d.golden", name, size[0]))
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil || got != string(want) {
				t.Errorf("%s: the screen is\n%s\nwant\n%s, %v", golden, got, want, err)
			}
		}
	}
}

// Without a terminal there is one line per event.
func TestDeskLines(t *testing.T) {
	var out bytes.Buffer
	v := newView(week(&out))
	v.now = func() time.Time { return clock(41) }
	b := fullDay()
	v.open()
	v.reading(b, News{Scored: b.Results, Cautions: b.Cautions, ToMend: b.ToMend[4:], Mended: []Mend{b.ToMend[1], b.ToMend[5]}})
	v.stand(ofRoster, "The roster is not there")
	v.stand(ofRoster, "The roster is not there")
	v.stand(ofRoster, "")
	v.sayOnce("Note: x")
	v.sayOnce("Note: x")
	v.close(b)
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	for _, line := range lines {
		if !strings.HasPrefix(line, "14:41:05  ") || strings.Contains(line, "\x1b") {
			t.Errorf("line %q", line)
		}
	}
	var got []string
	for _, line := range lines {
		head, _, _ := strings.Cut(line[len("14:41:05  "):], ":")
		got = append(got, head)
	}
	want := slices.Concat([]string{"Watching week.xlsx. Pages are in week-reports, columns in week-scored.xlsx. Ctrl-C closes the desk"}, slices.Repeat([]string{"Talk to these first"}, 5), slices.Repeat([]string{"Scored"}, 21))
	want = append(want, "Mended", "To mend", batch.OtherTest, "Scored 30 of 90 people, 55 not tested yet, 1 for whom another kind of test is needed, 5 cells to mend", "The roster is not there", "The roster can be read again", "Note",
		"Closed. Scored 30 of 90 people, 55 not tested yet, 1 for whom another kind of test is needed, 5 cells to mend")
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("lines are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Someone tested on two days is one person and two visits.
func TestStandOfVisits(t *testing.T) {
	var b Board
	b.Take(Reading{At: clock(0), People: 2, Visits: 3, Untested: 3})
	if got, want := standOf(&b), "Scored 0 of 3 visits of 2 people, 3 not tested yet, nothing to mend"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
