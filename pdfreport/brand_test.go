package pdfreport_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"

	"tenback/pdfreport/kit"
)

// picture returns the file of an invented logo: a disc and two bars, on nothing,
// or on white for a JPEG.
func picture(width, height int, asJPEG bool) []byte {
	p := image.NewRGBA(image.Rect(0, 0, width, height))
	if asJPEG {
		draw.Draw(p, p.Rect, image.White, image.Point{}, draw.Src)
	}
	blue, sand := color.NRGBA{20, 60, 120, 255}, color.NRGBA{190, 120, 50, 255}
	r := float64(height) / 2
	for y := range height {
		for x := range width {
			switch {
			case math.Hypot(float64(x)-r, float64(y)-r) < 0.95*r:
				p.Set(x, y, blue)
			case float64(x) > 2.3*r && (y/(max(1, height/5)))%2 == 1:
				p.Set(x, y, sand)
			}
		}
	}
	var out bytes.Buffer
	write := func() error { return png.Encode(&out, p) }
	if asJPEG {
		write = func() error { return jpeg.Encode(&out, p, nil) }
	}
	if err := write(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

func mustLogo(file []byte) *kit.Logo {
	l, err := kit.NewLogo(file)
	if err != nil {
		panic(err)
	}
	return l
}

func mustAccent(text string) kit.Accent {
	a, err := kit.ParseAccent(text)
	if err != nil {
		panic(err)
	}
	return a
}

// Invented organisations.
var (
	harbour = &kit.Brand{Organisation: "Quillhaven Harbour Office", Contact: "Questions? Wellness team, room 12, wellness@quillhaven.example",
		Logo: mustLogo(picture(900, 300, false))}
	school    = &kit.Brand{Organisation: "Quillhaven Upper School", Accent: mustAccent("#6A2C5B"), Logo: mustLogo(picture(400, 400, false))}
	striders  = &kit.Brand{Organisation: "Quillhaven Striders", Accent: mustAccent("#7A3B00"), Contact: "Coach: Signe Marlow"}
	longOwner = &kit.Brand{Organisation: "Association of the Independent Harbour, Dredging and Lighthouse Services of Greater Quillhaven and the Outer Skerries",
		Contact: "Occupational health service of the harbour association, second floor of the old customs house, open Monday to Thursday from nine to four, telephone 555 0143",
		Logo:    mustLogo(picture(1200, 300, true))}
)

// TestOwner: the organisation is the author and in the head, and the contact is
// in every foot.
func TestOwner(t *testing.T) {
	pdf, report := pageOf(t, cases["work-woman"].person(t))
	text := dump(extract(t, pdf))
	if !strings.Contains(text, "Quillhaven Harbour Office") {
		t.Error("the organisation is not named")
	}
	if !bytes.Contains(pdf, []byte("/Subtype /Image")) {
		t.Error("the logo is not in the file")
	}
	if n := strings.Count(text, "wellness@quillhaven.example"); n != report.Pages {
		t.Errorf("the contact stands on %d of %d pages", n, report.Pages)
	}
}
