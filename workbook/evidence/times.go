package evidence

import (
	"math"
	"strconv"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
)

// timeStyles are the ways to read a plain number as a time, and what a header says
// for each.
var timeStyles = []struct {
	style cell.TimeStyle
	says  string
}{{cell.Dotted, "min:sec"}, {cell.InMinutes, "min"}, {cell.InSeconds, "s"}}

// slip is how many times more cells that can't be misread make the others slips.
const slip = 4

// unlikely is the chance below which an accident is no explanation.
const unlikely = 0.01

// timeFacts is what the plain numbers of a column of times reveal.
type timeFacts struct {
	numbers   []number
	clocks    int // cells with minutes and seconds that can't be misread
	fractions int // numbers with decimals
	twoDigits int // of these, those with two or more
	long      int // with more than two
	above     int // whose fraction is .60 or more: no seconds
	wholes    int // whole numbers that could be minutes and seconds run together
	wholesOut int // whole numbers of three digits or more whose last two are no seconds
	oneShown  int // numbers whose format shows one decimal
	open      int // numbers with several readings that are possible here
	bad       map[cell.TimeStyle]int
}

// timeFacts looks at every number of the column.
func (c *Column) timeFacts() timeFacts {
	f := timeFacts{bad: map[cell.TimeStyle]int{}}
	for _, n := range c.numbers() {
		least, most, isTime := c.Limits(n.row)
		if n.Amount < 1 || !isTime {
			continue // a fraction of a day without its format, or no time
		}
		fits := func(d time.Duration) bool { return d > 0 && (most == 0 || d >= least && d <= most) }
		f.numbers = append(f.numbers, n)
		if r := c.Cells[n.row]; r.Format.Class == cell.Plain && r.Format.Decimals == 1 {
			f.oneShown++
		}
		_, seconds := n.As(cell.Dotted)
		switch fraction := n.Fraction(); {
		case fraction != "":
			f.fractions++
			if len(fraction) > 1 {
				f.twoDigits++
			}
			if len(fraction) > 2 {
				f.long++
			}
			if fraction[0] >= '6' {
				f.above++
			}
		case n.Amount >= 100 && seconds:
			f.wholes++
		case n.Amount >= 100:
			f.wholesOut++
		}
		var seen []time.Duration
		for _, s := range timeStyles {
			d, ok := n.As(s.style)
			if ok = ok && fits(d); !ok {
				f.bad[s.style]++
			} else if len(seen) == 0 || seen[0] != d {
				seen = append(seen, d)
			}
		}
		if len(seen) > 1 {
			f.open++
		}
	}
	for _, r := range c.Cells {
		if r.Format.IsTime() || r.Kind == cell.ISODate || r.Kind == cell.Text && strings.ContainsAny(r.Text, ":'′’") {
			f.clocks++
		}
	}
	return f
}

// agrees reports whether all but a few slips of the numbers can be read in a style.
func (f *timeFacts) agrees(style cell.TimeStyle) bool { return 10*f.bad[style] <= len(f.numbers) }

// contradicts counts the evidence of the values against a style.
func (f *timeFacts) contradicts(style cell.TimeStyle) (against int) {
	if !f.agrees(style) {
		against++
	}
	switch style {
	case cell.InMinutes:
		// Fractions of a minute are .60 or more in two cases of five.
		if f.long == 0 && chance(f.above, f.fractions, 0.4) < unlikely {
			against++
		}
		if f.clocks > 0 && f.above == 0 && f.fractions > 0 {
			against++
		}
	case cell.InSeconds:
		if chance(f.wholesOut, f.wholes+f.wholesOut, 0.4) < unlikely || f.clocks > 0 && f.wholesOut == 0 && f.wholes > 0 {
			against++
		}
	case cell.Dotted:
		if f.long > 0 || f.oneShown == len(f.numbers) {
			against++
		}
	}
	return against
}

// judgeTimes decides how the plain numbers of a column of times are read.
func (c *Column) judgeTimes() {
	f := c.timeFacts()
	if len(f.numbers) == 0 {
		return
	}
	if c.Style == cell.Unsaid && f.open == 0 {
		return // each number has one possible reading
	}
	if c.Style != cell.Unsaid && c.keepsStyle(&f) {
		return
	}
	example := f.numbers[0]
	for _, n := range f.numbers {
		if n.Fraction() != "" && len(example.Fraction()) < 2 {
			example = n
		}
	}
	var all []reading
	for _, s := range timeStyles {
		d, ok := example.As(s.style)
		if f.bad[s.style] == len(f.numbers) {
			continue
		}
		r := reading{meaning: c.qualified(s.says), against: f.contradicts(s.style), off: float64(f.bad[s.style]) / float64(len(f.numbers)),
			use: func() { c.Style = s.style }, remark: timeRemarks[s.style]}
		if c.Style != cell.Unsaid {
			r.against++ // the header is in doubt, and against all others
		}
		if ok {
			r.example = inStyle(example, s.style, d)
		}
		all = append(all, r)
	}
	if len(all) > 0 {
		c.decide(whichTime, all)
	}
	if slip*len(f.numbers) <= f.clocks { // each is asked about at its cell
		c.Why, c.Asked = scoring.Said{}, nil
	}
}

// keepsStyle reports whether the values agree with what the header says. People
// write "min" above minutes and seconds too, so fractions that could all be seconds
// leave it open.
func (c *Column) keepsStyle(f *timeFacts) bool {
	if c.Style == cell.InMinutes && f.above == 0 && f.long == 0 && (f.twoDigits > 0 || f.clocks > 0 && f.fractions > 0) && f.agrees(cell.Dotted) {
		return false
	}
	if f.contradicts(c.Style) == 0 {
		return true
	}
	for _, s := range timeStyles {
		if s.style != c.Style && f.contradicts(s.style) == 0 {
			return false
		}
	}
	return true // no reading is better: each cell has its own trouble
}

// inStyle works a number out in a style.
func inStyle(n number, style cell.TimeStyle, d time.Duration) scoring.Said {
	switch style {
	case cell.InMinutes:
		return converted.With(scoring.Exactly(n.Amount), scoring.Verbatim(trimmed(n.Amount)+" min"), d)
	case cell.InSeconds:
		return converted.With(scoring.Exactly(n.Amount), scoring.Verbatim(trimmed(n.Amount)+" s"), d)
	}
	return converted.With(scoring.Exactly(n.Amount), minutesSeconds.With(int(d.Minutes()), scoring.Exactly(math.Round(math.Mod(d.Seconds(), 60)))), d)
}

func trimmed(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
