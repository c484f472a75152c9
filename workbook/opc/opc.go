// Package opc opens the zip that a workbook is (Open Packaging Conventions)
// and reads its parts and their relationships within limits.
//
// Sizes are counted while decompressing, because the zip's directory may lie.
// Reading a part to its end verifies its checksum.
package opc

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path"
	"strings"

	"github.com/klauspost/readahead"
)

// Limits bound what is read.
type Limits struct {
	Entries   int   // parts in the zip, and relationships of a part
	Part      int64 // bytes of one part, decompressed
	Total     int64 // bytes of all parts that are read, decompressed
	Tags      int64 // XML tags of all parts that are checked
	Small     int64 // bytes of a part that is held in memory
	Ratio     int64 // decompressed to compressed size of a part,
	RatioFrom int64 // from this unpacked size on
}

// Default holds the limits for users' workbooks.
var Default = Limits{Entries: 10_000, Part: 1 << 30, Total: 2 << 30, Tags: 64_000_000, Small: 64 << 20, Ratio: 500, RatioFrom: 16 << 20}

// MaxDepth is the deepest nesting of XML that is read.
const MaxDepth = 64

// Package is an opened workbook file. It is not safe for concurrent use.
type Package struct {
	Zip    *zip.Reader
	Parts  []*Part // in the order of the zip
	byKey  map[string]*Part
	limits Limits
	total  int64
}

// Part is one entry of the zip.
type Part struct {
	*zip.File
	read    int64                         // bytes already counted against the total
	content func() (io.ReadCloser, error) // instead of what is in the zip, unless nil
}

// Key returns the comparable form of a part's name: case does not count in a
// package, and some writers use backslashes.
func Key(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

// Magic is the signature of a compound file: a workbook with a password, or one
// from before 2007.
var Magic = []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}

// Open reads the directory of the zip of size bytes in r. Errors are [*Error].
func Open(r io.ReaderAt, size int64, lim Limits) (*Package, error) {
	if size == 0 {
		return nil, &Error{Kind: ErrEmpty, Why: "the file is empty", Do: DoCopy}
	}
	head := make([]byte, 512)
	n, _ := r.ReadAt(head, 0)
	head = head[:n]
	if bytes.HasPrefix(head, Magic) {
		return nil, &Error{Kind: ErrLocked, Why: "the file is protected by a password or is an old .xls file", Do: DoUnlock}
	}
	zr, err := zip.NewReader(r, size)
	if err != nil {
		return nil, notZip(head, err)
	}
	if len(zr.File) > lim.Entries {
		return nil, OverLimit("", fmt.Sprintf("the file holds %d parts, more than the %d of any spreadsheet", len(zr.File), lim.Entries))
	}
	p := &Package{Zip: zr, byKey: make(map[string]*Part, len(zr.File)), limits: lim}
	var packed uint64
	for _, f := range zr.File {
		// Parts must not share bytes, or a small file could make a huge copy.
		if packed += f.CompressedSize64; f.CompressedSize64 > uint64(size) || packed > uint64(size) {
			return nil, &Error{Kind: ErrDamaged, Why: "the parts together are larger than the file", Do: DoCopy}
		}
		at, err := f.DataOffset()
		if err != nil || at < 0 || at > size-int64(f.CompressedSize64) {
			return nil, &Error{Kind: ErrDamaged, Part: f.Name, Why: "the part is not where the file says it is", Do: DoCopy, Cause: err}
		}
		key := Key(f.Name)
		if p.byKey[key] != nil {
			return nil, Damaged(f.Name, "two parts of the file have the same name", nil)
		}
		part := &Part{File: f}
		p.byKey[key] = part
		p.Parts = append(p.Parts, part)
	}
	return p, nil
}

// Part returns the part with that name or key, or nil.
func (p *Package) Part(name string) *Part { return p.byKey[Key(name)] }

