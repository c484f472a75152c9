package ods

import (
	"strconv"
	"strings"

	"tenback/workbook/opc"
)

// style is what a named style says of a cell, a column or a sheet.
type style struct {
	parent string
	format string  // name of the number format
	width  float64 // of a column, in characters
	hidden bool    // a sheet
}

// format is a number format.
type format struct {
	code string
	// positive names the format of positive numbers, if this one is for others.
	positive string
}

// code returns the number format of a style, or fallback.
func (c *converter) code(look, fallback string) string {
	for range opc.MaxDepth { // parents might form a circle
		s := c.styles[look]
		if f, ok := c.formats[s.format]; ok {
			if p, ok := c.formats[f.positive]; ok {
				f = p
			}
			return f.code
		}
		look = s.parent
	}
	return fallback
}

// readStyle reads a style or a number format.
func (c *converter) readStyle(element string) error {
	if len(c.styles)+len(c.formats) >= c.limits.styles {
		return opc.OverLimit("", "the workbook has more styles than a spreadsheet can have")
	}
	name, overflow := "", false
	var s style
	err := c.attrs(func(attr, value string) {
		switch attr {
		case "style:name":
			name = value
		case "style:parent-style-name":
			s.parent = value
		case "style:data-style-name":
			s.format = value
		case "number:truncate-on-overflow":
			overflow = value == "false"
		}
	})
	if err != nil {
		return err
	}
	switch element {
	case "style:style":
		if err := c.inside(func(string) error {
			if err := c.attrs(s.property); err != nil {
				return err
			}
			return c.inside(nil, nil)
		}, nil); err != nil {
			return err
		}
		c.styles[name] = s
		return nil
	case "number:number-style", "number:percentage-style", "number:currency-style", "number:date-style", "number:time-style", "number:text-style":
		r := formatReader{converter: c, overflow: overflow}
		if err := c.inside(r.part, nil); err != nil {
			return err
		}
		c.formats[name] = format{r.code.String(), r.positive}
		return nil
	}
	return c.inside(nil, nil)
}

// property reads one attribute of a style's properties.
func (s *style) property(attr, value string) {
	switch attr {
	case "table:display":
		s.hidden = value == "false"
	case "style:column-width":
		s.width = characters(value)
	}
}

// characters returns a length such as 2.26cm as the width of a column, 0 if it is
// of another form.
func characters(length string) float64 {
	const perInch = 96 / 7.0 // a digit is 7 pixels wide
	for unit, inches := range map[string]float64{"cm": 1 / 2.54, "mm": 1 / 25.4, "in": 1, "pt": 1 / 72.0} {
		if digits, ok := strings.CutSuffix(length, unit); ok {
			x, err := strconv.ParseFloat(digits, 64)
			if err == nil && x > 0 && x < 1000 {
				return min(x*inches*perInch, 255)
			}
		}
	}
	return 0
}

// formatReader builds the code of a number format.
type formatReader struct {
	*converter
	overflow bool // the first unit of time may exceed a day or an hour
	code     strings.Builder
	positive string
}

// maxCode bounds the code of a number format, which has at most 255 characters.
const maxCode = 255

func (r *formatReader) part(name string) error {
	long, textual := false, false
	decimals, whole := -1, 1
	grouped, condition, other := false, "", ""
	err := r.attrs(func(attr, value string) {
		switch attr {
		case "number:style":
			long = value == "long"
		case "number:textual":
			textual = value == "true"
		case "number:decimal-places":
			decimals = digits(value)
		case "number:min-integer-digits":
			whole = digits(value)
		case "number:grouping":
			grouped = value == "true"
		case "style:condition":
			condition = value
		case "style:apply-style-name":
			other = value
		}
	})
	if err != nil {
		return err
	}
	if strings.Contains(condition, ">") {
		r.positive = other
	}
	if r.code.Len() > maxCode {
		return r.inside(nil, nil)
	}
	add := func(short, full string) {
		if long {
			short = full
		}
		if r.overflow {
			short = "[" + short[:1] + "]"
			r.overflow = false
		}
		r.code.WriteString(short)
	}
	switch name {
	case "number:year":
		add("yy", "yyyy")
	case "number:month":
		if textual {
			add("mmm", "mmmm")
		} else {
			add("m", "mm")
		}
	case "number:day":
		add("d", "dd")
	case "number:day-of-week":
		add("ddd", "dddd")
	case "number:hours":
		add("h", "hh")
	case "number:minutes":
		add("m", "mm")
	case "number:seconds":
		add("s", "ss")
		r.fraction(decimals)
	case "number:am-pm":
		r.code.WriteString("AM/PM")
	case "number:number":
		r.number(whole, decimals, grouped)
	case "number:scientific-number":
		r.number(whole, decimals, false)
		r.code.WriteString("E+00")
	case "number:fraction":
		r.code.WriteString("# ?/?")
	case "number:text-content":
		r.code.WriteString("@")
	case "number:text", "number:currency-symbol":
		return r.inside(nil, r.literal)
	}
	return r.inside(nil, nil)
}

// number adds the digits. Without a number of decimals they are as many as needed.
func (r *formatReader) number(whole, decimals int, grouped bool) {
	if decimals < 0 {
		r.code.WriteString("General")
		return
	}
	if grouped {
		r.code.WriteString("#,##0")
	} else {
		r.code.WriteString(strings.Repeat("0", max(whole, 1)))
	}
	r.fraction(decimals)
}

func (r *formatReader) fraction(decimals int) {
	if decimals > 0 {
		r.code.WriteString("." + strings.Repeat("0", decimals))
	}
}

// literal adds text, quoted unless it separates parts of dates and times.
func (r *formatReader) literal(text []byte) {
	s := string(text)
	if len(s) > maxCode || s == "" {
		return
	}
	if strings.Trim(s, " -/:.,%") != "" {
		s = `"` + strings.ReplaceAll(s, `"`, "") + `"`
	}
	r.code.WriteString(s)
}

// digits returns how many digits a format shows, at most 20.
func digits(value string) int {
	n, _ := strconv.Atoi(value) // 0 if it is no number
	return max(0, min(n, 20))
}
