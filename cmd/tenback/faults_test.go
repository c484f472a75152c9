package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/mail"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/cmd/internal/single"
	"tenback/testdata/demo"
	"tenback/workbook/safefile"
)

// These tests do to the program what happens to programs: they kill it, take
// the room on the disk or the right to write away, and change files under it.

// kills is how often each command is killed.
const kills = 50

// notShort leaves a test out of a short run, such as that of the race detector:
// processes that are killed tell it nothing, and take long.
func notShort(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("starts and kills some hundred processes; left out of short runs")
	}
}

// demoIn writes the demo's roster into a folder.
func demoIn(t *testing.T, dir string) (roster string) {
	t.Helper()
	roster = filepath.Join(dir, demoRoster)
	if err := safefile.WriteBytes(roster, demo.Roster); err != nil {
		t.Fatal(err)
	}
	return roster
}

// command is the program as a process of its own, as the scripts run it.
func command(args ...string) *exec.Cmd { return exec.Command("tenback", args...) }

// finish lets the program end and fails where it did not do its work.
func finish(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !(errors.As(err, &exit) && exit.ExitCode() == statusLeftOut) {
		t.Fatalf("%v: %v\n%s", cmd.Args, err, out)
	}
}

// killed starts the program and kills it after a while. done reports whether it
// had ended before.
func killed(t *testing.T, cmd *exec.Cmd, after time.Duration) (done bool) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() {
		_ = cmd.Wait() // how it ended shows in its files
		close(ended)
	}()
	select {
	case <-ended:
		return true
	case <-time.After(after):
	}
	_ = cmd.Process.Kill() // it may end at this very moment
	<-ended
	return false
}

// Killed at any moment, a run leaves the roster as it was and no half file
// under a name that looks whole; the next run ends as if nothing had been.
func TestKilledRun(t *testing.T) {
	notShort(t)
	t.Parallel()
	for name, inPlace := range map[string]bool{"copy": false, "in place": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			args := []string{"run", "--paper", "a4"}
			if inPlace {
				args = append(args, "--in-place")
			}
			undisturbed := t.TempDir()
			began := time.Now()
			finish(t, command(append(args, demoIn(t, undisturbed))...))
			whole := time.Since(began)

			dir := t.TempDir()
			roster := demoIn(t, dir)
			wanted := map[string]bool{sum(t, roster): true, sum(t, filepath.Join(undisturbed, demoRoster)): true}
			random := rand.New(rand.NewPCG(1, 2))
			stopped, seen := 0, map[string]time.Time{}
			for i := range kills {
				if i%10 == 9 { // from the beginning now and then, not only from where the last one came to
					if err := os.RemoveAll(filepath.Join(dir, "quillhaven-reports")); err != nil {
						t.Fatal(err)
					}
				}
				if !killed(t, command(append(args, roster)...), time.Duration(random.Int64N(int64(whole)))) {
					stopped++
				}
				if s := sum(t, roster); !wanted[s] {
					if !inPlace {
						t.Fatalf("kill %d: the roster is neither the old nor the new one", i)
					}
					sameCells(t, roster, filepath.Join(undisturbed, demoRoster)) // written once more, with the columns it had
				}
				noHalfFiles(t, dir, seen)
			}
			if stopped < kills/4 {
				t.Errorf("only %d of %d runs were killed", stopped, kills)
			}
			finish(t, command(append(args, roster)...))
			scored := "quillhaven-scored.xlsx"
			if inPlace {
				scored = demoRoster
			}
			sameCells(t, filepath.Join(dir, scored), filepath.Join(undisturbed, scored))
			samePages(t, filepath.Join(dir, "quillhaven-reports"), filepath.Join(undisturbed, "quillhaven-reports"))
			left, err := filepath.Glob(filepath.Join(dir, "quillhaven-reports", ".tenback-*.tmp"))
			if err != nil || len(left) > 0 {
				t.Errorf("half files are left: %v, %v", left, err)
			}
		})
	}
}

