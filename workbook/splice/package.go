package splice

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path"
	"strings"
)

// limits are the exported Max constants; tests use smaller ones.
type limits struct {
	entries                   int
	part, total, small, ratio int64
	ratioFrom                 int64 // size above which the ratio counts
	sheets, blocks            int
}

var defaultLimits = limits{
	entries: MaxEntries, part: MaxPartBytes, total: MaxTotalBytes, small: MaxSmallPart,
	ratio: MaxRatio, ratioFrom: 16 << 20, sheets: 5_000, blocks: 200_000,
}

var oleMagic = []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}

// part is one entry of the zip.
type part struct {
	file *zip.File
	read int64 // decompressed bytes already counted against the total
}

// pkg is an opened package.
type pkg struct {
	zip     *zip.Reader
	parts   []*part
	byName  map[string]*part // by partKey
	limits  limits
	total   int64
	signed  bool
	tableOf map[*part]block // tables already read
}

// partKey makes names comparable: upper and lower case are the same in a
// package, and some writers use backslashes.
func partKey(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	magic := make([]byte, len(oleMagic))
	if n, _ := r.ReadAt(magic, 0); bytes.Equal(magic[:n], oleMagic) {
		return nil, &Error{Kind: ErrEncrypted, Why: "the file is locked with a password or is an old .xls file",
			Do: "open it in your spreadsheet program, save it as .xlsx without a password and retry"}
	}
	zr, err := zip.NewReader(r, size)
	if err != nil {
		why := "the file is not a workbook, or its end is missing"
		if bytes.HasPrefix(magic, []byte("PK")) {
			why = "the file is damaged or was not copied to its end"
			return nil, &Error{Kind: ErrDamaged, Why: why, Do: doCopy, Cause: err}
		}
		return nil, &Error{Kind: ErrNotWorkbook, Why: why, Do: "choose an .xlsx or .xlsm file"}
	}
	if len(zr.File) > lim.entries {
		return nil, &Error{Kind: ErrLimit, Why: fmt.Sprintf("the file holds %d parts, more than the %d allowed", len(zr.File), lim.entries), Do: doCopy}
	}
	p := &pkg{zip: zr, byName: make(map[string]*part, len(zr.File)), limits: lim, tableOf: map[*part]block{}}
	var packed uint64
	for _, f := range zr.File {
		// Parts may not share bytes: a small file could otherwise make a huge copy.
		if packed += f.CompressedSize64; f.CompressedSize64 > uint64(size) || packed > uint64(size) {
			return nil, &Error{Kind: ErrDamaged, Why: "the parts together are larger than the file", Do: doCopy}
		}
		at, err := f.DataOffset()
		if err != nil || at < 0 || at > size-int64(f.CompressedSize64) {
			return nil, &Error{Kind: ErrDamaged, Part: f.Name, Why: "the part is not where the file says it is", Do: doCopy, Cause: err}
		}
		pt := &part{file: f}
		p.parts = append(p.parts, pt)
		key := partKey(f.Name)
		if p.byName[key] != nil {
			return nil, &Error{Kind: ErrDamaged, Part: f.Name, Why: "two parts have the same name", Do: doResave}
		}
		p.byName[key] = pt
		p.signed = p.signed || strings.HasPrefix(key, "_xmlsignatures/")
	}
	return p, nil
}

// open starts reading a part. Reading it to io.EOF checks its checksum.
func (p *pkg) open(pt *part) (io.ReadCloser, error) {
	if pt.file.Flags&1 != 0 {
		return nil, &Error{Kind: ErrEncrypted, Part: pt.file.Name, Why: "the zip entry is locked with a password",
			Do: "save the workbook without a password and retry"}
	}
	rc, err := pt.file.Open()
	if err != nil {
		return nil, readError(err, pt)
	}
	return &partReader{rc: rc, pkg: p, part: pt}, nil
}

