package workbook

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
)

// guideWriter fills the guide sheet from top to bottom.
type guideWriter struct {
	f                         *excelize.File
	row                       int
	title, section, head, top int // styles
	err                       error
}

// guideWidths are the widths of the guide's columns in characters.
var guideWidths = [...]float64{36, 92, 18, 9, 9, 16}

// lineHeight is the height of a line of text in points.
const lineHeight = 15

// writeGuide writes the sheet that explains a starter roster.
func writeGuide(f *excelize.File, setting Setting, columns []starterColumn) error {
	if _, err := f.NewSheet(guideSheet); err != nil {
		return err
	}
	g := &guideWriter{f: f}
	g.styles()
	g.steps()
	g.cautions()
	g.columns(columns)
	g.more()
	g.mapping()
	g.pages()
	for _, t := range setting.tests() {
		g.test(t)
	}
	g.results()
	for i, width := range guideWidths {
		letter, err := excelize.ColumnNumberToName(i + 1)
		g.do(err)
		g.do(f.SetColWidth(guideSheet, letter, letter, width))
	}
	g.do(fitToWidth(f, guideSheet))
	return g.err
}

// do keeps the first error.
func (g *guideWriter) do(err error) {
	if g.err == nil {
		g.err = err
	}
}

func (g *guideWriter) styles() {
	style := func(font excelize.Font, fill string) int {
		font.Family = typeface
		st := excelize.Style{Font: &font, Alignment: &excelize.Alignment{WrapText: font.Size == 0, Vertical: "top"}}
		if fill != "" {
			st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fill}}
		}
		id, err := g.f.NewStyle(&st)
		g.do(err)
		return id
	}
	g.title = style(excelize.Font{Bold: true, Size: 16, Color: headInk}, "")
	g.section = style(excelize.Font{Bold: true, Size: 12, Color: headInk}, headFill)
	g.head = style(excelize.Font{Bold: true, Color: headInk}, "")
	g.top = style(excelize.Font{}, "")
}

// line writes one row of texts in a style, high enough for them: not every
// spreadsheet program makes room by itself.
func (g *guideWriter) line(style int, texts ...string) {
	g.row++
	lines := 1.0
	for i, text := range texts {
		lines = max(lines, math.Ceil(float64(utf8.RuneCountInString(text))/(1.05*guideWidths[i])))
	}
	switch style {
	case g.title:
		lines = 1.6
	case g.section:
		lines = 1.2
	}
	g.do(g.f.SetRowHeight(guideSheet, g.row, lines*lineHeight))
	for i, text := range texts {
		cell, err := excelize.CoordinatesToCellName(i+1, g.row)
		g.do(err)
		g.do(g.f.SetCellStr(guideSheet, cell, text))
		g.do(g.f.SetCellStyle(guideSheet, cell, cell, style))
	}
}

// heading begins a part of the guide.
func (g *guideWriter) heading(text string) {
	g.row++
	g.line(g.section, text, "", "", "", "", "")
}

// list writes numbered lines.
func (g *guideWriter) list(label string, lines []string) {
	for i, l := range lines {
		g.line(g.top, label, fmt.Sprintf("%d. %s", i+1, l))
		label = ""
	}
}

func (g *guideWriter) steps() {
	g.line(g.title, "How to fill in this roster")
	g.list("Step by step", []string{
		"One line for each person on the sheet " + peopleSheet + ". Needed are a name or an ID, a date of birth, and a test with what goes with it.",
		"Fill in the columns of the tests that you do. Leave the others empty, or delete them.",
		"Rest the pointer on a header to read what belongs there. You may add columns of your own anywhere; they are left alone.",
		"Type times as minutes:seconds, such as 11:30, and shuttle runs as level.shuttle, such as 7.10. Both stay as typed.",
		"Save, close, and run: tenback run FILE.xlsx. To see first what is amiss: tenback check FILE.xlsx.",
	})
}

func (g *guideWriter) cautions() {
	g.heading("Before anyone starts")
	g.list("Cautions", scoring.TestCautions())
}

func (g *guideWriter) columns(columns []starterColumn) {
	g.heading("The columns")
	g.line(g.head, "Column", "What to write", "Unit", "From", "To", "Example")
	for _, c := range columns {
		from, to := "", ""
		if c.between != nil {
			from, to = fmt.Sprintf("%g", c.between[0]), fmt.Sprintf("%g", c.between[1])
		}
		what := c.meaning
		if len(c.choices) > 0 {
			what += " In the list: " + strings.Join(c.choices, ", ") + "."
		}
		g.line(g.top, c.header, what, c.unit, from, to, c.example)
	}
}

// more names the columns that are understood but not in every roster.
func (g *guideWriter) more() {
	g.heading("Columns that you may add")
	g.line(g.top, "", "Health answers are private. Add these only if you are allowed to keep them and need them.")
	for in := range scoring.InputCount {
		if info := in.Info(); info.YesNo {
			g.line(g.top, inputHeader(in), info.Meaning)
		}
	}
}

// pages tells how the pages get a name and a look.
func (g *guideWriter) pages() {
	g.heading("Your name on the pages")
	g.line(g.top, "", "Add a sheet called \""+SettingsSheet+"\". In its first column write any of these, and beside each its value.")
	for _, s := range pageSettings {
		g.line(g.top, s.name, s.explain)
	}
}

// mapping tells how to keep headers of one's own.
func (g *guideWriter) mapping() {
	g.heading("Headers of your own")
	g.line(g.top, "", "Headers are known in many languages and styles; tenback check FILE.xlsx --columns shows what each was taken for.")
	g.line(g.top, "A sheet "+MappingSheet, "Add a sheet of this name to say what other headers mean: in its first column the header as it stands in your roster, beside it a header from this guide, with its unit in parentheses if it has another, or ignore. The first line may say Header and Meaning.")
	g.line(g.top, "Example", "Weight before lunch | Body mass (lb)")
}

func (g *guideWriter) test(t *scoring.Test) {
	g.heading(t.Name)
	g.line(g.top, "Suits", t.Suits)
	g.list("How to run it", t.Protocol)
	for _, c := range t.Cautions {
		g.line(g.top, "Caution", c)
	}
	if needs := needsText(t); needs != "" {
		g.line(g.top, "Uses besides the result", needs)
	}
	g.line(g.top, "Equations and sources", "tenback tests "+t.ID)
}

// needsText names what a test uses besides its result.
func needsText(t *scoring.Test) string {
	var names []string
	for _, in := range t.Needs() {
		if !laterStage(in) {
			names = append(names, in.Info().Name)
		}
	}
	return strings.Join(names, ", ")
}

func (g *guideWriter) results() {
	g.heading("What comes back, at the right of your columns")
	for _, c := range resultColumns {
		g.line(g.top, c.Header, c.Explain)
	}
}
