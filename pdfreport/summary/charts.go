package summary

import (
	"fmt"
	"math"
	"strconv"

	"tenback/pdfreport/kit"
	"tenback/scoring/group"
)

// Dimensions of the charts, in points.
const (
	rowLabel      = 150.0 // names of rows
	rowHeight     = 15.0
	rowPadding    = 4.5 // of a row with a long name
	rowLinesMost  = 3
	barHeight     = 8.5
	chartGap      = 8.0
	numberWidth   = 38.0
	sidesWidth    = 54.0 // a count with its share
	quartileWidth = 42.0
	ticksMost     = 8
	swatch        = 6.5
	stripLabelGap = 9.0
)

var (
	rowFace    = kit.Face{Size: 8.6, Colour: kit.Ink, Dense: true}
	columnFace = kit.Face{Size: kit.SizeSmall, Colour: kit.Soft, Dense: true}
)

// rowOf sets a row of a chart: its name at the left, and draw beside it around
// the middle line.
func (c *summary) rowOf(l group.Label, width float64, look kit.Face, draw func(s *kit.Sheet, x, middle float64)) kit.Block {
	name := kit.Lines(c.short(l, look, width, rowLinesMost), look, width, kit.Left)
	height := max(rowHeight, name.Height()+rowPadding)
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		name.Draw(s, x, y+(height-name.Height())/2)
		draw(s, x, y+height/2)
	})
}

// onRow returns the baseline of a text around a middle line.
func onRow(middle float64, look kit.Face) float64 {
	return middle - look.Leading()/2 + look.Baseline()
}

// countTable is a table of counts in a width.
type countTable struct {
	*summary
	*group.Table
	width float64
}

// rows have a bar, the people and their share.
func (t countTable) rows() []kit.Block {
	c, width := t.summary, t.width
	label := rowLabel
	if width < c.Width { // beside another table
		label = 0
		for _, l := range t.Rows {
			label = max(label, kit.TextWidth(c.label(l), rowFace.Weight)*rowFace.Size+1)
		}
		label = min(label, 0.45*width)
	}
	most := 1
	for _, row := range t.Cells[:len(t.Cells)-1] {
		most = max(most, row[0].Count)
	}
	room := width - label - 2*chartGap - 2*numberWidth
	var rows []kit.Block
	for i, l := range t.Rows {
		if i == 1 && len(t.Rows) == 2 {
			break // one row has it all
		}
		cell := t.Cells[i][0]
		isTotal := i == len(t.Rows)-1
		look := kit.Pick(isTotal, rowFace.With(kit.Bold), rowFace)
		count, share := strconv.Itoa(cell.Count), c.share(cell)
		if !cell.Shown {
			count, share = "", c.Say("summary.hidden", nil)
			if !isTotal {
				share = c.Say("summary.small.cell", kit.Words{"Smallest": c.Summary.Smallest})
			}
		}
		nameWidth := kit.Pick(t.ID == group.PeopleTable, 2*label, label)
		rows = append(rows, c.rowOf(l, nameWidth, look, func(s *kit.Sheet, x, middle float64) {
			if isTotal {
				s.Rule(x, middle-rowHeight/2, x+width, middle-rowHeight/2, kit.Hairline, 0.6)
			} else if cell.Shown && t.ID != group.PeopleTable {
				s.Box(x+label+chartGap, middle-barHeight/2, room*float64(cell.Count)/float64(most), barHeight, kit.GroupTones[2])
			}
			s.WriteRight(x+width-numberWidth, onRow(middle, look), count, look)
			s.WriteRight(x+width, onRow(middle, look), share, look.In(kit.Soft))
		}))
	}
	return rows
}

// head names the columns.
func (t countTable) head() kit.Block {
	width := t.width
	people, share := t.Say("summary.column.people", nil), t.Say("summary.column.share", nil)
	return kit.Draw(columnFace.Leading()+2, func(s *kit.Sheet, x, y float64) {
		base := y + columnFace.Baseline()
		s.WriteRight(x+width-numberWidth, base, people, columnFace)
		s.WriteRight(x+width, base, share, columnFace)
	})
}

// sideTones are the tones of the two columns of a crossed table, far apart in
// lightness.
var sideTones = [2]kit.Colour{kit.GroupTones[1], kit.GroupTones[3]}

// sideTable is a table with two columns.
type sideTable struct {
	*summary
	*group.Table
}

