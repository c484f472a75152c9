package pdfreport_test

import (
	"flag"
	"image"
	"image/color"
	"image/color/palette"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

var renderDir = flag.String("render", "", "folder to write every case's page to, to look at")

// TestRender writes all pages to look at, and with pdftoppm a contact sheet,
// contact-sheet.png:
//
//	go test ./pdfreport -run TestRender -render /tmp/pages
func TestRender(t *testing.T) {
	if *renderDir == "" {
		t.Skip("no -render folder given")
	}
	var small []image.Image
	for _, name := range caseNames() {
		pdf, report := pageOf(t, cases[name].person(t))
		if err := os.WriteFile(filepath.Join(*renderDir, name+".pdf"), pdf, 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := exec.LookPath(rasterizer); err != nil {
			continue
		}
		for n := 1; n <= report.Pages; n++ {
			small = append(small, rasterize(t, pdf, n, 32))
		}
	}
	if small == nil {
		t.Logf("%s is not installed; there is no contact sheet", rasterizer)
		return
	}
	writePNG(t, filepath.Join(*renderDir, "contact-sheet.png"), contactSheet(small))
}

// contactSheet sets pictures side by side in rows.
func contactSheet(pictures []image.Image) image.Image {
	const across, gap = 12, 8
	var cell image.Point
	for _, p := range pictures {
		cell.X, cell.Y = max(cell.X, p.Bounds().Dx()+gap), max(cell.Y, p.Bounds().Dy()+gap)
	}
	rows := (len(pictures) + across - 1) / across
	sheet := image.NewRGBA(image.Rect(0, 0, across*cell.X+gap, rows*cell.Y+gap))
	draw.Draw(sheet, sheet.Rect, image.NewUniform(color.Gray{150}), image.Point{}, draw.Src)
	for i, p := range pictures {
		at := image.Pt(gap+i%across*cell.X, gap+i/across*cell.Y)
		draw.Draw(sheet, image.Rectangle{at, at.Add(p.Bounds().Size())}, p, p.Bounds().Min, draw.Src)
	}
	return sheet
}

// rasterizer is the program that turns pages into pictures.
const rasterizer = "pdftoppm"

// rasterize is a page as a picture of so many dots an inch.
func rasterize(t *testing.T, pdf []byte, page, dots int) image.Image {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	n := strconv.Itoa(page)
	if out, err := exec.Command(rasterizer, "-r", strconv.Itoa(dots), "-f", n, "-l", n, "-singlefile", "-png", path, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v: %s", rasterizer, err, out)
	}
	return readPNG(t, filepath.Join(dir, "page.png"))
}

func readPNG(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := png.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return p
}

func writePNG(t *testing.T, path string, p image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	if err := encoder.Encode(f, p); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// fewColours reduces a picture to a fixed palette.
func fewColours(p image.Image) *image.Paletted {
	out := image.NewPaletted(image.Rect(0, 0, p.Bounds().Dx(), p.Bounds().Dy()), palette.WebSafe)
	draw.Draw(out, out.Rect, p, p.Bounds().Min, draw.Src)
	return out
}

// pictured lists a page of each kind.
var pictured = []struct {
	name string
	page int
}{{"work-woman", 1}, {"school-girl", 1}, {"squad-runner", 1}, {"man-82-near", 1}, {"norm-man-67", 1}}

// Pictures are compared by the mean colour of small squares. Other smoothing of text
// does not count, but a moved line or another colour does.
const (
	picturedDots   = 50
	squareSide     = 6
	squareFarApart = 26.0  // of 255, in the channel that differs most
	squaresMost    = 0.004 // share that may be so far apart
)

// TestPictures compares pages with pictures that were looked at.
func TestPictures(t *testing.T) {
	if _, err := exec.LookPath(rasterizer); err != nil {
		t.Skipf("%s is not installed; pages were not compared with their pictures", rasterizer)
	}
	for _, tt := range pictured {
		t.Run(tt.name, func(t *testing.T) {
			pdf, _ := pageOf(t, cases[tt.name].person(t))
			got := fewColours(rasterize(t, pdf, tt.page, picturedDots))
			path := filepath.Join("testdata", tt.name+".png")
			if *update {
				writePNG(t, path, got)
				return
			}
			share, ok := apartShare(got, readPNG(t, path))
			if !ok {
				t.Fatalf("the page is %v, the picture is not", got.Bounds().Size())
			}
			if share > squaresMost {
				t.Errorf("%.2f%% of the page differs from %s, at most %.2f%% (run with -update and look at the picture)", 100*share, path, 100*squaresMost)
			}
		})
	}
}

// apartShare is the share of squares whose mean colours are far apart.
func apartShare(a, b image.Image) (share float64, ok bool) {
	if a.Bounds().Size() != b.Bounds().Size() {
		return 1, false
	}
	size := a.Bounds().Size()
	far, all := 0, 0
	for y := 0; y+squareSide <= size.Y; y += squareSide {
		for x := 0; x+squareSide <= size.X; x += squareSide {
			m, n := meanColour(a, x, y), meanColour(b, x, y)
			all++
			for i := range m {
				if d := m[i] - n[i]; d > squareFarApart || d < -squareFarApart {
					far++
					break
				}
			}
		}
	}
	return float64(far) / float64(all), true
}

// meanColour is the mean of a square, 0 to 255 a channel.
func meanColour(p image.Image, x, y int) (mean [3]float64) {
	at := p.Bounds().Min.Add(image.Pt(x, y))
	for dy := range squareSide {
		for dx := range squareSide {
			r, g, b, _ := p.At(at.X+dx, at.Y+dy).RGBA()
			for i, v := range [3]uint32{r, g, b} {
				mean[i] += float64(v) / 257
			}
		}
	}
	for i := range mean {
		mean[i] /= squareSide * squareSide
	}
	return mean
}

// TestPicturesTellApart checks the comparison.
func TestPicturesTellApart(t *testing.T) {
	whole := readPNG(t, filepath.Join("testdata", "work-woman.png"))
	same, ok := apartShare(whole, whole)
	if !ok || same != 0 {
		t.Errorf("a picture differs from itself by %.4f", same)
	}
	moved := image.NewRGBA(whole.Bounds())
	draw.Draw(moved, moved.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(moved, moved.Rect, whole, image.Pt(0, 4), draw.Src)
	if share, _ := apartShare(whole, moved); share <= squaresMost {
		t.Errorf("moved by four dots it differs by %.4f only", share)
	}
	patched := image.NewRGBA(whole.Bounds())
	draw.Draw(patched, patched.Rect, whole, image.Point{}, draw.Src)
	draw.Draw(patched, image.Rect(40, 260, 200, 275), image.NewUniform(color.RGBA{246, 226, 211, 255}), image.Point{}, draw.Src)
	if share, _ := apartShare(whole, patched); share <= squaresMost {
		t.Errorf("a strip of another colour makes %.4f only", share)
	}
}
