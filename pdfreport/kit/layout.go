package kit

import (
	"slices"
	"strings"
)

// Face is the look of a text.
type Face struct {
	Size   float64
	Weight Weight
	Colour Colour
	Dense  bool // lines closer together
}

// BodyFace and the others are the faces of reports.
var (
	BodyFace    = Face{Size: SizeBody, Colour: Ink}
	SmallFace   = Face{Size: SizeSmall, Colour: Soft}
	SourceFace  = Face{Size: SizeSmall, Colour: Soft, Dense: true}
	HeadingFace = Face{Size: SizeHeading, Weight: Bold, Colour: Petrol}
)

// In returns f in a colour.
func (f Face) In(c Colour) Face { f.Colour = c; return f }

// With returns f in a weight.
func (f Face) With(w Weight) Face { f.Weight = w; return f }

// At returns f in a size.
func (f Face) At(size float64) Face { f.Size = size; return f }

// Leading returns the height of a line.
func (f Face) Leading() float64 {
	if f.Dense {
		return f.Size * denseLeading
	}
	return f.Size * leading
}

// Block is what a page break must not part: pieces one under another. The nil
// Block is empty.
type Block []piece

type piece struct {
	height float64
	draw   func(s *Sheet, x, y float64) // nil for nothing
}

// Draw returns a block of the given height.
func Draw(height float64, draw func(s *Sheet, x, y float64)) Block { return Block{{height, draw}} }

// Space returns an empty block of the given height.
func Space(height float64) Block { return Draw(height, nil) }

// Stack returns blocks one under another as one.
func Stack(blocks ...Block) Block { return slices.Concat(blocks...) }

// Height returns the height in points.
func (b Block) Height() float64 {
	var sum float64
	for _, p := range b {
		sum += p.height
	}
	return sum
}

// Draw draws b with its top left corner at x, y.
func (b Block) Draw(s *Sheet, x, y float64) {
	for _, p := range b {
		if p.draw != nil {
			p.draw(s, x, y)
		}
		y += p.height
	}
}

// Column is a block beside others.
type Column struct {
	Offset float64 // from the left edge
	Block  Block
}

// At returns a column.
func At(offset float64, b Block) Column { return Column{offset, b} }

// Beside sets blocks side by side.
func Beside(columns ...Column) Block {
	var height float64
	for _, c := range columns {
		height = max(height, c.Block.Height())
	}
	return Draw(height, func(s *Sheet, x, y float64) {
		for _, c := range columns {
			c.Block.Draw(s, x+c.Offset, y)
		}
	})
}

// span is a stretch of text of one weight.
type span struct {
	weight Weight
	text   string
}

// spans splits a text at its **bold** marks. A mark without its partner is
// printed.
func spans(text string, base Weight) []span {
	parts := strings.Split(text, "**")
	if len(parts)%2 == 0 {
		last := len(parts) - 1
		parts[last-1] += "**" + parts[last]
		parts = parts[:last]
	}
	var all []span
	for i, part := range parts {
		if part == "" {
			continue
		}
		w := Pick(i%2 == 1, Bold, base)
		all = append(all, span{w, part})
	}
	return all
}

// Line is one line of text.
type Line struct {
	spans []inkSpan
	Width float64 // share of the type size
}

// inkSpan is a span and what is drawn for it.
type inkSpan struct {
	span
	runs []run
}

func inkOf(text string, w Weight) inkSpan {
	return inkSpan{span{w, text}, encode(nil, text, w)}
}

// OneLine sets a text of one weight on one line, however wide.
func OneLine(text string, w Weight) Line {
	return Line{[]inkSpan{inkOf(text, w)}, TextWidth(text, w)}
}

// BreakLines breaks a text of one weight into lines no wider than width, a share
// of the type size. It breaks inside a word only where the word alone is too
// wide. Callers must not change the lines, because they are cached.
func BreakLines(text string, w Weight, width float64) []Line {
	return fonts().lines.get(lineKey{text, w, width, false}, func() []Line { return breakSpans([]span{{w, text}}, width) })
}

// BreakMarked is BreakLines for a text with **bold** marks.
func BreakMarked(text string, base Weight, width float64) []Line {
	return fonts().lines.get(lineKey{text, base, width, true}, func() []Line { return breakSpans(spans(text, base), width) })
}

func breakSpans(text []span, width float64) []Line {
	b := breaker{width: width}
	for _, s := range text {
		first := true
		for part := range strings.SplitSeq(s.text, " ") {
			if !first {
				b.place()
			}
			first = false
			if part != "" {
				b.word = append(b.word, stretch{span{s.weight, part}, TextWidth(part, s.weight)})
			}
		}
	}
	b.place()
	b.flush()
	return b.lines
}

// stretch is a span and its width, a share of the type size.
type stretch struct {
	span
	width float64
}