// rows have a bar with the counts of both columns at its ends.
func (t sideTable) rows() []kit.Block {
	c := t.summary
	from := rowLabel + chartGap + sidesWidth
	to := c.Width - numberWidth - sidesWidth
	var rows []kit.Block
	for i, l := range t.Rows {
		cells := t.Cells[i]
		isTotal := i == len(t.Rows)-1
		look := kit.Pick(isTotal, rowFace.With(kit.Bold), rowFace)
		with := func(cell group.Cell) string { return fmt.Sprintf("%d · %s", cell.Count, c.share(cell)) }
		texts := [2]string{with(cells[0]), with(cells[1])}
		part := float64(cells[0].Count) / float64(max(1, cells[0].Count+cells[1].Count))
		rows = append(rows, c.rowOf(l, rowLabel, look, func(s *kit.Sheet, x, middle float64) {
			if isTotal {
				s.Rule(x, middle-rowHeight/2, x+c.Width, middle-rowHeight/2, kit.Hairline, 0.6)
			}
			at := from + part*(to-from)
			s.Box(x+from, middle-barHeight/2, at-from, barHeight, sideTones[0])
			s.Box(x+at, middle-barHeight/2, to-at, barHeight, sideTones[1])
			s.Rule(x+at, middle-barHeight/2, x+at, middle+barHeight/2, kit.White, 1)
			s.WriteRight(x+from-5, onRow(middle, look), texts[0], look)
			s.Write(x+to+5, onRow(middle, look), texts[1], look)
			s.WriteRight(x+c.Width, onRow(middle, look), strconv.Itoa(cells[2].Count), look)
		}))
	}
	return rows
}

// head names the two columns over the ends of the bars.
func (t sideTable) head() kit.Block {
	c := t.summary
	from, to := rowLabel+chartGap, c.Width-numberWidth
	room := (to-from)/2 - swatch - 4 - chartGap
	one := c.short(t.Columns[0], columnFace.In(kit.Ink), room, 2)
	other := c.short(t.Columns[1], columnFace.In(kit.Ink), room, 2)
	all := c.label(t.Columns[2])
	lines := float64(max(len(one), len(other)))
	height := lines*columnFace.Leading() + 3
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		middle := y + columnFace.Leading()/2 - swatch/2
		s.Box(x+from, middle, swatch, swatch, sideTones[0])
		kit.Lines(one, columnFace.In(kit.Ink), room, kit.Left).Draw(s, x+from+swatch+4, y)
		s.Box(x+to-swatch, middle, swatch, swatch, sideTones[1])
		for i, l := range other {
			s.Line(x+to-swatch-4-l.Width*columnFace.Size, y+float64(i)*columnFace.Leading()+columnFace.Baseline(), l, columnFace.In(kit.Ink))
		}
		s.WriteRight(x+c.Width, y+columnFace.Baseline(), all, columnFace)
	})
}

// stripOf draws the counts of a table as a strip with a field for each row, and
// names, counts and shares under it.
func (c *summary) stripOf(t *group.Table, tones []kit.Colour) kit.Block {
	n := len(t.Rows) - 1
	total := 0.0
	for _, row := range t.Cells[:n] {
		total += float64(row[0].Count)
	}
	look := rowFace
	natural := float64(n-1) * stripLabelGap
	for _, l := range t.Rows[:n] {
		natural += kit.TextWidth(c.label(l), look.Weight) * look.Size
	}
	room := c.Width // of a name
	if natural > c.Width {
		room = (c.Width - float64(n-1)*stripLabelGap) / float64(n)
	}
	var names [][]kit.Line
	var places []kit.Label
	var edges []float64
	at, tallest := 0.0, 1
	for i, l := range t.Rows[:n] {
		cell := t.Cells[i][0]
		next := at + float64(cell.Count)/total*c.Width
		lines := c.short(l, look, room, rowLinesMost)
		numbers := fmt.Sprintf("%d · %s", cell.Count, c.share(cell))
		wide := kit.TextWidth(numbers, kit.Bold) * look.Size
		for _, l := range lines {
			wide = max(wide, l.Width*look.Size)
		}
		names, tallest = append(names, lines), max(tallest, len(lines))
		places = append(places, kit.Label{At: (at + next) / 2, Width: wide, Text: numbers, Face: look.With(kit.Bold)})
		edges = append(edges, next)
		at = next
	}
	centres := make([]float64, n)
	for i := range places {
		centres[i] = places[i].At
	}
	places = kit.Spread(places, stripLabelGap, c.Width)
	const lead = 8.0
	height := kit.StripHeight + lead + float64(tallest+1)*look.Leading() + 2
	return kit.Draw(height, func(s *kit.Sheet, x, y float64) {
		from := 0.0
		for i, to := range edges {
			s.Box(x+from, y, to-from, kit.StripHeight, tones[i])
			if tones[i] == kit.White {
				s.Frame(x+from+0.4, y+0.4, to-from-0.8, kit.StripHeight-0.8, kit.Hairline, 0.8)
			}
			if i > 0 {
				s.Rule(x+from, y, x+from, y+kit.StripHeight, kit.White, 1)
			}
			s.Rule(x+centres[i], y+kit.StripHeight, x+centres[i], y+kit.StripHeight+2.5, kit.Soft, 0.6)
			s.Rule(x+centres[i], y+kit.StripHeight+2.5, x+places[i].At, y+kit.StripHeight+lead-1, kit.Soft, 0.6)
			from = to
		}
		for i, place := range places {
			top := y + kit.StripHeight + lead
			s.WriteCentred(x+place.At, top+look.Baseline(), place.Text, place.Face)
			for k, l := range names[i] {
				s.Line(x+place.At-l.Width*look.Size/2, top+float64(k+1)*look.Leading()+look.Baseline(), l, look)
			}
		}
	})
}

