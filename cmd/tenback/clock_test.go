package main

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/mail/mailtest"
	"tenback/cmd/internal/version"
)

// farOff are times of clocks with an empty battery or set wrong.
var farOff = []time.Time{time.Unix(0, 0), time.Date(2099, 12, 31, 23, 59, 59, 0, time.UTC)}

// setTimes sets the time of all files in a folder.
func setTimes(t *testing.T, folder string, at time.Time) {
	t.Helper()
	if err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		return os.Chtimes(path, at, at)
	}); err != nil {
		t.Fatal(err)
	}
}

// Files are known by their content: after any change of the clock no page is
// rewritten, and temporary files are removed.
func TestFileTimesFarOff(t *testing.T) {
	for _, at := range farOff {
		path := weekOf(t, 5, -1, 0)
		out := filepath.Dir(path)
		folder := filepath.Join(out, "week-reports")
		runQuiet(t, path, out)
		for _, dir := range []string{out, folder} {
			if err := os.WriteFile(filepath.Join(dir, ".tenback-1.tmp"), []byte("%PDF-"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		setTimes(t, out, at)
		before := filesOf(t, folder)
		runQuiet(t, path, out)
		after := filesOf(t, folder)
		if len(after) != 7 { // with the secret and the settings
			t.Errorf("%v: %d files", at, len(after))
		}
		for name, info := range after {
			if !os.SameFile(info, before[name]) {
				t.Errorf("%v: %s was written anew", at, name)
			}
		}
		if left, err := filepath.Glob(filepath.Join(out, ".tenback-*.tmp")); len(left) > 0 || err != nil {
			t.Errorf("%v: %v is left, %v", at, left, err)
		}
	}
}

// A desk notices a changed file even if it is older than the last.
func TestDeskWithTheClockSetBack(t *testing.T) {
	path := weekOf(t, 3, 1, 140)
	setTimes(t, path, farOff[1])
	out, closeDesk := openDesk(t, path)
	out.await(t, "Scored 3 of 3 people")
	changed, err := os.ReadFile(weekOf(t, 3, 1, 151))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, changed, 0o600); err != nil {
		t.Fatal(err)
	}
	setTimes(t, path, farOff[0])
	out.await(t, "Scored: Person 0001")
	if status := closeDesk(); status != 0 {
		t.Errorf("status %d:\n%s", status, out)
	}
}

// The order of lines in the ledger counts, not their times: no message is sent
// twice or left out.
func TestLedgerTimesFarOff(t *testing.T) {
	for _, at := range farOff {
		s := mailtest.Start(t, mailtest.Plain)
		b := postRoster(t, 3)
		dropFirst(s)
		if _, status := said(t, post(b, s, "--yes"), ""); status != statusLeftOut {
			t.Fatalf("status %d", status)
		}
		lines, err := os.ReadFile(b.Ledger())
		if err != nil {
			t.Fatal(err)
		}
		lines = regexp.MustCompile(`"time":"[^"]*"`).ReplaceAll(lines, fmt.Appendf(nil, `"time":%q`, at.Format(time.RFC3339)))
		if err := os.WriteFile(b.Ledger(), lines, 0o600); err != nil {
			t.Fatal(err)
		}
		setTimes(t, b.Dir, at)
		text, _ := said(t, post(b, s, "--yes", "--in-doubt", "leave"), "")
		wantText(t, text, "begun .* "+at.Local().Format("2006"), "2 messages already sent")
		s.Change(func() { s.Kept = nil })
		said(t, post(b, s, "--yes", "--in-doubt", "unsent"), "")
		said(t, post(b, s, "--yes"), "")
		if got := fmt.Sprint(received(s)); got != "map[p0@river.example:2 p1@river.example:1 p2@river.example:1]" {
			t.Errorf("%v: received %s", at, got)
		}
		finish(t, command("forget", b.File(".csv"), "--id", "1", "--yes"))
	}
}

// madeOn changes the day of the version during the test.
func madeOn(t *testing.T, day time.Time) {
	made := version.Made
	t.Cleanup(func() { version.Made = made })
	version.Made = day
}

// rosterOf writes a roster of an adult and a child with these columns.
func rosterOf(t *testing.T, header, adult, child string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "week.csv")
	text := "Name,Sex,20 m shuttle level,Email,Guardian email," + header + "\n" +
		"Ida Calloway,F,6.4,ida@quillhaven.example,mother@quillhaven.example," + adult + "\n" +
		"Tarn Fell,M,5.4,tarn@quillhaven.example,ma@quillhaven.example," + child + "\n"
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// With a clock before the day of the version all is read, scored and printed as
// usual, with a note; nothing is delivered.
func TestClockBeforeTheProgram(t *testing.T) {
	path := rosterOf(t, "Date of birth,Test date", "1981-03-04,2026-05-11", "2012-10-02,2026-05-11")
	out := filepath.Dir(path)
	runQuiet(t, path, out)
	before := filesOf(t, filepath.Join(out, "week-reports"))
	scored, err := os.ReadFile(filepath.Join(out, "week-scored.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	madeOn(t, time.Now().AddDate(30, 0, 0))
	const note = "this computer's date, .*, is wrong: it is before tenback .* was made"
	for _, args := range [][]string{{"run", path}, {"check", path}, {"explain", path, "--row", "2"}, {"group", path}, {"plan", path}} {
		var errs strings.Builder
		if status := run(context.Background(), append([]string{"tenback"}, args...), io.Discard, &errs); status != 0 {
			t.Errorf("%s: status %d", args[0], status)
		}
		wantText(t, errs.String(), "note: "+note)
	}
	for name, info := range filesOf(t, filepath.Join(out, "week-reports")) {
		if !os.SameFile(info, before[name]) {
			t.Errorf("%s was written anew", name)
		}
	}
	if again, err := os.ReadFile(filepath.Join(out, "week-scored.xlsx")); err != nil || string(again) != string(scored) {
		t.Errorf("the columns have changed, %v", err)
	}
	var errs strings.Builder
	if status := run(context.Background(), []string{"tenback", "deliver", filepath.Join(out, "week-scored.xlsx")}, io.Discard, &errs); status != statusFailed {
		t.Errorf("deliver: status %d", status)
	}
	wantText(t, errs.String(), "no pages are delivered, because "+note)
	if _, err := os.Stat(filepath.Join(out, "week-outbox")); err == nil {
		t.Error("there is an outbox")
	}
	desk, closeDesk := openDesk(t, path)
	desk.await(t, "Scored 2 of 2 people")
	closeDesk()
	wantText(t, desk.String(), "This computer's date, .*, is wrong")
}

// Without a test day the clock is compared with the day of the version.
func TestDeliverWithoutADayOfTests(t *testing.T) {
	path := rosterOf(t, "Date of birth,Age", "1981-03-04,45", "2012-10-02,13")
	out := filepath.Dir(path)
	runQuiet(t, path, out)
	deliver := func(args ...string) (errs string, status int) {
		var b strings.Builder
		status = run(context.Background(), append([]string{"tenback", "deliver", filepath.Join(out, "week-scored.xlsx")}, args...), io.Discard, &b)
		return b.String(), status
	}
	madeOn(t, time.Now().AddDate(-mail.YearsToDeliver, 0, -1))
	errs, status := deliver()
	if status != statusFailed {
		t.Errorf("status %d", status)
	}
	wantText(t, errs, "the sheet has no test day to compare it with", "--test-date")
	if _, status := deliver("--test-date", time.Now().Format(time.DateOnly)); status != 0 {
		t.Errorf("with --test-date: status %d", status)
	}
	madeOn(t, time.Now().AddDate(-mail.YearsToDeliver, 0, 1))
	if _, status := deliver(); status != 0 {
		t.Errorf("within %d years: status %d", mail.YearsToDeliver, status)
	}
}

// A test in the future does not make an adult a child.
func TestDeliverBeforeTheTest(t *testing.T) {
	madeOn(t, time.Now().AddDate(0, -1, 0))
	path := rosterOf(t, "Date of birth,Age,Test date", "1981-03-04,45,", "2012-10-02,13,2098-05-11")
	out := filepath.Dir(path)
	runQuiet(t, path, out)
	var text strings.Builder
	if status := run(context.Background(), []string{"tenback", "deliver", filepath.Join(out, "week-scored.xlsx")}, &text, io.Discard); status != statusLeftOut {
		t.Errorf("status %d", status)
	}
	wantText(t, text.String(), `1 message`, `"Tarn Fell"\n +a date of this person is in the future`)
}
