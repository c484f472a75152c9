package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook"
)

// table prints the lines as they are measured, as a table of Markdown.
func (b *bench) table(w io.Writer, quick bool) error {
	fmt.Fprintf(w, "%s, %s/%s, %s, %d processors, %s%s; medians of %d runs as whole processes, in turn\n\n",
		time.Now().Format(time.DateOnly), runtime.GOOS, runtime.GOARCH, processor(), runtime.NumCPU(), runtime.Version(), load(), b.times)
	fmt.Fprintf(w, "| work | goal | measured | as |\n| --- | --- | --- | --- |\n")
	line := func(work, goal, measured, as string, more ...any) {
		fmt.Fprintf(w, "| %s | %s | %s | %s |\n", work, goal, measured, fmt.Sprintf(as, more...))
	}
	parts := []func(lines) error{b.pages, b.otherScript, b.startUp, b.scoring, b.cores}
	if !quick {
		// First, while this process is small: its own memory counts as that of the
		// programs it starts.
		parts = append([]func(lines) error{b.pageMemory, b.rows}, parts...)
	}
	for _, part := range parts {
		if err := part(line); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "\nAt the end%s.\n", load())
	return err
}

// lines adds a line of the table.
type lines func(work, goal, measured, as string, more ...any)

// run is the program on a roster.
func (b *bench) run(roster string, more ...string) program {
	return program{name: "tenback", args: append([]string{b.tenback, "run", roster, "--out", "OUT", "--quiet"}, more...)}
}

// ratios are how many times the time, and the work of the processors, of one are
// those of the other.
func ratios(a, b spent) string {
	return fmt.Sprintf("%.2f (processor time %.2f)", float64(a.wall)/float64(b.wall), float64(a.cpu)/float64(b.cpu))
}

func both(s spent) string {
	return fmt.Sprintf("%s, processor %s", seconds(s.wall), seconds(s.cpu))
}

const pagesCount = 1000

// pages compares the making of pages with that of the bare program and of the
// script.
func (b *bench) pages(line lines) error {
	roster, err := b.roster(pagesCount, european)
	if err != nil {
		return err
	}
	drawn, size, err := b.medianPage(roster)
	if err != nil {
		return err
	}
	fonts := filepath.Join(b.root, "pdfreport", "fonts", "cut")
	contestants := []program{b.run(roster), {name: "bare pages", args: []string{b.self, "bare-pages", roster, drawn, fonts, "OUT"}}}
	script := b.script(roster, drawn)
	if script != nil {
		contestants = append(contestants, *script)
	}
	took, err := race(b.ctx, b.times, contestants...)
	if err != nil {
		return err
	}
	work := fmt.Sprintf("%d two-page reports, mixed European names", pagesCount)
	line(work, "at most 1.3 x the bare program", ratios(took[0], took[1]), "%s; bare %s", both(took[0]), both(took[1]))
	if script == nil {
		line(work, "at least 3 x the Python script", "not measured", "python3 with openpyxl and reportlab, or DejaVu Sans, is not here")
	} else {
		line(work, "at least 3 x the Python script", ratios(took[2], took[0]), "script, two processes, %s", both(took[2]))
	}
	line("size of a page file", "at most 60 KB", fmt.Sprintf("%.1f KB", float64(size)/1000), "median")
	return nil
}

// medianPage runs the program once and takes the drawing of the page that has
// the median number of pieces, and the median size of the files.
func (b *bench) medianPage(roster string) (drawn string, size int64, err error) {
	font, err := readFont(filepath.Join(b.root, "pdfreport", "fonts", "cut"))
	if err != nil {
		return "", 0, err
	}
	var all []drawing
	var sizes []int64
	_, err = b.run(roster).run(b.ctx, func(out string) error {
		files, err := filepath.Glob(filepath.Join(out, "*-reports", "*.pdf"))
		if err != nil {
			return err
		}
		for _, f := range files {
			d, err := record(f, font.chars)
			if err != nil {
				return err
			}
			info, err := os.Stat(f)
			if err != nil {
				return err
			}
			all, sizes = append(all, d), append(sizes, info.Size())
		}
		return nil
	})
	if err != nil {
		return "", 0, err
	}
	if len(all) != pagesCount {
		return "", 0, fmt.Errorf("%d pages of %d people", len(all), pagesCount)
	}
	all = slices.DeleteFunc(all, func(d drawing) bool { return len(d) != 2 })
	slices.SortStableFunc(all, func(x, y drawing) int { return x.pieces() - y.pieces() })
	slices.Sort(sizes)
	drawn = filepath.Join(b.dir, "drawing.json")
	return drawn, sizes[len(sizes)/2], all[len(all)/2].save(drawn)
}

// script is the Python script; nil where it cannot run.
func (b *bench) script(roster, drawn string) *program {
	python, fonts := b.python(), wideFonts()
	if python == "" || fonts == nil {
		return nil
	}
	return &program{name: "script", args: []string{python, filepath.Join(b.root, "cmd", "bench", "script.py"), roster, drawn, fonts[0], fonts[1], "OUT"}}
}

// otherScript is the same for names that the font of the words lacks.
func (b *bench) otherScript(line lines) error {
	roster, err := b.roster(pagesCount, otherScript)
	if err != nil {
		return err
	}
	script := b.script(roster, filepath.Join(b.dir, "drawing.json"))
	const work, goal = "the same, every name in Greek or Cyrillic", "at least as fast as the script"
	if script == nil {
		line(work, goal, "not measured", "see above")
		return nil
	}
	took, err := race(b.ctx, b.times, b.run(roster), *script)
	if err != nil {
		return err
	}
	line(work, goal, ratios(took[1], took[0]), "%s; script %s", both(took[0]), both(took[1]))
	return nil
}

