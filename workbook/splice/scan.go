package splice

import (
	"bytes"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

type tokenKind uint8

const (
	tokText  tokenKind = iota // character data
	tokStart                  // <a ...>
	tokEmpty                  // <a .../>
	tokEnd                    // </a>
	tokOther                  // comment, CDATA section or processing instruction
)

const (
	firstBuffer = 64 << 10
	// maxToken bounds the scanner's memory: no single tag, comment or cell
	// may be longer. The longest cell text is 32,767 characters.
	maxToken = 16 << 20
	// maxDepth is far above what spreadsheets nest (about 15).
	maxDepth = 100
)

// scanner cuts a UTF-8 XML stream into tokens that together are exactly the
// bytes read. It checks nesting and quoting, which is what is needed to know
// where things are; it does not check names, entities or character ranges of
// bytes that are only passed through.
type scanner struct {
	r    io.Reader // nil when buf already holds everything
	buf  []byte
	fill int   // buf[:fill] is valid
	base int64 // offset of buf[0] in the stream
	from int   // token is buf[from:to]
	to   int
	keep int // first byte that must stay in buf, or -1
	err  error

	name  []byte // qualified name, for tokStart, tokEmpty and tokEnd
	level int    // nesting level of that element; the root has 1

	open   []byte // names of the open elements, one after the other
	starts []int  // where each begins in open
	rooted bool
	begun  bool
}

func newScanner(r io.Reader) *scanner {
	return &scanner{r: r, buf: make([]byte, firstBuffer), keep: -1}
}

func newBytesScanner(b []byte) *scanner {
	return &scanner{buf: b, fill: len(b), keep: -1, err: io.EOF}
}

// raw is the current token's bytes, valid until the next call of next.
func (s *scanner) raw() []byte { return s.buf[s.from:s.to] }

// offset is the place of the current token in the stream.
func (s *scanner) offset() int { return int(s.base) + s.from }

// attrs is what stands between the name and the end of a start tag.
func (s *scanner) attrs() []byte { return tagAttrs(s.raw()) }

func tagAttrs(tag []byte) []byte {
	end := len(tag) - 1
	if tag[end-1] == '/' {
		end--
	}
	i := 1
	for i < end && !isSpace(tag[i]) && tag[i] != '/' {
		i++
	}
	return tag[i:end]
}

// more reads further bytes. Indices into buf move down by the returned shift.
func (s *scanner) more() (shift int, err error) {
	if s.err != nil {
		return 0, s.err
	}
	low := s.from
	if s.keep >= 0 && s.keep < low {
		low = s.keep
	}
	if low > 0 && s.fill == len(s.buf) {
		copy(s.buf, s.buf[low:s.fill])
		shift = low
		s.base += int64(low)
		s.fill -= low
		s.from -= low
		s.to -= low
		if s.keep >= 0 {
			s.keep -= low
		}
	}
	if s.fill == len(s.buf) {
		if len(s.buf) >= maxToken {
			return shift, &Error{Kind: ErrLimit, Why: "one cell or tag is longer than 16 MB", Do: doResave}
		}
		s.buf = append(s.buf, make([]byte, len(s.buf))...)
	}
	for range 100 {
		n, err := s.r.Read(s.buf[s.fill:])
		s.fill += n
		if err != nil {
			s.err = err
		}
		if n > 0 {
			return shift, nil
		}
		if s.err != nil {
			return shift, s.err
		}
	}
	return shift, io.ErrNoProgress
}

// need makes sure that n bytes from the token's start are there, if the
// stream has them.
func (s *scanner) need(n int) error {
	for s.fill-s.from < n {
		if _, err := s.more(); err != nil {
			if err == io.EOF {
				return nil
			}
			return err
		}
	}
	return nil
}

// next reads one token. It returns io.EOF at the end of a complete document.
func (s *scanner) next() (tokenKind, error) {
	s.from = s.to
	if !s.begun {
		s.begun = true
		if bom, err := s.checkEncoding(); bom || err != nil {
			return tokText, err
		}
	}
	if s.from == s.fill {
		_, err := s.more()
		if err == io.EOF {
			if len(s.starts) > 0 || !s.rooted {
				return 0, damaged("the XML ends too early")
			}
			return 0, io.EOF
		}
		if err != nil {
			return 0, err
		}
	}
	if s.buf[s.from] != '<' {
		return tokText, s.text()
	}
	if err := s.need(2); err != nil {
		return 0, err
	}
	if s.fill-s.from < 2 {
		return 0, damaged("the XML ends too early")
	}
	switch s.buf[s.from+1] {
	case '!':
		return tokOther, s.bang()
	case '?':
		if err := s.until(2, "?>"); err != nil {
			return 0, err
		}
		return tokOther, s.checkDeclaration()
	case '/':
		return tokEnd, s.endTag()
	}
	return s.startTag()
}

// checkEncoding looks at the first bytes; a UTF-8 byte order mark becomes a
// token of its own.
func (s *scanner) checkEncoding() (bom bool, err error) {
	if err := s.need(4); err != nil {
		return false, err
	}
	b := s.buf[s.from:s.fill]
	if bytes.HasPrefix(b, []byte{0xFE, 0xFF}) || bytes.HasPrefix(b, []byte{0xFF, 0xFE}) ||
		len(b) > 1 && (b[0] == 0 || b[1] == 0) {
		return false, unsupported("the XML is stored as UTF-16, not UTF-8")
	}
	if bytes.HasPrefix(b, []byte("\xEF\xBB\xBF")) {
		s.to = s.from + 3
		return true, nil
	}
	return false, nil
}

func (s *scanner) checkDeclaration() error {
	tok := s.raw()
	if !bytes.HasPrefix(tok, []byte("<?xml")) || len(tok) < 8 || !isSpace(tok[5]) {
		return nil
	}
	v, ok, err := attrValue(tok[5:len(tok)-2], "encoding")
	if err != nil || !ok {
		return err
	}
	switch strings.ToLower(v) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return nil
	}
	return unsupported("the XML is stored as " + strconv.Quote(v) + ", not UTF-8")
}

