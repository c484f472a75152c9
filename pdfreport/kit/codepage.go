package kit

import (
	"embed"
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"github.com/go-pdf/fpdf"
)

//go:generate python3 fonts/make.py /usr/share/fonts/truetype/lato

//go:embed fonts/cut
var fontFiles embed.FS

// Weight is the weight of a letter.
type Weight uint8

const (
	Regular Weight = iota
	Bold
	weightCount
)

// style is the PDF library's name of the weight.
func (w Weight) style() string { return [...]string{"", "B"}[w] }

const (
	corePage  = "core"
	firstCode = 32
	// missingMark is drawn for a character that no code page has.
	missingMark = '□'
	// thinSpace is the one the fonts have; it is drawn for the no-break thin
	// space, which differs in where lines may break only.
	thinSpace        = '\u2009'
	noBreakSpace     = '\u00a0'
	noBreakThinSpace = '\u202f'
)

// fontDefinition is a font as it is prepared, in the terms of the PDF library.
type fontDefinition struct {
	Tp, Name     string
	Desc         fpdf.FontDescType
	Cw           []int  // widths in thousandths of the type size, by code
	Diff         string // names of the characters, as a PDF has them
	File         string
	OriginalSize int    // of the font, unpacked
	Chars        string // from firstCode on
}

// codePage is a prepared single-byte font in each weight.
type codePage struct {
	family     string
	definition [weightCount]fontDefinition
	file       [weightCount][]byte // the packed font
	standIn    [weightCount][]byte
	widths     [weightCount][256]float64
	ascent     float64 // shares of the type size
	capHeight  float64
}

// glyph is where a character is drawn from.
type glyph struct {
	page uint8
	code byte
}

// fontSet is all code pages and where each character stands.
type fontSet struct {
	pages      []codePage // the core page first
	glyphs     map[rune]glyph
	embeddings map[string]*embedding // by the font's name
	lines      settings
}

// fonts reads the prepared fonts, once for the process. They are part of the
// program, so damage to one is a fault of the build and panics.
var fonts = sync.OnceValue(func() *fontSet {
	entries, err := fontFiles.ReadDir("fonts/cut")
	if err != nil {
		panic("pdfreport: " + err.Error())
	}
	names := []string{corePage}
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), "-regular.json"); ok && name != corePage {
			names = append(names, name)
		}
	}
	set := &fontSet{glyphs: map[rune]glyph{}, embeddings: map[string]*embedding{}}
	for i, name := range names {
		page := readCodePage(name)
		for w := range weightCount {
			d := &page.definition[w]
			set.embeddings[d.Name] = d.embedding(uint8(i), page.file[w])
		}
		set.pages = append(set.pages, page)
		for n, r := range []rune(page.definition[Regular].Chars) {
			if r != 0 {
				set.glyphs[r] = glyph{uint8(i), byte(firstCode + n)}
			}
		}
	}
	set.glyphs[noBreakSpace] = set.glyphs[' ']
	set.glyphs[noBreakThinSpace] = set.glyphs[thinSpace]
	return set
})

func readCodePage(name string) codePage {
	page := codePage{family: name}
	for w := range weightCount {
		base := "fonts/cut/" + name + [...]string{"-regular", "-bold"}[w]
		d := &page.definition[w]
		if err := json.Unmarshal(mustRead(base+".json"), d); err != nil {
			panic(fmt.Sprintf("pdfreport: %s.json: %v", base, err))
		}
		page.file[w] = mustRead(base + ".z")
		page.standIn[w] = d.standIn()
		for code, width := range d.Cw {
			page.widths[w][code] = float64(width) / 1000
		}
		page.ascent, page.capHeight = float64(d.Desc.Ascent)/1000, float64(d.Desc.CapHeight)/1000
	}
	return page
}

func mustRead(name string) []byte {
	data, err := fontFiles.ReadFile(name)
	if err != nil {
		panic("pdfreport: " + err.Error())
	}
	return data
}

// run is a stretch of text from one code page.
type run struct {
	page  uint8
	codes string  // as they stand in the contents of a page
	width float64 // share of the type size
}

// encode turns a text into runs, appended to runs.
func encode(runs []run, text string, w Weight) []run {
	codes := make([]byte, 0, len(text)+8)
	var page uint8
	var width float64
	flush := func() {
		if len(codes) > 0 {
			runs = append(runs, run{page, string(codes), width})
			codes, width = codes[:0], 0
		}
	}
	for _, r := range text {
		g := glyphOf(r)
		if g.page != page {
			flush()
			page = g.page
		}
		switch g.code {
		case '\\', '(', ')':
			codes = append(codes, '\\')
		}
		codes = append(codes, g.code)
		width += fonts().pages[g.page].widths[w][g.code]
	}
	flush()
	return runs
}

// glyph finds a character, or the mark for a missing one.
func glyphOf(r rune) glyph {
	if r >= ' ' && r < 0x7f {
		return glyph{0, byte(r)}
	}
	if g, ok := fonts().glyphs[r]; ok {
		return g
	}
	return fonts().glyphs[missingMark]
}

// cut shortens a text to a width (a share of the type size) and shows that more
// followed.
func CutText(text string, w Weight, width float64) string {
	if TextWidth(text, w) <= width {
		return text
	}
	const more = "…"
	room := width - TextWidth(more, w)
	for i, r := range text {
		if room -= TextWidth(string(r), w); room < 0 {
			return text[:i] + more
		}
	}
	return text
}

// width measures a text as a share of the type size.
func TextWidth(text string, w Weight) float64 {
	var total float64
	for _, r := range text {
		g := glyphOf(r)
		total += fonts().pages[g.page].widths[w][g.code]
	}
	return total
}
