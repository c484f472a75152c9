package opc

import (
	"bytes"
	"errors"
	"io"
	"strconv"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// declaration is how far into a part its XML declaration is looked for.
const declaration = 256

// OpenXML starts reading a part in UTF-8, whatever its encoding is. A declared
// encoding becomes UTF-8, so that a copy of what is read is well formed.
func (p *Package) OpenXML(part *Part) (io.ReadCloser, error) {
	rc, err := p.Open(part)
	if err != nil {
		return nil, err
	}
	text, err := inUTF8(rc)
	if err != nil {
		rc.Close()
		return nil, XMLError(part.Name, err)
	}
	return struct {
		io.Reader
		io.Closer
	}{text, rc}, nil
}

// inUTF8 returns the XML in r in UTF-8.
func inUTF8(r io.Reader) (io.Reader, error) {
	head, err := peek(r)
	if err != nil {
		return nil, err
	}
	wide := false
	for mark, order := range map[string]unicode.Endianness{
		"\xFF\xFE": unicode.LittleEndian, "<\x00": unicode.LittleEndian,
		"\xFE\xFF": unicode.BigEndian, "\x00<": unicode.BigEndian,
	} {
		if bytes.HasPrefix(head, []byte(mark)) {
			wide = true
			r = unicode.UTF16(order, unicode.UseBOM).NewDecoder().Reader(io.MultiReader(bytes.NewReader(head), r))
		}
	}
	if wide {
		if head, err = peek(r); err != nil {
			return nil, err
		}
	}
	from, to := declared(head)
	name := strings.ToLower(string(head[from:to]))
	switch name {
	case "", "utf-8", "utf8", "us-ascii", "ascii":
		return io.MultiReader(bytes.NewReader(head), r), nil
	}
	encoding, err := htmlindex.Get(name)
	if err != nil {
		return nil, Unsupported("the XML is stored as " + strconv.Quote(name) + ", an encoding that is not read")
	}
	text := io.MultiReader(bytes.NewReader(head[:from]), strings.NewReader("UTF-8"), bytes.NewReader(head[to:]), r)
	if known, err := htmlindex.Name(encoding); wide || err == nil && strings.HasPrefix(known, "utf-16") {
		return text, nil // the declaration has been read, so the text is decoded
	}
	return transform.NewReader(text, encoding.NewDecoder()), nil
}

// peek reads the beginning of a part.
func peek(r io.Reader) ([]byte, error) {
	head := make([]byte, declaration)
	n, err := io.ReadFull(r, head)
	if errors.Is(err, io.ErrUnexpectedEOF) || err == io.EOF {
		err = nil
	}
	return head[:n], err
}

// declared returns the place of the name of the encoding in an XML declaration, or
// an empty one.
func declared(head []byte) (from, to int) {
	text, _, whole := bytes.Cut(head, []byte("?>"))
	if !whole || !bytes.HasPrefix(bytes.TrimPrefix(text, []byte("\xEF\xBB\xBF")), []byte("<?xml")) {
		return 0, 0
	}
	at := bytes.Index(text, []byte("encoding"))
	if at < 0 {
		return 0, 0
	}
	quote := bytes.IndexAny(text[at:], `"'`)
	if quote < 0 {
		return 0, 0
	}
	from = at + quote + 1
	n := bytes.IndexByte(text[from:], text[from-1])
	if n < 0 {
		return 0, 0
	}
	return from, from + n
}
