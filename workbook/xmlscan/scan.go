// Package xmlscan splits the XML of a workbook's parts into tokens. The standard
// library's decoder will not do, because splicing needs the exact bytes and large
// sheets are read several times.
package xmlscan

import (
	"bytes"
	"io"
	"strconv"

	"tenback/workbook/opc"
)

// Token is a kind of token.
type Token uint8

// The kinds of tokens.
const (
	CharData Token = iota // character data
	StartTag              // <a ...>
	EmptyTag              // <a .../>
	EndTag                // </a>
	Other                 // comment, CDATA section or processing instruction
)

// MaxToken bounds the scanner's memory: no single tag, comment or cell may be
// longer. The longest cell text is 32,767 characters.
const MaxToken = 16 << 20

// mark is the byte order mark of UTF-8, which becomes a token.
const mark = "\xEF\xBB\xBF"

// Scanner splits a UTF-8 XML stream into tokens that together are exactly the
// bytes read. It checks nesting and quoting, but neither names nor entities nor
// characters of bytes that are only passed on.
type Scanner struct {
	window

	Name  []byte // qualified name, for tags
	Level int    // nesting level of that element; the root has 1

	open   []byte // names of the open elements, one after the other
	starts []int  // where each begins in open
	rooted bool
	begun  bool

	seen [16][]byte // the attributes of a tag, while they are checked
}

// New returns a scanner that reads from r.
func New(r io.Reader) *Scanner {
	return &Scanner{window: window{r: r, buf: make([]byte, firstBuffer), keep: -1}}
}

// OfBytes returns a scanner of bytes in memory.
func OfBytes(b []byte) *Scanner {
	return &Scanner{window: window{buf: b, fill: len(b), keep: -1, err: io.EOF}}
}

// Attrs returns the bytes between the name and the end of a start tag.
func (s *Scanner) Attrs() []byte { return TagAttrs(s.Raw()) }

// Next reads one token. It returns io.EOF at the end of a complete document.
func (s *Scanner) Next() (Token, error) {
	s.from = s.to
	if !s.begun {
		s.begun = true
		if err := s.need(len(mark)); err != nil {
			return 0, err
		}
		if bytes.HasPrefix(s.buf[s.from:s.fill], []byte(mark)) {
			s.to = s.from + len(mark)
			return CharData, nil
		}
	}
	if s.from == s.fill {
		_, err := s.more()
		if err == io.EOF {
			if len(s.starts) > 0 || !s.rooted {
				return 0, opc.DamagedXML("the XML ends too early")
			}
			return 0, io.EOF
		}
		if err != nil {
			return 0, err
		}
	}
	if s.buf[s.from] != '<' {
		return CharData, s.text()
	}
	if err := s.need(2); err != nil {
		return 0, err
	}
	if s.fill-s.from < 2 {
		return 0, opc.DamagedXML("the XML ends too early")
	}
	switch s.buf[s.from+1] {
	case '!':
		return Other, s.bang()
	case '?':
		return Other, s.until(2, "?>")
	case '/':
		return EndTag, s.endTag()
	}
	return s.startTag()
}

func (s *Scanner) text() error {
	at := s.from
	for {
		if i := bytes.IndexByte(s.buf[at:s.fill], '<'); i >= 0 {
			s.to = at + i
			return nil
		}
		at = s.fill
		shift, err := s.more()
		at -= shift
		if err == io.EOF {
			s.to = at
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (s *Scanner) bang() error {
	if err := s.need(9); err != nil {
		return err
	}
	b := s.buf[s.from:s.fill]
	switch {
	case bytes.HasPrefix(b, []byte("<!--")):
		return s.until(4, "-->")
	case bytes.HasPrefix(b, []byte("<![CDATA[")):
		if len(s.starts) == 0 {
			return opc.DamagedXML("text is outside the XML's root")
		}
		return s.until(9, "]]>")
	case len(b) < 9:
		return opc.DamagedXML("the XML ends too early")
	}
	return opc.Unsupported("the XML declares a document type, which workbooks must not do")
}

func (s *Scanner) endTag() error {
	if err := s.until(2, ">"); err != nil {
		return err
	}
	name := s.buf[s.from+2 : s.to-1]
	for len(name) > 0 && IsSpace(name[len(name)-1]) {
		name = name[:len(name)-1]
	}
	top := len(s.starts) - 1
	if top < 0 || !bytes.Equal(name, s.open[s.starts[top]:]) {
		return opc.DamagedXML("the XML's tags do not match at </" + Clip(name) + ">")
	}
	s.Name, s.Level = name, top+1
	s.open = s.open[:s.starts[top]]
	s.starts = s.starts[:top]
	return nil
}

func (s *Scanner) startTag() (Token, error) {
	at := s.from + 1
	quote := byte(0)
scan:
	for {
		for ; at < s.fill; at++ {
			c := s.buf[at]
			switch {
			case c == '<':
				return 0, opc.DamagedXML("the XML has a '<' inside a tag")
			case quote != 0:
				if c == quote {
					quote = 0
				}
			case c == '>':
				break scan
			case c == '"' || c == '\'':
				quote = c
			}
		}
		shift, err := s.more()
		at -= shift
		if err == io.EOF {
			return 0, opc.DamagedXML("the XML ends too early")
		}
		if err != nil {
			return 0, err
		}
	}
	s.to = at + 1
	tag := s.Raw()
	end := 1
	for c := tag[end]; c != '>' && c != '/' && !IsSpace(c); c = tag[end] {
		end++
	}
	s.Name = tag[1:end]
	if end == 1 {
		return 0, opc.DamagedXML("the XML has a tag without a name")
	}
	if len(s.starts) == 0 {
		if s.rooted {
			return 0, opc.DamagedXML("the XML has two roots")
		}
		s.rooted = true
	}
	s.Level = len(s.starts) + 1
	if s.Level > opc.MaxDepth {
		return 0, &opc.Error{Kind: opc.ErrLimit, Why: "the XML is nested more than " + strconv.Itoa(opc.MaxDepth) + " levels deep", Do: opc.DoResave}
	}
	if err := s.checkAttrs(TagAttrs(tag)); err != nil {
		return 0, err
	}
	if tag[len(tag)-2] == '/' {
		return EmptyTag, nil
	}
	s.starts = append(s.starts, len(s.open))
	s.open = append(s.open, s.Name...)
	return StartTag, nil
}

// checkAttrs refuses attributes that are not well formed. It notices repeated names
// among the first 16; elements that matter have no more.
func (s *Scanner) checkAttrs(attrs []byte) error {
	seen := &s.seen
	for n, at := 0, 0; ; n++ {
		a, ok, err := NextAttr(attrs, at)
		if err != nil || !ok {
			return err
		}
		if !IsSpace(attrs[at]) {
			return opc.DamagedXML("the XML has no blank before an attribute")
		}
		for _, name := range seen[:min(n, len(seen))] {
			if bytes.Equal(name, a.Name) {
				return opc.DamagedXML("the XML has the attribute " + strconv.Quote(Clip(a.Name)) + " twice in one tag")
			}
		}
		if n < len(seen) {
			seen[n] = a.Name
		}
		at = a.To
	}
}
