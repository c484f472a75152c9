package pdfreport

import (
	"fmt"
	"math"

	"tenback/scoring/group"
)

// The grid of the summary's charts, in points.
const (
	rowLabel      = 150.0 // the names of rows
	rowHeight     = 15.0
	rowPadding    = 4.5 // of a row with a name of several lines
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
	rowFace    = face{size: 8.6, colour: ink, dense: true}
	columnFace = face{size: sizeSmall, colour: soft, dense: true}
)

// rowOf is a row of a chart: its name at the left and what is drawn beside it
// around the middle line.
func (c *summary) rowOf(l group.Label, width float64, look face, draw func(s *sheet, x, middle float64)) piece {
	name := textPiece(c.short(l, look, width, rowLinesMost), look, width, left)
	height := max(rowHeight, name.height+rowPadding)
	return piece{height, func(s *sheet, x, y float64) {
		name.draw(s, x, y+(height-name.height)/2)
		draw(s, x, y+height/2)
	}}
}

// onRow is the baseline of a text around a middle line.
func onRow(middle float64, look face) float64 {
	return middle - look.leading()/2 + look.baseline()
}

// countTable is a table of counts in a width.
type countTable struct {
	*summary
	*group.Table
	width float64
}

// rows have a bar, the people and their share.
func (t countTable) rows() []piece {
	c, width := t.summary, t.width
	label := rowLabel
	if width < c.width { // beside another table
		label = 0
		for _, l := range t.Rows {
			label = max(label, textWidth(c.label(l), rowFace.weight)*rowFace.size+1)
		}
		label = min(label, 0.45*width)
	}
	most := 1
	for _, row := range t.Cells[:len(t.Cells)-1] {
		most = max(most, row[0].Count)
	}
	room := width - label - 2*chartGap - 2*numberWidth
	var rows []piece
	for i, l := range t.Rows {
		if i == 1 && len(t.Rows) == 2 {
			break // one row is all
		}
		cell := t.Cells[i][0]
		isTotal := i == len(t.Rows)-1
		look := rowFace
		if isTotal {
			look = rowFace.with(bold)
		}
		count, share := whole(cell.Count), c.share(cell)
		if !cell.Shown {
			count, share = "", c.say("summary.hidden", nil)
			if !isTotal {
				share = c.say("summary.small.cell", words{"Smallest": c.Summary.Smallest})
			}
		}
		nameWidth := label
		if t.ID == group.PeopleTable {
			nameWidth = 2 * label
		}
		rows = append(rows, c.rowOf(l, nameWidth, look, func(s *sheet, x, middle float64) {
			if isTotal {
				s.rule(x, middle-rowHeight/2, x+width, middle-rowHeight/2, hairline, 0.6)
			} else if cell.Shown && t.ID != group.PeopleTable {
				s.box(x+label+chartGap, middle-barHeight/2, room*float64(cell.Count)/float64(most), barHeight, groupTones[2])
			}
			s.writeRight(x+width-numberWidth, onRow(middle, look), count, look)
			s.writeRight(x+width, onRow(middle, look), share, look.in(soft))
		}))
	}
	return rows
}

// head names the columns.
func (t countTable) head() piece {
	width := t.width
	people, share := t.say("summary.column.people", nil), t.say("summary.column.share", nil)
	return piece{columnFace.leading() + 2, func(s *sheet, x, y float64) {
		base := y + columnFace.baseline()
		s.writeRight(x+width-numberWidth, base, people, columnFace)
		s.writeRight(x+width, base, share, columnFace)
	}}
}

// sideTones are the tones of the two columns of a table of two things: far apart
// in lightness.
var sideTones = [2]colour{groupTones[1], groupTones[3]}

// sideTable is a table with two columns.
type sideTable struct {
	*summary
	*group.Table
}

// rows have the counts of both columns at the ends of a bar that they share.
func (t sideTable) rows() []piece {
	c := t.summary
	from := rowLabel + chartGap + sidesWidth
	to := c.width - numberWidth - sidesWidth
	var rows []piece
	for i, l := range t.Rows {
		cells := t.Cells[i]
		isTotal := i == len(t.Rows)-1
		look := rowFace
		if isTotal {
			look = rowFace.with(bold)
		}
		with := func(cell group.Cell) string { return fmt.Sprintf("%d · %s", cell.Count, c.share(cell)) }
		texts := [2]string{with(cells[0]), with(cells[1])}
		part := float64(cells[0].Count) / float64(max(1, cells[0].Count+cells[1].Count))
		rows = append(rows, c.rowOf(l, rowLabel, look, func(s *sheet, x, middle float64) {
			if isTotal {
				s.rule(x, middle-rowHeight/2, x+c.width, middle-rowHeight/2, hairline, 0.6)
			}
			at := from + part*(to-from)
			s.box(x+from, middle-barHeight/2, at-from, barHeight, sideTones[0])
			s.box(x+at, middle-barHeight/2, to-at, barHeight, sideTones[1])
			s.rule(x+at, middle-barHeight/2, x+at, middle+barHeight/2, paper, 1)
			s.writeRight(x+from-5, onRow(middle, look), texts[0], look)
			s.write(x+to+5, onRow(middle, look), texts[1], look)
			s.writeRight(x+c.width, onRow(middle, look), whole(cells[2].Count), look)
		}))
	}
	return rows
}

