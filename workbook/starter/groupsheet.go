package starter

import (
	"cmp"
	"io"
	"math"
	"time"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring/group"
	"tenback/scoring/reference"
	"tenback/templates"
	"tenback/templates/wording"
	"tenback/workbook/grid"
)

// WriteGroup writes the organiser's summary as a workbook of its own with one
// sheet: all tables of counts, the figures, and what is left out. Nothing of a
// single person is in it, so it may go where the workbook of results must not.
// tested, the latest test day, is the date of the file; the same input gives the
// same bytes. It is in the given words, as they are put to their audience, or in
// English where there are none.
func WriteGroup(w io.Writer, s group.Summary, adults *reference.GroupTable, tested time.Time, words *templates.Set) error {
	f := excelize.NewFile()
	defer f.Close()
	own := wordsOf(words)
	name := own.Say("summary.title", nil)
	if tested.IsZero() {
		tested = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	day := tested.UTC().Format(time.RFC3339)
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback", Title: name, Created: day, Modified: day, Language: own.Set.Lang()}); err != nil {
		return err
	}
	if err := addSheet(f, 0, name); err != nil {
		return err
	}
	g, err := newGroupSheet(f, name, own)
	if err != nil {
		return err
	}
	g.adults = adults
	g.write(s)
	if err := cmp.Or(g.failed, g.Failure()); err != nil {
		return err
	}
	if err := fitToWidth(f, name); err != nil {
		return err
	}
	return f.Write(w)
}

// groupSheet writes row after row and keeps the first error.
type groupSheet struct {
	*sheetWords
	f                        *excelize.File
	name, hidden             string // of the sheet; what stands in a cell whose number may not be printed
	adults                   *reference.GroupTable
	row                      int // the next one
	title, head, share, bold int // styles, and
	headRight, right, long   int // of what stands over and among numbers, and of a long name beside them
	failed                   error
}

// nameWidth is that of the column of names, in characters.
const nameWidth = 60

func newGroupSheet(f *excelize.File, name string, words *sheetWords) (*groupSheet, error) {
	g := &groupSheet{sheetWords: words, f: f, name: name, hidden: words.Say("summary.hidden", nil), row: 1}
	percent := "0%"
	for _, s := range []struct {
		id    *int
		style excelize.Style
	}{
		{&g.title, excelize.Style{Font: &excelize.Font{Family: typeface, Bold: true, Size: 12, Color: headInk}}},
		{&g.head, excelize.Style{Font: &excelize.Font{Family: typeface, Bold: true, Color: headInk},
			Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{headFill}},
			Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"}}},
		{&g.headRight, excelize.Style{Font: &excelize.Font{Family: typeface, Bold: true, Color: headInk},
			Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{headFill}},
			Alignment: &excelize.Alignment{WrapText: true, Vertical: "center", Horizontal: "right"}}},
		{&g.right, excelize.Style{Alignment: &excelize.Alignment{Horizontal: "right"}}},
		{&g.long, excelize.Style{Alignment: &excelize.Alignment{WrapText: true}}},
		{&g.share, excelize.Style{CustomNumFmt: &percent}},
		{&g.bold, excelize.Style{Font: &excelize.Font{Family: typeface, Bold: true}}},
	} {
		id, err := f.NewStyle(&s.style)
		if err != nil {
			return nil, err
		}
		*s.id = id
	}
	if err := f.SetColWidth(g.name, "A", "A", nameWidth); err != nil {
		return nil, err
	}
	return g, f.SetColWidth(g.name, "B", "I", 14)
}

func (g *groupSheet) write(s group.Summary) {
	g.line(g.title, g.name)
	smallest := wording.Slots{"Smallest": s.Smallest}
	g.line(0, g.OneLine("sheet.summary.smallest", smallest))
	g.line(0, g.OneLine("sheet.summary.caution", nil))
	if len(s.Tables) == 0 {
		g.line(0, g.OneLine("sheet.summary.too-few", smallest))
		return
	}
	for i := range s.Tables {
		g.table(&s.Tables[i])
	}
	g.figures(s.Figures)
	g.seasons(s)
	g.leftOut(s)
}

// table writes counts, each with its share beside it.
func (g *groupSheet) table(t *group.Table) {
	g.row++
	g.line(g.title, g.TableOf(t.ID, t.Part))
	heads := []any{""}
	for _, c := range t.Columns {
		name := g.nameOf(c)
		if len(t.Columns) == 1 {
			name = g.Say("summary.column.people", nil)
		}
		heads = append(heads, name, g.Say("summary.column.share", nil))
	}
	g.line(g.head, heads...)
	g.fail(g.f.SetRowHeight(g.name, g.row-1, 30)) // the names of two groups take two lines
	for i, l := range t.Rows {
		values := []any{g.nameOf(l)}
		for _, c := range t.Cells[i] {
			values = append(values, g.countValue(c), shareValue(c))
		}
		g.line(0, values...)
		for k := range t.Cells[i] {
			g.style(3+2*k, g.share)
		}
		if i == len(t.Rows)-1 {
			g.style(1, g.bold)
		}
	}
}