// partReader counts what comes out of the decompressor against the limits.
type partReader struct {
	rc   io.ReadCloser
	pkg  *pkg
	part *part
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
	case r.n > lim.part:
		return n, r.over("the part is larger than allowed when unpacked")
	case r.pkg.total > lim.total:
		return n, r.over("the file is larger than allowed when unpacked")
	case r.n > lim.ratioFrom && r.n/lim.ratio > int64(r.part.file.CompressedSize64):
		return n, r.over("the part unpacks to a size no real sheet has")
	}
	if err != nil && err != io.EOF {
		err = readError(err, r.part)
	}
	return n, err
}

func (r *partReader) over(why string) error {
	return &Error{Kind: ErrLimit, Part: r.part.file.Name, Why: why, Do: doCopy}
}

func readError(err error, pt *part) error {
	var corrupt flate.CorruptInputError
	switch {
	case errors.Is(err, zip.ErrAlgorithm):
		return &Error{Kind: ErrUnsupported, Part: pt.file.Name, Why: "the part is packed in an unusual way", Do: doResave}
	case errors.Is(err, zip.ErrChecksum), errors.Is(err, zip.ErrFormat), errors.Is(err, io.ErrUnexpectedEOF), errors.As(err, &corrupt):
		return &Error{Kind: ErrDamaged, Part: pt.file.Name, Why: "the part is damaged", Do: doCopy, Cause: err}
	}
	return fmt.Errorf("part %q: reading: %w", pt.file.Name, err)
}

// load reads a small part whole.
func (p *pkg) load(pt *part) ([]byte, error) {
	rc, err := p.open(pt)
	if err != nil {
		return nil, err
	}
	defer rc.Close()
	b, err := io.ReadAll(io.LimitReader(rc, p.limits.small+1))
	if err != nil {
		return nil, err
	}
	if int64(len(b)) > p.limits.small {
		return nil, &Error{Kind: ErrLimit, Part: pt.file.Name, Why: "the part is larger than allowed when unpacked", Do: doCopy}
	}
	return b, nil
}

// rel is one relationship.
type rel struct{ id, kind, target string }

// relsName is where the relationships of a part are; "" is the package.
func relsName(partName string) string {
	dir, base := path.Split(partName)
	return dir + "_rels/" + base + ".rels"
}

