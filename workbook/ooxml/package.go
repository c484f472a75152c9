// Package ooxml reads the cells of .xlsx and .xlsm workbooks row by row.
//
// Why not the spreadsheet library, which writes new workbooks for us: its row
// iterator gives neither a cell's stored type nor its number format, without
// which 7.10 typed as text, 7.1 typed as a number and half past eleven cannot
// be told apart; its other way in loads the whole sheet, a gigabyte for
// 100,000 rows; and it passes over damaged parts in silence. This reader goes
// through each sheet once, keeps one row, and reports whatever is broken.
//
// Opening checks every part of the file against its checksum and the limits
// below, so a damaged file is refused before anything is believed.
package ooxml

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/xml"
	"errors"
	"io"
	"net/url"
	"path"
	"strings"
	"unicode/utf8"
)

// Limits on what is read. Sizes are counted while unpacking; what the zip's
// own directory says is not trusted.
const (
	MaxEntries    = 10_000
	MaxPartBytes  = 1 << 30
	MaxTotalBytes = 2 << 30
	MaxRatio      = 500       // unpacked to packed size of a part over 16 MiB
	MaxSmallPart  = 64 << 20  // workbook, styles, relationships
	MaxStrings    = 256 << 20 // bytes of shared texts
	MaxRows       = 1_048_576
	MaxCols       = 16_384
	maxDepth      = 64
	maxTag        = 4 << 20 // bytes between two tags, or in one
)

// limits are the constants above; tests use smaller ones.
type limits struct {
	entries                          int
	part, total, ratio, small, texts int64
	ratioFrom                        int64
}

var defaultLimits = limits{MaxEntries, MaxPartBytes, MaxTotalBytes, MaxRatio, MaxSmallPart, MaxStrings, 16 << 20}

// pkg is the zip that a workbook is.
type pkg struct {
	byName map[string]*zip.File // by partKey
	limits limits
}

// partKey makes names comparable: case does not count in a package, and some
// writers use backslashes.
func partKey(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

var oleMagic = []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}

// openPackage opens the zip and reads every part to its end.
func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	if size == 0 {
		return nil, &Error{Kind: ErrEmpty, Why: "the file is empty", Do: doCopy}
	}
	head := make([]byte, 512)
	n, _ := r.ReadAt(head, 0)
	head = head[:n]
	if bytes.HasPrefix(head, oleMagic) {
		return nil, &Error{Kind: ErrLocked, Why: "the file is protected by a password or is an old .xls file", Do: doUnlock}
	}
	zr, err := zip.NewReader(r, size)
	if err != nil {
		return nil, notZip(head, err)
	}
	if len(zr.File) > lim.entries {
		return nil, overLimit("", "the file has more parts than any spreadsheet")
	}
	p := &pkg{byName: make(map[string]*zip.File, len(zr.File)), limits: lim}
	for _, f := range zr.File {
		key := partKey(f.Name)
		if p.byName[key] != nil {
			return nil, damaged(f.Name, "two parts of the file have the same name", nil)
		}
		p.byName[key] = f
	}
	return p, p.check(zr.File)
}

func notZip(head []byte, err error) error {
	const choose = "choose an .xlsx or .xlsm file"
	switch {
	case bytes.HasPrefix(head, []byte("PK")):
		return &Error{Kind: ErrDamaged, Why: "the file is damaged or was not copied to its end", Do: doCopy, Cause: err}
	case utf8.Valid(head[:max(0, len(head)-utf8.UTFMax)]) && !bytes.ContainsRune(head, 0):
		return &Error{Kind: ErrNotWorkbook, Why: "this is a text file, not a workbook", Do: "open it in your spreadsheet program and save it as .xlsx, or give it the ending .csv"}
	}
	return &Error{Kind: ErrNotWorkbook, Why: "this is not a workbook", Do: choose}
}

// check reads every part, which compares its checksum, within the limits.
func (p *pkg) check(files []*zip.File) error {
	var total int64
	buf := make([]byte, 64<<10)
	for _, f := range files {
		if f.Flags&1 != 0 {
			return &Error{Kind: ErrLocked, Part: f.Name, Why: "the file is protected by a password", Do: doUnlock}
		}
		rc, err := f.Open()
		if err != nil {
			return readError(f, err)
		}
		var n int64
		for {
			k, err := rc.Read(buf)
			n += int64(k)
			total += int64(k)
			switch {
			case n > p.limits.part || total > p.limits.total:
				err = overLimit(f.Name, "the file unpacks to more than this program agrees to read")
			case n > p.limits.ratioFrom && n/p.limits.ratio > int64(f.CompressedSize64):
				err = overLimit(f.Name, "the file unpacks to a size that no real sheet has")
			}
			if err == io.EOF {
				break
			}
			if err != nil {
				rc.Close()
				return readError(f, err)
			}
		}
		rc.Close()
	}
	return nil
}

