package kit

import (
	"embed"
	"encoding/json"
	"strings"
	"sync"

	"github.com/go-pdf/fpdf"
)

//go:generate python3 fonts/make.py /usr/share/fonts/truetype/lato

//go:embed fonts/cut
var fontFiles embed.FS

// Weight is a font weight.
type Weight uint8

// The font weights.
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
	// The no-break spaces are drawn as the spaces that the fonts have.
	thinSpace        = '\u2009'
	noBreakSpace     = '\u00a0'
	noBreakThinSpace = '\u202f'
)

// fontDefinition is a prepared font in the PDF library's terms.
type fontDefinition struct {
	Tp, Name     string
	Desc         fpdf.FontDescType
	Cw           []int  // widths by code, in thousandths of the type size
	Diff         string // names of the characters, as a PDF has them
	File         string
	OriginalSize int    // of the font, uncompressed
	Chars        string // from firstCode on
}

// codePage is a prepared single-byte font in each weight.
type codePage struct {
	family     string
	definition [weightCount]fontDefinition
	file       [weightCount][]byte // compressed
	standIn    [weightCount][]byte
	widths     [weightCount][256]float64 // shares of the type size
}

// glyph is the place of a character in the code pages.
type glyph struct {
	page uint8
	code byte
}

// fontSet is all code pages, the core page first.
type fontSet struct {
	pages      []codePage
	glyphs     map[rune]glyph
	embeddings map[string]*embedding // by the font's name
	capHeight  float64               // share of the type size
	lines      lineCache
}

// fonts returns the prepared fonts. It panics if they are damaged, because they
// are part of the program.
var fonts = sync.OnceValue(func() *fontSet {
	entries, err := fontFiles.ReadDir("fonts/cut")
	if err != nil {
		panic(err)
	}
	names := []string{corePage}
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), "-regular.json"); ok && name != corePage {
			names = append(names, name)
		}
	}
	set := &fontSet{glyphs: map[rune]glyph{}, embeddings: map[string]*embedding{}}
	for i, name := range names {
		page := codePage{family: name}
		for w, suffix := range [weightCount]string{"-regular", "-bold"} {
			d, base := &page.definition[w], "fonts/cut/"+name+suffix
			if err := json.Unmarshal(mustRead(base+".json"), d); err != nil {
				panic(base + ": " + err.Error())
			}
			page.file[w], page.standIn[w] = mustRead(base+".z"), d.standIn()
			set.embeddings[d.Name] = d.embedding(uint8(i), page.file[w])
			for code, width := range d.Cw {
				page.widths[w][code] = float64(width) / 1000
			}
		}
		set.pages = append(set.pages, page)
		for n, r := range []rune(page.definition[Regular].Chars) {
			if r != 0 {
				set.glyphs[r] = glyph{uint8(i), byte(firstCode + n)}
			}
		}
	}
	set.capHeight = float64(set.pages[0].definition[Bold].Desc.CapHeight) / 1000
	set.glyphs[noBreakSpace], set.glyphs[noBreakThinSpace] = set.glyphs[' '], set.glyphs[thinSpace]
	return set
})

func mustRead(name string) []byte {
	data, err := fontFiles.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return data
}

// run is a stretch of text from one code page.
type run struct {
	page  uint8
	codes string  // escaped, as in the contents of a page
	width float64 // share of the type size
}

// encode appends the runs of a text to runs.
func encode(runs []run, text string, w Weight) []run {
	set, codes := fonts(), make([]byte, 0, len(text)+8)
	var page uint8
	var width float64
	flush := func() {
		if len(codes) > 0 {
			runs = append(runs, run{page, string(codes), width})
			codes, width = codes[:0], 0
		}
	}
	for _, r := range text {
		g := set.glyph(r)
		if g.page != page {
			flush()
			page = g.page
		}
		switch g.code {
		case '\\', '(', ')':
			codes = append(codes, '\\')
		}
		codes = append(codes, g.code)
		width += set.pages[g.page].widths[w][g.code]
	}
	flush()
	return runs
}

// glyph returns the place of a character, or of the mark for a missing one.
func (f *fontSet) glyph(r rune) glyph {
	if r >= ' ' && r < 0x7f {
		return glyph{0, byte(r)}
	}
	if g, ok := f.glyphs[r]; ok {
		return g
	}
	return f.glyphs[missingMark]
}

// CutText cuts a text to width, a share of the type size, with an ellipsis.
func CutText(text string, w Weight, width float64) string {
	if TextWidth(text, w) <= width {
		return text
	}
	const more = "…"
	rest := width - TextWidth(more, w)
	for i, r := range text {
		if rest -= TextWidth(string(r), w); rest < 0 {
			return text[:i] + more
		}
	}
	return text
}

// TextWidth returns the width of a text as a share of the type size.
func TextWidth(text string, w Weight) float64 {
	set, total := fonts(), 0.0
	for _, r := range text {
		g := set.glyph(r)
		total += set.pages[g.page].widths[w][g.code]
	}
	return total
}

// Most of what a roster's pages say is said on many of them, and again where a
// page is laid out in several ways. So broken lines are cached.

// lineKey is what the lines of a text depend on.
type lineKey struct {
	text   string
	weight Weight
	width  float64
	marked bool // see BreakMarked
}

// The cache takes some megabytes at most. A longer text is someone's own.
const (
	linesCached     = 4096
	cachedBytesMost = 2000
)

// lineCache holds the lines of texts. It is safe for concurrent use.
type lineCache struct {
	mu    sync.RWMutex
	lines map[lineKey][]Line
}

// get returns the lines of a text and calls set for those not cached. The lines
// are shared: callers must not change them.
func (c *lineCache) get(key lineKey, set func() []Line) []Line {
	c.mu.RLock()
	lines, known := c.lines[key]
	c.mu.RUnlock()
	if known {
		return lines
	}
	lines = set()
	if len(key.text) > cachedBytesMost {
		return lines
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.lines == nil || len(c.lines) >= linesCached {
		c.lines = make(map[lineKey][]Line, linesCached)
	}
	c.lines[key] = lines
	return lines
}
