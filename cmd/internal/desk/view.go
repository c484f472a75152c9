package desk

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"golang.org/x/term"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/terminal"
)

// view shows the desk: on a terminal as a screen that is redrawn at each change,
// elsewhere as one line per event. It is safe for concurrent use.
type view struct {
	Config
	w    io.Writer
	size func() (width, height int) // nil where there is no screen
	now  func() time.Time

	mu       sync.Mutex
	board    *Board            // as last shown; nil before
	standing map[string]string // obstacles, by kind
	remarks  []string          // the latest, with their times
	said     map[string]bool   // by sayOnce
}

// newView returns a view on a terminal, or one that writes lines.
func newView(c Config) *view {
	w := c.Screen
	v := &view{Config: c, w: w, now: time.Now, standing: map[string]string{}, said: map[string]bool{}}
	if screen := terminal.Screen(w); screen != nil && text.ANSICodesSupported {
		v.w = screen
		v.size = func() (width, height int) {
			if width, height, err := term.GetSize(int(screen.Fd())); err == nil && width > 0 && height > 0 {
				return width, height
			}
			return 80, 24
		}
	}
	return v
}

// remarksMost bounds the remarks on the screen.
const remarksMost = 4

// open names what is watched.
func (v *view) open() {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.size == nil {
		v.remark(fmt.Sprintf("Watching %s. Pages are in %s, columns in %s. Ctrl-C closes the desk", v.Roster, v.Pages.Path, v.Scored))
	}
	v.draw()
}

// say shows a remark.
func (v *view) say(what string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.remark(what)
	v.draw()
}

// sayOnce shows a remark the first time only.
func (v *view) sayOnce(what string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if !v.said[what] {
		v.said[what] = true
		v.remark(what)
		v.draw()
	}
}

func (v *view) remark(what string) {
	line := v.now().Format(terminal.ClockForm) + "  " + terminal.Line(what)
	if v.size == nil {
		fmt.Fprintln(v.w, line)
		return
	}
	v.remarks = append(v.remarks, line)
	v.remarks = v.remarks[max(0, len(v.remarks)-remarksMost):]
}

// stand shows an obstacle until it changes. An empty text ends it.
func (v *view) stand(of, what string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	before := v.standing[of]
	if v.standing[of] = what; what == before {
		return
	}
	if v.size == nil {
		if what == "" {
			what = over[of]
		}
		v.remark(what)
	}
	v.draw()
}

// over is what ends each kind of obstacle.
var over = map[string]string{ofRoster: "The roster can be read again", ofTurn: "The other tenback is done", ofPages: "Pages can be made again", ofColumns: "The columns are written",
	ofClock: "The date of this computer can be right now"}

// listMost bounds the lines of a kind for one reading.
const listMost = 20

// reading shows a reading and its news.
func (v *view) reading(b *Board, news News) {
	v.mu.Lock()
	defer v.mu.Unlock()
	shown := *b
	v.board = &shown
	if v.size == nil {
		v.lines(b, news)
	}
	v.draw()
}

// lines writes the news, safety first.
func (v *view) lines(b *Board, news News) {
	var cautions, scored, mended, toMend, others []string
	for _, c := range news.Cautions {
		cautions = append(cautions, fmt.Sprintf("Talk to these first: %s, %s: %s", c.Name, c.Place, c.Why))
	}
	for _, r := range news.Scored {
		scored = append(scored, fmt.Sprintf("Scored: %s, %s. %s: %s. Page: %s", r.Name, r.Place, r.Test, r.Value, r.Page))
	}
	for _, p := range news.Mended {
		if !p.OtherTest { // its result is already listed
			mended = append(mended, "Mended: "+mendPlace(p))
		}
	}
	for _, p := range news.ToMend {
		if p.OtherTest {
			others = append(others, batch.OtherTest+": "+mendText(p))
		} else {
			toMend = append(toMend, "To mend: "+mendText(p))
		}
	}
	for _, list := range [][]string{cautions, scored, mended, toMend, others} {
		for _, line := range list[:min(len(list), listMost)] {
			v.remark(line)
		}
		if more := len(list) - listMost; more > 0 {
			head, _, _ := strings.Cut(list[0], ":")
			v.remark(fmt.Sprintf("%s: and %d more", head, more))
		}
	}
	v.remark(standOf(b))
}