func readError(f *zip.File, err error) error {
	var known *Error
	var corrupt flate.CorruptInputError
	switch {
	case errors.As(err, &known):
		return err
	case errors.Is(err, zip.ErrAlgorithm):
		return &Error{Kind: ErrUnsupported, Part: f.Name, Why: "the file is packed in an unusual way", Do: doResave}
	case errors.Is(err, zip.ErrChecksum), errors.Is(err, zip.ErrFormat), errors.Is(err, io.ErrUnexpectedEOF), errors.As(err, &corrupt):
		return &Error{Kind: ErrDamaged, Part: f.Name, Why: "the file is damaged", Do: doCopy, Cause: err}
	}
	return &Error{Kind: ErrDamaged, Part: f.Name, Why: "the file can't be read to its end", Do: doCopy, Cause: err}
}

// relation is one entry of a part's list of relationships.
type relation struct{ id, kind, target string }

// relations reads the internal relationships of a part; "" is the package.
func (p *pkg) relations(part string) ([]relation, error) {
	dir, base := path.Split(part)
	f := p.byName[partKey(dir+"_rels/"+base+".rels")]
	if f == nil {
		return nil, nil
	}
	var all []relation
	err := p.walk(f, p.limits.small, func(e *element) error {
		if e.depth != 2 || e.name != "Relationship" || e.end || e.attr("TargetMode") == "External" {
			return nil
		}
		kind := e.attr("Type")
		all = append(all, relation{e.attr("Id"), kind[strings.LastIndexByte(kind, '/')+1:], p.resolve(path.Dir(part), e.attr("Target"))})
		return nil
	})
	return all, err
}

// resolve turns a relationship's target into a part key.
func (p *pkg) resolve(dir, target string) string {
	target, _, _ = strings.Cut(strings.ReplaceAll(target, `\`, "/"), "#")
	if !strings.HasPrefix(target, "/") {
		target = dir + "/" + target
	}
	key := partKey(path.Clean("/" + target))
	if p.byName[key] == nil {
		if plain, err := url.PathUnescape(key); err == nil && p.byName[partKey(plain)] != nil {
			return partKey(plain)
		}
	}
	return key
}

// element is one start or end tag on the way through a part.
type element struct {
	name  string // without prefix
	depth int    // the root has 1
	end   bool
	attrs []xml.Attr
}

func (e *element) attr(name string) string {
	for _, a := range e.attrs {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// relID is the r:id attribute, whatever its prefix.
func (e *element) relID() string {
	for _, a := range e.attrs {
		if a.Name.Local == "id" && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

// walker goes through the XML of a part.
type walker struct {
	part    *zip.File
	body    io.ReadCloser
	decoder *xml.Decoder
	element element
	text    []byte // character data since the last tag
}

func (p *pkg) walker(f *zip.File, limit int64) (*walker, error) {
	body, err := f.Open()
	if err != nil {
		return nil, readError(f, err)
	}
	return &walker{part: f, body: body, decoder: xml.NewDecoder(&tagLimiter{r: io.LimitReader(body, limit+1), left: limit})}, nil
}

// next moves to the next tag; io.EOF at the end of a well-formed part. Text
// before the tag is in w.text until the next call.
func (w *walker) next() error {
	w.text = w.text[:0]
	if w.element.end {
		w.element.depth--
	}
	for {
		token, err := w.decoder.Token()
		if err == io.EOF {
			return io.EOF
		}
		if err != nil {
			return w.fault(err)
		}
		switch t := token.(type) {
		case xml.StartElement:
			w.element = element{name: t.Name.Local, depth: w.element.depth + 1, attrs: t.Attr}
			if w.element.depth > maxDepth {
				return damaged(w.part.Name, "the file is nested deeper than any spreadsheet", nil)
			}
			return nil
		case xml.EndElement:
			w.element = element{name: t.Name.Local, depth: w.element.depth, end: true}
			return nil
		case xml.CharData:
			w.text = append(w.text, t...)
		}
	}
}

func (w *walker) fault(err error) error {
	var known *Error
	if errors.As(err, &known) {
		known.Part = w.part.Name
		return known
	}
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		return damaged(w.part.Name, "the file is damaged inside", err)
	}
	if strings.Contains(err.Error(), "encoding") {
		return &Error{Kind: ErrUnsupported, Part: w.part.Name, Why: "the file is stored in an unusual encoding", Do: doResave, Cause: err}
	}
	return readError(w.part, err)
}

func (w *walker) close() { w.body.Close() }

// walk calls visit at every tag of a part.
func (p *pkg) walk(f *zip.File, limit int64, visit func(*element) error) error {
	w, err := p.walker(f, limit)
	if err != nil {
		return err
	}
	defer w.close()
	for {
		if err := w.next(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		if err := visit(&w.element); err != nil {
			return err
		}
	}
}

// tagLimiter bounds the memory of the XML decoder, which keeps a tag or a
// text whole: it refuses a part once too much stands between two tags, and
// once the part is longer than allowed.
type tagLimiter struct {
	r    io.Reader
	left int64
	run  int
}

func (t *tagLimiter) Read(b []byte) (int, error) {
	n, err := t.r.Read(b)
	t.left -= int64(n)
	if i := bytes.LastIndexByte(b[:n], '<'); i >= 0 {
		t.run = n - i
	} else {
		t.run += n
	}
	switch {
	case t.left < 0:
		return n, overLimit("", "a part of the file is larger than this program agrees to read")
	case t.run > maxTag:
		return n, overLimit("", "a single cell of the file is larger than this program agrees to read")
	}
	return n, err
}
