package pdfreport_test

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// textOp is one piece of text on a page.
type textOp struct {
	page       int
	x, y, size float64
	text       string
}

var (
	objectPattern  = regexp.MustCompile(`(?s)\n(\d+) 0 obj\n(.*?)\nendobj`)
	fontRefPattern = regexp.MustCompile(`/F([0-9a-f]{40}) (\d+) 0 R`)
	baseFont       = regexp.MustCompile(`/BaseFont /(\S+)`)
	streamPattern  = regexp.MustCompile(`(?s)^<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	operation      = regexp.MustCompile(`(?s)(?:([-\d.]+) [-\d.]+ [-\d.]+ [-\d.]+ ([-\d.]+) ([-\d.]+) cm\n|(\nQ)\n|BT (?:/F([0-9a-f]{40}) ([\d.]+) Tf|([-\d.]+) ([-\d.]+) Td \(((?:\\.|[^\\)])*)\) Tj) ET)`)
)

// extract returns the text of a PDF by way of its fonts, as a reader program
// would.
func extract(t testing.TB, pdf []byte) []textOp {
	t.Helper()
	objects := map[string]string{}
	for _, m := range objectPattern.FindAllSubmatch(pdf, -1) {
		objects[string(m[1])] = string(m[2])
	}
	chars := map[string][]rune{} // by font ID
	for _, m := range fontRefPattern.FindAllSubmatch(pdf, -1) {
		name := baseFont.FindStringSubmatch(objects[string(m[2])])
		if name == nil {
			t.Fatalf("font object %s has no name", m[2])
		}
		chars[string(m[1])] = charsOfFont(t, name[1])
	}
	var ops []textOp
	page := 0
	for _, m := range objectPattern.FindAllSubmatch(pdf, -1) {
		body := m[2]
		head := streamPattern.FindSubmatch(body)
		if head == nil {
			continue
		}
		length, _ := strconv.Atoi(string(head[1]))
		reader, err := zlib.NewReader(bytes.NewReader(body[len(head[0]) : len(head[0])+length]))
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		page++
		ops = append(ops, readOps(t, page, content, chars)...)
	}
	return ops
}

func readOps(t testing.TB, page int, content []byte, chars map[string][]rune) []textOp {
	t.Helper()
	var ops []textOp
	var font []rune
	var size float64
	scale, right, up := 1.0, 0.0, 0.0 // of a page drawn smaller
	for _, m := range operation.FindAllSubmatch(content, -1) {
		switch {
		case len(m[1]) > 0:
			scale, _ = strconv.ParseFloat(string(m[1]), 64)
			right, _ = strconv.ParseFloat(string(m[2]), 64)
			up, _ = strconv.ParseFloat(string(m[3]), 64)
			continue
		case len(m[4]) > 0:
			scale, right, up = 1, 0, 0
			continue
		}
		m = m[4:]
		if len(m[1]) > 0 {
			font = chars[string(m[1])]
			size, _ = strconv.ParseFloat(string(m[2]), 64)
			continue
		}
		var text strings.Builder
		for i, codes := 0, m[5]; i < len(codes); i++ {
			code := codes[i]
			if code == '\\' {
				i++
				code = codes[i]
				if code == 'r' {
					code = '\r'
				}
			}
			if code < ' ' || int(code-' ') >= len(font) {
				t.Fatalf("page %d: code %d has no character", page, code)
			}
			text.WriteRune(font[code-' '])
		}
		x, _ := strconv.ParseFloat(string(m[3]), 64)
		y, _ := strconv.ParseFloat(string(m[4]), 64)
		ops = append(ops, textOp{page, scale*x + right, scale*y + up, scale * size, text.String()})
	}
	return ops
}

// fontChars returns the characters of each prepared font by its name.
var fontChars = sync.OnceValue(func() map[string][]rune {
	all := map[string][]rune{}
	files, err := filepath.Glob(filepath.Join("kit", "fonts", "cut", "*.json"))
	if err != nil || len(files) == 0 {
		panic("no fonts")
	}
	for _, name := range files {
		var font struct{ Name, Chars string }
		data, err := os.ReadFile(name)
		if err == nil {
			err = json.Unmarshal(data, &font)
		}
		if err != nil {
			panic(err)
		}
		all[font.Name] = []rune(font.Chars)
	}
	return all
})

// inFonts reports whether a font has the character.
func inFonts(r rune) bool {
	for _, chars := range fontChars() {
		if slices.Contains(chars, r) {
			return true
		}
	}
	return r == '\u00a0' || r == '\u202f' // drawn as other spaces
}

func charsOfFont(t testing.TB, name string) []rune {
	t.Helper()
	chars, ok := fontChars()[name]
	if !ok {
		t.Fatalf("no code page is named %s", name)
	}
	return chars
}

// dump lists the text of each page in the order drawn. It joins pieces on one
// line.
func dump(ops []textOp) string {
	var b strings.Builder
	page, y := 0, -1.0
	for _, op := range ops {
		switch {
		case op.page != page:
			fmt.Fprintf(&b, "\n--- page %d ---\n", op.page)
			page = op.page
		case op.y != y:
			b.WriteString("\n")
		case !strings.HasSuffix(b.String(), " ") && !strings.HasPrefix(op.text, " "):
			b.WriteString(" ")
		}
		b.WriteString(op.text)
		y = op.y
	}
	return strings.TrimSpace(strings.ReplaceAll(b.String(), " \n", "\n")) + "\n"
}
