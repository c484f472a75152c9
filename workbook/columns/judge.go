package columns

import (
	"math"
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/evidence"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// Judge decides how each column is read by header, cells and the other columns,
// and asks where they do not agree.
func (s *Survey) Judge(rows [][]cell.Raw) (asked []roster.Question) {
	sheet := evidence.Sheet{School: s.School}
	var judged List
	for _, c := range s.Used {
		if e := s.evidenceOf(c, rows); e != nil {
			sheet.Columns, judged = append(sheet.Columns, e), append(judged, c)
		}
	}
	for _, row := range rows {
		sheet.Ages = append(sheet.Ages, s.roughAge(row))
	}
	sheet.Judge()
	for i, e := range sheet.Columns {
		c := judged[i]
		if e.Meaning != c.Meaning {
			c.Meaning = e.Meaning
			at, _ := slices.BinarySearchFunc(s.Columns, c.Index, func(d *Column, index int) int { return d.Index - index })
			s.Sheet.Columns[at].Meaning = e.Meaning
		}
		c.style, c.order, c.Asked = e.Style, e.Order, !e.Why.IsZero()
		switch {
		case c.Asked:
			asked = append(asked, roster.Question{Sheet: s.Sheet.Name, Cell: grid.At(c.Index, s.Sheet.HeaderRow), Header: c.Header, What: e.Why, Choices: e.Asked})
		case !e.Remark.IsZero():
			s.Say(c, fixReadSo, e.Remark)
		}
	}
	return asked
}

// evidenceOf returns what is known of a column; nil for one that is not judged.
func (s *Survey) evidenceOf(c *Column, rows [][]cell.Raw) *evidence.Column {
	if !c.Unclear.IsZero() {
		return nil // each cell has to name its unit
	}
	e := &evidence.Column{Header: c.known, Meaning: c.Meaning, Style: c.style, Told: c.told}
	switch c.Meaning.Role {
	case roster.Birth, roster.TestDate:
		e.Dates, e.Context, e.Order = &c.dates, s.Facts.DateContext(c), s.Facts.Dates.Order
		e.Context.Order = cell.AnyOrder
	case roster.InputData, roster.Result, roster.HeartRate:
		e.Sexes = &c.Sexes
	default:
		return nil
	}
	for _, row := range rows {
		e.Cells = append(e.Cells, row[c.Slot])
	}
	e.Limits = func(i int) (least, most time.Duration, isTime bool) {
		t := c.Meaning.Test
		if c.Meaning.Role == roster.Result {
			t = s.testBefore(rows[i], c)
			isTime = t != nil && InputFor(c, t) == scoring.Time
		}
		ctx := s.Facts.timeContext(c, t, 0)
		return ctx.Least, ctx.Most, isTime || c.Meaning.Role == roster.InputData
	}
	return e
}

// roughAge returns the age in years that a row gives, good enough to judge sizes.
func (s *Survey) roughAge(row []cell.Raw) float64 {
	if c := s.Columns.Input(scoring.Age); c != nil {
		if b, ok := cell.BareNumber(row[c.Slot]); ok {
			return b.Amount
		}
	}
	if c := s.Columns.With(roster.Birth); c != nil {
		if born, doubt := cell.ParseDate(row[c.Slot], s.Facts.DateContext(c)); doubt == nil {
			return s.Facts.Today.Sub(born.Time).Hours() / 24 / 365.25
		}
	}
	return math.NaN()
}

// testBefore returns the test that a row names to the left of a Result column.
func (s *Survey) testBefore(row []cell.Raw, c *Column) *scoring.Test {
	var name *Column
	for _, d := range s.Used {
		if d.Index > c.Index {
			break
		}
		if d.Meaning.Role == roster.TestName {
			name = d
		}
	}
	if name == nil {
		return nil
	}
	m, _ := s.Facts.TestNamed(cell.Label(row[name.Slot]))
	return m.Test
}
