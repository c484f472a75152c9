package kit

import (
	"slices"
	"strings"
)

// Face is how a text looks.
type Face struct {
	Size   float64
	Weight Weight
	Colour Colour
	Dense  bool // lines closer together, for lists that few will read
}

var (
	BodyFace    = Face{Size: SizeBody, Colour: Ink}
	SmallFace   = Face{Size: SizeSmall, Colour: Soft}
	SourceFace  = Face{Size: SizeSmall, Colour: Soft, Dense: true}
	HeadingFace = Face{Size: SizeHeading, Weight: Bold, Colour: Petrol}
)

func (f Face) In(c Colour) Face     { f.Colour = c; return f }
func (f Face) With(w Weight) Face   { f.Weight = w; return f }
func (f Face) At(size float64) Face { f.Size = size; return f }

// Leading is the height of a line.
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

// Column is a block set beside others.
type Column struct {
	Offset float64 // from the left edge of the whole
	Block  Block
}

// At is a column with its offset.
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

// spans parts a text at its **bold** marks. A mark without its partner is
// printed as it stands.
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
		w := base
		if i%2 == 1 {
			w = Bold
		}
		all = append(all, span{w, part})
	}
	return all
}

// Line is one line of text, its stretches set one after another.
type Line struct {
	spans []inkSpan
	Width float64 // share of the type size
}

// inkSpan is a span with what is drawn for it.
type inkSpan struct {
	span
	runs []run
}

func inkOf(text string, w Weight) inkSpan {
	return inkSpan{span{w, text}, encode(nil, text, w)}
}

// OneLine sets a text of one weight in a line, however wide.
func OneLine(text string, w Weight) Line {
	return Line{[]inkSpan{inkOf(text, w)}, TextWidth(text, w)}
}

// BreakLines sets a text of one weight, in which stars are only stars, in lines no
// wider than width (a share of the type size). It breaks at spaces, and inside a
// word only where the word alone is wider than the line. The lines are shared, so
// they are not to be changed.
func BreakLines(text string, w Weight, width float64) []Line {
	return fonts().lines.of(setting{text, w, width, false}, func() []Line { return breakSpans([]span{{w, text}}, width) })
}

// BreakMarked is breakLines for a text with **bold** marks.
func BreakMarked(text string, base Weight, width float64) []Line {
	return fonts().lines.of(setting{text, base, width, true}, func() []Line { return breakSpans(spans(text, base), width) })
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

// stretch is a piece of text with its width as a share of the type size.
type stretch struct {
	span
	width float64
}

// breaker sets lines, a word at a time.
type breaker struct {
	width float64 // of the lines
	lines []Line
	word  []stretch // the next one, which may be of several weights

	current Line   // without
	weight  Weight // the stretch at its end, which
	letters []byte // still grows
}

// place puts the word into the line, or the next one.
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
		// The space goes with the word before it, so that words of one weight
		// stay one span.
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

// fresh tells that nothing stands in the line yet.
func (b *breaker) fresh() bool { return len(b.letters) == 0 }

// add appends text to the line, to the stretch at its end if it has the same
// weight.
func (b *breaker) add(w Weight, text string, width float64) {
	if w != b.weight {
		b.close()
		b.weight = w
	}
	b.letters = append(b.letters, text...)
	b.current.Width += width
}

// close ends the stretch at the end of the line.
func (b *breaker) close() {
	if len(b.letters) > 0 {
		b.current.spans = append(b.current.spans, inkOf(string(b.letters), b.weight))
		b.letters = b.letters[:0]
	}
}

// flush ends the line.
func (b *breaker) flush() {
	b.close()
	if len(b.current.spans) > 0 {
		b.lines = append(b.lines, b.current)
	}
	b.current = Line{}
}

// LimitLines cuts a text to so many lines and shows that more followed.
func LimitLines(lines []Line, most int) []Line {
	if len(lines) <= most {
		return lines
	}
	lines = slices.Clone(lines[:most]) // what comes from breakLines is shared
	end := &lines[most-1]
	end.spans = slices.Clone(end.spans)
	last := &end.spans[len(end.spans)-1]
	*last = inkOf(last.text+"…", last.weight)
	return lines
}

// align says how lines stand in their width.
type align uint8

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

// Baseline is how far under the top of its line a text stands.
func (f Face) Baseline() float64 {
	const descent = 0.2
	return f.Leading()/2 + f.Size*(fonts().pages[0].capHeight/2+descent/4)
}

// bulletIndent is the indent of list items.
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

// Largest is a face in the first of the sizes, falling, in which a text stands in
// a width on one line; in the last of them if it does in none.
func Largest(text string, look Face, width float64, sizes ...float64) Face {
	for _, look.Size = range sizes {
		if TextWidth(text, look.Weight)*look.Size <= width {
			break
		}
	}
	return look
}

// Fitting is a face small enough for the longest word of a text to stand in a
// width, as far as that can be read.
func Fitting(text string, look Face, width float64) Face {
	for word := range strings.FieldsSeq(text) {
		if w := TextWidth(word, look.Weight) * look.Size; w > width {
			look.Size = max(SizeFine, look.Size*width/w-Hair)
		}
	}
	return look
}

// Hair keeps a width that just fits from being a little too small.
const Hair = 0.01
