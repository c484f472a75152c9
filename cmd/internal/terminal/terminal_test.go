package terminal

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// What comes from a sheet must neither act on the terminal nor turn the
// direction of a line.
func TestPlain(t *testing.T) {
	for _, c := range []struct{ in, want, line string }{
		{"Ida Calloway\n", "Ida Calloway\n", "Ida Calloway"},
		{"a\x1b[31mb", "a [31mb", "a [31mb"},
		{"a\nb\r\tc", "a\nb \tc", "a b c"},
		{"a\u202eb\u202c", "ab", "ab"},
		{"כהן\u200f-לוי\u061c", "כהן-לוי", "כהן-לוי"},
		{"\u2066x\u2069 \u009b1m", "x  1m", "x 1m"},
		{"é\u200d王", "é\u200d王", "é\u200d王"},
		{"half a letter: \xe2\x80", "half a letter: \xe2\x80", "half a letter: \xe2\x80"},
		{"", "", ""},
	} {
		var out bytes.Buffer
		n, err := fmt.Fprint(writer{&out}, c.in)
		if got := out.String(); got != c.want || n != len(c.in) || err != nil {
			t.Errorf("%q becomes %q, %d, %v, want %q", c.in, got, n, err, c.want)
		}
		if got := Line(c.in); got != c.line {
			t.Errorf("%q becomes the line %q, want %q", c.in, got, c.line)
		}
	}
}

// In JSON nothing is lost.
func TestPlainJSON(t *testing.T) {
	const name = "Ida \u202eyawollaC\u202c \x7f \u0085 \n\t\\u202e \"é\""
	written, err := json.MarshalIndent(map[string]string{"name": name}, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	document := JSON(written)
	if strings.ContainsFunc(string(document), func(r rune) bool { return acts(r) && r != '\n' }) {
		t.Errorf("signs that act are left in %q", document)
	}
	var read map[string]string
	if err := json.Unmarshal(document, &read); err != nil || read["name"] != name {
		t.Errorf("%q is read back as %q, %v", name, read["name"], err)
	}
}
