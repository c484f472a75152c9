package roster

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tenback/scoring/order"
)

// Finding is one or several problems with one cause in one column.
type Finding struct {
	Problem           // the first of them
	All     []Problem // each with its cell, from the top; empty for a whole sheet
	Column  string    // letters of the column where there are several cells
}

// firstCells is how many cells of a finding are named in a line.
const firstCells = 10

// Where returns the cells of the finding, for a line of a list.
func (f *Finding) Where() string {
	if f.Cell == "" || len(f.All) < 2 {
		return f.Problem.Where()
	}
	all := f.Cells()
	named := strings.Join(all[:min(len(all), firstCells)], ", ")
	if more := len(all) - firstCells; more > 0 {
		named += fmt.Sprintf(" and %d more", more)
	}
	return fmt.Sprintf("%s: %d cells in column %s: %s", f.Sheet, len(all), f.Column, named)
}

// Cells returns the addresses of the cells, from the top.
func (f *Finding) Cells() []string {
	all := make([]string, len(f.All))
	for i := range f.All {
		all[i] = f.All[i].Cell
	}
	return all
}

// fewest is how many cells of a column with one cause are listed as one.
const fewest = 3

// Findings sorts problems by urgency and merges those of one cause in one column. What may cost a score comes before
// mere remarks. Within each, what concerns a whole sheet or column comes first,
// then what hits the most cells, then the order of the sheets.
func (r *Roster) Findings(problems []Problem) []Finding {
	type cause struct {
		sheet, column, what, fix string
		blocking                 bool
	}
	var causes []cause
	fixes := map[string]string{}   // their words alone; most are of many problems
	reasons := map[string]string{} // the same by the text without its numbers
	alike := map[cause][]Problem{}
	for _, p := range problems {
		column, _ := splitAddress(p.Cell)
		fix := p.Fix.String()
		if _, known := fixes[fix]; !known {
			fixes[fix] = WordsAlone(fix)
		}
		what := withoutNumbers(p.What.String())
		if _, known := reasons[what]; !known {
			reasons[what] = WordsAlone(what)
		}
		c := cause{p.Sheet, column, reasons[what], fixes[fix], p.Blocking}
		if alike[c] == nil {
			causes = append(causes, c)
		}
		alike[c] = append(alike[c], p)
	}
	var all []Finding
	for _, c := range causes {
		all = append(all, findingsOf(c.column, alike[c])...)
	}
	place := map[string]int{}
	for i, s := range r.Sheets {
		place[s.Name] = i
	}
	slices.SortStableFunc(all, func(a, b Finding) int {
		return cmp.Or(order.TrueFirst(a.Blocking, b.Blocking), order.TrueFirst(r.IsWide(&a), r.IsWide(&b)),
			order.TrueFirst(a.Cell == "", b.Cell == ""), -cmp.Compare(len(a.All), len(b.All)), cmp.Compare(place[a.Sheet], place[b.Sheet]), compareAddress(a.Cell, b.Cell))
	})
	return all
}

// findingsOf makes one finding of problems of one cause, or one of each where
// they are few.
func findingsOf(column string, alike []Problem) []Finding {
	slices.SortStableFunc(alike, func(a, b Problem) int { return compareAddress(a.Cell, b.Cell) })
	alike = slices.CompactFunc(alike, func(a, b Problem) bool { return a == b })
	if len(alike) >= fewest && column != "" {
		return []Finding{{Problem: alike[0], Column: column, All: alike}}
	}
	var all []Finding
	for i, p := range alike {
		f := Finding{Problem: p, Column: column}
		if p.Cell != "" {
			f.All = alike[i : i+1 : i+1]
		}
		all = append(all, f)
	}
	return all
}

// IsWide reports whether a finding is about a whole sheet, or a column by its header.
func (r *Roster) IsWide(f *Finding) bool {
	if f.Cell == "" {
		return true
	}
	_, row := splitAddress(f.Cell)
	return slices.ContainsFunc(r.Sheets, func(s *Sheet) bool { return s.Name == f.Sheet && row <= s.HeaderRow })
}

// splitAddress takes an address such as AB12 apart.
func splitAddress(cell string) (column string, row int) {
	column = strings.TrimRight(cell, "0123456789")
	for _, c := range cell[len(column):] {
		row = row*10 + int(c-'0')
	}
	return column, row
}

func compareAddress(a, b string) int {
	columnA, rowA := splitAddress(a)
	columnB, rowB := splitAddress(b)
	return cmp.Or(cmp.Compare(rowA, rowB), cmp.Compare(len(columnA), len(columnB)), cmp.Compare(columnA, columnB))
}

// withoutNumbers replaces quotations and numbers by #; they differ most often between
// problems of one cause.
func withoutNumbers(s string) string {
	out := make([]byte, 0, len(s))
	for i := 0; i < len(s); {
		switch {
		case s[i] == '"' && strings.IndexByte(s[i+1:], '"') >= 0:
			out = append(out, '#')
			i += strings.IndexByte(s[i+1:], '"') + 2
		case isDigit(s[i]):
			out = append(out, '#')
			for i < len(s) && (isDigit(s[i]) || strings.IndexByte(".,:", s[i]) >= 0 && i+1 < len(s) && isDigit(s[i+1])) {
				i++
			}
		default:
			out = append(out, s[i])
			i++
		}
	}
	return string(out)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// particulars matches addresses and months, which differ too.
var particulars = regexp.MustCompile(`\b[A-Z]{1,3}#|\b(?:January|February|March|April|May|June|July|August|September|October|November|December)\b`)

// WordsAlone returns a text with # in place of quotations, numbers, addresses and
// months: problems of one cause become equal, and nothing of the roster is left.
func WordsAlone(s string) string { return particulars.ReplaceAllString(withoutNumbers(s), "#") }

// CellCount is how many cells findings are about, a whole sheet as one.
func CellCount(findings []Finding) int {
	n := 0
	for i := range findings {
		n += max(1, len(findings[i].All))
	}
	return n
}
