package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/go-pdf/fpdf"
)

// bareFont is the font that the pages' words are in, as prepared.
type bareFont struct {
	definition, file [2][]byte // regular, bold
	codes            map[rune]byte
	chars            []rune
}

func readFont(folder string) (*bareFont, error) {
	font := &bareFont{codes: map[rune]byte{}}
	for i, weight := range []string{"regular", "bold"} {
		var err error
		base := filepath.Join(folder, "core-"+weight)
		if font.definition[i], err = os.ReadFile(base + ".json"); err != nil {
			return nil, err
		}
		if font.file[i], err = os.ReadFile(base + ".z"); err != nil {
			return nil, err
		}
	}
	var def struct{ Chars string }
	if err := json.Unmarshal(font.definition[0], &def); err != nil {
		return nil, err
	}
	font.chars = []rune(def.Chars)
	for n, r := range font.chars {
		font.codes[r] = byte(' ' + n)
	}
	return font, nil
}

// encode writes a text in the font's codes, with a box for what it lacks.
func (f *bareFont) encode(text string) string {
	var out strings.Builder
	for _, r := range text {
		code, ok := f.codes[r]
		if !ok {
			code = f.codes['□']
		}
		out.WriteByte(code)
	}
	return out.String()
}

// barePages is the bare program of pages: it reads the roster, writes a column
// of page names into a copy, and draws the same drawing for everyone, with their
// name on it, on as many workers as there are processors. It scores nothing and
// lays nothing out.
func barePages(roster, drawn, fonts, out string) error {
	d, err := readDrawing(drawn)
	if err != nil {
		return err
	}
	font, err := readFont(fonts)
	if err != nil {
		return err
	}
	for _, page := range d {
		for i := range page {
			page[i].Text = font.encode(page[i].Text)
		}
	}
	people, err := bareColumns(roster, filepath.Join(out, "scored.xlsx"))
	if err != nil {
		return err
	}
	next := make(chan int)
	errs := make([]error, len(people))
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				errs[i] = d.draw(font, font.encode(people[i]), filepath.Join(out, fmt.Sprintf("%06d.pdf", i)))
			}
		})
	}
	for i := range people {
		next <- i
	}
	close(next)
	wait.Wait()
	return errors.Join(errs...)
}

// draw draws the drawing with a name into a file.
func (d drawing) draw(font *bareFont, name, path string) error {
	const height = 841.89 // of A4, in points
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.SetAutoPageBreak(false, 0)
	for i, style := range []string{"", "B"} {
		pdf.AddFontFromBytes("page", style, font.definition[i], font.file[i])
	}
	for _, page := range d {
		pdf.AddPage()
		pdf.SetFont("page", "", 9)
		pdf.Text(48, 20, name)
		for _, s := range page {
			n := s.Numbers
			switch s.Op {
			case "Tf":
				pdf.SetFont("page", map[bool]string{true: "B"}[s.Bold], n[0])
			case "rg":
				pdf.SetTextColor(whole(n[0]), whole(n[1]), whole(n[2]))
				pdf.SetFillColor(whole(n[0]), whole(n[1]), whole(n[2]))
			case "RG":
				pdf.SetDrawColor(whole(n[0]), whole(n[1]), whole(n[2]))
			case "w":
				pdf.SetLineWidth(n[0])
			case "Tj":
				pdf.Text(n[0], height-n[1], s.Text)
			case "re":
				pdf.Rect(n[0], height-n[1], n[2], -n[3], "F")
			case "m":
				pdf.MoveTo(n[0], height-n[1])
			case "l":
				pdf.LineTo(n[0], height-n[1])
			case "c":
				pdf.CurveBezierCubicTo(n[0], height-n[1], n[2], height-n[3], n[4], height-n[5])
			case "f":
				pdf.DrawPath("F")
			case "S":
				pdf.DrawPath("D")
			case "B":
				pdf.DrawPath("DF")
			}
		}
	}
	return pdf.OutputFileAndClose(path)
}

// whole is a share of light as the library takes it.
func whole(x float64) int { return int(x*255 + 0.5) }
