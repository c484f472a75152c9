package reading

import "tenback/workbook/cell"

// cutNumber is how a spreadsheet writes a long number, in which the last digits
// are lost.
var cutNumber = cell.Pattern(`^\d[.,]\d+E\+\d+$`)

func cutShort(r cell.Raw) bool {
	return r.Kind == cell.Text && cutNumber().MatchString(cell.Clean(r.Text))
}

// lostZeros finds out whether 7.10 may have become 7.1 in a column of shuttle
// levels before it came into a text file.
type lostZeros struct {
	first string // such as 7.1
	kept  bool   // there is one such as 7.10
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
