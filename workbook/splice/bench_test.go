package splice

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"iter"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/xuri/excelize/v2"
)

const benchRows = 100_000

var bigWorkbook = sync.OnceValue(func() []byte {
	f := excelize.NewFile()
	defer f.Close()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		panic(err)
	}
	row := make([]any, 20)
	for r := 1; r <= benchRows; r++ {
		for c := range row {
			switch {
			case r == 1:
				row[c] = "column"
			case c < 4:
				row[c] = "some text of a person"
			default:
				row[c] = float64(r*31+c*17) / 7
			}
		}
		if err := w.SetRow(Address{Row: r, Col: 1}.String(), row); err != nil {
			panic(err)
		}
	}
	if err := w.Flush(); err != nil {
		panic(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// eightColumns yields six numbers and two texts for each row.
func eightColumns(rows int) iter.Seq[Cell] {
	return func(yield func(Cell) bool) {
		for r := 1; r <= rows; r++ {
			for c := range 8 {
				cell := Cell{Row: r, Col: 21 + c, Kind: Number, Number: float64(r+c) / 7, Style: 2}
				if r == 1 || c > 5 {
					cell = Cell{Row: r, Col: 21 + c, Kind: Text, Text: "a result in words", Style: 1}
				}
				if !yield(cell) {
					return
				}
			}
		}
	}
}

func benchEdit() Edit {
	return Edit{
		Styles: []Style{{Like: Address{Row: 1, Col: 1}}, {NumberFormat: "0.0"}},
		Sheets: []Sheet{{Name: "Sheet1", Cells: eightColumns(benchRows)}},
	}
}

// BenchmarkApply adds 8 columns to 100,000 rows of 20.
func BenchmarkApply(b *testing.B) {
	in := bytes.NewReader(bigWorkbook())
	edit := benchEdit()
	runtime.GC()
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		var n countWriter
		if _, err := Apply(context.Background(), in, in.Size(), &n, edit); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(n)/1e6, "MB-out")
	}
}

type countWriter int64

func (c *countWriter) Write(b []byte) (int, error) {
	*c += countWriter(len(b))
	return len(b), nil
}

func BenchmarkInspect(b *testing.B) {
	in := bytes.NewReader(bigWorkbook())
	for b.Loop() {
		if _, err := Inspect(context.Background(), in, in.Size()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkVerify(b *testing.B) {
	in := bytes.NewReader(bigWorkbook())
	edit := benchEdit()
	var out bytes.Buffer
	if _, err := Apply(context.Background(), in, in.Size(), &out, edit); err != nil {
		b.Fatal(err)
	}
	edited := bytes.NewReader(out.Bytes())
	b.ResetTimer()
	for b.Loop() {
		if err := Verify(context.Background(), in, in.Size(), edited, edited.Size(), edit); err != nil {
			b.Fatal(err)
		}
	}
}

// manyGroups is a workbook of 20,000 rows of 12 columns and an edit that
// replaces the last two of every second row, as when people and blank lines
// take turns.
func manyGroups(b *testing.B) ([]byte, Edit) {
	const rows, cols = 20_000, 12
	var sheet strings.Builder
	edit := roster()
	for r := 1; r <= rows; r++ {
		fmt.Fprintf(&sheet, `<row r="%d">`, r)
		for c := 1; c <= cols; c++ {
			fmt.Fprintf(&sheet, `<c r="%v"><v>1</v></c>`, Address{Row: r, Col: c})
		}
		sheet.WriteString(`</row>`)
		if r%2 == 0 {
			edit.Sheets[0].Clear = append(edit.Sheets[0].Clear, Range{FirstRow: r, FirstCol: cols - 1, LastRow: r, LastCol: cols})
		}
	}
	return oneSheet(data(sheet.String())).zip(b), edit
}

// BenchmarkClear removes earlier results from 10,000 groups of rows.
func BenchmarkClear(b *testing.B) {
	file, edit := manyGroups(b)
	in := bytes.NewReader(file)
	b.ResetTimer()
	for b.Loop() {
		if _, err := Apply(context.Background(), in, in.Size(), io.Discard, edit); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkVerifyClear compares the outcome of BenchmarkClear.
func BenchmarkVerifyClear(b *testing.B) {
	file, edit := manyGroups(b)
	out, _, err := apply(b, file, edit)
	if err != nil {
		b.Fatal(err)
	}
	b.ResetTimer()
	for b.Loop() {
		if err := verify(file, out, edit); err != nil {
			b.Fatal(err)
		}
	}
}