// breaker sets lines, a word at a time.
type breaker struct {
	width float64 // of the lines
	lines []Line
	word  []stretch // next; may be of several weights

	current Line   // without letters
	weight  Weight // of letters
	letters []byte // end of the current line, still growing
}

// place adds the word to the line, or to the next one.
func (b *breaker) place() {
	if len(b.word) == 0 {
		return
	}
	var wide float64
	for _, p := range b.word {
		wide += p.width
	}
	gap := 0.0
	if !b.fresh() {
		gap = TextWidth(" ", Regular)
	}
	if b.current.Width+gap+wide > b.width && !b.fresh() {
		b.flush()
		gap = 0
	}
	if gap > 0 {
		// The space goes with the word before it, to keep words of one weight
		// in one span.
		b.add(b.weight, " ", TextWidth(" ", b.weight))
	}
	for _, p := range b.word {
		if wide <= b.width {
			b.add(p.weight, p.text, p.width)
			continue
		}
		for _, r := range p.text {
			letter := string(r)
			step := TextWidth(letter, p.weight)
			if b.current.Width+step > b.width && !b.fresh() {
				b.flush()
			}
			b.add(p.weight, letter, step)
		}
	}
	b.word = b.word[:0]
}

// fresh reports whether the line is empty.
func (b *breaker) fresh() bool { return len(b.letters) == 0 }

// add appends text to the line, in the span at its end if that has the same
// weight.
func (b *breaker) add(w Weight, text string, width float64) {
	if w != b.weight {
		b.close()
		b.weight = w
	}
	b.letters = append(b.letters, text...)
	b.current.Width += width
}

// close ends the span at the end of the line.
func (b *breaker) close() {
	if len(b.letters) > 0 {
		b.current.spans = append(b.current.spans, inkOf(string(b.letters), b.weight))
		b.letters = b.letters[:0]
	}
}

func (b *breaker) flush() {
	b.close()
	if len(b.current.spans) > 0 {
		b.lines = append(b.lines, b.current)
	}
	b.current = Line{}
}

// LimitLines cuts lines to most, with an ellipsis.
func LimitLines(lines []Line, most int) []Line {
	if len(lines) <= most {
		return lines
	}
	lines = slices.Clone(lines[:most]) // cached lines are shared
	end := &lines[most-1]
	end.spans = slices.Clone(end.spans)
	last := &end.spans[len(end.spans)-1]
	*last = inkOf(last.text+"…", last.weight)
	return lines
}

// align is how lines are placed in their width.
type align uint8

// Left and Centre are alignments of lines.
const (
	Left align = iota
	Centre
)

// Lines sets lines one under another.
func Lines(lines []Line, f Face, width float64, a align) Block {
	return Draw(float64(len(lines))*f.Leading(), func(s *Sheet, x, y float64) {
		for i, l := range lines {
			at := x
			if a == Centre {
				at += (width - l.Width*f.Size) / 2
			}
			s.Line(at, y+float64(i)*f.Leading()+f.Baseline(), l, f)
		}
	})
}

// Baseline returns the distance from the top of a line to its baseline.
func (f Face) Baseline() float64 {
	const descent = 0.2
	return f.Leading()/2 + f.Size*(fonts().capHeight/2+descent/4)
}

const bulletIndent = 11.0

// Paragraphs sets words as they come from templates: a line a paragraph, list
// items with a small square.
func Paragraphs(text string, look Face, width float64) Block {
	var b Block
	if text == "" {
		return nil
	}
	for i, p := range strings.Split(text, "\n") {
		if i > 0 {
			b = Stack(b, Space(look.Size*0.38))
		}
		item, isItem := strings.CutPrefix(p, "- ")
		if !isItem {
			b = Stack(b, Lines(BreakMarked(p, look.Weight, width/look.Size), look, width, Left))
			continue
		}
		lines := Lines(BreakMarked(item, look.Weight, (width-bulletIndent)/look.Size), look, width, Left)
		b = Stack(b, Draw(lines.Height(), func(s *Sheet, x, y float64) {
			s.Box(x+1, y+look.Baseline()-look.Size*0.47, 3.6, 3.6, Petrol)
			lines.Draw(s, x+bulletIndent, y)
		}))
	}
	return b
}

// Largest returns look in the first of the falling sizes at which text fits on
// one line, or else in the last.
func Largest(text string, look Face, width float64, sizes ...float64) Face {
	for _, look.Size = range sizes {
		if TextWidth(text, look.Weight)*look.Size <= width {
			break
		}
	}
	return look
}

// Fitting returns look in a size at which the longest word of text fits, or in
// the finest.
func Fitting(text string, look Face, width float64) Face {
	for word := range strings.FieldsSeq(text) {
		if w := TextWidth(word, look.Weight) * look.Size; w > width {
			look.Size = max(SizeFine, look.Size*width/w-Hair)
		}
	}
	return look
}

// Hair makes up for rounding where a text just fits.
const Hair = 0.01
