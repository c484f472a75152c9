package evidence

import (
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// judgeSexes asks about letters and numbers that may mean either sex.
func (c *Column) judgeSexes() {
	open := c.Sexes.Letters()
	why := whichSex
	if len(open) == 0 {
		open, why = c.codes(), whichCode
	}
	if len(open) == 0 {
		return
	}
	first, second := legend(open, "male", "female"), legend(open, "female", "male")
	example := func(sex scoring.Said) scoring.Said { return worked.With(strings.ToUpper(open[0]), sex) }
	c.Why = why
	c.Asked = []roster.Choice{{Meaning: first, Example: example(male)}, {Meaning: second, Example: example(female)}}
}

// legend writes a header that says what codes mean.
func legend(codes []string, first, second string) string {
	all := []string{strings.ToUpper(codes[0]) + "=" + first}
	if len(codes) > 1 {
		all = append(all, strings.ToUpper(codes[1])+"="+second)
	}
	return "Sex (" + strings.Join(all, ", ") + ")"
}

// codes returns the numbers in use, if no legend explains them.
func (c *Column) codes() (all []string) {
	seen := map[string]bool{}
	for _, n := range c.Cells {
		b, ok := cell.BareNumber(n)
		if !ok {
			continue
		}
		code := trimmed(b.Amount)
		if c.Sexes.Codes[code] != scoring.SexUnspecified {
			return nil
		}
		seen[code] = true
	}
	for _, pair := range [][]string{{"1", "2"}, {"0", "1"}} {
		known := 0
		for _, code := range pair {
			if seen[code] {
				known++
			}
		}
		if known > 0 && known == len(seen) {
			return pair
		}
	}
	return nil
}

// The orders of day and month in a header: dd/mm/yyyy, TT.MM.JJJJ, jj/mm/aaaa.
var (
	daysFirst   = cell.Pattern(`\b[dtj]{1,2}[./ -]?m{1,2}\b`)
	monthsFirst = cell.Pattern(`\bm{1,2}[./ -]?[dtj]{1,2}\b`)
)

// judgeDates decides the order of day and month by the header, the cells and the
// other columns of dates, or asks.
func (s *Sheet) judgeDates(c *Column) {
	header := cell.Fold(c.Header)
	switch {
	case c.Order != cell.AnyOrder:
	case daysFirst().MatchString(header):
		c.Order = cell.DayFirst
	case monthsFirst().MatchString(header):
		c.Order = cell.MonthFirst
	default:
		c.Order = s.orderOf(c)
	}
	if c.Order != cell.AnyOrder || c.Told {
		return
	}
	for _, r := range c.Cells {
		if choices := c.bothOrders(r); len(choices) > 1 {
			c.Why, c.Asked = whichOrder, choices
			return
		}
	}
}

// orderOf returns the order of a column's own dates, else of the others.
func (s *Sheet) orderOf(c *Column) cell.DateOrder {
	order := c.Dates.Order()
	if order != cell.AnyOrder {
		return order
	}
	for _, other := range s.Columns {
		if other.Dates == nil || other.Dates.Order() == cell.AnyOrder {
			continue
		}
		if o := other.Dates.Order(); order == cell.AnyOrder {
			order = o
		} else if o != order {
			return cell.AnyOrder
		}
	}
	return order
}

// bothOrders returns the choices for a date that can be read in both orders; one
// or none for any other cell.
func (c *Column) bothOrders(r cell.Raw) (choices []roster.Choice) {
	if r.Kind != cell.Text {
		return nil
	}
	ctx := c.Context
	if _, d := cell.ParseDate(r, ctx); d == nil {
		return nil
	}
	for _, o := range []struct {
		order cell.DateOrder
		says  string
	}{{cell.DayFirst, "dd/mm/yyyy"}, {cell.MonthFirst, "mm/dd/yyyy"}} {
		ctx.Order = o.order
		if day, d := cell.ParseDate(r, ctx); d == nil {
			choices = append(choices, roster.Choice{Meaning: c.qualified(o.says), Example: worked.With(cell.Display(r, false), day.Time)})
		}
	}
	return choices
}
