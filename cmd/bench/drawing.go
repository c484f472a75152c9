package main

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strconv"
	"strings"
)

// The bare programs draw what stands on a page of ours, piece by piece, without
// having to work out what to say or where: a drawing is the list of those
// pieces, taken from the page's file.

// stroke is one piece: an operator of PDF with its numbers, or a text.
type stroke struct {
	Op      string    `json:"op"`
	Numbers []float64 `json:"n,omitempty"`
	Text    string    `json:"text,omitempty"`
	Bold    bool      `json:"bold,omitempty"`
}

// drawing is the pages of a document.
type drawing [][]stroke

var (
	contentHead = regexp.MustCompile(`<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	fontList    = regexp.MustCompile(`(?s)/Font <<\n(.*?)>>`)
	fontEntry   = regexp.MustCompile(`/(\w+) (\d+) 0 R`)
	token       = regexp.MustCompile(`\((?:[^\\)]|\\.)*\)|[^\s()]+`)
	escaped     = regexp.MustCompile(`(?s)\\(.)`)
)

// record takes the drawing from a page's file; chars are the characters of the
// codes from 32 on.
func record(path string, chars []rune) (drawing, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	bold := map[string]bool{}
	for _, m := range fontEntry.FindAllSubmatch(fontList.Find(data), -1) {
		object := fmt.Appendf(nil, "\n%s 0 obj\n", m[2])
		_, after, _ := bytes.Cut(data, object)
		after, _, _ = bytes.Cut(after, []byte("endobj"))
		bold[string(m[1])] = bytes.Contains(after, []byte("-Bold"))
	}
	var d drawing
	for _, m := range contentHead.FindAllSubmatchIndex(data, -1) {
		length, err := strconv.Atoi(string(data[m[2]:m[3]]))
		if err != nil || m[1]+length > len(data) {
			return nil, fmt.Errorf("%s: a page of another form than expected", path)
		}
		z, err := zlib.NewReader(bytes.NewReader(data[m[1] : m[1]+length]))
		if err != nil {
			return nil, err
		}
		content, err := io.ReadAll(z)
		if err != nil {
			return nil, err
		}
		d = append(d, strokes(string(content), bold, chars))
	}
	if len(d) == 0 {
		return nil, errors.New("no page found in " + path)
	}
	return d, nil
}

// strokes reads the operators of a page.
func strokes(content string, bold map[string]bool, chars []rune) []stroke {
	var all []stroke
	var s stroke
	var at []float64 // where the next text stands
	for _, t := range token.FindAllString(content, -1) {
		x, err := strconv.ParseFloat(t, 64)
		switch {
		case err == nil:
			s.Numbers = append(s.Numbers, x)
			continue
		case t[0] == '(':
			s.Text = decode(t[1:len(t)-1], chars)
			continue
		case t[0] == '/':
			s.Bold = bold[t[1:]]
			continue
		}
		s.Op = t
		switch t {
		case "Td":
			at = s.Numbers
		case "Tj":
			s.Numbers = at
			all = append(all, s)
		case "f", "S":
			if len(all) == 0 || all[len(all)-1].Op != "re" { // boxes are drawn at once
				all = append(all, s)
			}
		case "Tf", "rg", "RG", "w", "re", "m", "l", "c", "B":
			all = append(all, s)
		}
		s = stroke{}
	}
	return all
}

// decode reads a text of single-byte codes.
func decode(codes string, chars []rune) string {
	var out strings.Builder
	for _, b := range []byte(escaped.ReplaceAllString(codes, "$1")) {
		if n := int(b) - ' '; n >= 0 && n < len(chars) && chars[n] != 0 {
			out.WriteRune(chars[n])
		}
	}
	return out.String()
}

// save writes the drawing for the bare programs.
func (d drawing) save(path string) error {
	data, err := json.Marshal(d)
	if err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o600)
}

func readDrawing(path string) (drawing, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var d drawing
	return d, json.Unmarshal(data, &d)
}
