package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// Four programs, each with its part, make together what one makes alone.
func TestShardsEqualOneRun(t *testing.T) {
	alone := t.TempDir()
	roster := demoIn(t, alone)
	finish(t, command("run", roster, "--paper", "a4"))
	finish(t, command("group", roster, "--paper", "a4"))

	dir := t.TempDir()
	roster = demoIn(t, dir)
	var all sync.WaitGroup
	for _, part := range []string{"1/4", "2/4", "3/4", "4/4"} {
		all.Go(func() { finish(t, command("run", roster, "--paper", "a4", "--shard", part)) })
	}
	all.Wait()
	finish(t, command("gather", roster, "--paper", "a4"))

	for _, name := range []string{"quillhaven-scored.xlsx", "quillhaven-group.pdf", "quillhaven-group.xlsx"} {
		got, want := filepath.Join(dir, name), filepath.Join(alone, name)
		if filepath.Ext(name) == ".pdf" {
			if sum(t, got) != sum(t, want) {
				t.Errorf("%s is not that of a single run", name)
			}
			continue
		}
		sameCells(t, got, want)
	}
	// Every page is there once, in the folder of one part.
	pages := map[string]int{}
	folders, err := filepath.Glob(filepath.Join(dir, "quillhaven-reports-*-of-4"))
	if err != nil || len(folders) != 4 {
		t.Fatalf("folders %v, %v", folders, err)
	}
	for _, folder := range folders {
		files, err := filepath.Glob(filepath.Join(folder, "*.pdf"))
		if err != nil || len(files) == 0 {
			t.Errorf("%s has %d pages, %v", folder, len(files), err)
		}
		for _, f := range files {
			pages[filepath.Base(f)]++
		}
	}
	wanted := pagesOf(t, filepath.Join(alone, "quillhaven-reports"))
	if len(pages) != len(wanted) {
		t.Errorf("%d pages instead of %d", len(pages), len(wanted))
	}
	for _, line := range wanted {
		name := line[:strings.LastIndexByte(line, ' ')]
		if pages[name] != 1 {
			t.Errorf("%s is there %d times", name, pages[name])
		}
	}

	// What does not belong together is not put together.
	refuse := func(want string, args ...string) {
		t.Helper()
		out, err := command(append([]string{"gather", roster, "--paper", "a4"}, args...)...).CombinedOutput()
		if err == nil || !bytes.Contains(out, []byte(want)) {
			t.Errorf("%v: %v: %s", args, err, out)
		}
	}
	refuse("the options or the version are others", "--fallback", "--lang", "de")
	third := filepath.Join(dir, "quillhaven-scored-3-of-4.xlsx")
	if err := os.Rename(third, filepath.Join(dir, "quillhaven-scored-3-of-5.xlsx")); err != nil {
		t.Fatal(err)
	}
	refuse("holds parts of 4 and parts of 5")
	if err := os.Remove(filepath.Join(dir, "quillhaven-scored-3-of-5.xlsx")); err != nil {
		t.Fatal(err)
	}
	refuse("part 3 of 4 is missing")
	refuse("no part such as quillhaven-scored-1-of-4.xlsx", "--out", t.TempDir())
}
