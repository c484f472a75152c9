package splice

import (
	"io"
	"strings"
	"testing"
	"testing/iotest"
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
	rd := newSheetReader(iotest.HalfReader(strings.NewReader(data(rows.String()))))
	n := 0
	for {
		it, err := rd.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if it.kind != itemCell {
			continue
		}
		if string(it.raw) != want[n] || it.row != n+1 || it.col != 1 || !it.implied {
			t.Fatalf("cell %d is at row %d, column %d: %.60s", n, it.row, it.col, it.raw)
		}
		n++
	}
	if n != len(want) {
		t.Errorf("%d cells of %d", n, len(want))
	}
}