// A desk and a delivery that are killed at any moment leave the roster alone and
// nothing half done under a final name; what is done afterwards is done whole.
func TestKilledDeskAndDelivery(t *testing.T) {
	notShort(t)
	t.Parallel()
	undisturbed := t.TempDir()
	began := time.Now()
	finish(t, command("run", demoIn(t, undisturbed), "--paper", "a4"))
	whole := time.Since(began)
	dir := t.TempDir()
	roster := demoIn(t, dir)
	before := sum(t, roster)
	random := rand.New(rand.NewPCG(3, 4))
	seen := map[string]time.Time{}
	reports := filepath.Join(dir, "quillhaven-reports")
	for i := range kills {
		if i%10 == 9 {
			if err := os.RemoveAll(reports); err != nil {
				t.Fatal(err)
			}
		}
		if killed(t, command("watch", roster, "--paper", "a4"), time.Duration(random.Int64N(int64(whole)))) {
			t.Fatalf("kill %d: the desk had closed by itself", i)
		}
		if sum(t, roster) != before {
			t.Fatalf("kill %d: the desk wrote into the roster", i)
		}
		noHalfFiles(t, dir, seen)
	}
	finish(t, command("run", roster, "--paper", "a4"))
	scored := filepath.Join(dir, "quillhaven-scored.xlsx")
	sameCells(t, scored, filepath.Join(undisturbed, "quillhaven-scored.xlsx"))
	samePages(t, reports, filepath.Join(undisturbed, "quillhaven-reports"))

	began = time.Now()
	finish(t, command("deliver", filepath.Join(undisturbed, "quillhaven-scored.xlsx")))
	whole = time.Since(began)
	for range kills {
		killed(t, command("deliver", scored), time.Duration(random.Int64N(int64(whole))))
		for _, path := range messagesIn(t, dir) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if m, err := mail.ReadMessage(bytes.NewReader(data)); err != nil || !bytes.HasSuffix(bytes.TrimSpace(data), []byte("--")) {
				t.Fatalf("%s is half a message: %v %v", path, m, err)
			}
		}
	}
	finish(t, command("deliver", scored))
	if got, want := len(messagesIn(t, dir)), len(messagesIn(t, undisturbed)); got != want || want == 0 {
		t.Errorf("%d messages, undisturbed %d", got, want)
	}
}

func messagesIn(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "*-outbox", "*.eml"))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func sum(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%x", sha256.Sum256(data))
}

// noHalfFiles holds that everything under a final name is whole. What it has
// seen is passed over; seen may be nil.
func noHalfFiles(t *testing.T, dir string, seen map[string]time.Time) {
	t.Helper()
	fresh := func(path string) bool {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if seen == nil {
			return true
		}
		known := seen[path].Equal(info.ModTime())
		seen[path] = info.ModTime()
		return !known
	}
	pages, err := filepath.Glob(filepath.Join(dir, "*-reports", "*.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range pages {
		if !fresh(path) {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")) {
			t.Fatalf("%s is half a page", path)
		}
	}
	books, err := filepath.Glob(filepath.Join(dir, "*.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range books {
		if !fresh(path) {
			continue
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		f.Close()
	}
}

// sameCells compares two workbooks cell by cell.
func sameCells(t *testing.T, got, want string) {
	t.Helper()
	g, w := cellsOf(t, got), cellsOf(t, want)
	if !slices.Equal(g, w) {
		t.Fatalf("%s has other cells than %s", got, want)
	}
}

func cellsOf(t *testing.T, path string) (all []string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range rows {
			all = append(all, fmt.Sprintf("%s %d %q", sheet, i, row))
		}
	}
	return all
}

// samePages compares two folders of pages by name and size: the number of each
// page's owner is secret to its folder, all else is the same.
func samePages(t *testing.T, got, want string) {
	t.Helper()
	if g, w := pagesOf(t, got), pagesOf(t, want); !slices.Equal(g, w) {
		t.Errorf("pages\n%s\ninstead of\n%s", strings.Join(g, "\n"), strings.Join(w, "\n"))
	}
}

func pagesOf(t *testing.T, dir string) (all []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".pdf" {
			info, err := e.Info()
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, fmt.Sprintf("%s %d", e.Name(), info.Size()))
		}
	}
	if len(all) < 40 {
		t.Fatalf("%s: %d pages", dir, len(all))
	}
	return all
}

// A second program on the same roster is turned away and writes nothing.
func TestTwoPrograms(t *testing.T) {
	dir := t.TempDir()
	roster := demoIn(t, dir)
	release, err := single.Take(dir, "quillhaven")
	if err != nil {
		t.Fatal(err)
	}
	out, err := command("run", roster).CombinedOutput()
	if err == nil || !bytes.Contains(out, []byte("another tenback is writing results of this roster")) {
		t.Errorf("%v: %s", err, out)
	}
	if written, _ := filepath.Glob(filepath.Join(dir, "quillhaven-*")); len(written) > 0 {
		t.Errorf("it wrote %v", written)
	}
	release()
	finish(t, command("run", roster))
}

// Nothing of the surroundings is needed: no home, no locale, no clock that
// goes right, and any folder name that the disk takes.
func TestPoorSurroundings(t *testing.T) {
	for name, folder := range map[string]string{
		"spaces, umlauts, emoji": "Fitness Woche Größe 🏃 [1]",
		"240 characters":         strings.Repeat("long-", 48),
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), folder)
			if err := os.Mkdir(dir, 0o700); err != nil {
				t.Fatal(err)
			}
			roster := demoIn(t, dir)
			program, err := exec.LookPath("tenback")
			if err != nil {
				t.Fatal(err)
			}
			cmd := exec.Command(program, "run", roster)
			cmd.Env = []string{"TMPDIR=" + t.TempDir()} // and nothing else
			finish(t, cmd)
			noHalfFiles(t, dir, nil)
			pagesOf(t, filepath.Join(dir, "quillhaven-reports"))
		})
	}
}
