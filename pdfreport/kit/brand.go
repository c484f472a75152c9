package kit

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/go-pdf/fpdf"
)

// Brand is the look of an organisation's pages. The zero Brand is no one's.
type Brand struct {
	Organisation string // in the head and as the author; may be empty
	Contact      string // whom to ask, in the foot; may be empty
	Logo         *Logo  // nil for none
	Accent       Accent // of headings and rules
}

// Accent is a colour dark enough for text on white. The zero Accent is petrol.
type Accent struct {
	colour Colour
	given  bool
}

// accentContrast is the least contrast of text to its background.
//
// Source: W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3.
const accentContrast = 4.5

// ParseAccent parses a colour of the form #RRGGBB, with or without the sign. It rejects colours with a contrast to white of less than 4.5 to 1.
func ParseAccent(text string) (Accent, error) {
	digits := strings.TrimPrefix(strings.TrimSpace(text), "#")
	v, err := strconv.ParseUint(digits, 16, 32)
	if err != nil || len(digits) != 6 {
		return Accent{}, fmt.Errorf("%q is no colour; write it as # and six digits, such as #0C4A58", text)
	}
	c := Colour{int(v >> 16), int(v >> 8 & 0xff), int(v & 0xff)}
	if ratio := contrast(c.linear(), White.linear()); ratio < accentContrast {
		return Accent{}, fmt.Errorf("%q is too light for text: its contrast to white is %.1f to 1, and %.1f is the least; take a darker shade",
			text, math.Floor(10*ratio)/10, accentContrast)
	}
	return Accent{c, true}, nil
}

// On returns the accent for text on a field, or ink where the accent is too
// light.
func (a Accent) On(field Colour) Colour {
	c := a.or(Petrol)
	if contrast(c.linear(), field.linear()) < accentContrast {
		return Ink
	}
	return c
}

// or returns the accent, or c if none was given.
func (a Accent) or(c Colour) Colour {
	if a.given {
		return a.colour
	}
	return c
}

// LogoBytesMost bounds a logo's file.
const LogoBytesMost = 4 << 20

// Bounds of a logo's shape. The pixels are checked before the picture is decoded.
const (
	logoPixelsMost = 8 << 20
	logoSideLeast  = 16
	// a longer logo is a mere line when drawn small.
	logoRatioMost = 12
)

// The logo as embedded: sharp at the size drawn (300 dots an inch) and small in
// each page's file.
const (
	logoDots     = 300.0 / 72
	logoPNGMost  = 20 << 10
	logoQuality  = 88
	logoVisible  = 1.25 // contrast to white of a visible pixel
	logoSeeLeast = 200  // one pixel in so many must be visible
)

// Logo is an organisation's logo, ready to be drawn.
type Logo struct {
	width, height int    // in pixels
	kind          string // "PNG" or "JPEG"
	data          []byte
}

// ErrLogo is wrapped by all errors of NewLogo.
var ErrLogo = errors.New("logo cannot be used")

// pictureKind is a file format that NewLogo reads. Decoders are called by name
// because image.Decode would also try those that other packages register.
type pictureKind struct {
	start string
	head  func(io.Reader) (image.Config, error)
	read  func(io.Reader) (image.Image, error)
}

var pictureKinds = []pictureKind{
	{"\x89PNG\r\n\x1a\n", png.DecodeConfig, png.Decode},
	{"\xff\xd8", jpeg.DecodeConfig, jpeg.Decode},
}

