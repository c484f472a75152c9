package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A file that the program reads back may have become a silent pipe or huge. The
// error names the file and what to do; it is not read.
func TestReplacedFiles(t *testing.T) {
	t.Parallel()
	b := postRoster(t, 2)
	roster, scored := b.File(".csv"), b.File("-scored.xlsx")
	deliver := []string{"deliver", scored, "--lock"}
	finish(t, command(deliver...))
	send := append(deliver[:2:2], "--smtp", "127.0.0.1:1", "--from", "pe@quillhaven.example", "--yes")
	run := []string{"run", roster}
	forget := []string{"forget", roster, "--id", "1"}
	words := filepath.Join(b.Dir, "own.tmpl")
	table := filepath.Join(b.Dir, "club.csv")
	for _, c := range []struct {
		file     string
		commands [][]string
		want     []string // of the pipe, of the huge file, of both
	}{
		{file: b.Passwords(), commands: [][]string{deliver, forget}, want: []string{"it is not a plain file", "it is too large", "bring back a sound copy"}},
		{file: b.Ledger(), commands: [][]string{send, forget}, want: []string{"it is not a plain file", "it is too large", "bring back a sound copy"}},
		{file: filepath.Join(b.Outbox(), ".tenback-outbox.json"), commands: [][]string{deliver, forget}, want: []string{"it is not a plain file", "it is too large", "delete it"}},
		{file: b.NotDelivered(), commands: [][]string{forget}, want: []string{"it is not a plain file", "it is too large", "delete it"}},
		{file: filepath.Join(b.Pages(), ".tenback-secret"), commands: [][]string{run, deliver, forget}, want: []string{"is damaged", "", "delete it"}},
		{file: filepath.Join(b.Pages(), "Person 1.pdf"), commands: [][]string{deliver}, want: []string{"", "", "made for somebody else"}},
		{file: roster, commands: [][]string{run, forget, {"check", roster}, {"plan", roster}, {"run", scored, "--earlier", roster}},
			want: []string{"not a regular file", "larger than the", ""}},
		{file: roster, commands: [][]string{{"doctor", roster}}, want: []string{"not a regular file", "larger than the", "the roster: "}},
		{file: table, commands: [][]string{{"check", roster, "--adult-table", table}}, want: []string{"it is not a plain file", "larger than 1 MB", ""}},
		{file: words, commands: [][]string{{"run", roster, "--words", b.Dir}}, want: []string{"it is not a plain file", "larger than", ""}},
	} {
		for i, replace := range []func(string) error{
			func(path string) error { return syscall.Mkfifo(path, 0o600) },
			func(path string) error {
				if err := os.WriteFile(path, nil, 0o600); err != nil {
					return err
				}
				return os.Truncate(path, 2<<30) // takes no room on the disk
			},
		} {
			aside := filepath.Join(t.TempDir(), "aside")
			was := os.Rename(c.file, aside)
			for _, args := range c.commands {
				if err := replace(c.file); err != nil {
					t.Fatal(err)
				}
				cmd := command(args...)
				out, err := cmd.CombinedOutput()
				name := strings.TrimSuffix(filepath.Base(c.file), ".pdf")
				if args[0] == "doctor" { // which names nobody, and no file
					name = ""
				}
				if text := string(out); (err == nil) != (c.want[2] == "made anew") {
					t.Errorf("%v: %v: %s", args, err, out)
				} else {
					wantText(t, text, name, c.want[i], c.want[2])
				}
				// Linux counts in KiB.
				if most := cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss; most > 1<<20 {
					t.Errorf("%v: %d MiB of memory", args, most>>10)
				}
				if err := os.Remove(c.file); err != nil {
					t.Fatal(err)
				}
			}
			if was == nil {
				if err := os.Rename(aside, c.file); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
