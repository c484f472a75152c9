package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"tenback/cmd/internal/batch"
	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/workbook"
)

// weekOf writes a roster of people who walked a mile; person number one has the
// pulse given.
func weekOf(t *testing.T, people, one, pulse int) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("Name,Sex,Age,Weight (kg),1 mile walk,1 mile walk pulse\n")
	for i := range people {
		p := 120 + i%30
		if i == one {
			p = pulse
		}
		fmt.Fprintf(&b, "Person %04d,F,%d,%d,14:12,%d\n", i, 30+i%30, 60+i%20, p)
	}
	path := filepath.Join(t.TempDir(), "week.csv")
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func runQuiet(t *testing.T, path, out string) {
	t.Helper()
	var errs strings.Builder
	if status := run(context.Background(), []string{"tenback", "run", path, "--out", out, "--quiet"}, io.Discard, &errs); status != 0 {
		t.Fatalf("status %d: %s", status, &errs)
	}
}

func filesOf(t *testing.T, folder string) map[string]fs.FileInfo {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]fs.FileInfo{}
	for _, e := range entries {
		if all[e.Name()], err = e.Info(); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// A rewritten page is another file.
func TestOneChangedRowOfAThousand(t *testing.T) {
	out := t.TempDir()
	folder := filepath.Join(out, "week-reports")
	runQuiet(t, weekOf(t, 1000, 437, 140), out)
	before := filesOf(t, folder)
	runQuiet(t, weekOf(t, 1000, 437, 151), out)
	after := filesOf(t, folder)
	if len(after) != len(before) || len(after) < 1000 {
		t.Fatalf("%d files, then %d", len(before), len(after))
	}
	var anew []string
	for name, info := range after {
		if !os.SameFile(info, before[name]) {
			anew = append(anew, name)
		}
	}
	slices.Sort(anew)
	if want := []string{"Person 0437.pdf"}; !slices.Equal(anew, want) {
		t.Errorf("written anew: %q, want %q", anew, want)
	}
}

// The next run does not rewrite the pages of a stopped run.
func TestStoppedRunGoesOn(t *testing.T) {
	const people = 4 * 32 // more than wait for the disk when it stops
	path := weekOf(t, people, -1, 0)
	roster, err := workbook.Open(path, workbook.ReadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	p := runPlan{roster: path, out: filepath.Dir(path), reports: true, paper: kit.A4}
	maker, err := newPageMaker(roster, p.words, p.paper)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var steps atomic.Int32
	first, err := p.pageFolder().Write(ctx, batch.Score(roster, scoring.Options{}), &p.score, maker.person, func() {
		if steps.Add(1) == 5 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || len(first.Made) < 5 || len(first.Made) == people {
		t.Fatalf("error %v after %d pages", err, len(first.Made))
	}
	second, err := p.pageFolder().Write(context.Background(), batch.Score(roster, scoring.Options{}), &p.score, maker.person, func() {})
	if err != nil || second.Kept != len(first.Made) || len(second.Made) != people-second.Kept {
		t.Errorf("error %v; %d were made, then %d kept and %d made", err, len(first.Made), second.Kept, len(second.Made))
	}
}
