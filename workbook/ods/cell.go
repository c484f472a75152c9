package ods

import (
	"math"
	"strconv"
	"strings"
	"time"

	"tenback/workbook/cell"
	"tenback/workbook/opc"
)

// kind is how the workbook stores a cell.
type kind uint8

const (
	blank  kind = iota
	number      // text holds its digits
	text
	boolean  // text is 0 or 1
	failed   // text is such as #N/A
	uncached // the formula has no value
)

// filled is a cell and its content.
type filled struct {
	kind    kind
	text    string
	formula string // of a sum, else empty
	format  int    // number of the cell format
	col     int
	repeat  int
}

// sum matches a formula over a range, which rows of totals have. It reads the same
// in a workbook but for the marks of the cells.
var sum = cell.Pattern(`^of:=(SUM|AVERAGE|COUNT|COUNTA|MAX|MIN|MEDIAN|STDEV)\(\[\.(\$?[A-Z]{1,3}\$?[0-9]{1,7}):\.(\$?[A-Z]{1,3}\$?[0-9]{1,7})\]\)$`)

// cell reads the current cell.
func (t *table) cell(col int, lookOfRow string) (filled, error) {
	var f filled
	var class, value, look string
	shown, formula, failing, stated := "", false, false, false
	columns, rows := 1, 1
	f.repeat = 1
	err := t.attrs(func(attr, v string) {
		switch attr {
		case "office:value-type":
			class = v
		case "office:value", "office:date-value", "office:time-value", "office:boolean-value":
			value = v
		case "office:string-value":
			shown, stated = v, true
		case "calcext:value-type":
			failing = v == "error"
		case "table:formula":
			formula = true
			if m := sum().FindStringSubmatch(v); m != nil {
				f.formula = m[1] + "(" + m[2] + ":" + m[3] + ")"
			}
		case "table:style-name":
			look = v
		case "table:number-columns-repeated":
			f.repeat = count(v)
		case "table:number-columns-spanned":
			columns = count(v)
		case "table:number-rows-spanned":
			rows = count(v)
		}
	})
	if err != nil {
		return f, err
	}
	t.merge(col, columns, rows)
	lines, err := t.lines()
	if err != nil {
		return f, err
	}
	if !stated || shown == "" && failing {
		shown = lines
	}
	fallback := ""
	switch class {
	case "float", "currency", "percentage":
		f.kind, f.text = plainNumber(value)
		if class == "percentage" {
			fallback = "0%"
		}
	case "date":
		f.kind, f.text, fallback = serialDate(value)
	case "time":
		f.kind, f.text, fallback = serialTime(value)
	case "boolean":
		f.kind, f.text = boolean, "0"
		if value == "true" {
			f.text = "1"
		}
	}
	switch {
	case f.kind != blank:
	case failing:
		f.kind, f.text = failed, shown
	case shown != "":
		f.kind, f.text = text, shown
	case value != "": // of a class that is not known, or not of its form
		f.kind, f.text = text, value
	case formula && !stated:
		f.kind = uncached
	}
	if f.kind == blank {
		return f, nil
	}
	if f.kind == uncached && f.formula == "" {
		f.formula = "NA()" // has no value either
	}
	if look == "" {
		look = t.look(col, lookOfRow)
	}
	f.format = t.book.format(t.code(look, fallback))
	return f, nil
}

// lines returns the paragraphs of the current cell, read to its end. Notes and
// drawings are no part of it.
func (t *table) lines() (string, error) {
	var b paragraphs
	n := 0
	err := t.inside(func(name string) error {
		if name != "text:p" && name != "text:h" {
			return t.inside(nil, nil)
		}
		if n++; n > 1 {
			b.newLine()
		}
		if err := t.paragraph(&b); err != nil {
			return err
		}
		if b.Len() > t.limits.text {
			return opc.OverLimit("", "a cell of the file is larger than a cell of a workbook can be")
		}
		return nil
	}, nil)
	return strings.TrimRight(b.String(), " \n"), err
}

func (t *table) paragraph(b *paragraphs) error {
	return t.inside(func(name string) error {
		switch name {
		case "text:span", "text:a", "text:ruby", "text:ruby-base":
			return t.paragraph(b)
		case "text:s":
			n := 1
			if err := t.attrs(func(attr, v string) {
				if attr == "text:c" {
					n = count(v)
				}
			}); err != nil {
				return err
			}
			b.WriteString(strings.Repeat(" ", min(n, t.limits.text)))
		case "text:tab":
			b.WriteByte('\t')
		case "text:line-break":
			b.newLine()
		}
		return t.inside(nil, nil)
	}, b.add)
}

// paragraphs collects text, in which white space counts as one blank, and none at
// the beginning of a line.
type paragraphs struct{ strings.Builder }

func (b *paragraphs) newLine() { b.WriteByte('\n') }

func (b *paragraphs) add(data []byte) {
	for _, c := range data {
		if c == ' ' || c == '\t' || c == '\n' || c == '\r' {
			s := b.String()
			if s == "" || strings.HasSuffix(s, " ") || strings.HasSuffix(s, "\n") {
				continue
			}
			c = ' '
		}
		b.WriteByte(c)
	}
}

// plainNumber returns the digits as in the file.
func plainNumber(value string) (kind, string) {
	x, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsInf(x, 0) || strings.Trim(value, "0123456789+-.eE") != "" {
		return blank, ""
	}
	return number, value
}

// epoch is day 0 of a workbook. Its first days differ between programs, so
// earlier dates stay text.
var (
	epoch    = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	firstDay = time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)
)

const daySeconds = 24 * 60 * 60

// serialDate returns the number of a day, with the time of day if there is one.
func serialDate(value string) (k kind, digits, format string) {
	layout, format := time.DateOnly, "yyyy-mm-dd"
	if strings.Contains(value, "T") {
		layout, format = "2006-01-02T15:04:05", "yyyy-mm-dd hh:mm"
	}
	at, err := time.Parse(layout, strings.TrimSuffix(value, "Z"))
	if err != nil || at.Before(firstDay) {
		return blank, "", ""
	}
	seconds := float64(at.Unix()-epoch.Unix()) + float64(at.Nanosecond())/1e9
	return number, strconv.FormatFloat(seconds/daySeconds, 'f', -1, 64), format
}

var durationForm = cell.Pattern(`^(-?)P(?:(\d{1,9})D)?(?:T(?:(\d{1,9})H)?(?:(\d{1,9})M)?(?:(\d{1,9}(?:[.,]\d{1,9})?)S)?)?$`)

// serialTime returns a duration in days.
func serialTime(value string) (k kind, digits, format string) {
	m := durationForm().FindStringSubmatch(value)
	if m == nil {
		return blank, "", ""
	}
	seconds := 0.0
	for i, of := range []float64{daySeconds, 60 * 60, 60, 1} {
		x, _ := strconv.ParseFloat(strings.Replace(m[2+i], ",", ".", 1), 64) // 0 if it is left out
		seconds += x * of
	}
	return number, m[1] + strconv.FormatFloat(seconds/daySeconds, 'f', -1, 64), "[h]:mm:ss"
}