// startUp times what answers without a roster.
func (b *bench) startUp(line lines) error {
	took, err := race(b.ctx, 4*b.times+1, program{name: "help", args: []string{b.tenback, "--help"}}, program{name: "tests", args: []string{b.tenback, "tests"}})
	if err != nil {
		return err
	}
	line("--help", "under 30 ms", seconds(took[0].wall), "processor %s", seconds(took[0].cpu))
	line("tests", "under 50 ms", seconds(took[1].wall), "processor %s", seconds(took[1].cpu))
	return nil
}

// scoring times the scoring of rows as read, by the processor's clock of this
// process being alone on its work: the fastest of several rounds.
func (b *bench) scoring(line lines) error {
	path, err := b.roster(pagesCount, european)
	if err != nil {
		return err
	}
	roster, err := workbook.Open(path, workbook.ReadOptions{})
	if err != nil {
		return err
	}
	best := time.Duration(math.MaxInt64)
	rows := 0
	for range 20 {
		start := time.Now()
		rows = 0
		for _, s := range roster.Sheets {
			for i := range s.Rows {
				scoring.Assess(&s.Rows[i].Entry)
				rows++
			}
		}
		best = min(best, time.Since(start))
	}
	line("scoring one row", "under 5 µs", fmt.Sprintf("%.1f µs", best.Seconds()*1e6/float64(rows)), "fastest of 20 rounds over %d rows", rows)
	return nil
}

// cores compares one processor with two.
func (b *bench) cores(line lines) error {
	roster, err := b.roster(pagesCount, european)
	if err != nil {
		return err
	}
	one, two := b.run(roster), b.run(roster)
	one.env, two.env = []string{"GOMAXPROCS=1"}, []string{"GOMAXPROCS=2"}
	took, err := race(b.ctx, b.times, one, two)
	if err != nil {
		return err
	}
	line("pages on two processors", "at least 1.8 x one", fmt.Sprintf("%.2f", float64(took[0].wall)/float64(took[1].wall)), "%s; %s", both(took[0]), both(took[1]))
	return nil
}

// rows compares the writing of result columns into large rosters with the bare
// program, and the time that a row takes in small and in large rosters.
func (b *bench) rows(line lines) error {
	sizes := []int{1, 1000, 10_000, 100_000}
	var paths []string
	for _, n := range sizes {
		path, err := b.roster(n, european)
		if err != nil {
			return err
		}
		paths = append(paths, path)
	}
	times := min(b.times, 3)
	large := paths[len(paths)-1]
	took, err := race(b.ctx, times, b.run(large, "--no-reports"), program{name: "bare rows", args: []string{b.self, "bare-rows", large, filepath.Join("OUT", "scored.xlsx")}})
	if err != nil {
		return err
	}
	const work = "read, score, write 100,000 rows x 20 columns"
	line(work, "at most 0.5 x the bare program", ratios(took[0], took[1]), "%s; bare %s", both(took[0]), both(took[1]))
	line(work, "under 400 MB", megabytes(took[0].memory), "bare %s", megabytes(took[1].memory))

	var growing []program
	for _, path := range paths {
		growing = append(growing, b.run(path, "--no-reports"))
	}
	took, err = race(b.ctx, times, growing...)
	if err != nil {
		return err
	}
	var each []string
	var perRow []float64
	for i, n := range sizes[1:] {
		t := (took[i+1].cpu - took[0].cpu).Seconds() * 1e6 / float64(n)
		perRow = append(perRow, t)
		each = append(each, fmt.Sprintf("%.0f µs", t))
	}
	line("processor time a row, of 1,000, 10,000, 100,000", "within 15 %", fmt.Sprintf("%+.0f %%", 100*(perRow[2]/perRow[0]-1)), "%s, without the start (%s)", strings.Join(each, ", "), seconds(took[0].cpu))
	return nil
}

// pageMemory compares the memory while pages are made, of ten times as many.
func (b *bench) pageMemory(line lines) error {
	var contestants []program
	for _, n := range []int{pagesCount, 10 * pagesCount} {
		path, err := b.roster(n, european)
		if err != nil {
			return err
		}
		contestants = append(contestants, b.run(path), b.run(path, "--no-reports"))
	}
	took, err := race(b.ctx, 1, contestants...)
	if err != nil {
		return err
	}
	line("memory with pages, of 1,000 and 10,000 people", "the same on top of the roster's", fmt.Sprintf("%s, %s", megabytes(took[0].memory), megabytes(took[2].memory)),
		"without pages %s, %s", megabytes(took[1].memory), megabytes(took[3].memory))
	return nil
}

func megabytes(n int64) string {
	if n == 0 {
		return "not told"
	}
	return fmt.Sprintf("%.0f MB", float64(n)/1e6)
}

// pieces counts what a drawing is made of.
func (d drawing) pieces() (n int) {
	for _, page := range d {
		n += len(page)
	}
	return n
}

// processor is what the machine says of its processor.
func processor() string {
	info, err := os.ReadFile("/proc/cpuinfo")
	if err == nil {
		if _, after, ok := strings.Cut(string(info), "model name\t: "); ok {
			model, _, _ := strings.Cut(after, "\n")
			return model
		}
	}
	return "processor unknown"
}

// load is how many programs want the processors, where the system tells.
func load() string {
	data, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return ""
	}
	now, _, _ := strings.Cut(string(data), " ")
	return ", load " + now
}