// Set gives a part other content than that in the zip, or adds a part.
func (p *Package) Set(name string, content func() (io.ReadCloser, error)) {
	part := p.Part(name)
	if part == nil {
		part = &Part{File: &zip.File{FileHeader: zip.FileHeader{Name: name}}}
		p.byKey[Key(name)] = part
		p.Parts = append(p.Parts, part)
	}
	part.content = content
}

// Signed reports whether the workbook has a digital signature, which any change
// voids.
func (p *Package) Signed() bool {
	for key := range p.byKey {
		if strings.HasPrefix(key, "_xmlsignatures/") {
			return true
		}
	}
	return false
}

// Open starts reading a part. Reading it to io.EOF verifies its checksum.
func (p *Package) Open(part *Part) (io.ReadCloser, error) {
	if part.content != nil {
		return part.content()
	}
	if part.Flags&1 != 0 {
		return nil, &Error{Kind: ErrLocked, Part: part.Name, Why: "the file is protected by a password", Do: DoUnlock}
	}
	rc, err := part.File.Open()
	if err != nil {
		return nil, readError(err, part)
	}
	if part.UncompressedSize64 > unpackBeside {
		if rc, err = readahead.NewReadCloserSize(rc, piecesAhead, unpackPiece); err != nil {
			return nil, readError(err, part)
		}
	}
	return &partReader{rc: rc, pkg: p, part: part}, nil
}

// A part of more than unpackBeside bytes is decompressed ahead of its reader, on
// another goroutine. Package splice has the measured gain.
const (
	unpackBeside = 1 << 20
	unpackPiece  = 64 << 10
	piecesAhead  = 4
)