// head names the two columns over the ends of the bars.
func (t sideTable) head() piece {
	c := t.summary
	from, to := rowLabel+chartGap, c.width-numberWidth
	room := (to-from)/2 - swatch - 4 - chartGap
	one := c.short(t.Columns[0], columnFace.in(ink), room, 2)
	other := c.short(t.Columns[1], columnFace.in(ink), room, 2)
	all := c.label(t.Columns[2])
	lines := float64(max(len(one), len(other)))
	height := lines*columnFace.leading() + 3
	return piece{height, func(s *sheet, x, y float64) {
		middle := y + columnFace.leading()/2 - swatch/2
		s.box(x+from, middle, swatch, swatch, sideTones[0])
		textPiece(one, columnFace.in(ink), room, left).draw(s, x+from+swatch+4, y)
		s.box(x+to-swatch, middle, swatch, swatch, sideTones[1])
		for i, l := range other {
			s.line(x+to-swatch-4-l.width*columnFace.size, y+float64(i)*columnFace.leading()+columnFace.baseline(), l, columnFace.in(ink))
		}
		s.writeRight(x+c.width, y+columnFace.baseline(), all, columnFace)
	}}
}

// stripOf draws the counts of a table as a strip with a field for each row, and
// names, counts and shares under it.
func (c *summary) stripOf(t *group.Table, tones []colour) piece {
	n := len(t.Rows) - 1
	total := 0.0
	for _, row := range t.Cells[:n] {
		total += float64(row[0].Count)
	}
	look := rowFace
	natural := float64(n-1) * stripLabelGap
	for _, l := range t.Rows[:n] {
		natural += textWidth(c.label(l), look.weight) * look.size
	}
	room := c.width // of a name
	if natural > c.width {
		room = (c.width - float64(n-1)*stripLabelGap) / float64(n)
	}
	var names [][]line
	var places []label
	var edges []float64
	at, tallest := 0.0, 1
	for i, l := range t.Rows[:n] {
		cell := t.Cells[i][0]
		next := at + float64(cell.Count)/total*c.width
		lines := c.short(l, look, room, rowLinesMost)
		numbers := fmt.Sprintf("%d · %s", cell.Count, c.share(cell))
		wide := textWidth(numbers, bold) * look.size
		for _, l := range lines {
			wide = max(wide, l.width*look.size)
		}
		names, tallest = append(names, lines), max(tallest, len(lines))
		places = append(places, label{(at + next) / 2, wide, numbers, look.with(bold)})
		edges = append(edges, next)
		at = next
	}
	centres := make([]float64, n)
	for i := range places {
		centres[i] = places[i].at
	}
	places = spread(places, stripLabelGap, c.width)
	const lead = 8.0
	height := stripHeight + lead + float64(tallest+1)*look.leading() + 2
	return piece{height, func(s *sheet, x, y float64) {
		from := 0.0
		for i, to := range edges {
			s.box(x+from, y, to-from, stripHeight, tones[i])
			if tones[i] == paper {
				s.frame(x+from+0.4, y+0.4, to-from-0.8, stripHeight-0.8, hairline, 0.8)
			}
			if i > 0 {
				s.rule(x+from, y, x+from, y+stripHeight, paper, 1)
			}
			s.rule(x+centres[i], y+stripHeight, x+centres[i], y+stripHeight+2.5, soft, 0.6)
			s.rule(x+centres[i], y+stripHeight+2.5, x+places[i].at, y+stripHeight+lead-1, soft, 0.6)
			from = to
		}
		for i, place := range places {
			top := y + stripHeight + lead
			s.writeCentred(x+place.at, top+look.baseline(), place.text, place.face)
			for k, l := range names[i] {
				s.line(x+place.at-l.width*look.size/2, top+float64(k+1)*look.leading()+look.baseline(), l, look)
			}
		}
	}}
}

