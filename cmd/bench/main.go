// Bench prints how fast tenback is beside what could be put together instead:
// bare programs on the same libraries, and a Python script where Python has
// openpyxl and reportlab. It is for contributors, in a checkout:
//
//	go run ./cmd/bench
//
// All are timed as whole processes, in turn, so that whatever else the machine
// does meets all of them; the ratios are what counts. With -quick the large
// rosters are left out.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"tenback/workbook/safefile"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := run(ctx, os.Args[1:])
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

// run is the program, or one of the bare ones, which it starts itself.
func run(ctx context.Context, args []string) error {
	if len(args) > 0 {
		switch args[0] {
		case "bare-pages": // ROSTER DRAWING FONTS OUT
			if len(args) != 5 {
				return errors.New("bare-pages takes a roster, a drawing, a folder of fonts and a folder")
			}
			return barePages(args[1], args[2], args[3], args[4])
		case "roster": // FOLDER N NAMES FILE
			if len(args) != 5 {
				return errors.New("roster takes a folder, a number of people, the kind of names and a file")
			}
			return makeRoster(ctx, args[1], args[2], args[3], args[4])
		case "bare-rows": // ROSTER OUT
			if len(args) != 3 {
				return errors.New("bare-rows takes a roster and a file")
			}
			_, err := bareColumns(args[1], args[2])
			return err
		}
	}
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	times := flags.Int("times", 5, "runs of each program; the median counts")
	quick := flags.Bool("quick", false, "leave the large rosters out")
	dir := flags.String("dir", "", "keep the rosters in this `folder` for the next time")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *times < 1 || flags.NArg() > 0 {
		return errors.New("see -help")
	}
	b, err := newBench(ctx, *dir, *times)
	if err != nil {
		return err
	}
	defer b.close()
	return b.table(os.Stdout, *quick)
}

// bench is what all measurements need.
type bench struct {
	ctx     context.Context
	times   int
	root    string // of the checkout
	dir     string // for rosters
	tidy    bool   // removes dir
	tenback string // the program
	self    string // this program
}

func newBench(ctx context.Context, dir string, times int) (*bench, error) {
	b := &bench{ctx: ctx, times: times, dir: dir}
	module, err := exec.CommandContext(ctx, "go", "list", "-m", "-f", "{{.Dir}}", "tenback").Output()
	if err != nil {
		return nil, fmt.Errorf("run it in a checkout of tenback, with go on the path: %w", err)
	}
	b.root = strings.TrimSpace(string(module))
	if b.self, err = os.Executable(); err != nil {
		return nil, err
	}
	if b.dir == "" {
		b.tidy = true
		b.dir, err = os.MkdirTemp("", "tenback-bench-*")
	} else {
		err = os.MkdirAll(b.dir, 0o700)
	}
	if err != nil {
		return nil, err
	}
	b.tenback = filepath.Join(b.dir, "tenback-measured")
	build := exec.CommandContext(ctx, "go", "build", "-trimpath", "-o", b.tenback, "./cmd/tenback")
	build.Dir, build.Stderr = b.root, os.Stderr
	if err := build.Run(); err != nil {
		b.close()
		return nil, err
	}
	return b, nil
}

func (b *bench) close() {
	if b.tidy {
		_ = os.RemoveAll(b.dir)
	}
}

// roster is the path of a roster of n people, made if it is not there. That is
// done by a process of its own, for the system counts the most memory of this one
// as that of the programs it starts.
func (b *bench) roster(n int, who names) (string, error) {
	path := filepath.Join(b.dir, fmt.Sprintf("people-%d-%d.xlsx", n, who))
	if _, err := os.Stat(path); err == nil {
		return path, nil
	}
	fmt.Fprintf(os.Stderr, "making a roster of %d people\n", n)
	make := exec.CommandContext(b.ctx, b.self, "roster", b.dir, fmt.Sprint(n), fmt.Sprint(int(who)), path)
	make.Stderr = os.Stderr
	return path, make.Run()
}

// makeRoster is the process that makes a roster.
func makeRoster(ctx context.Context, dir, number, who, path string) error {
	n, err := strconv.Atoi(number)
	kind, err2 := strconv.Atoi(who)
	if err := errors.Join(err, err2); err != nil {
		return err
	}
	source, err := readSource(ctx, dir)
	if err != nil {
		return err
	}
	return safefile.Write(path, source.writer(n, names(kind)))
}

// python is the interpreter that has what the script needs; empty if there is
// none.
func (b *bench) python() string {
	for _, name := range []string{"python3", "/usr/bin/python3", "python"} {
		if exec.CommandContext(b.ctx, name, "-c", "import openpyxl, reportlab").Run() == nil {
			return name
		}
	}
	return ""
}

// wideFonts are fonts for the script, regular and bold; nil if none was found.
func wideFonts() []string {
	for _, stem := range []string{"/usr/share/fonts/truetype/dejavu/DejaVuSans", "/Library/Fonts/DejaVuSans", `C:\Windows\Fonts\DejaVuSans`} {
		fonts := []string{stem + ".ttf", stem + "-Bold.ttf"}
		_, err := os.Stat(fonts[0])
		_, errBold := os.Stat(fonts[1])
		if err == nil && errBold == nil {
			return fonts
		}
	}
	return nil
}

// seconds writes a time with three digits.
func seconds(d time.Duration) string {
	switch s := d.Seconds(); {
	case s < 1:
		return fmt.Sprintf("%.0f ms", s*1000)
	case s < 10:
		return fmt.Sprintf("%.2f s", s)
	default:
		return fmt.Sprintf("%.1f s", s)
	}
}