// Check reads parts to their ends, which verifies their checksums and counts their
// tags, because reading each cell and row takes time.
func (p *Package) Check(parts ...*Part) error {
	buf := make([]byte, 64<<10)
	tags := tagCounter{left: p.limits.Tags}
	for _, part := range parts {
		rc, err := p.Open(part)
		if err != nil {
			return err
		}
		_, err = io.CopyBuffer(&tags, onlyReader{rc}, buf)
		rc.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

// tagCounter counts the tags that are written to it.
type tagCounter struct{ left int64 }

func (c *tagCounter) Write(b []byte) (int, error) {
	if c.left -= int64(bytes.Count(b, []byte{'<'})); c.left < 0 {
		return 0, OverLimit("", "the workbook has more cells and rows than any roster")
	}
	return len(b), nil
}

// onlyReader hides WriterTo, so that io.CopyBuffer uses its buffer.
type onlyReader struct{ io.Reader }

// partReader counts decompressed bytes against the limits.
type partReader struct {
	rc   io.ReadCloser
	pkg  *Package
	part *Part
	n    int64
}

func (r *partReader) Close() error { return r.rc.Close() }

func (r *partReader) Read(b []byte) (int, error) {
	n, err := r.rc.Read(b)
	r.n += int64(n)
	lim := &r.pkg.limits
	if r.n > r.part.read {
		r.pkg.total += r.n - r.part.read
		r.part.read = r.n
	}
	switch {
	case r.n > lim.Part:
		return n, OverLimit(r.part.Name, "the part is larger than allowed when decompressed")
	case r.pkg.total > lim.Total:
		return n, OverLimit(r.part.Name, "the file is larger than allowed when decompressed")
	case r.n > lim.RatioFrom && r.n/lim.Ratio > int64(r.part.CompressedSize64):
		return n, OverLimit(r.part.Name, "the part decompresses to a size that no real sheet has")
	}
	if err != nil && err != io.EOF {
		err = readError(err, r.part)
	}
	return n, err
}

func readError(err error, part *Part) error {
	var corrupt flate.CorruptInputError
	why := "the file can't be read to its end"
	switch {
	case errors.Is(err, zip.ErrAlgorithm):
		return &Error{Kind: ErrUnsupported, Part: part.Name, Why: "the file is compressed in an unusual way", Do: DoResave}
	case errors.Is(err, zip.ErrChecksum), errors.Is(err, zip.ErrFormat), errors.Is(err, io.ErrUnexpectedEOF), errors.As(err, &corrupt):
		why = "the file is damaged"
	}
	return &Error{Kind: ErrDamaged, Part: part.Name, Why: why, Do: DoCopy, Cause: err}
}

// Load reads a part of XML whole, in UTF-8, up to the limit for small parts.
func (p *Package) Load(part *Part) ([]byte, error) {
	rc, err := p.OpenXML(part)
	if err != nil {
		return nil, err
	}
	defer rc.Close()
	b, err := io.ReadAll(io.LimitReader(rc, p.limits.Small+1))
	if err != nil {
		return nil, err
	}
	if int64(len(b)) > p.limits.Small {
		return nil, OverLimit(part.Name, "the part is larger than allowed when decompressed")
	}
	return b, nil
}

// Rel is a relationship of a part to another.
type Rel struct {
	ID     string
	Kind   string // last word of its type, such as worksheet
	Target string // key of the other part
}

// RelsName returns the name of the part with the relationships of a part; "" is
// the package.
func RelsName(part string) string {
	dir, base := path.Split(part)
	return dir + "_rels/" + base + ".rels"
}

// Rels reads the internal relationships of a part, if it has any.
func (p *Package) Rels(name string) ([]Rel, error) {
	part := p.Part(RelsName(name))
	if part == nil {
		return nil, nil
	}
	data, err := p.Load(part)
	if err != nil {
		return nil, err
	}
	var all []Rel
	decoder := xml.NewDecoder(bytes.NewReader(data))
	for depth := 0; ; {
		token, err := decoder.Token()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return nil, XMLError(part.Name, err)
		}
		switch t := token.(type) {
		case xml.EndElement:
			depth--
		case xml.StartElement:
			if depth++; depth > MaxDepth {
				return nil, Damaged(part.Name, "the file is nested deeper than any spreadsheet", nil)
			}
			if depth != 2 || t.Name.Local != "Relationship" {
				continue
			}
			if len(all) >= p.limits.Entries {
				return nil, OverLimit(part.Name, "the part lists more relationships than allowed")
			}
			if rel, internal := relOf(t.Attr); internal {
				rel.Target = p.Resolve(path.Dir(name), rel.Target)
				all = append(all, rel)
			}
		}
	}
}

func relOf(attrs []xml.Attr) (rel Rel, internal bool) {
	internal = true
	for _, a := range attrs {
		if a.Name.Space != "" {
			continue
		}
		switch a.Name.Local {
		case "Id":
			rel.ID = a.Value
		case "Type":
			rel.Kind = a.Value[strings.LastIndexByte(a.Value, '/')+1:]
		case "Target":
			rel.Target = a.Value
		case "TargetMode":
			internal = a.Value != "External"
		}
	}
	return rel, internal
}

// XMLError returns the error for XML that can't be read. It only adds the part to
// an [*Error].
func XMLError(part string, err error) error {
	var known *Error
	var syntax *xml.SyntaxError
	switch {
	case errors.As(err, &known):
		known.Part = part
		return known
	case errors.As(err, &syntax):
		return Damaged(part, "the file is damaged inside", err)
	}
	return &Error{Kind: ErrDamaged, Part: part, Why: "the file can't be read to its end", Do: DoCopy, Cause: err}
}

// Resolve returns the part key of a relationship's target, as seen from dir.
func (p *Package) Resolve(dir, target string) string {
	target, _, _ = strings.Cut(strings.ReplaceAll(target, `\`, "/"), "#")
	if !strings.HasPrefix(target, "/") {
		target = dir + "/" + target
	}
	key := Key(path.Clean("/" + target))
	if p.byKey[key] == nil {
		if plain, err := url.PathUnescape(key); err == nil && p.byKey[Key(plain)] != nil {
			return Key(plain)
		}
	}
	return key
}