// mixed returns the tone of fields taken together.
func mixed(all []kit.Colour) kit.Colour {
	var r, g, b int
	for _, t := range all {
		r, g, b = r+t.R, g+t.G, b+t.B
	}
	n := len(all)
	return kit.Colour{R: r / n, G: g / n, B: b / n}
}

// valueAxis spans the figures, between whole steps.
func valueAxis(figures []group.Figure, width float64) (a kit.Axis, step float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range figures {
		for _, v := range quartiles(f) {
			if v.Shown {
				lo, hi = min(lo, v.Amount), max(hi, v.Amount)
			}
		}
	}
	for _, step = range []float64{5, 10, 20, 50} {
		a = kit.Axis{Lo: step * math.Floor((lo-1)/step), Hi: step * math.Ceil((hi+1)/step), Width: width}
		if (a.Hi-a.Lo)/step < ticksMost {
			break
		}
	}
	return a, step
}

// figureChart has a row for each figure.
type figureChart struct {
	*summary
	axis kit.Axis
	step float64
	from float64 // left edge of the axis
}

func newFigureChart(c *summary, figures []group.Figure) figureChart {
	from := rowLabel + chartGap
	a, step := valueAxis(figures, c.Width-from-4*quartileWidth-chartGap)
	return figureChart{c, a, step, from}
}

// head names the columns and writes the axis.
func (f figureChart) head() kit.Block {
	c := f.summary
	var heads []kit.Block
	for _, key := range []string{"people", "lower", "median", "upper"} {
		text := c.Say("summary.column."+key, nil)
		look := kit.Fitting(text, columnFace, quartileWidth-2)
		heads = append(heads, kit.Lines(kit.BreakLines(text, kit.Regular, (quartileWidth-2)/look.Size), look, quartileWidth, kit.Centre))
	}
	height := 0.0
	for _, h := range heads {
		height = max(height, h.Height())
	}
	return kit.Draw(height+3, func(s *kit.Sheet, x, y float64) {
		for v := f.axis.Lo; v <= f.axis.Hi; v += f.step {
			s.WriteCentred(x+f.from+f.axis.At(v), y+height-columnFace.Leading()+columnFace.Baseline(), c.Language.Number(v, 0), columnFace)
		}
		for i, h := range heads {
			h.Draw(s, x+c.Width-float64(len(heads)-i)*quartileWidth, y+height-h.Height())
		}
	})
}

// quartiles returns those of a figure with the median, rising.
func quartiles(f group.Figure) [3]group.Value {
	return [...]group.Value{f.LowerQuartile, f.Median, f.UpperQuartile}
}

// drawable reports whether a figure has more than one number to draw.
func drawable(f group.Figure) bool {
	n := 0
	for _, v := range quartiles(f) {
		if v.Shown {
			n++
		}
	}
	return n > 1
}

// row draws the middle half as a bar and the median as a line, as far as they are
// shown. With one quartile it draws a thin line to the median.
func (f figureChart) row(fig group.Figure, parted bool) kit.Block {
	c := f.summary
	look := kit.Pick(fig.Of.Key == group.AllKey, rowFace.With(kit.Bold), rowFace)
	texts := [4]string{hiddenFigure, hiddenFigure, hiddenFigure, hiddenFigure}
	if fig.People.Shown {
		texts[0] = strconv.Itoa(fig.People.Count)
	}
	var shown []float64
	for i, v := range quartiles(fig) {
		if v.Shown {
			texts[i+1] = c.Language.Number(v.Amount, 0)
			shown = append(shown, f.axis.At(v.Amount))
		}
	}
	row := c.rowOf(fig.Of, rowLabel, look, func(s *kit.Sheet, x, y float64) {
		left := x + f.from
		from, to := left+shown[0], left+shown[len(shown)-1]
		if fig.LowerQuartile.Shown && fig.UpperQuartile.Shown {
			s.Box(from, y-barHeight/2, to-from, barHeight, kit.GroupTones[2])
		} else {
			s.Rule(from, y, to, y, kit.GroupTones[3], 1.2)
		}
		if fig.Median.Shown {
			at := left + f.axis.At(fig.Median.Amount)
			s.Rule(at, y-barHeight/2-1.5, at, y+barHeight/2+1.5, kit.Ink, 1.8)
		}
		for i, text := range texts {
			own := kit.Pick(i == 2, look.With(kit.Bold), look)
			s.WriteCentred(x+c.Width-(float64(len(texts)-i)-0.5)*quartileWidth, onRow(y, look), text, own)
		}
	})
	return kit.Draw(row.Height(), func(s *kit.Sheet, x, y float64) {
		for v := f.axis.Lo; v <= f.axis.Hi; v += f.step {
			at := x + f.from + f.axis.At(v)
			s.Rule(at, y, at, y+row.Height(), kit.Hairline, 0.4)
		}
		if parted {
			s.Rule(x, y, x+c.Width, y, kit.Hairline, 0.6)
		}
		row.Draw(s, x, y)
	})
}

// hiddenFigure replaces a number that is not printed.
const hiddenFigure = "–"