// mendText is the place, the problem and what to type.
func mendText(m Mend) string {
	text := mendPlace(m) + ": " + m.What
	if m.Fix != "" {
		text += "; " + m.Fix
	}
	return text
}

// mendPlace is the cell, the person and the content.
func mendPlace(m Mend) string {
	text := m.Cell
	if m.Name != "" && m.Name != m.Read {
		text += ", " + m.Name
	}
	if m.Read != "" {
		text += fmt.Sprintf(" (%q)", m.Read)
	}
	return text
}

// standOf summarises the day so far.
func standOf(b *Board) string {
	text := fmt.Sprintf("Scored %d of %s", len(b.Results), batch.PeopleText(b.Visits, b.People))
	if b.Untested > 0 {
		text += fmt.Sprintf(", %d not tested yet", b.Untested)
	}
	if b.Another > 0 {
		text += fmt.Sprintf(", %d %s", b.Another, batch.NeedOtherTest)
	}
	if n := cellsToMend(b); n > 0 {
		return text + ", " + terminal.Count(n, "cell", "cells") + " to mend"
	}
	return text + ", nothing to mend"
}

func cellsToMend(b *Board) int {
	cells := map[string]bool{}
	for _, m := range b.ToMend {
		if !m.OtherTest {
			cells[m.Cell] = true
		}
	}
	return len(cells)
}

// close writes the last line.
func (v *view) close(b *Board) {
	v.mu.Lock()
	defer v.mu.Unlock()
	text := "Closed"
	if b.Read() {
		text += ". " + standOf(b)
	}
	fmt.Fprintln(v.w, v.now().Format(terminal.ClockForm)+"  "+text)
}

// draw draws the screen.
func (v *view) draw() {
	if v.size == nil {
		return
	}
	width, height := v.size()
	// Home, then clear below, which keeps the scroll-back.
	fmt.Fprintf(v.w, "\x1b[H\x1b[2J%s", v.screen(width, height))
}

// screen returns the whole screen of width columns and height lines. Obstacles and
// safety come first. Lists are cut to their latest elements, to fewer on a small
// screen. The people scored last fill the rest.
func (v *view) screen(width, height int) string {
	name := terminal.Line(filepath.Base(v.Roster))
	if v.board == nil {
		return cut(append([]string{"Reading " + name + " ..."}, v.troubles(width)...), width, height)
	}
	var lines []string
	for most := max(1, height/8); most > 0; most-- {
		if lines = v.screenLines(name, width, height, most); len(lines) < height {
			break
		}
	}
	return cut(lines, width, height-1) // one line for the cursor
}

func (v *view) screenLines(name string, width, height, most int) []string {
	b := v.board
	read := "last read at " + b.At.Format(terminal.ClockForm)
	above := []string{name + strings.Repeat(" ", max(2, width-text.StringWidth(name)-len(read))) + read}
	above = append(append(above, wrapped(standOf(b), width)...), "")
	above = append(above, v.troubles(width)...)
	above = append(above, cautionLines(b, most, width)...)
	below := mendLines(b, most, width)
	for _, remark := range v.remarks {
		below = append(below, wrapped(remark, width)...)
	}
	below = append(below, fmt.Sprintf("Pages: %s   Columns: %s   Ctrl-C closes", terminal.Line(v.Pages.Path), terminal.Line(v.Scored)))
	room := height - len(above) - len(below) - 3 // names of columns, blank line, the cursor's line
	return slices.Concat(above, recentLines(b, max(most, room)), below)
}

