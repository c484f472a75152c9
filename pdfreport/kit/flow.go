package kit

// Part is a block with its place in the order of reading.
type Part struct {
	Block Block
	// Early tells that the part may be read before those that precede it, to
	// fill the room that a taller one left at the foot of a page.
	Early bool
}

// Flow shares parts out over pages, in order, the first page and the further
// ones having the given heights and the parts at least gapLeast between them, and
// tells the gap between the parts of each page: where a page has room left, the
// gaps take some of it.
func Flow(parts []Part, first, further, gapLeast float64) (pages [][]Block, gaps []float64) {
	rest, height := parts, first
	for len(rest) > 0 {
		var page []Block
		var later []Part
		used := 0.0
		full := false
		for _, p := range rest {
			needs := p.Block.Height()
			if len(page) > 0 {
				needs += gapLeast
			}
			if (full && !p.Early) || (used+needs > height && len(page) > 0) {
				full = true
				later = append(later, p)
				continue
			}
			page = append(page, p.Block)
			used += needs
		}
		gap := gapLeast
		if len(page) > 1 && len(later) > 0 {
			gap = min(blockGapMost, gapLeast+(height-used)/float64(len(page)-1))
		}
		pages, gaps = append(pages, page), append(gaps, gap)
		rest, height = later, further
	}
	return pages, gaps
}
