package splice

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tenback/workbook/grid"
	"tenback/workbook/xmlscan"
)

// commentPart is a part with the comments of one sheet, cut into what has to
// be known to add, change and remove some.
type commentPart struct {
	data    []byte
	names   []string // authors
	authors list
	list    list
	items   []commentItem
}

// list is an element that entries are added to.
type list struct {
	from, to int // start tag
	end      int // of the entries; to if the start tag closes itself
	prefix   string
	tag      string
	empty    bool // the start tag closes itself
}

// commentItem is one comment of a part.
type commentItem struct {
	from, to         int // the whole element
	textFrom, textTo int // its text element; both 0 if there is none
	cell             Address
	text             string
}

func (c *commentItem) raw(data []byte) []byte { return data[c.from:c.to] }

// newCommentPart is one without comments.
func newCommentPart(strict bool) []byte {
	ns := nsMain
	if strict {
		ns = nsStrict
	}
	return []byte(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<comments xmlns="` + ns + `"><authors></authors><commentList></commentList></comments>`)
}

// readCommentPart refuses what has not the usual form.
func readCommentPart(data []byte, limit int) (*commentPart, error) {
	p := &commentPart{data: data}
	r := commentReader{part: p, s: xmlscan.OfBytes(data), limit: limit}
	if err := eachToken(r.s, r.token); err != nil {
		return nil, err
	}
	if p.authors.to == 0 || p.list.to == 0 || p.list.from < p.authors.end {
		return nil, unsupported("the list of comments has an unusual form")
	}
	return p, nil
}

type commentReader struct {
	part    *commentPart
	s       *xmlscan.Scanner
	ns      mainNames
	limit   int
	section string
	item    commentItem
	aside   bool // in the reading aid that some scripts have beside a text
	inWords bool
	words   []byte
}

func (r *commentReader) token(kind xmlscan.Token) error {
	s := r.s
	switch kind {
	case xmlscan.StartTag, xmlscan.EmptyTag:
		return r.start(kind == xmlscan.EmptyTag)
	case xmlscan.EndTag:
		return r.end()
	case xmlscan.CharData:
		if r.inWords {
			r.words = append(r.words, s.Raw()...)
		}
	case xmlscan.Other:
		if r.inWords && bytes.HasPrefix(s.Raw(), []byte("<![CDATA[")) {
			return unsupported("a comment is written in an unusual form")
		}
	}
	return nil
}

func (r *commentReader) start(empty bool) error {
	s := r.s
	name := string(r.ns.local(s.Name))
	from, to := s.Offset(), s.Offset()+len(s.Raw())
	switch s.Level {
	case 1:
		if err := r.ns.read(s.Name, s.Attrs()); err != nil {
			return err
		}
		if string(r.ns.local(s.Name)) != "comments" {
			return unsupported("the list of comments has an unusual form")
		}
	case 2:
		return r.startList(name, list{from: from, to: to, end: to, prefix: prefixOf(s.Raw()), empty: empty})
	case 3:
		return r.startEntry(name, from, to, empty)
	case 4:
		if r.section == "commentList" && name == "text" {
			if r.item.textTo > 0 {
				return unsupported("a comment has two texts")
			}
			r.item.textFrom, r.item.textTo = from, to
			r.words = r.words[:0]
		}
	case 5, 6:
		if s.Level == 5 {
			r.aside = name == "rPh"
		}
		r.inWords = r.section == "commentList" && name == "t" && !r.aside && !empty
	}
	return nil
}

func (r *commentReader) startList(name string, l list) error {
	if r.section = name; name != "authors" && name != "commentList" {
		return nil
	}
	l.tag = name
	into := &r.part.authors
	if name == "commentList" {
		into = &r.part.list
	}
	if into.to > 0 {
		return unsupported("the list of comments comes twice")
	}
	*into = l
	return r.ns.checkRedeclared(r.s.Attrs())
}

func (r *commentReader) startEntry(name string, from, to int, empty bool) error {
	switch {
	case r.section == "authors" && name == "author":
		r.words = r.words[:0]
		if r.inWords = !empty; empty {
			r.part.names = append(r.part.names, "")
		}
		return r.ns.checkRedeclared(r.s.Attrs())
	case r.section != "commentList":
		return nil
	case name != "comment":
		return unsupported("something other than comments stands among the comments")
	case len(r.part.items) >= r.limit:
		return &Error{Kind: ErrLimit, Why: "the sheet has more comments than allowed", Do: doCopy}
	}
	r.item = commentItem{from: from, to: to}
	ref, _, err := xmlscan.AttrValue(r.s.Attrs(), "ref")
	if err != nil {
		return err
	}
	var ok bool
	if r.item.cell, ok = grid.ParseAddress(ref); !ok {
		return unsupported("a comment belongs to the cell " + strconv.Quote(xmlscan.Clip([]byte(ref))))
	}
	if empty {
		r.part.items = append(r.part.items, r.item)
	}
	return r.ns.checkRedeclared(r.s.Attrs())
}

func (r *commentReader) end() error {
	s := r.s
	name := string(r.ns.local(s.Name))
	end := s.Offset() + len(s.Raw())
	switch {
	case s.Level == 2 && r.section == "authors":
		r.part.authors.end = s.Offset()
	case s.Level == 2 && r.section == "commentList":
		r.part.list.end = s.Offset()
	case s.Level == 3 && r.section == "authors" && name == "author":
		r.inWords = false
		text, err := plainText(r.words)
		r.part.names = append(r.part.names, text)
		return err
	case s.Level == 3 && r.section == "commentList":
		r.item.to = end
		r.part.items = append(r.part.items, r.item)
	case s.Level == 4 && r.section == "commentList" && name == "text":
		r.item.textTo = end
		text, err := plainText(r.words)
		r.item.text = text
		return err
	case s.Level == 5 || s.Level == 6:
		r.inWords = false
	}
	return nil
}

// storable is the text as it reads back when it was stored.
func storable(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0xFFFE || r == 0xFFFF {
			return utf8.RuneError
		}
		return r
	}, s)
}

// plainText decodes what stands in a text element.
func plainText(raw []byte) (string, error) {
	s, err := xmlscan.Unescape(raw)
	return decodeEscapes(strings.ReplaceAll(s, "\r\n", "\n")), err
}

// signed closes a comment's text with who wrote it and a checksum. Whoever
// edits a comment in a spreadsheet program leaves its author as it was, and some
// programs leave authors out, so the author that the part names does not tell
// whether something a user typed is in the text. The checksum does.
func signed(author, text string) string {
	sum := crc32.ChecksumIEEE([]byte(text))
	return fmt.Sprintf("%s\n(%s %04X)", text, author, sum>>16^sum&0xFFFF)
}

// ours tells whether a comment was made by this package for that author and
// nobody has changed it since.
func (c *commentItem) ours(author string) bool {
	text := strings.TrimRight(c.text, " \n")
	at := strings.LastIndexByte(text, '\n')
	return at >= 0 && signed(author, text[:at]) == text
}

// says tells whether the comment has that text and is signed by the author.
func (c *commentItem) says(author, text string) bool {
	return strings.TrimRight(c.text, " \n") == signed(author, text)
}

// cut is a stretch of bytes with what takes its place.
type cut struct {
	from, to int
	text     string
}

// patch makes the cuts, which must not overlap, in their order.
func patch(data []byte, cuts []cut) []byte {
	slices.SortStableFunc(cuts, func(a, b cut) int { return a.from - b.from })
	var out []byte
	at := 0
	for _, c := range cuts {
		out = append(append(out, data[at:c.from]...), c.text...)
		at = c.to
	}
	return append(out, data[at:]...)
}

// without is the data less some items, which must not overlap.
func without[T any](data []byte, items []T, place func(*T) (from, to int)) []byte {
	cuts := make([]cut, len(items))
	for i := range items {
		cuts[i].from, cuts[i].to = place(&items[i])
	}
	return patch(data, cuts)
}

// add gives the cut that puts entries at the end of a list.
func (l *list) add(data []byte, entries string) cut {
	if !l.empty {
		return cut{l.end, l.end, entries}
	}
	return cut{l.from, l.to, string(opened(data[l.from:l.to])) + entries + "</" + l.prefix + l.tag + ">"}
}

// commentText is the text element of a comment, in the look that spreadsheet
// programs give to comments.
func commentText(prefix, text string) string {
	p := "<" + prefix
	var b strings.Builder
	fmt.Fprintf(&b, `%stext>%sr>%srPr>%ssz val="9"/>%scolor indexed="81"/>%srFont val="Tahoma"/>%sfamily val="2"/></%srPr>`, p, p, p, p, p, p, p, prefix)
	fmt.Fprintf(&b, `%st xml:space="preserve">%s</%st></%sr></%stext>`, p, appendText(nil, text), prefix, prefix, prefix)
	return b.String()
}

// commentEdit is what is done to a part with comments.
type commentEdit struct {
	author string
	add    []Comment
	keep   []Comment       // are there already
	change map[int]Comment // new ones by place in items
	remove map[int]bool    // places in items
}

// bytes gives the part with the edit made.
func (p *commentPart) bytes(e *commentEdit) []byte {
	var cuts []cut
	if len(e.add) > 0 {
		author := slices.Index(p.names, e.author)
		if author < 0 {
			author = len(p.names)
			prefix := p.authors.prefix
			cuts = append(cuts, p.authors.add(p.data, fmt.Sprintf("<%sauthor>%s</%sauthor>", prefix, appendText(nil, e.author), prefix)))
		}
		var b strings.Builder
		prefix := p.list.prefix
		for _, c := range e.add {
			fmt.Fprintf(&b, `<%scomment ref="%v" authorId="%d">%s</%scomment>`, prefix, Address{Row: c.Row, Col: c.Col}, author,
				commentText(prefix, signed(e.author, c.Text)), prefix)
		}
		cuts = append(cuts, p.list.add(p.data, b.String()))
	}
	for i, c := range e.change {
		old := &p.items[i]
		cuts = append(cuts, cut{old.textFrom, old.textTo, commentText(p.list.prefix, signed(e.author, c.Text))})
	}
	for i := range e.remove {
		cuts = append(cuts, cut{p.items[i].from, p.items[i].to, ""})
	}
	return patch(p.data, cuts)
}

// rest is the part without its comments, which is what stays when comments
// come and go.
func (p *commentPart) rest() []byte {
	return without(p.data, p.items, func(c *commentItem) (from, to int) { return c.from, c.to })
}