// wrapped breaks a line at width and indents what follows.
func wrapped(line string, width int) []string {
	const more = "    "
	words := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(words)]
	if text.StringWidth(line) <= width || width < 4*(len(indent)+len(more)) {
		return []string{line}
	}
	// All lines get the same width, so the first one loses len(more).
	lines := strings.Split(text.WrapSoft(words, width-len(indent)-len(more)), "\n")
	for i := range lines {
		lines[i] = indent + strings.TrimRight(lines[i], " ")
		if i > 0 {
			lines[i] = more + lines[i]
		}
	}
	return lines
}

// troubles lists the obstacles.
func (v *view) troubles(width int) []string {
	var lines []string
	for _, of := range []string{ofRoster, ofTurn, ofClock, ofPages, ofColumns} {
		if what := v.standing[of]; what != "" {
			lines = append(lines, wrapped("! "+terminal.Line(what), width)...)
		}
	}
	if len(lines) > 0 {
		lines = append(lines, "")
	}
	return lines
}

// cautionLines lists the latest cautions. Reasons are never cut short.
func cautionLines(b *Board, most, width int) []string {
	if len(b.Cautions) == 0 {
		return nil
	}
	lines := []string{"Talk to these first"}
	for _, c := range b.Cautions[:min(most, len(b.Cautions))] {
		lines = append(lines, wrapped("  "+terminal.Line(fmt.Sprintf("%s, %s: %s", c.Name, c.Place, c.Why)), width)...)
	}
	return andMore(lines, len(b.Cautions)-most)
}

// andMore ends a list and counts what was left out.
func andMore(lines []string, more int) []string {
	if more > 0 {
		lines = append(lines, fmt.Sprintf("  and %d more; tenback check lists them", more))
	}
	return append(lines, "")
}

// mendLines lists the latest cells to mend, then the latest people who need
// another kind of test.
func mendLines(b *Board, most, width int) []string {
	var cells, others []Mend
	for _, m := range b.ToMend {
		if m.OtherTest {
			others = append(others, m)
		} else {
			cells = append(cells, m)
		}
	}
	return append(mendList("To mend", cells, most, width), mendList(strings.TrimSuffix(batch.OtherTestHeading, ":"), others, most, width)...)
}

func mendList(heading string, all []Mend, most, width int) []string {
	if len(all) == 0 {
		return nil
	}
	lines := wrapped(heading, width)
	for _, m := range all[:min(most, len(all))] {
		lines = append(lines, wrapped("  "+terminal.Line(mendPlace(m)+": "+m.What), width)...)
		if m.Fix != "" {
			lines = append(lines, wrapped("    → "+terminal.Line(m.Fix), width)...)
		}
	}
	return andMore(lines, len(all)-most)
}

// recentLines lists the people scored last.
func recentLines(b *Board, most int) []string {
	if len(b.Recent) == 0 {
		return []string{"Nobody new yet: type a result and save the roster.", ""}
	}
	var out strings.Builder
	t := terminal.Table(&out)
	t.AppendHeader(table.Row{"Scored", "Name", "Group", "Test", "VO2max, mL/kg/min"})
	for _, r := range b.Recent[:min(most, len(b.Recent))] {
		t.AppendRow(table.Row{r.At.Format(terminal.ClockForm), shown(r.Name, 24), shown(r.Group, 9), r.Test, r.Value})
	}
	t.Render()
	return append(strings.Split(strings.TrimRight(out.String(), "\n"), "\n"), "")
}

// shown cuts a text of a sheet to fit a table.
func shown(s string, width int) string { return text.Snip(terminal.Line(s), width, "…") }

// cut makes lines fit the screen.
func cut(lines []string, width, height int) string {
	var b strings.Builder
	for _, line := range lines[:min(len(lines), max(1, height))] {
		b.WriteString(text.Snip(line, width, "…"))
		b.WriteByte('\n')
	}
	return b.String()
}