// mixed is the tone of fields taken together.
func mixed(all []colour) colour {
	var r, g, b int
	for _, t := range all {
		r, g, b = r+t.r, g+t.g, b+t.b
	}
	n := len(all)
	return colour{r / n, g / n, b / n}
}

// valueAxis spans the figures, from and to whole steps.
func valueAxis(figures []group.Figure, width float64) (a axis, step float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range figures {
		for _, v := range quartiles(f) {
			if v.Shown {
				lo, hi = min(lo, v.Amount), max(hi, v.Amount)
			}
		}
	}
	for _, step = range []float64{5, 10, 20, 50} {
		a = axis{step * math.Floor((lo-1)/step), step * math.Ceil((hi+1)/step), width}
		if (a.hi-a.lo)/step < ticksMost {
			break
		}
	}
	return a, step
}

// figureChart is where the columns of a chart of figures stand.
type figureChart struct {
	*summary
	axis axis
	step float64
	from float64 // left edge of the axis
}

func newFigureChart(c *summary, figures []group.Figure) figureChart {
	from := rowLabel + chartGap
	a, step := valueAxis(figures, c.width-from-4*quartileWidth-chartGap)
	return figureChart{c, a, step, from}
}

// head names the columns and writes the axis.
func (f figureChart) head() piece {
	c := f.summary
	var heads []piece
	for _, key := range []string{"people", "lower", "median", "upper"} {
		text := c.say("summary.column."+key, nil)
		look := fitting(text, columnFace, quartileWidth-2)
		heads = append(heads, textPiece(breakLines(text, regular, (quartileWidth-2)/look.size), look, quartileWidth, centre))
	}
	height := 0.0
	for _, h := range heads {
		height = max(height, h.height)
	}
	return piece{height + 3, func(s *sheet, x, y float64) {
		for v := f.axis.lo; v <= f.axis.hi; v += f.step {
			s.writeCentred(x+f.from+f.axis.at(v), y+height-columnFace.leading()+columnFace.baseline(), c.language.Number(v, 0), columnFace)
		}
		for i, h := range heads {
			h.draw(s, x+c.width-float64(len(heads)-i)*quartileWidth, y+height-h.height)
		}
	}}
}

// quartiles are those of a figure, rising, with the median in the middle.
func quartiles(f group.Figure) [3]group.Value {
	return [...]group.Value{f.LowerQuartile, f.Median, f.UpperQuartile}
}

// drawable tells whether there is more than one number of a figure to draw.
func drawable(f group.Figure) bool {
	n := 0
	for _, v := range quartiles(f) {
		if v.Shown {
			n++
		}
	}
	return n > 1
}

// row draws the middle half as a bar and the median as a line, as far as
// they are shown, and with one quartile a thin line from it to the median.
func (f figureChart) row(fig group.Figure, parted bool) piece {
	c := f.summary
	look := rowFace
	if fig.Of.Key == group.AllKey {
		look = rowFace.with(bold)
	}
	texts := [4]string{hiddenFigure, hiddenFigure, hiddenFigure, hiddenFigure}
	if fig.People.Shown {
		texts[0] = whole(fig.People.Count)
	}
	var shown []float64
	for i, v := range quartiles(fig) {
		if v.Shown {
			texts[i+1] = c.language.Number(v.Amount, 0)
			shown = append(shown, f.axis.at(v.Amount))
		}
	}
	row := c.rowOf(fig.Of, rowLabel, look, func(s *sheet, x, y float64) {
		left := x + f.from
		from, to := left+shown[0], left+shown[len(shown)-1]
		if fig.LowerQuartile.Shown && fig.UpperQuartile.Shown {
			s.box(from, y-barHeight/2, to-from, barHeight, groupTones[2])
		} else {
			s.rule(from, y, to, y, groupTones[3], 1.2)
		}
		if fig.Median.Shown {
			at := left + f.axis.at(fig.Median.Amount)
			s.rule(at, y-barHeight/2-1.5, at, y+barHeight/2+1.5, ink, 1.8)
		}
		for i, text := range texts {
			own := look
			if i == 2 {
				own = look.with(bold)
			}
			s.writeCentred(x+c.width-(float64(len(texts)-i)-0.5)*quartileWidth, onRow(y, look), text, own)
		}
	})
	return piece{row.height, func(s *sheet, x, y float64) {
		for v := f.axis.lo; v <= f.axis.hi; v += f.step {
			at := x + f.from + f.axis.at(v)
			s.rule(at, y, at, y+row.height, hairline, 0.4)
		}
		if parted {
			s.rule(x, y, x+c.width, y, hairline, 0.6)
		}
		row.draw(s, x, y)
	}}
}

// hiddenFigure stands for a number that is not printed.
const hiddenFigure = "–"
