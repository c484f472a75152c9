package kit

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// drawn is an invented logo: a disc and two bars, on nothing.
func drawn(width, height int) *image.NRGBA {
	p := image.NewNRGBA(image.Rect(0, 0, width, height))
	blue, sand := color.NRGBA{20, 60, 120, 255}, color.NRGBA{190, 120, 50, 255}
	r := float64(height) / 2
	for y := range height {
		for x := range width {
			switch {
			case math.Hypot(float64(x)-r, float64(y)-r) < 0.95*r:
				p.SetNRGBA(x, y, blue)
			case float64(x) > 2.3*r && (y/(max(1, height/5)))%2 == 1:
				p.SetNRGBA(x, y, sand)
			}
		}
	}
	return p
}

func pngFile(p image.Image) []byte {
	var out bytes.Buffer
	if err := png.Encode(&out, p); err != nil {
		panic(err)
	}
	return out.Bytes()
}

func jpegFile(p image.Image) []byte {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, nil); err != nil {
		panic(err)
	}
	return out.Bytes()
}

func TestParseAccent(t *testing.T) {
	for text, want := range map[string]Colour{"#0C4A58": {12, 74, 88}, "0c4a58": {12, 74, 88}, " #003366 ": {0, 0x33, 0x66}, "#767676": {0x76, 0x76, 0x76}} {
		if got, err := ParseAccent(text); err != nil || got.colour != want || !got.given {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{"": "no colour", "blue": "no colour", "#12345": "no colour", "#1234567": "no colour", "#+12345": "no colour",
		"#777777": "4.4 to 1", "#FFFF00": "1.0 to 1", "#fff": "no colour"} {
		if _, err := ParseAccent(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v does not say %q", text, err, want)
		}
	}
}

// TestAccentOnFields: text in the accent is legible on every field.
func TestAccentOnFields(t *testing.T) {
	for v := 0; v < 0xffffff; v += 0x010307 {
		a, err := ParseAccent(fmt.Sprintf("#%06x", v))
		if err != nil {
			continue
		}
		for _, field := range []Colour{White, Mist} {
			if c := contrast(a.On(field).linear(), field.linear()); c < accentContrast {
				t.Fatalf("#%06x on %v: contrast %.2f", v, field, c)
			}
		}
	}
}

// noise is a picture that compresses badly.
func noise(width, height int) image.Image {
	p := image.NewNRGBA(image.Rect(0, 0, width, height))
	random := rand.New(rand.NewPCG(1, 2))
	for i := range p.Pix {
		p.Pix[i] = uint8(random.IntN(256))
	}
	return p
}

func TestLogo(t *testing.T) {
	for _, tt := range []struct {
		name          string
		file          []byte
		width, height int // of the picture
	}{
		{"wide", pngFile(drawn(900, 300)), 900, 300},
		{"square", pngFile(drawn(64, 64)), 64, 64},
		{"tall", pngFile(drawn(100, 800)), 100, 800},
		{"jpeg", jpegFile(drawn(640, 200)), 640, 200},
		{"grey", pngFile(func() image.Image { g := image.NewGray16(image.Rect(0, 0, 50, 40)); return g }()), 50, 40},
		{"few colours", pngFile(image.NewPaletted(image.Rect(0, 0, 60, 40), color.Palette{color.Black, color.White})), 60, 40},
		{"noise", pngFile(noise(700, 500)), 700, 500},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l, err := NewLogo(tt.file)
			if err != nil {
				t.Fatal(err)
			}
			const bytesMost = 45 << 10
			if len(l.data) > bytesMost {
				t.Errorf("%d bytes in every page's file", len(l.data))
			}
			w, h := l.fit(logoWidthMost, logoHeightMost)
			if w > logoWidthMost+1e-9 || h > logoHeightMost+1e-9 {
				t.Errorf("drawn %.1f × %.1f points", w, h)
			}
			shape := float64(tt.width) / float64(tt.height)
			if bend := w / h / shape; bend < 0.985 || bend > 1.015 {
				t.Errorf("the shape is %.3f, was %.3f", w/h, shape)
			}
		})
	}
}

// withHead is a PNG file whose header claims a size but which has no pixels.
func withHead(width, height uint32) []byte {
	file := pngFile(drawn(16, 16))
	put := func(at int, v uint32) {
		file[at], file[at+1], file[at+2], file[at+3] = byte(v>>24), byte(v>>16), byte(v>>8), byte(v)
	}
	put(16, width)
	put(20, height)
	put(29, crc32.ChecksumIEEE(file[12:29]))
	return file
}

func TestLogoErrors(t *testing.T) {
	white := image.NewNRGBA(image.Rect(0, 0, 80, 40))
	draw.Draw(white, white.Rect, image.White, image.Point{}, draw.Src)
	for _, tt := range []struct {
		name string
		file []byte
		want string
	}{
		{"empty", nil, "no PNG or JPEG"},
		{"another kind", []byte("<svg></svg>"), "no PNG or JPEG"},
		{"large file", make([]byte, LogoBytesMost+1), "larger than 4 MB"},
		{"says it is vast", withHead(60000, 60000), "60000 × 60000 pixels"},
		{"says it is vaster", withHead(1<<28, 1<<28), "pixels"},
		{"damaged", pngFile(drawn(100, 100))[:300], "damaged"},
		{"tiny", pngFile(drawn(15, 40)), "too few"},
		{"a line", pngFile(drawn(1000, 40)), "longer than 12 to 1"},
		{"white", pngFile(white), "white paper"},
		{"nothing", pngFile(image.NewNRGBA(image.Rect(0, 0, 80, 40))), "white paper"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := NewLogo(tt.file); !errors.Is(err, ErrLogo) || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v does not say %q", err, tt.want)
			}
		})
	}
}

// TestLogoDecoders: a decoder registered elsewhere never gets a user's file.
func TestLogoDecoders(t *testing.T) {
	image.RegisterFormat("everything", "\x89???",
		func(io.Reader) (image.Image, error) { t.Error("another decoder read the logo"); return nil, io.EOF },
		func(io.Reader) (image.Config, error) {
			t.Error("another decoder looked at the logo")
			return image.Config{}, io.EOF
		})
	for _, file := range [][]byte{[]byte("\x89ABC and more"), pngFile(drawn(40, 20))[:60]} {
		if _, err := NewLogo(file); !errors.Is(err, ErrLogo) {
			t.Errorf("error %v for %q", err, file)
		}
	}
}

func FuzzNewLogo(f *testing.F) {
	f.Add(pngFile(drawn(40, 20)))
	f.Add(jpegFile(drawn(40, 20)))
	f.Add(withHead(1<<30, 3))
	f.Fuzz(func(t *testing.T, file []byte) {
		l, err := NewLogo(file)
		if err != nil {
			return
		}
		if _, _, err := image.DecodeConfig(bytes.NewReader(l.data)); err != nil {
			t.Errorf("the logo kept can't be read: %v", err)
		}
	})
}
