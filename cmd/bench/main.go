// Bench prints how fast tenback is next to what could be put together instead:
// bare programs on the same libraries, and a Python script where /usr/bin/python3
// has openpyxl and reportlab. It is for contributors, at the root of a checkout:
//
//	go run ./cmd/bench
//
// All run as whole processes, in turn, so that other load meets all of them; the
// ratios are what counts.
package main

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := start(ctx, os.Args[1:])
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

// start runs the measurements, or one of the programs that they start.
func start(ctx context.Context, args []string) error {
	switch {
	case len(args) == 4 && args[0] == "roster": // KIND N FILE
		n, err := strconv.Atoi(args[2])
		if err != nil {
			return err
		}
		return writeRoster(args[3], args[1], n)
	case len(args) == 5 && args[0] == "bare-pages": // ROSTER REPORT FONTS OUT
		return barePages(args[1], args[2], args[3], args[4])
	case len(args) == 3 && args[0] == "bare-rows": // ROSTER OUT
		_, err := bareRows(args[1], args[2])
		return err
	}
	b := bench{ctx: ctx}
	flag.IntVar(&b.times, "times", 5, "runs of each program; the median counts")
	quick := flag.Bool("quick", false, "small rosters, to see that the measurements work")
	flag.Parse()
	if b.times < 1 || flag.NArg() > 0 {
		return errors.New("see -help")
	}
	b.pages, b.rows = 1000, 100_000
	if *quick {
		b.pages, b.rows = 10, 100
	}
	if err := b.prepare(); err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(b.dir) }()
	return b.table()
}

// bench holds what all measurements need.
type bench struct {
	ctx         context.Context
	times       int    // runs of each program
	pages, rows int    // sizes of rosters
	dir         string // rosters and programs
	tenback     string // the program measured
	self        string // this program
}

func (b *bench) prepare() (err error) {
	if b.self, err = os.Executable(); err != nil {
		return err
	}
	if b.dir, err = os.MkdirTemp("", "tenback-bench-*"); err != nil {
		return err
	}
	b.tenback = filepath.Join(b.dir, "tenback-measured")
	_, err = run(b.ctx, []string{"go", "build", "-trimpath", "-o", b.tenback, "./cmd/tenback"}, nil)
	return err
}

// table measures and prints each line of a table in Markdown.
func (b *bench) table() error {
	fmt.Printf("%s, %s/%s, %d processors, %s; medians of %d runs as whole processes, in turn\n\n| work | tenback | instead | tenback takes |\n| --- | --- | --- | --- |\n",
		time.Now().Format(time.DateOnly), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version(), b.times)
	for _, part := range []func() error{b.startUp, b.comparePages, b.compareRows} {
		if err := part(); err != nil {
			return err
		}
	}
	return nil
}

// line prints a line of the table; other is what tenback is compared with.
func line(work string, ours, other spent, name string) {
	fmt.Printf("| %s | %s | %s: %s | %.2f of the time, %.2f of the processor time |\n", work, ours, name, other,
		float64(ours.wall)/float64(other.wall), float64(ours.cpu)/float64(other.cpu))
}

func (s spent) String() string {
	return fmt.Sprintf("%.2f s, processor %.2f s, %.0f MB", s.wall.Seconds(), s.cpu.Seconds(), float64(s.memory)/1e6)
}

// roster makes a roster of n people, in a process of its own since its memory
// would count as that of the programs measured.
func (b *bench) roster(kind string, n int) (string, error) {
	path := filepath.Join(b.dir, fmt.Sprintf("people-%s-%d.xlsx", kind, n))
	_, err := run(b.ctx, []string{b.self, "roster", kind, strconv.Itoa(n), path}, nil)
	return path, err
}

// ours is the command line of tenback on a roster.
func (b *bench) ours(roster string, more ...string) []string {
	return append([]string{b.tenback, "run", roster, "--out", "OUT", "--quiet"}, more...)
}

func (b *bench) startUp() error {
	took, err := race(b.ctx, 4*b.times+1, []string{b.tenback, "--help"}, []string{b.tenback, "tests"})
	if err != nil {
		return err
	}
	fmt.Printf("| start: `--help`, `tests` | %d ms, %d ms | | |\n", took[0].wall.Milliseconds(), took[1].wall.Milliseconds())
	return nil
}

// comparePages compares the making of pages with the bare program and the script.
func (b *bench) comparePages() error {
	roster, err := b.roster("european", b.pages)
	if err != nil {
		return err
	}
	report := filepath.Join(b.dir, "report.pdf")
	size, err := b.medianPage(roster, report)
	if err != nil {
		return err
	}
	work := fmt.Sprintf("%d two-page reports, mixed European names", b.pages)
	took, err := race(b.ctx, b.times, b.ours(roster), []string{b.self, "bare-pages", roster, report, "pdfreport/kit/fonts/cut", "OUT"})
	if err != nil {
		return err
	}
	line(work, took[0], took[1], "a bare program on the same libraries")
	fmt.Printf("| median page file | %d KB | | |\n", size/1000)
	if exec.CommandContext(b.ctx, "/usr/bin/python3", "-c", "import openpyxl, reportlab").Run() != nil {
		fmt.Println("| a Python script | not measured: no openpyxl or reportlab | | |")
		return nil
	}
	for _, kind := range []string{"european", "other-script"} {
		if roster, err = b.roster(kind, b.pages); err != nil {
			return err
		}
		took, err := race(b.ctx, b.times, b.ours(roster), []string{"/usr/bin/python3", "cmd/bench/script.py", roster, report, "OUT"})
		if err != nil {
			return err
		}
		line("the same, names "+kind, took[0], took[1], "a Python script in two processes")
	}
	return nil
}

// medianPage keeps the report file of median size as path, and returns its size in
// bytes.
func (b *bench) medianPage(roster, path string) (size int64, err error) {
	_, err = run(b.ctx, b.ours(roster), func(out string) error {
		files, err := filepath.Glob(filepath.Join(out, "*-reports", "*.pdf"))
		if err != nil || len(files) != b.pages {
			return fmt.Errorf("%d reports of %d people: %w", len(files), b.pages, err)
		}
		sizes := map[string]int64{}
		for _, f := range files {
			info, err := os.Stat(f)
			if err != nil {
				return err
			}
			sizes[f] = info.Size()
		}
		slices.SortFunc(files, func(x, y string) int { return cmp.Compare(sizes[x], sizes[y]) })
		middle := files[len(files)/2]
		size = sizes[middle]
		return os.Rename(middle, path)
	})
	return size, err
}

// compareRows compares result columns without pages with the bare program.
func (b *bench) compareRows() error {
	roster, err := b.roster("european", b.rows)
	if err != nil {
		return err
	}
	took, err := race(b.ctx, min(b.times, 3), b.ours(roster, "--no-reports"), []string{b.self, "bare-rows", roster, filepath.Join("OUT", "scored.xlsx")})
	if err != nil {
		return err
	}
	line(fmt.Sprintf("read, score, write %d rows of %d columns", b.rows, rosterCols), took[0], took[1], "a bare program on the same library")
	return nil
}
