package catalogue

import (
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/table"

	"tenback/cmd/internal/terminal"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// Tables lists the published tables.
func Tables(w io.Writer) {
	t := terminal.Table(w)
	t.AppendHeader(table.Row{"ID", "Table"})
	for _, known := range reference.Tables() {
		t.AppendRow(table.Row{known.ID, known.Title})
	}
	t.Render()
	fmt.Fprintln(w, "\ntenback tables ID prints one with its source.")
}

// Table prints a table as used, with its source.
func Table(w io.Writer, known reference.Table) {
	fmt.Fprintln(w, terminal.Wrap(known.Title, ""))
	terminal.Section(w, "About", append([]string{"unit: " + known.Unit, "values: " + known.Status, "source: " + fieldtests.Cite(known.Source)}, known.Notes...))
	fmt.Fprintln(w)
	t := terminal.Table(w)
	for i, row := range known.Rows() {
		cells := make(table.Row, len(row))
		for j, cell := range row {
			cells[j] = cell
		}
		if i == 0 {
			t.AppendHeader(cells)
			continue
		}
		t.AppendRow(cells)
	}
	t.Render()
}
