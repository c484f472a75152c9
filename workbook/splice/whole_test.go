package splice

import (
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"tenback/workbook/ooxml"
)

// TestWholeCells: a cell is delivered in one piece even across buffers.
func TestWholeCells(t *testing.T) {
	var rows strings.Builder
	var want []string
	for i := range 500 {
		cell := `<c t="inlineStr"><is><t>` + strings.Repeat("abcdefg", i) + `</t></is></c>`
		want = append(want, cell)
		rows.WriteString("<row>" + cell + "</row>")
	}
	rd := ooxml.NewReader(iotest.HalfReader(strings.NewReader(data(rows.String()))))
	n := 0
	for {
		it, err := rd.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if it.Kind != ooxml.ItemCell {
			continue
		}
		if string(it.Raw) != want[n] || it.Row != n+1 || it.Col != 1 || !it.Implied {
			t.Fatalf("cell %d is at row %d, column %d: %.60s", n, it.Row, it.Col, it.Raw)
		}
		n++
	}
	if n != len(want) {
		t.Errorf("%d cells of %d", n, len(want))
	}
}
