package reading

import (
	"math"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// cellReader reads the cells of one row and collects the row's problems.
type cellReader struct {
	facts    *columns.Facts
	sheet    *roster.Sheet
	raw      *rawRow
	right    map[grid.Address]bool // see sheetReader
	bound    *roster.Bound
	metres   float64 // of the race of the row; 0 where it names none
	problems []roster.Problem
	blocked  int // number of blocking problems
}

// problem returns a problem of a cell.
func (cr *cellReader) problem(c *columns.Column, what, fix scoring.Said) roster.Problem {
	return roster.Problem{Sheet: cr.sheet.Name, Cell: grid.At(c.Index, cr.raw.number),
		Read: cell.Display(cr.raw.cells[c.Slot], cr.facts.Dates.Date1904), What: what, Fix: fix, Answerable: true}
}

// block adds a problem that may cost the row its score.
func (cr *cellReader) block(c *columns.Column, what, fix scoring.Said) {
	if !cr.bound.Admit() && cr.blocked > 0 {
		return
	}
	p := cr.problem(c, what, fix)
	p.Blocking = true
	cr.blocked++
	cr.problems = append(cr.problems, p)
}

// confirmed reports whether the user said that a cell is right as it is.
func (cr *cellReader) confirmed(c *columns.Column) bool {
	return cr.right[grid.Address{Row: cr.raw.number, Col: c.Index}]
}

// unread reports a cell that can't be read, because of a doubt or because its
// column waits for an answer.
func (cr *cellReader) unread(c *columns.Column, doubt *cell.Doubt) {
	if !c.Asked {
		cr.block(c, doubt.What, doubt.Fix)
		return
	}
	n := len(cr.problems)
	cr.block(c, waits.With(scoring.Quoted(c.Header)), scoring.Said{})
	for i := range cr.problems[n:] {
		cr.problems[n+i].Waits = true
	}
}

// say adds a remark, unless the user confirmed the cell.
func (cr *cellReader) say(c *columns.Column, what, fix scoring.Said) {
	if !cr.confirmed(c) && cr.bound.Admit() {
		cr.problems = append(cr.problems, cr.problem(c, what, fix))
	}
}

// readOne reads the cell of a column, or of the later ones of the same meaning.
// ok is false if there is no value. A shuttle level may include the shuttles done
// in it.
func (cr *cellReader) readOne(c *columns.Column, t *scoring.Test) (v []columns.Value, ok bool) {
	for _, d := range c.Alike() {
		got, found := cr.readCell(d, t)
		switch {
		case !found:
		case !ok:
			v, ok = got, true
		case !sameAmount(v[0], got[0]):
			cr.block(d, saysOther.With(v[0].Cell), fixEmptyOne.With(columns.LeaveOut(c)))
			return nil, false
		}
	}
	return v, ok
}

func sameAmount(a, b columns.Value) bool {
	return a.In == b.In && math.Abs(a.Q.In(a.In.Info().Unit)-b.Q.In(a.In.Info().Unit)) < 0.05
}

// readCell reads the cell of one column.
func (cr *cellReader) readCell(c *columns.Column, t *scoring.Test) ([]columns.Value, bool) {
	r := cr.raw.cells[c.Slot]
	if c.Seconds != nil {
		return cr.readMinutesSeconds(c)
	}
	if r.IsBlank() {
		return nil, false
	}
	if c.Asked && !cell.SaysNoResult(r) {
		cr.unread(c, nil)
		return nil, false
	}
	in := columns.InputFor(c, t)
	if c.SaysNone(r) {
		c.Remark(columns.ReadAsUntested, cr.problem(c, scoring.Said{}, scoring.Said{}))
		return nil, false
	}
	if c.Meaning.Role == roster.Result && in.Info().Unit == scoring.BeatsPerMinute && (cell.IsWords(r) || cell.IsMinutes(r)) {
		return nil, false // "done", "3 mins": the pulse is in a column of its own
	}
	refuse := cr.block
	if in.Info().Unit == scoring.MillimetresOfMercury {
		refuse = cr.say // no score needs it
	}
	values, doubt := c.Parse(r, in, t, cr.facts, cr.metres)
	if doubt != nil {
		refuse(c, doubt.What, doubt.Fix)
		return nil, false
	}
	cr.remarkTime(c, values[0])
	at := grid.At(c.Index, cr.raw.number)
	for i := range values {
		v := &values[i]
		v.Cell = at
		if what := v.In.CheckRange(v.Q); !what.IsZero() {
			refuse(c, what, columns.RangeFix(v.In, v.Q))
			return nil, false
		}
	}
	return values, true
}

// readMinutesSeconds reads a time in two cells.
func (cr *cellReader) readMinutesSeconds(c *columns.Column) ([]columns.Value, bool) {
	minutes, seconds := cr.raw.cells[c.Slot], cr.raw.cells[c.Seconds.Slot]
	if minutes.IsBlank() && seconds.IsBlank() {
		return nil, false
	}
	if c.SaysNone(minutes) || c.Seconds.SaysNone(seconds) || cell.IsZero(minutes) && (cell.IsZero(seconds) || seconds.IsBlank()) {
		c.Remark(columns.ReadAsUntested, cr.problem(c, scoring.Said{}, scoring.Said{}))
		return nil, false
	}
	m := scoring.Q(0, scoring.Minutes)
	s := scoring.Q(0, scoring.Seconds)
	for _, part := range []struct {
		r  cell.Raw
		at *columns.Column
		q  *scoring.Quantity
	}{{minutes, c, &m}, {seconds, c.Seconds, &s}} {
		if part.r.IsBlank() {
			continue
		}
		q, d := cell.ParseAmount(part.r, cell.Measure{Unit: part.q.Unit, Fix: fixMinutes})
		if d != nil {
			cr.block(part.at, d.What, d.Fix)
			return nil, false
		}
		*part.q = q
	}
	switch {
	case m.Amount < 0 || m.Amount != math.Floor(m.Amount) && !seconds.IsBlank():
		cr.block(c, noWholeMinutes, fixMinutes)
		return nil, false
	case s.Amount < 0 || s.Amount >= 60:
		cr.block(c.Seconds, badSeconds, fixMinutes)
		return nil, false
	case seconds.IsBlank():
		c.Remark(columns.ReadNoSeconds, cr.problem(c, scoring.Said{}, scoring.Said{}))
	}
	total := scoring.Q(m.In(scoring.Seconds)+s.In(scoring.Seconds), scoring.Seconds)
	if what := scoring.Time.CheckRange(total); !what.IsZero() {
		cr.block(c, what, fixMinutes)
		return nil, false
	}
	return []columns.Value{{In: scoring.Time, Q: total, Cell: grid.At(c.Index, cr.raw.number)}}, true
}

func (cr *cellReader) remarkTime(c *columns.Column, v columns.Value) {
	kinds := map[cell.TimeRule]columns.Remark{cell.FromHours: columns.ReadFromHours, cell.ByPossibility: columns.ReadByPossibility}
	if kind, ok := kinds[v.Time.Rule]; ok {
		c.Remark(kind, cr.problem(c, scoring.Said{}, readAs.With(v.Time.Duration)))
	}
}
