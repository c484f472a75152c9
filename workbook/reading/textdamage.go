package reading

import "tenback/workbook/cell"

// cutNumber matches a long number as a spreadsheet writes it, without its last
// digits.
var cutNumber = cell.Pattern(`^\d[.,]\d+E\+\d+$`)

func cutShort(r cell.Raw) bool {
	return r.Kind == cell.Text && cutNumber().MatchString(cell.Clean(r.Text))
}

// lostZeros determines whether 7.10 may have become 7.1 before a column of
// shuttle levels was saved as text.
type lostZeros struct {
	first string // such as 7.1
	kept  bool   // some cell is such as 7.10
}

var levelDecimal = cell.Pattern(`^\d{1,2}[.,](1|\d0)$`)

func (c *sheetColumn) observeShuttle(r cell.Raw) {
	m := levelDecimal().FindStringSubmatch(cell.Clean(r.Text))
	switch {
	case m == nil:
	case m[1] != "1":
		c.shuttles.kept = true
	case c.shuttles.first == "":
		c.shuttles.first = cell.Clean(r.Text)
	}
}

func (z lostZeros) possible() bool { return z.first != "" && !z.kept }
