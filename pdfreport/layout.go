package pdfreport

import (
	"slices"
	"strings"
)

// face is how a text looks.
type face struct {
	size   float64
	weight weight
	colour colour
	dense  bool // lines closer together, for lists that few will read
}

var (
	bodyFace    = face{size: sizeBody, colour: ink}
	smallFace   = face{size: sizeSmall, colour: soft}
	sourceFace  = face{size: sizeSmall, colour: soft, dense: true}
	headingFace = face{size: sizeHeading, weight: bold, colour: petrol}
)

func (f face) in(c colour) face     { f.colour = c; return f }
func (f face) with(w weight) face   { f.weight = w; return f }
func (f face) at(size float64) face { f.size = size; return f }

// leading is the height of a line.
func (f face) leading() float64 {
	if f.dense {
		return f.size * denseLeading
	}
	return f.size * leading
}

// piece is something of known height that can be drawn at a place.
type piece struct {
	height float64
	draw   func(s *sheet, x, y float64)
}

// block is what must not be parted by a page break: pieces one under another.
type block []piece

func (b block) height() float64 {
	var sum float64
	for _, p := range b {
		sum += p.height
	}
	return sum
}

func (b block) draw(s *sheet, x, y float64) {
	for _, p := range b {
		if p.draw != nil {
			p.draw(s, x, y)
		}
		y += p.height
	}
}

// space is an empty piece.
func space(height float64) piece { return piece{height: height} }

// column is a block set beside others.
type column struct {
	offset float64 // from the left edge of the whole
	block  block
}

// beside sets blocks side by side.
func beside(columns ...column) piece {
	var height float64
	for _, c := range columns {
		height = max(height, c.block.height())
	}
	return piece{height, func(s *sheet, x, y float64) {
		for _, c := range columns {
			c.block.draw(s, x+c.offset, y)
		}
	}}
}

// span is a stretch of text of one weight.
type span struct {
	weight weight
	text   string
}

// spans parts a text at its **bold** marks. A mark without its partner is
// printed as it stands.
func spans(text string, base weight) []span {
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
			w = bold
		}
		all = append(all, span{w, part})
	}
	return all
}

// line is one line of text, its stretches set one after another.
type line struct {
	spans []inkSpan
	width float64 // share of the type size
}

// inkSpan is a span with what is drawn for it.
type inkSpan struct {
	span
	runs []run
}

func inkOf(text string, w weight) inkSpan {
	return inkSpan{span{w, text}, encode(nil, text, w)}
}

// oneLine sets a text of one weight in a line, however wide.
func oneLine(text string, w weight) line {
	return line{[]inkSpan{inkOf(text, w)}, textWidth(text, w)}
}

// breakLines sets a text of one weight, in which stars are only stars, in lines no
// wider than width (a share of the type size). It breaks at spaces, and inside a
// word only where the word alone is wider than the line. The lines are shared, so
// they are not to be changed.
func breakLines(text string, w weight, width float64) []line {
	return fonts().lines.of(setting{text, w, width, false}, func() []line { return breakSpans([]span{{w, text}}, width) })
}

// breakMarked is breakLines for a text with **bold** marks.
func breakMarked(text string, base weight, width float64) []line {
	return fonts().lines.of(setting{text, base, width, true}, func() []line { return breakSpans(spans(text, base), width) })
}

func breakSpans(text []span, width float64) []line {
	b := breaker{width: width}
	for _, s := range text {
		first := true
		for part := range strings.SplitSeq(s.text, " ") {
			if !first {
				b.place()
			}
			first = false
			if part != "" {
				b.word = append(b.word, stretch{span{s.weight, part}, textWidth(part, s.weight)})
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
	lines []line
	word  []stretch // the next one, which may be of several weights

	current line   // without
	weight  weight // the stretch at its end, which
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
		gap = textWidth(" ", regular)
	}
	if b.current.width+gap+wide > b.width && !b.fresh() {
		b.flush()
		gap = 0
	}
	if gap > 0 {
		// The space goes with the word before it, so that words of one weight
		// stay one span.
		b.add(b.weight, " ", textWidth(" ", b.weight))
	}
	for _, p := range b.word {
		if wide <= b.width {
			b.add(p.weight, p.text, p.width)
			continue
		}
		for _, r := range p.text {
			letter := string(r)
			step := textWidth(letter, p.weight)
			if b.current.width+step > b.width && !b.fresh() {
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
func (b *breaker) add(w weight, text string, width float64) {
	if w != b.weight {
		b.close()
		b.weight = w
	}
	b.letters = append(b.letters, text...)
	b.current.width += width
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
	b.current = line{}
}

// limitLines cuts a text to so many lines and shows that more followed.
func limitLines(lines []line, most int) []line {
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
	left align = iota
	centre
)

// textPiece sets lines one under another.
func textPiece(lines []line, f face, width float64, a align) piece {
	return piece{float64(len(lines)) * f.leading(), func(s *sheet, x, y float64) {
		for i, l := range lines {
			at := x
			if a == centre {
				at += (width - l.width*f.size) / 2
			}
			s.line(at, y+float64(i)*f.leading()+f.baseline(), l, f)
		}
	}}
}

// baseline is how far under the top of its line a text stands.
func (f face) baseline() float64 {
	const descent = 0.2
	return f.leading()/2 + f.size*(fonts().pages[0].capHeight/2+descent/4)
}

// bulletIndent is the indent of list items.
const bulletIndent = 11.0

// paragraphs sets words as they come from templates: a line a paragraph, list
// items with a small square.
func paragraphs(text string, look face, width float64) block {
	var b block
	if text == "" {
		return nil
	}
	for i, p := range strings.Split(text, "\n") {
		if i > 0 {
			b = append(b, space(look.size*0.38))
		}
		item, isItem := strings.CutPrefix(p, "- ")
		if !isItem {
			b = append(b, textPiece(breakMarked(p, look.weight, width/look.size), look, width, left))
			continue
		}
		lines := textPiece(breakMarked(item, look.weight, (width-bulletIndent)/look.size), look, width, left)
		b = append(b, piece{lines.height, func(s *sheet, x, y float64) {
			s.box(x+1, y+look.baseline()-look.size*0.47, 3.6, 3.6, petrol)
			lines.draw(s, x+bulletIndent, y)
		}})
	}
	return b
}

// largest is a face in the first of the sizes, falling, in which a text stands in
// a width on one line; in the last of them if it does in none.
func largest(text string, look face, width float64, sizes ...float64) face {
	for _, look.size = range sizes {
		if textWidth(text, look.weight)*look.size <= width {
			break
		}
	}
	return look
}

// fitting is a face small enough for the longest word of a text to stand in a
// width, as far as that can be read.
func fitting(text string, look face, width float64) face {
	for word := range strings.FieldsSeq(text) {
		if w := textWidth(word, look.weight) * look.size; w > width {
			look.size = max(sizeFine, look.size*width/w-hair)
		}
	}
	return look
}