// nameOf returns the name of a row or column.
func (g *groupSheet) nameOf(l group.Label) string {
	return g.Label(l, g.adults, func(name string) string { return name })
}

func (g *groupSheet) countValue(c group.Cell) any {
	if !c.Shown {
		return g.hidden
	}
	return c.Count
}

func shareValue(c group.Cell) any {
	if !c.HasShare {
		return nil
	}
	return c.Share
}

// figures writes medians and quartiles.
func (g *groupSheet) figures(all []group.Figure) {
	names := [...]string{group.VO2max: g.Say("summary.vo2", nil), group.RestingRate: g.Say("summary.by-resting", nil)}
	heads := []any{""}
	for _, name := range []string{"people", "lower", "median", "upper"} {
		heads = append(heads, g.Say("summary.column."+name, nil))
	}
	last := ""
	for _, f := range all {
		title := g.Say("sheet.summary.figure", wording.Slots{"What": names[f.Quantity], "Unit": g.Unit(f.Quantity.Unit()), "Part": g.Part(f.Part)})
		if title != last {
			g.row++
			g.line(g.title, title)
			g.line(g.head, heads...)
			last = title
		}
		values := []any{g.nameOf(f.Of), g.countValue(f.People)}
		for _, v := range []group.Value{f.LowerQuartile, f.Median, f.UpperQuartile} {
			if v.Shown {
				values = append(values, v.Amount)
			} else {
				values = append(values, g.hidden)
			}
		}
		g.line(0, values...)
	}
}

// seasons writes the changes since the last round of testing.
func (g *groupSheet) seasons(s group.Summary) {
	if s.Seasons == nil {
		return
	}
	for _, m := range s.Seasons.Changes {
		g.row++
		g.line(g.title, g.Say("sheet.summary.change", wording.Slots{"Part": g.Part(m.Part)}))
		heads := []any{"", g.Say("summary.column.people", nil)}
		for _, name := range []string{"mean", "from", "to"} {
			heads = append(heads, g.Say("sheet.summary.column."+name, nil))
		}
		g.line(g.head, heads...)
		g.line(0, g.Say("summary.all", nil), g.countValue(m.People), m.Mean, m.Low, m.High)
	}
	g.row++
	g.line(0, g.Say("sheet.summary.left", nil), g.countValue(s.Seasons.Left))
}

// leftOut lists the tables that are withheld.
func (g *groupSheet) leftOut(s group.Summary) {
	if len(s.TooSmall)+len(s.Withheld) == 0 {
		return
	}
	g.row++
	g.line(g.title, g.Say("sheet.summary.hidden", nil))
	for _, p := range s.TooSmall {
		g.line(0, g.Say("sheet.summary.people-of", wording.Slots{"Part": g.Part(p)}), g.Say("summary.small.cell", wording.Slots{"Smallest": s.Smallest}))
	}
	for _, w := range s.Withheld {
		g.line(0, g.TableOf(w.ID, w.Part), g.Say("sheet.summary.withheld", nil))
	}
}

// line writes a row from the left, texts as texts whatever they begin with. A
// name that is too long to stand beside numbers takes several lines.
func (g *groupSheet) line(style int, values ...any) {
	lines := 1.0
	if name, ok := values[0].(string); ok && style == 0 && len(values) > 1 {
		lines = math.Ceil(float64(utf8.RuneCountInString(name)) / nameWidth)
	}
	if lines > 1 {
		g.fail(g.f.SetRowHeight(g.name, g.row, lines*lineHeight))
	}
	for i, v := range values {
		cell := grid.At(i+1, g.row)
		g.fail(g.f.SetCellValue(g.name, cell, v))
		own := style
		switch {
		case style == g.head && i > 0:
			own = g.headRight
		case i == 0 && lines > 1:
			own = g.long
		case v == g.hidden:
			own = g.right
		}
		if own != 0 {
			g.fail(g.f.SetCellStyle(g.name, cell, cell, own))
		}
	}
	g.row++
}

// style changes the look of a cell of the row written last.
func (g *groupSheet) style(col, style int) {
	cell := grid.At(col, g.row-1)
	g.fail(g.f.SetCellStyle(g.name, cell, cell, style))
}

func (g *groupSheet) fail(err error) {
	if g.failed == nil {
		g.failed = err
	}
}
