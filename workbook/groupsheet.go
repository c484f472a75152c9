package workbook

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring/group"
	"tenback/scoring/reference"
)

// GroupSheetName is the name of the one sheet of WriteGroup.
const GroupSheetName = "Group summary"

// WriteGroup writes the organiser's summary as a workbook of its own with one
// sheet: all tables of counts, the figures, and what is left out. Nothing of a
// single person is in it, so it may go where the workbook of results must not.
// tested, the latest test day, is the date of the file; the same input gives the
// same bytes.
func WriteGroup(w io.Writer, s group.Summary, tested time.Time) error {
	f := excelize.NewFile()
	defer f.Close()
	if tested.IsZero() {
		tested = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	day := tested.UTC().Format(time.RFC3339)
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback", Title: GroupSheetName, Created: day, Modified: day}); err != nil {
		return err
	}
	if err := f.SetSheetName("Sheet1", GroupSheetName); err != nil {
		return err
	}
	g, err := newGroupSheet(f)
	if err != nil {
		return err
	}
	g.write(s)
	if g.err != nil {
		return g.err
	}
	if err := fitToWidth(f, GroupSheetName); err != nil {
		return err
	}
	return f.Write(w)
}

// groupSheet writes row after row. The first error is kept for the end.
type groupSheet struct {
	f                        *excelize.File
	row                      int // the next one
	title, head, share, bold int // styles, and
	headRight, right         int // of what stands over and among numbers
	err                      error
}

func newGroupSheet(f *excelize.File) (*groupSheet, error) {
	g := &groupSheet{f: f, row: 1}
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
		{&g.share, excelize.Style{CustomNumFmt: &percent}},
		{&g.bold, excelize.Style{Font: &excelize.Font{Family: typeface, Bold: true}}},
	} {
		id, err := f.NewStyle(&s.style)
		if err != nil {
			return nil, err
		}
		*s.id = id
	}
	if err := f.SetColWidth(GroupSheetName, "A", "A", 60); err != nil {
		return nil, err
	}
	return g, f.SetColWidth(GroupSheetName, "B", "I", 14)
}

// notShown stands in a cell whose number may not be printed.
const notShown = "not shown"

func (g *groupSheet) write(s group.Summary) {
	g.line(g.title, GroupSheetName)
	g.line(0, fmt.Sprintf("Fewer than %d people are never shown alone. Rows that would be smaller are put together, or their table is left out.", s.Smallest))
	g.line(0, "A group figure is no measure of anyone in it. Values of VO2max are estimates; compare groups only that did the same test.")
	if len(s.Tables) == 0 {
		g.line(0, fmt.Sprintf("There are too few people for a summary: it needs at least %d who can be counted together.", s.Smallest))
		return
	}
	for i := range s.Tables {
		g.table(&s.Tables[i])
	}
	g.figures(s.Figures)
	g.leftOut(s)
}

// table writes counts, each with its share beside it.
func (g *groupSheet) table(t *group.Table) {
	g.row++
	g.line(g.title, t.Title())
	heads := []any{""}
	for _, c := range t.Columns {
		name := nameOf(c)
		if len(t.Columns) == 1 {
			name = "People"
		}
		heads = append(heads, name, "share")
	}
	g.line(g.head, heads...)
	g.fail(g.f.SetRowHeight(GroupSheetName, g.row-1, 30)) // the names of two groups take two lines
	for i, l := range t.Rows {
		values := []any{nameOf(l)}
		for _, c := range t.Cells[i] {
			values = append(values, countValue(c), shareValue(c))
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

// nameOf joins the names of what is put together by a plus, for a name may hold
// a comma. Ages are one range.
func nameOf(l group.Label) string {
	if len(l.Texts) > 0 && l.Ages == (reference.Ages{}) {
		return strings.Join(l.Texts, " + ")
	}
	return l.Text
}

func countValue(c group.Cell) any {
	if !c.Shown {
		return notShown
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
	names := [...]string{group.VO2max: "VO2max", group.RestingRate: "Resting heart rate"}
	heads := [...]string{"Lower quartile", "Median", "Upper quartile"}
	last := ""
	for _, f := range all {
		title := fmt.Sprintf("%s in %s, %s", names[f.Quantity], f.Quantity.Unit(), f.Part)
		if title != last {
			g.row++
			g.line(g.title, title)
			g.line(g.head, "", "People", heads[0], heads[1], heads[2])
			last = title
		}
		values := []any{nameOf(f.Of), countValue(f.People)}
		for _, v := range []group.Value{f.LowerQuartile, f.Median, f.UpperQuartile} {
			if v.Shown {
				values = append(values, v.Amount)
			} else {
				values = append(values, notShown)
			}
		}
		g.line(0, values...)
	}
}

// leftOut names what is not there.
func (g *groupSheet) leftOut(s group.Summary) {
	if len(s.TooSmall)+len(s.Withheld) == 0 {
		return
	}
	g.row++
	g.line(g.title, "Not shown")
	for _, p := range s.TooSmall {
		g.line(0, fmt.Sprintf("People %s", p), fmt.Sprintf("fewer than %d, perhaps none", s.Smallest))
	}
	for _, w := range s.Withheld {
		g.line(0, fmt.Sprintf("%s, %s", w.ID, w.Part), "a count would be too small, or it says nothing new")
	}
}

// line writes a row from the left, texts as texts whatever they begin with.
func (g *groupSheet) line(style int, values ...any) {
	for i, v := range values {
		cell, err := excelize.CoordinatesToCellName(i+1, g.row)
		if err == nil {
			err = g.f.SetCellValue(GroupSheetName, cell, v)
		}
		own := style
		switch {
		case style == g.head && i > 0:
			own = g.headRight
		case v == notShown:
			own = g.right
		}
		if err == nil && own != 0 {
			err = g.f.SetCellStyle(GroupSheetName, cell, cell, own)
		}
		g.fail(err)
	}
	g.row++
}

// style changes the look of a cell of the row written last.
func (g *groupSheet) style(col, style int) {
	cell, err := excelize.CoordinatesToCellName(col, g.row-1)
	if err == nil {
		err = g.f.SetCellStyle(GroupSheetName, cell, cell, style)
	}
	g.fail(err)
}

func (g *groupSheet) fail(err error) {
	if g.err == nil {
		g.err = err
	}
}
