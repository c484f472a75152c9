package pdfreport

import "strings"

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

// line is one line of text, its spans set one after another.
type line struct {
	spans []span
	width float64 // share of the type size
}

// add appends text, joined to the last span if it has the same weight.
func (l *line) add(w weight, text string, width float64) {
	l.width += width
	if n := len(l.spans); n > 0 && l.spans[n-1].weight == w {
		l.spans[n-1].text += text
		return
	}
	l.spans = append(l.spans, span{w, text})
}

// plain is a text of one weight in which stars are only stars.
func plain(text string, w weight) []span { return []span{{w, text}} }

// breakLines sets text in lines no wider than width (a share of the type
// size). It breaks at spaces, and inside a word only where the word alone is
// wider than the line.
func (f *fontSet) breakLines(text []span, width float64) []line {
	var lines []line
	var current line
	type word struct{ parts []span }
	flush := func() {
		if len(current.spans) > 0 {
			lines = append(lines, current)
		}
		current = line{}
	}
	place := func(w word) {
		if len(w.parts) == 0 {
			return
		}
		var wide float64
		for _, p := range w.parts {
			wide += f.width(p.text, p.weight)
		}
		gap := 0.0
		if len(current.spans) > 0 {
			gap = f.width(" ", regular)
		}
		if current.width+gap+wide > width && len(current.spans) > 0 {
			flush()
			gap = 0
		}
		if gap > 0 {
			// The space goes with the word before it, so that words of one weight
			// stay one span.
			last := current.spans[len(current.spans)-1].weight
			current.add(last, " ", f.width(" ", last))
		}
		for _, p := range w.parts {
			if wide <= width {
				current.add(p.weight, p.text, f.width(p.text, p.weight))
				continue
			}
			for _, r := range p.text {
				letter := string(r)
				step := f.width(letter, p.weight)
				if current.width+step > width && len(current.spans) > 0 {
					flush()
				}
				current.add(p.weight, letter, step)
			}
		}
	}
	var w word
	for _, s := range text {
		for i, part := range strings.Split(s.text, " ") {
			if i > 0 {
				place(w)
				w = word{}
			}
			if part != "" {
				w.parts = append(w.parts, span{s.weight, part})
			}
		}
	}
	place(w)
	flush()
	return lines
}

// limitLines cuts a text to so many lines and shows that more followed.
func limitLines(lines []line, most int) []line {
	if len(lines) <= most {
		return lines
	}
	lines = lines[:most]
	lines[most-1].add(lines[most-1].spans[len(lines[most-1].spans)-1].weight, "…", 0)
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
			s.line(at, y+float64(i)*f.leading()+s.fonts.baseline(f), l, f)
		}
	}}
}

// baseline is how far under the top of its line a text stands.
func (f *fontSet) baseline(look face) float64 {
	const descent = 0.2
	return look.leading()/2 + look.size*(f.pages[0].capHeight/2+descent/4)
}

// bulletIndent is the indent of list items.
const bulletIndent = 11.0

// paragraphs sets words as they come from templates: a line a paragraph, list
// items with a small square.
func (f *fontSet) paragraphs(text string, look face, width float64) block {
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
			b = append(b, textPiece(f.breakLines(spans(p, look.weight), width/look.size), look, width, left))
			continue
		}
		lines := textPiece(f.breakLines(spans(item, look.weight), (width-bulletIndent)/look.size), look, width, left)
		b = append(b, piece{lines.height, func(s *sheet, x, y float64) {
			s.box(x+1, y+s.fonts.baseline(look)-look.size*0.47, 3.6, 3.6, petrol)
			lines.draw(s, x+bulletIndent, y)
		}})
	}
	return b
}

// fitting is a face small enough for the longest word of a text to stand in a
// width, as far as that can be read.
func (f *fontSet) fitting(text string, look face, width float64) face {
	for word := range strings.FieldsSeq(text) {
		if w := f.width(word, look.weight) * look.size; w > width {
			look.size = max(sizeFine, look.size*width/w-hair)
		}
	}
	return look
}