// NewLogo decodes a PNG or JPEG file of at most 4 MB and 8 million pixels. It
// scales the picture down to what print shows and sets it on white.
func NewLogo(file []byte) (*Logo, error) {
	fail := func(format string, args ...any) (*Logo, error) {
		return nil, fmt.Errorf("%w: %s", ErrLogo, fmt.Sprintf(format, args...))
	}
	if len(file) > LogoBytesMost {
		return fail("the file is larger than %d MB; save it smaller", LogoBytesMost>>20)
	}
	at := slices.IndexFunc(pictureKinds, func(k pictureKind) bool { return bytes.HasPrefix(file, []byte(k.start)) })
	if at < 0 {
		return fail("it is no PNG or JPEG picture; save it as one of these")
	}
	kind := pictureKinds[at]
	head, err := kind.head(bytes.NewReader(file))
	if err != nil {
		return fail("the picture is damaged (%v)", err)
	}
	switch w, h := head.Width, head.Height; {
	case w > logoPixelsMost || h > logoPixelsMost || int64(w)*int64(h) > logoPixelsMost:
		return fail("it has %d × %d pixels, at most %d million in all; save it smaller", w, h, logoPixelsMost>>20)
	case w < logoSideLeast || h < logoSideLeast:
		return fail("it has %d × %d pixels, too few to print; at least %d a side", w, h, logoSideLeast)
	case w > logoRatioMost*h || h > logoRatioMost*w:
		return fail("it is %d × %d pixels; a shape longer than %d to 1 cannot be seen at the size of a logo", w, h, logoRatioMost)
	}
	picture, err := kind.read(bytes.NewReader(file))
	if err != nil {
		return fail("the picture is damaged (%v)", err)
	}
	small := shrink(onWhite(picture))
	if !visible(small) {
		return fail("it is invisible on white paper; use the version for light backgrounds")
	}
	return pack(small)
}

func onWhite(picture image.Image) *image.RGBA {
	b := picture.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, picture, b.Min, draw.Over)
	return out
}

// shrink scales a picture down to the size drawn, by averaging pixels.
func shrink(p *image.RGBA) *image.RGBA {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	scale := math.Min(logoWidthMost*logoDots/float64(w), logoHeightMost*logoDots/float64(h))
	if scale >= 1 {
		return p
	}
	width, height := max(1, int(math.Round(scale*float64(w)))), max(1, int(math.Round(scale*float64(h))))
	out := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		top, bottom := y*h/height, max(y*h/height+1, (y+1)*h/height)
		for x := range width {
			left, right := x*w/width, max(x*w/width+1, (x+1)*w/width)
			var sum [3]int
			for v := top; v < bottom; v++ {
				for u := left; u < right; u++ {
					at := p.PixOffset(u, v)
					for i := range sum {
						sum[i] += int(p.Pix[at+i])
					}
				}
			}
			n := (bottom - top) * (right - left)
			out.SetRGBA(x, y, color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), 255})
		}
	}
	return out
}

// visible reports whether enough of a picture stands out from white.
func visible(p *image.RGBA) bool {
	seen := 0
	for at := 0; at < len(p.Pix); at += 4 {
		if contrast(Colour{int(p.Pix[at]), int(p.Pix[at+1]), int(p.Pix[at+2])}.linear(), White.linear()) >= logoVisible {
			seen++
		}
	}
	return seen*logoSeeLeast >= len(p.Pix)/4
}

// pack encodes a picture as PNG, or as JPEG where a PNG would be large.
func pack(p *image.RGBA) (*Logo, error) {
	var out bytes.Buffer
	l := &Logo{width: p.Rect.Dx(), height: p.Rect.Dy(), kind: "PNG"}
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	if err := encoder.Encode(&out, p); err != nil {
		return nil, err
	}
	if out.Len() > logoPNGMost {
		out.Reset()
		l.kind = "JPEG"
		if err := jpeg.Encode(&out, p, &jpeg.Options{Quality: logoQuality}); err != nil {
			return nil, err
		}
	}
	l.data = out.Bytes()
	return l, nil
}

// fit returns the size at which the logo fills a box, in points.
func (l *Logo) fit(width, height float64) (w, h float64) {
	scale := math.Min(width/float64(l.width), height/float64(l.height))
	return scale * float64(l.width), scale * float64(l.height)
}

func (l *Logo) draw(s *Sheet, x, y, w, h float64) {
	const name = "logo"
	options := fpdf.ImageOptions{ImageType: l.kind}
	s.Pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(l.data))
	s.Pdf.ImageOptions(name, x, y, w, h, false, options, 0, "")
}