func (s *scanner) text() error {
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

// until ends the token after mark, which is looked for skip bytes on.
func (s *scanner) until(skip int, mark string) error {
	at := s.from + skip
	for {
		if at < s.fill {
			if i := bytes.Index(s.buf[at:s.fill], []byte(mark)); i >= 0 {
				s.to = at + i + len(mark)
				return nil
			}
			at = max(at, s.fill-len(mark)+1)
		}
		shift, err := s.more()
		at -= shift
		if err == io.EOF {
			return damaged("the XML ends too early")
		}
		if err != nil {
			return err
		}
	}
}

func (s *scanner) bang() error {
	if err := s.need(9); err != nil {
		return err
	}
	b := s.buf[s.from:s.fill]
	switch {
	case bytes.HasPrefix(b, []byte("<!--")):
		return s.until(4, "-->")
	case bytes.HasPrefix(b, []byte("<![CDATA[")):
		if len(s.starts) == 0 {
			return damaged("text stands outside the XML's root")
		}
		return s.until(9, "]]>")
	case len(b) < 9:
		return damaged("the XML ends too early")
	}
	return unsupported("the XML declares a document type, which workbooks must not")
}

func (s *scanner) endTag() error {
	if err := s.until(2, ">"); err != nil {
		return err
	}
	name := s.buf[s.from+2 : s.to-1]
	for len(name) > 0 && isSpace(name[len(name)-1]) {
		name = name[:len(name)-1]
	}
	top := len(s.starts) - 1
	if top < 0 || !bytes.Equal(name, s.open[s.starts[top]:]) {
		return damaged("the XML's tags do not match at </" + clip(name) + ">")
	}
	s.name, s.level = name, top+1
	s.open = s.open[:s.starts[top]]
	s.starts = s.starts[:top]
	return nil
}

func (s *scanner) startTag() (tokenKind, error) {
	at := s.from + 1
	quote := byte(0)
scan:
	for {
		for ; at < s.fill; at++ {
			c := s.buf[at]
			switch {
			case c == '<':
				return 0, damaged("the XML has a '<' inside a tag")
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
			return 0, damaged("the XML ends too early")
		}
		if err != nil {
			return 0, err
		}
	}
	s.to = at + 1
	tag := s.raw()
	end := 1
	for c := tag[end]; c != '>' && c != '/' && !isSpace(c); c = tag[end] {
		end++
	}
	s.name = tag[1:end]
	if end == 1 {
		return 0, damaged("the XML has a tag without a name")
	}
	if len(s.starts) == 0 {
		if s.rooted {
			return 0, damaged("the XML has two roots")
		}
		s.rooted = true
	}
	s.level = len(s.starts) + 1
	if s.level > maxDepth {
		return 0, &Error{Kind: ErrLimit, Why: "the XML is nested more than " + strconv.Itoa(maxDepth) + " levels deep"}
	}
	if err := checkAttrs(tagAttrs(tag)); err != nil {
		return 0, err
	}
	if tag[len(tag)-2] == '/' {
		return tokEmpty, nil
	}
	s.starts = append(s.starts, len(s.open))
	s.open = append(s.open, s.name...)
	return tokStart, nil
}

// checkAttrs refuses attributes that are not well formed. Names that come
// twice are noticed among the first 16; what we act on has no more.
func checkAttrs(attrs []byte) error {
	var seen [16][]byte
	for n, at := 0, 0; ; n++ {
		a, ok, err := nextAttr(attrs, at)
		if err != nil || !ok {
			return err
		}
		if !isSpace(attrs[at]) {
			return damaged("the XML has no blank before an attribute")
		}
		for _, name := range seen[:min(n, len(seen))] {
			if bytes.Equal(name, a.name) {
				return damaged("the XML has the attribute " + strconv.Quote(clip(a.name)) + " twice in one tag")
			}
		}
		if n < len(seen) {
			seen[n] = a.name
		}
		at = a.to
	}
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

func clip(b []byte) string {
	if len(b) > 40 {
		b = b[:40]
	}
	return strings.ToValidUTF8(string(b), "?")
}

// attr is one attribute in its raw form; from and to are the place of the
// whole attribute, with the blanks before it, in the bytes it was found in.
type attr struct {
	name, value []byte
	from, to    int
}

// nextAttr finds the first attribute at or after b[at:]; ok is false when
// there is none left.
func nextAttr(b []byte, at int) (a attr, ok bool, err error) {
	a.from = at
	for at < len(b) && isSpace(b[at]) {
		at++
	}
	if at == len(b) {
		return a, false, nil
	}
	begin := at
	for at < len(b) && b[at] != '=' && !isSpace(b[at]) && b[at] != '/' && b[at] != '"' && b[at] != '\'' {
		at++
	}
	a.name = b[begin:at]
	for at < len(b) && isSpace(b[at]) {
		at++
	}
	if at == len(b) || b[at] != '=' || len(a.name) == 0 {
		return a, false, damaged("the XML has an attribute without a value")
	}
	at++
	for at < len(b) && isSpace(b[at]) {
		at++
	}
	if at == len(b) || b[at] != '"' && b[at] != '\'' {
		return a, false, damaged("the XML has an attribute value without quotes")
	}
	n := bytes.IndexByte(b[at+1:], b[at])
	if n < 0 {
		return a, false, damaged("the XML has an attribute value without an end")
	}
	a.value = b[at+1 : at+1+n]
	a.to = at + n + 2
	return a, true, nil
}

// attrValue gives the decoded value of the attribute of that exact name.
func attrValue(attrs []byte, name string) (value string, ok bool, err error) {
	for at := 0; ; {
		a, ok, err := nextAttr(attrs, at)
		if err != nil || !ok {
			return "", false, err
		}
		if string(a.name) == name {
			v, err := unescape(a.value)
			return v, err == nil, err
		}
		at = a.to
	}
}

// setAttr returns the start tag with one attribute set to value, which must
// need no escaping. All other bytes stay.
func setAttr(tag []byte, name, value string) ([]byte, error) {
	begin, end := attrSpan(tag)
	for at := 0; ; {
		a, ok, err := nextAttr(tag[begin:end], at)
		if err != nil {
			return nil, err
		}
		if !ok {
			break
		}
		if string(a.name) == name {
			to := begin + a.to - 1
			from := to - len(a.value)
			return splice(tag, from, to, value), nil
		}
		at = a.to
	}
	return splice(tag, end, end, " "+name+`="`+value+`"`), nil
}

// dropAttr returns the start tag without the attribute.
func dropAttr(tag []byte, name string) ([]byte, error) {
	begin, end := attrSpan(tag)
	for at := 0; ; {
		a, ok, err := nextAttr(tag[begin:end], at)
		if err != nil {
			return nil, err
		}
		if !ok {
			return tag, nil
		}
		if string(a.name) == name {
			return splice(tag, begin+a.from, begin+a.to, ""), nil
		}
		at = a.to
	}
}

func attrSpan(tag []byte) (begin, end int) {
	attrs := tagAttrs(tag)
	end = len(tag) - 1
	if tag[end-1] == '/' {
		end--
	}
	return end - len(attrs), end
}

// splice returns a copy of b with b[from:to] replaced by s.
func splice(b []byte, from, to int, s string) []byte {
	out := make([]byte, 0, len(b)-(to-from)+len(s))
	out = append(out, b[:from]...)
	out = append(out, s...)
	return append(out, b[to:]...)
}

// unescape decodes the five named entities and character numbers.
func unescape(b []byte) (string, error) {
	if bytes.IndexByte(b, '&') < 0 {
		return string(b), nil
	}
	out := make([]byte, 0, len(b))
	for len(b) > 0 {
		if b[0] != '&' {
			out = append(out, b[0])
			b = b[1:]
			continue
		}
		n := bytes.IndexByte(b, ';')
		if n < 0 || n > 12 {
			return "", damaged("the XML has an '&' without a ';'")
		}
		ent := string(b[1:n])
		b = b[n+1:]
		switch ent {
		case "amp":
			out = append(out, '&')
		case "lt":
			out = append(out, '<')
		case "gt":
			out = append(out, '>')
		case "quot":
			out = append(out, '"')
		case "apos":
			out = append(out, '\'')
		default:
			r, ok := charNumber(ent)
			if !ok {
				return "", damaged("the XML uses the unknown entity &" + clip([]byte(ent)) + ";")
			}
			out = utf8.AppendRune(out, r)
		}
	}
	return string(out), nil
}

func charNumber(ent string) (rune, bool) {
	digits, ok := strings.CutPrefix(ent, "#")
	if !ok {
		return 0, false
	}
	base := 10
	if hex, ok := strings.CutPrefix(digits, "x"); ok {
		digits, base = hex, 16
	}
	n, err := strconv.ParseUint(digits, base, 32)
	return rune(n), err == nil && n <= utf8.MaxRune
}
