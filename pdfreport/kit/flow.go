package kit

// Part is a block to be placed on a page.
type Part struct {
	Block Block
	// Early allows the part to precede those before it, to fill the foot of a
	// page.
	Early bool
}

// Flow places parts on pages in order, with at least gapLeast between them. first
// and further are the heights of the pages. It returns the gap for each page,
// which is wider where the page has space left.
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
