package starter

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/templates/wording"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/result"
	"tenback/workbook/roster"
)

// guideWriter fills the guide sheet from top to bottom.
type guideWriter struct {
	*starter
	row                       int
	title, section, head, top int // styles
	failed                    error
}

// guideWidths are the widths of the guide's columns in characters.
var guideWidths = [...]float64{36, 92, 18, 9, 9, 16}

// lineHeight is the height of a line of text in points.
const lineHeight = 15

// writeGuide writes the sheet that explains a starter roster.
func (s *starter) writeGuide(setting roster.Setting, columns []starterColumn) error {
	if err := addSheet(s.f, 1, s.guide); err != nil {
		return err
	}
	g := &guideWriter{starter: s}
	g.styles()
	g.steps()
	g.cautions()
	g.explainColumns(columns)
	g.more(setting)
	g.mapping()
	g.pages()
	for _, t := range testsOf(setting) {
		g.test(t)
	}
	g.results()
	for i, width := range guideWidths {
		letter := grid.Column(i + 1)
		g.do(g.f.SetColWidth(g.guide, letter, letter, width))
	}
	g.do(fitToWidth(g.f, g.guide))
	return g.failed
}

// do keeps the first error.
func (g *guideWriter) do(err error) {
	if g.failed == nil {
		g.failed = err
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
	g.do(g.f.SetRowHeight(g.guide, g.row, lines*lineHeight))
	for i, text := range texts {
		cell := grid.At(i+1, g.row)
		g.do(g.f.SetCellStr(g.guide, cell, text))
		g.do(g.f.SetCellStyle(g.guide, cell, cell, style))
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

// word says a block without slots in one cell.
func (g *guideWriter) word(key string) string { return g.OneLine(key, nil) }

func (g *guideWriter) steps() {
	g.line(g.title, g.word("guide.title"))
	steps := g.Say("guide.steps", wording.Slots{"People": g.people})
	g.list(g.word("guide.steps.label"), strings.Split(steps, "\n"))
}

func (g *guideWriter) cautions() {
	g.heading(g.word("guide.before"))
	g.list(g.word("guide.before.label"), append(g.ScreenFirst(), g.StopSigns()...))
}

func (g *guideWriter) explainColumns(columns []starterColumn) {
	g.heading(g.word("guide.columns"))
	var head []string
	for _, name := range []string{"column", "what", "unit", "from", "to", "example"} {
		head = append(head, g.word("guide.columns."+name))
	}
	g.line(g.head, head...)
	for _, c := range columns {
		from, to := "", ""
		if c.between != nil {
			from, to = g.bound(c.between[0]), g.bound(c.between[1])
		}
		what := c.meaning
		if len(c.choices) > 0 {
			what += " " + g.OneLine("guide.columns.choices", wording.Slots{"Choices": strings.Join(c.choices, "; ")})
		}
		g.line(g.top, c.header, what, c.unit, from, to, c.example)
	}
}

// more lists known columns that are not in the roster.
func (g *guideWriter) more(setting roster.Setting) {
	g.heading(g.word("guide.more"))
	g.line(g.top, "", g.word("guide.more.note"))
	for in := range scoring.InputCount {
		if in.Info().YesNo && !slices.Contains(screeningOf(setting), in) {
			choose := g.OneLine("starter.help.choose", wording.Slots{"First": g.word("choice.yes"), "Second": g.word("choice.no")})
			g.line(g.top, g.inputHeader(in), g.Meaning(in)+" "+choose)
		}
	}
}

// pages explains the settings of the pages.
func (g *guideWriter) pages() {
	g.heading(g.word("guide.pages"))
	g.line(g.top, "", g.OneLine("guide.pages.note", wording.Slots{"Sheet": roster.SettingsSheet}))
	for _, id := range roster.SettingIDs() {
		g.line(g.top, g.word(heading.SettingWord(id)), g.word(heading.SettingWord(id)+".explain"))
	}
}

// mapping explains how to keep other headers.
func (g *guideWriter) mapping() {
	g.heading(g.word("guide.own"))
	g.line(g.top, "", g.word("guide.own.note"))
	g.line(g.top, g.OneLine("guide.own.sheet.label", wording.Slots{"Sheet": roster.MappingSheet}), g.word("guide.own.sheet"))
	g.line(g.top, g.word("guide.own.example.label"), g.OneLine("guide.own.example", wording.Slots{"Mass": wording.Capital(g.Input(scoring.BodyMass))}))
}

func (g *guideWriter) test(t *scoring.Test) {
	g.heading(g.Test(t))
	g.line(g.top, g.word("guide.test.suits"), g.Suits(t))
	g.list(g.word("guide.test.how"), g.Protocol(t))
	g.line(g.top, g.word("guide.test.caution"), g.Caution(t))
	if needs := g.needs(t); needs != "" {
		g.line(g.top, g.word("guide.test.needs"), needs)
	}
	g.line(g.top, g.word("guide.test.sources"), "tenback tests "+t.ID)
}

// needs lists the inputs of a test besides its result.
func (g *guideWriter) needs(t *scoring.Test) string {
	var names []string
	for _, in := range t.Needs() {
		if in.Stage() == 1 {
			names = append(names, g.Input(in))
		}
	}
	return strings.Join(names, ", ")
}

func (g *guideWriter) results() {
	g.heading(g.word("guide.results"))
	for _, c := range result.Columns(g.Words) {
		g.line(g.top, c.Header, c.Explain)
	}
}
