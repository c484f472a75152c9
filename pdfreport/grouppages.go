package pdfreport

// passage is a part of the summary. Its rows may be parted by a page break; what
// precedes them, the head, may not, nor what follows them. On a further page the
// rows stand under again.
type passage struct {
	head  block
	rows  []piece
	again block
	foot  block
}

func (s passage) empty() bool { return len(s.head) == 0 }

// block is the passage in one piece, from a row on.
func (s passage) block(from, to int) block {
	var b block
	if from == 0 {
		b = append(b, s.head...)
	} else {
		b = append(b, s.again...)
	}
	b = append(b, s.rows[from:to]...)
	if to == len(s.rows) {
		b = append(b, s.foot...)
	}
	return b
}

const (
	// A passage is parted only with so many rows on each side, or where it is
	// higher than a page.
	rowsTogether = 3
	// roomToLeave is the share of a page that may stay empty at its foot so that
	// a passage stays whole.
	roomToLeave = 0.15
	passageGap  = 15.0
)

// pour sets passages on pages of the given height, in order. A passage that would
// leave little room empty goes to the next page as a whole.
func (c *groupComposer) pour(passages []passage, height float64) []block {
	var pages []block
	var page block
	turn := func() {
		pages, page = append(pages, page), nil
	}
	room := func() float64 {
		rest := height - page.height()
		if len(pages) > 0 {
			rest -= continuedHeight
		}
		if len(page) > 0 {
			rest -= passageGap
		}
		return rest
	}
	put := func(b block) {
		if len(page) > 0 {
			page = append(page, space(passageGap))
		}
		page = append(page, b...)
	}
	for _, p := range passages {
		last := len(p.rows)
		for from := 0; ; {
			if whole := p.block(from, last); whole.height() <= room() || len(page) == 0 && last-from <= rowsTogether {
				put(whole)
				break
			}
			to := from
			for to < last && p.block(from, to+1).height() <= room() {
				to++
			}
			to = min(to, last-rowsTogether)
			fitsOne := from == 0 && p.block(0, last).height() <= height-continuedHeight
			if to-from < rowsTogether && len(page) == 0 {
				to = from + rowsTogether // nothing is gained by another page
			}
			if to-from >= rowsTogether && !(fitsOne && room() < roomToLeave*height) {
				put(p.block(from, to))
				from = to
			}
			turn()
		}
	}
	return append(pages, page)
}
