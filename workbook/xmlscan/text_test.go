package xmlscan

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"testing"

	"tenback/workbook/opc"
)

// said lists the tags, attributes and texts of a document.
func said(doc []byte) (string, error) {
	var b, text []byte
	s := New(bytes.NewReader(doc))
	end := func(name []byte) { b, text = fmt.Appendf(b, "%q </%s>\n", text, name), text[:0] }
	for {
		token, err := s.Next()
		if err == io.EOF {
			return string(b), nil
		}
		if err != nil {
			return "", err
		}
		switch token {
		case EndTag:
			end(s.Name)
		case StartTag, EmptyTag:
			b, text = fmt.Appendf(b, "%q <%s", text, s.Name), text[:0]
			for at := 0; ; {
				a, ok, err := NextAttr(s.Attrs(), at)
				if err != nil {
					return "", err
				}
				if !ok {
					break
				}
				value, err := Value(a.Value)
				if err != nil {
					return "", err
				}
				b = fmt.Appendf(b, " %s=%q", a.Name, value)
				at = a.To
			}
			b = append(b, ">\n"...)
			if token == EmptyTag {
				end(s.Name)
			}
		default:
			if text, err = s.AppendText(text); err != nil {
				return "", err
			}
		}
	}
}

// saidByLibrary lists the same as the standard library's decoder reads it.
func saidByLibrary(doc []byte) (string, error) {
	var b, text []byte
	d := xml.NewDecoder(bytes.NewReader(doc))
	name := func(n xml.Name) string {
		if n.Space != "" {
			return n.Space + ":" + n.Local
		}
		return n.Local
	}
	for {
		token, err := d.RawToken()
		if err == io.EOF {
			return string(b), nil
		}
		if err != nil {
			return "", err
		}
		switch t := token.(type) {
		case xml.StartElement:
			b, text = fmt.Appendf(b, "%q <%s", text, name(t.Name)), text[:0]
			for _, a := range t.Attr {
				b = fmt.Appendf(b, " %s=%q", name(a.Name), a.Value)
			}
			b = append(b, ">\n"...)
		case xml.EndElement:
			b, text = fmt.Appendf(b, "%q </%s>\n", text, name(t.Name)), text[:0]
		case xml.CharData:
			text = append(text, t...)
		}
	}
}

var documents = []string{
	`<a/>`,
	`<?xml version="1.0" encoding="UTF-8"?><a b="1" c='"'>x<b:d e:f="&lt;&#65;"/>y<!-- z --></a>`,
	"<a b='1\r\n2\r3\t'>\r\n1\r2\r\r\n<![CDATA[<&]\r]>]]>&amp;&quot;&apos;&gt;&#x1F600;&#13;\n</a>",
	"<a>Ö ő 青木 \u200b</a>",
}

func TestTextAsTheLibraryReadsIt(t *testing.T) {
	for _, doc := range documents {
		got, err := said([]byte(doc))
		want, other := saidByLibrary([]byte(doc))
		if err != nil || other != nil || got != want {
			t.Errorf("%q: %v, %v\n%s\nwant\n%s", doc, err, other, got, want)
		}
	}
}

func TestTextRefused(t *testing.T) {
	for _, doc := range []string{"<a>\x01</a>", "<a>&#1;</a>", "<a>&#xFFFE;</a>", "<a>\xff</a>", "<a>\xed\xa0\x80</a>", "<a>&#xD800;</a>", "<a>&b;</a>",
		"<a>&amp</a>", "<a b='&'/>", "<a b='\x02'/>", "<a><![CDATA[\x03]]></a>"} {
		if got, err := said([]byte(doc)); !errors.Is(err, opc.ErrDamaged) {
			t.Errorf("%q: %q, %v", doc, got, err)
		}
	}
}

// FuzzText: what both the scanner and the standard library's decoder accept,
// they read alike.
func FuzzText(f *testing.F) {
	for _, doc := range documents {
		f.Add([]byte(doc))
	}
	f.Fuzz(func(t *testing.T, doc []byte) {
		got, err := said(doc)
		if err != nil {
			var known *opc.Error
			if !errors.As(err, &known) {
				t.Fatalf("%v is not one of our errors", err)
			}
			return
		}
		if want, err := saidByLibrary(doc); err == nil && got != want {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	})
}
