package xmlscan

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"tenback/workbook/opc"
)

// tokens reads a document to its end and gives its tokens, copied.
func tokens(s *Scanner) (kinds []Token, raws []string, err error) {
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return kinds, raws, nil
		}
		if err != nil {
			return kinds, raws, err
		}
		kinds = append(kinds, kind)
		raws = append(raws, string(s.Raw()))
	}
}

// TestScannerPieces: however the bytes arrive and wherever a buffer ends, the
// tokens are the same and together are the document.
func TestScannerPieces(t *testing.T) {
	var b strings.Builder
	b.WriteString("\xEF\xBB\xBF<?xml version='1.0'?>\n<a>")
	for i := range 900 {
		b.WriteString(`<row r="1" x='">'>` + strings.Repeat("text ", i%37) + "<!-- <a> " + strings.Repeat("-", i%5*2) + " --><c/><v  ></v\n><![CDATA[]] ]>]]></row>")
	}
	b.WriteString("<long x='" + strings.Repeat("y", 3*firstBuffer) + "'/></a>\n")
	doc := b.String()
	kinds, raws, err := tokens(OfBytes([]byte(doc)))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Join(raws, "") != doc {
		t.Fatal("the tokens together are not the document")
	}
	// The mark, the declaration, a line feed and <a>; eight for each row, less
	// the 25 texts that are empty; the long tag, </a> and a line feed.
	if want := 4 + 900*8 - 25 + 3; len(kinds) != want {
		t.Fatalf("%d tokens, want %d", len(kinds), want)
	}
	readers := map[string]io.Reader{
		"whole":       strings.NewReader(doc),
		"one byte":    iotest.OneByteReader(strings.NewReader(doc)),
		"half":        iotest.HalfReader(strings.NewReader(doc)),
		"end at once": iotest.DataErrReader(strings.NewReader(doc)),
	}
	for name, r := range readers {
		t.Run(name, func(t *testing.T) {
			gotKinds, gotRaws, err := tokens(New(r))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(kindBytes(gotKinds), kindBytes(kinds)) {
				t.Error("the kinds of the tokens differ")
			}
			if strings.Join(gotRaws, "\x00") != strings.Join(raws, "\x00") {
				t.Error("the tokens differ")
			}
		})
	}
}

func kindBytes(kinds []Token) []byte {
	out := make([]byte, len(kinds))
	for i, k := range kinds {
		out[i] = byte(k)
	}
	return out
}

// TestScannerTruncated: no beginning of a document passes for the whole.
func TestScannerTruncated(t *testing.T) {
	doc := `<?xml version="1.0"?><a b="1"><!-- c --><d/>text<![CDATA[e]]></a>`
	for n := range doc {
		if _, _, err := tokens(New(strings.NewReader(doc[:n]))); !errors.Is(err, opc.ErrDamaged) {
			t.Errorf("%q: got error %v", doc[:n], err)
		}
	}
}

func TestScannerReadError(t *testing.T) {
	boom := errors.New("boom")
	r := io.MultiReader(strings.NewReader("<a><b"), iotest.ErrReader(boom))
	if _, _, err := tokens(New(r)); !errors.Is(err, boom) {
		t.Errorf("got error %v", err)
	}
}

func TestValue(t *testing.T) {
	good := map[string]string{"": "", "a": "a", "&lt;&gt;&amp;&quot;&apos;": `<>&"'`, "&#65;&#x42;&#x1F600;": "AB😀"}
	for in, want := range good {
		if got, err := Value([]byte(in)); err != nil || string(got) != want {
			t.Errorf("%q: got %q, %v", in, got, err)
		}
	}
	for _, in := range []string{"&", "&;", "&nbsp;", "&#;", "&#x;", "&#x110000;", "&#-1;", "&longer than any;", "a & b;"} {
		if got, err := Value([]byte(in)); !errors.Is(err, opc.ErrDamaged) {
			t.Errorf("%q: got %q, %v", in, got, err)
		}
	}
}

func TestOneLongTag(t *testing.T) {
	s := New(io.MultiReader(strings.NewReader(`<a b="`), strings.NewReader(strings.Repeat("x", MaxToken+1))))
	if _, err := s.Next(); !errors.Is(err, opc.ErrLimit) {
		t.Errorf("got %v", err)
	}
}

// TestPassing: what is looked at ahead is what follows, wherever the stream is cut.
func TestPassing(t *testing.T) {
	inside := `<b>` + strings.Repeat("x", 3*firstBuffer) + `</b><b/>`
	doc := `<a>` + inside + `</a>`
	for name, r := range map[string]io.Reader{"whole": strings.NewReader(doc), "halves": iotest.HalfReader(strings.NewReader(doc)), "bytes": iotest.OneByteReader(strings.NewReader(doc))} {
		s := New(r)
		if _, err := s.Next(); err != nil {
			t.Fatal(err)
		}
		if s.End() != len("<a>") {
			t.Errorf("%s: the first token ends at %d", name, s.End())
		}
		for _, tt := range []struct {
			what string
			want bool
		}{{inside, true}, {"<b>y", false}, {doc + doc, false}, {"", true}} {
			if ok, err := s.Follows([]byte(tt.what)); ok != tt.want || err != nil {
				t.Errorf("%s: %.9s follows: %v (%v)", name, tt.what, ok, err)
			}
		}
		if ahead, ok, err := s.Ahead([]byte("</a>"), 9*firstBuffer); !ok || err != nil || string(ahead) != inside {
			t.Errorf("%s: ahead are %.9s (%v, %v)", name, ahead, ok, err)
		}
		if _, ok, err := s.Ahead([]byte("<c"), 9*firstBuffer); ok || err != nil {
			t.Errorf("%s: <c is ahead: %v (%v)", name, ok, err)
		}
		var passed []byte
		for len(passed) < len(inside) {
			if err := s.Pass(len(inside) - len(passed)); err != nil {
				t.Fatal(name, err)
			}
			passed = append(passed, s.Raw()...)
		}
		if string(passed) != inside {
			t.Errorf("%s: other bytes passed over", name)
		}
		if kind, err := s.Next(); kind != EndTag || err != nil || string(s.Raw()) != "</a>" {
			t.Errorf("%s: then %q (%v)", name, s.Raw(), err)
		}
	}
}
