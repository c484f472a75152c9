package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"sync"

	"github.com/go-pdf/fpdf"
	"github.com/xuri/excelize/v2"
)

// bareResults is the number of result cells per person.
const bareResults = 12

// bareRows reads a roster with excelize and writes result columns to its right,
// as users of that library do. Numbers and texts of the usual length stand for
// results. It returns the number of people.
func bareRows(roster, out string) (n int, err error) {
	f, err := excelize.OpenFile(roster)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	rows, err := f.Rows("Sheet1")
	if err != nil {
		return 0, err
	}
	for ; rows.Next(); n++ {
		if _, err := rows.Columns(excelize.Options{RawCellValue: true}); err != nil {
			return 0, err
		}
	}
	if err := rows.Close(); err != nil {
		return 0, err
	}
	n-- // the header
	for i := range n {
		results := make([]any, bareResults)
		for c := range results {
			results[c] = float64(i%500) / 10
			if c >= bareResults/3 {
				results[c] = fmt.Sprintf("%d: a result of about the length that ours have", i)
			}
		}
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("U%d", i+2), &results); err != nil {
			return 0, err
		}
	}
	return n, f.SaveAs(out)
}

// barePages is bareRows and draws the same report for everyone, with one worker
// per processor. Its fonts are those of the report.
func barePages(roster, report, fonts, out string) error {
	pages, err := readPages(report)
	if err != nil {
		return err
	}
	var font [4][]byte // definition and file of the regular font, then of the bold one
	for i, name := range []string{"core-regular.json", "core-regular.z", "core-bold.json", "core-bold.z"} {
		if font[i], err = os.ReadFile(filepath.Join(fonts, name)); err != nil {
			return err
		}
	}
	n, err := bareRows(roster, filepath.Join(out, "scored.xlsx"))
	if err != nil {
		return err
	}
	next := make(chan int)
	errs := make([]error, n)
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				errs[i] = draw(pages, font, filepath.Join(out, fmt.Sprintf("%06d.pdf", i)))
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	return errors.Join(errs...)
}

func draw(pages [][]piece, font [4][]byte, path string) error {
	const height = 841.89 // of A4, in points
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddFontFromBytes("page", "", font[0], font[1])
	pdf.AddFontFromBytes("page", "B", font[2], font[3])
	styles := map[string]string{} // of the report's fonts
	var at, box []float64
	for _, page := range pages {
		pdf.AddPage()
		for _, p := range page {
			n := p.numbers
			switch p.op {
			case "Tf":
				if _, known := styles[p.text]; !known {
					styles[p.text] = []string{"", "B"}[len(styles)%2]
				}
				pdf.SetFont("page", styles[p.text], n[0])
			case "rg":
				pdf.SetTextColor(share(n[0]), share(n[1]), share(n[2]))
				pdf.SetFillColor(share(n[0]), share(n[1]), share(n[2]))
			case "RG":
				pdf.SetDrawColor(share(n[0]), share(n[1]), share(n[2]))
			case "w":
				pdf.SetLineWidth(n[0])
			case "Td":
				at = n
			case "Tj":
				pdf.Text(at[0], height-at[1], p.text)
			case "re":
				box = n
			case "m":
				pdf.MoveTo(n[0], height-n[1])
			case "l":
				pdf.LineTo(n[0], height-n[1])
			case "c":
				pdf.CurveBezierCubicTo(n[0], height-n[1], n[2], height-n[3], n[4], height-n[5])
			case "f", "S", "B":
				style := map[string]string{"f": "F", "S": "D", "B": "DF"}[p.op]
				if box != nil {
					pdf.Rect(box[0], height-box[1], box[2], -box[3], style)
				} else {
					pdf.DrawPath(style)
				}
				box = nil
			}
		}
	}
	return pdf.OutputFileAndClose(path)
}

// share converts a share of light from 0 to 1 into one from 0 to 255.
func share(x float64) int { return int(x*255 + 0.5) }