// rels reads the internal relationships of a part; none if there is no such
// list. Targets are part keys.
func (p *pkg) rels(partName string) ([]rel, error) {
	pt := p.byName[partKey(relsName(partName))]
	if pt == nil {
		return nil, nil
	}
	data, err := p.load(pt)
	if err != nil {
		return nil, err
	}
	var out []rel
	err = eachStart(data, func(s *scanner) error {
		if s.level != 2 || localName(s.name) != "Relationship" {
			return nil
		}
		var r rel
		external := false
		err := eachAttr(s.attrs(), func(name, value string) {
			switch name {
			case "Id":
				r.id = value
			case "Type":
				r.kind = value[strings.LastIndexByte(value, '/')+1:]
			case "Target":
				r.target = value
			case "TargetMode":
				external = value == "External"
			}
		})
		if err != nil || external {
			return err
		}
		if len(out) >= p.limits.entries {
			return &Error{Kind: ErrLimit, Why: "the part lists more relationships than allowed", Do: doCopy}
		}
		r.target = p.resolve(path.Dir(partName), r.target)
		out = append(out, r)
		return nil
	})
	return out, inPart(err, pt.file.Name)
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

// eachStart calls f for every start tag of a document held in memory.
func eachStart(data []byte, f func(*scanner) error) error {
	s := newBytesScanner(data)
	for {
		kind, err := s.next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		if kind == tokStart || kind == tokEmpty {
			if err := f(s); err != nil {
				return err
			}
		}
	}
}

func eachAttr(attrs []byte, f func(name, value string)) error {
	for at := 0; ; {
		a, ok, err := nextAttr(attrs, at)
		if err != nil || !ok {
			return err
		}
		v, err := unescape(a.value)
		if err != nil {
			return err
		}
		f(string(a.name), v)
		at = a.to
	}
}

func localName(name []byte) string { return string(name[bytes.IndexByte(name, ':')+1:]) }

// sheetRef is one entry of the workbook's list of sheets.
type sheetRef struct {
	name   string
	index  int // position among all sheets, charts included
	hidden bool
	kind   string // last word of the relationship's type: worksheet, chartsheet, ...
	part   *part  // nil if the file has no such part
}

// book is what is needed of the workbook part.
type book struct {
	part   *part
	name   string // part key
	data   []byte
	rels   []rel
	sheets []sheetRef
	styles *part // nil if there is none
}

func (p *pkg) book() (*book, error) {
	notWorkbook := &Error{Kind: ErrNotWorkbook, Why: "the zip holds no workbook", Do: "choose an .xlsx or .xlsm file"}
	rels, err := p.rels("")
	if err != nil {
		return nil, err
	}
	b := &book{}
	for _, r := range rels {
		if r.kind == "officeDocument" {
			b.name, b.part = r.target, p.byName[r.target]
			break
		}
	}
	if b.part == nil {
		return nil, notWorkbook
	}
	if strings.HasSuffix(b.name, ".bin") {
		return nil, &Error{Kind: ErrUnsupported, Why: "the workbook is in the binary .xlsb format", Do: doResave}
	}
	if b.data, err = p.load(b.part); err != nil {
		return nil, err
	}
	if b.rels, err = p.rels(b.name); err != nil {
		return nil, err
	}
	for _, r := range b.rels {
		if r.kind == "styles" && b.styles == nil {
			b.styles = p.byName[r.target]
		}
	}
	if err := p.readSheets(b, notWorkbook); err != nil {
		return nil, inPart(err, b.part.file.Name)
	}
	return b, nil
}

func (p *pkg) readSheets(b *book, notWorkbook error) error {
	var ns mainNames
	inSheets := false
	byID := make(map[string]rel, len(b.rels))
	for _, r := range b.rels {
		byID[r.id] = r
	}
	return eachStart(b.data, func(s *scanner) error {
		switch s.level {
		case 1:
			if localName(s.name) != "workbook" {
				return notWorkbook
			}
			return ns.read(s.name, s.attrs())
		case 2:
			inSheets = string(ns.local(s.name)) == "sheets"
			return nil
		}
		if s.level != 3 || !inSheets || string(ns.local(s.name)) != "sheet" {
			return nil
		}
		if len(b.sheets) >= p.limits.sheets {
			return &Error{Kind: ErrLimit, Why: "the workbook lists more sheets than allowed", Do: doCopy}
		}
		sh := sheetRef{index: len(b.sheets)}
		id := ""
		err := eachAttr(s.attrs(), func(name, value string) {
			switch {
			case name == "name":
				sh.name = value
			case name == "state":
				sh.hidden = value != "visible"
			case name != "id" && localName([]byte(name)) == "id":
				id = value
			}
		})
		if r, ok := byID[id]; ok {
			sh.kind, sh.part = r.kind, p.byName[r.target]
		}
		b.sheets = append(b.sheets, sh)
		return err
	})
}

// sheet finds a worksheet by name, exactly or but for upper and lower case.
func (b *book) sheet(name string) (*sheetRef, error) {
	var found *sheetRef
	for i := range b.sheets {
		if s := &b.sheets[i]; s.name == name {
			found = s
			break
		} else if found == nil && strings.EqualFold(s.name, name) {
			found = s
		}
	}
	if found == nil {
		return nil, &Error{Kind: ErrNoSheet, Sheet: name, Why: "the workbook has no sheet of that name", Do: "check the name on the tab"}
	}
	return found, found.usable()
}

// usable tells why a sheet has no cells to edit, if so.
func (s *sheetRef) usable() error {
	switch {
	case s.kind != "worksheet":
		return &Error{Kind: ErrNoSheet, Sheet: s.name, Why: "this sheet has no cells (it is a chart, dialog or macro sheet)", Do: "choose another sheet"}
	case s.part == nil:
		return &Error{Kind: ErrDamaged, Sheet: s.name, Why: "the file lists this sheet but does not hold it", Do: doResave}
	}
	return nil
}

// copyRaw copies one entry without unpacking it.
func copyRaw(zw *zip.Writer, f *zip.File) error {
	h := f.FileHeader
	h.Extra = dropZip64(h.Extra)
	dst, err := zw.CreateRaw(&h)
	if err != nil {
		return err
	}
	src, err := f.OpenRaw()
	if err != nil {
		return &Error{Kind: ErrDamaged, Part: f.Name, Why: "the part is damaged", Do: doCopy, Cause: err}
	}
	n, err := io.Copy(dst, src)
	if err != nil {
		return err
	}
	if uint64(n) != f.CompressedSize64 {
		return &Error{Kind: ErrDamaged, Part: f.Name, Why: "the part is cut short", Do: doCopy}
	}
	return nil
}

// dropZip64 removes the record of 64-bit sizes, which the writer adds again
// where it is needed.
func dropZip64(extra []byte) []byte {
	var out []byte
	for len(extra) >= 4 {
		n := 4 + int(binary.LittleEndian.Uint16(extra[2:]))
		if n > len(extra) {
			break
		}
		if binary.LittleEndian.Uint16(extra) != 1 {
			out = append(out, extra[:n]...)
		}
		extra = extra[n:]
	}
	return append(out, extra...)
}

// createLike starts an entry that replaces f.
func createLike(zw *zip.Writer, f *zip.File) (io.Writer, error) {
	return zw.CreateHeader(&zip.FileHeader{
		Name: f.Name, NonUTF8: f.NonUTF8, Comment: f.Comment, Method: zip.Deflate,
		Modified: f.Modified, CreatorVersion: f.CreatorVersion, ExternalAttrs: f.ExternalAttrs,
	})
}

const (
	nsMain   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	nsStrict = "http://purl.oclc.org/ooxml/spreadsheetml/main"
)

// mainNames knows which prefixes stand for the spreadsheet namespace, as
// declared on a document's root. The zero value knows none.
type mainNames struct {
	prefixes []string // "" or "x:"
	root     string   // the root's own prefix
}

// read takes the declarations of the root element.
func (m *mainNames) read(rootName, attrs []byte) error {
	err := eachAttr(attrs, func(name, value string) {
		if value != nsMain && value != nsStrict {
			return
		}
		if name == "xmlns" {
			m.prefixes = append(m.prefixes, "")
		} else if p, ok := strings.CutPrefix(name, "xmlns:"); ok {
			m.prefixes = append(m.prefixes, p+":")
		}
	})
	if err != nil {
		return err
	}
	m.root = string(rootName[:bytes.IndexByte(rootName, ':')+1])
	if m.local(rootName) == nil {
		return unsupported("the XML does not use the spreadsheet namespace")
	}
	return nil
}

// local gives an element's name without its prefix if it is in the
// spreadsheet namespace, else nil.
func (m *mainNames) local(name []byte) []byte {
	colon := bytes.IndexByte(name, ':')
	for _, p := range m.prefixes {
		if len(p) == colon+1 && string(name[:colon+1]) == p {
			return name[colon+1:]
		}
	}
	return nil
}

// checkRedeclared refuses an element we act on that changes what its own or
// its children's prefixes mean.
func (m *mainNames) checkRedeclared(attrs []byte) error {
	if !bytes.Contains(attrs, []byte("xmlns")) {
		return nil
	}
	var bad error
	err := eachAttr(attrs, func(name, value string) {
		prefix, ok := "", name == "xmlns"
		if p, cut := strings.CutPrefix(name, "xmlns:"); cut {
			prefix, ok = p+":", true
		}
		if !ok {
			return
		}
		isMain := value == nsMain || value == nsStrict
		known := false
		for _, p := range m.prefixes {
			known = known || p == prefix
		}
		if isMain != known {
			bad = unsupported("the XML changes its namespaces in the middle")
		}
	})
	if err != nil {
		return err
	}
	return bad
}
