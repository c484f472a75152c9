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

// StretchesOf splits people into stretches with the same key.
func StretchesOf[P any](people []P, key func(P) string) [][]P {
	var all [][]P
	from := 0
	for i := range people {
		if i+1 == len(people) || key(people[i]) != key(people[i+1]) {
			all, from = append(all, people[from:i+1]), i+1
		}
	}
	return all
}

// EachOnce reports whether no two stretches have the same key.
func EachOnce[P any](stretches [][]P, key func(P) string) bool {
	seen := map[string]bool{}
	for _, s := range stretches {
		if seen[key(s[0])] {
			return false
		}
		seen[key(s[0])] = true
	}
	return true
}
