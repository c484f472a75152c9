package splice

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"io"
	"strings"

	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// limits are the exported Max constants; tests use smaller ones.
type limits struct {
	opc.Limits
	sheets, blocks int
}

var defaultLimits = limits{
	Limits: opc.Limits{Entries: MaxEntries, Part: MaxPartBytes, Total: MaxTotalBytes, Small: MaxSmallPart, Ratio: MaxRatio, RatioFrom: 16 << 20},
	sheets: 5_000, blocks: 200_000,
}

type part = opc.Part

// pkg is an opened package.
type pkg struct {
	*opc.Package
	limits  limits
	tableOf map[*part]block // tables already read
}

func openPackage(r io.ReaderAt, size int64, lim limits) (*pkg, error) {
	p, err := opc.Open(r, size, lim.Limits)
	if err != nil {
		return nil, err
	}
	return &pkg{Package: p, limits: lim, tableOf: map[*part]block{}}, nil
}

// eachStart calls f for every start tag of a document held in memory.
func eachStart(data []byte, f func(*xmlscan.Scanner) error) error {
	s := xmlscan.OfBytes(data)
	return eachToken(s, func(kind xmlscan.Token) error {
		if kind != xmlscan.StartTag && kind != xmlscan.EmptyTag {
			return nil
		}
		return f(s)
	})
}

// eachToken calls f for every token to the end of a document.
func eachToken(s *xmlscan.Scanner, f func(xmlscan.Token) error) error {
	for {
		kind, err := s.Next()
		if err == io.EOF {
			return nil
		}
		if err == nil {
			err = f(kind)
		}
		if err != nil {
			return err
		}
	}
}

func eachAttr(attrs []byte, f func(name, value string)) error {
	for at := 0; ; {
		a, ok, err := xmlscan.NextAttr(attrs, at)
		if err != nil || !ok {
			return err
		}
		v, err := xmlscan.Value(a.Value)
		if err != nil {
			return err
		}
		f(string(a.Name), string(v))
		at = a.To
	}
}

func localName(name []byte) string { return string(name[bytes.IndexByte(name, ':')+1:]) }

// sheetRef is one entry of the workbook's list of sheets.
type sheetRef struct {
	name  string
	index int    // position among all sheets, charts included
	kind  string // last word of the relationship's type: worksheet, chartsheet, ...
	part  *part  // nil if the file has no such part
}

// book is what is needed of the workbook part.
type book struct {
	part   *part
	name   string // part key
	data   []byte
	rels   []opc.Rel
	sheets []sheetRef
	styles *part // nil if there is none
}

func (p *pkg) book() (*book, error) {
	notWorkbook := &Error{Kind: ErrNotWorkbook, Why: "the zip holds no workbook", Do: "choose an .xlsx or .xlsm file"}
	rels, err := p.Rels("")
	if err != nil {
		return nil, err
	}
	b := &book{}
	for _, r := range rels {
		if r.Kind == "officeDocument" {
			b.name, b.part = r.Target, p.Part(r.Target)
			break
		}
	}
	if b.part == nil {
		return nil, notWorkbook
	}
	if strings.HasSuffix(b.name, ".bin") {
		return nil, &Error{Kind: ErrUnsupported, Why: "the workbook is in the binary .xlsb format", Do: doResave}
	}
	if b.data, err = p.Load(b.part); err != nil {
		return nil, err
	}
	if b.rels, err = p.Rels(b.name); err != nil {
		return nil, err
	}
	for _, r := range b.rels {
		if r.Kind == "styles" && b.styles == nil {
			b.styles = p.Part(r.Target)
		}
	}
	if err := p.readSheets(b, notWorkbook); err != nil {
		return nil, inPart(err, b.part.Name)
	}
	return b, nil
}

func (p *pkg) readSheets(b *book, notWorkbook error) error {
	var ns mainNames
	inSheets := false
	byID := make(map[string]opc.Rel, len(b.rels))
	for _, r := range b.rels {
		byID[r.ID] = r
	}
	return eachStart(b.data, func(s *xmlscan.Scanner) error {
		switch s.Level {
		case 1:
			if localName(s.Name) != "workbook" {
				return notWorkbook
			}
			return ns.read(s.Name, s.Attrs())
		case 2:
			inSheets = string(ns.local(s.Name)) == "sheets"
			return nil
		}
		if s.Level != 3 || !inSheets || string(ns.local(s.Name)) != "sheet" {
			return nil
		}
		if len(b.sheets) >= p.limits.sheets {
			return &Error{Kind: ErrLimit, Why: "the workbook lists more sheets than allowed", Do: doCopy}
		}
		sh := sheetRef{index: len(b.sheets)}
		id := ""
		err := eachAttr(s.Attrs(), func(name, value string) {
			switch {
			case name == "name":
				sh.name = value
			case name != "id" && localName([]byte(name)) == "id":
				id = value
			}
		})
		if r, ok := byID[id]; ok {
			sh.kind, sh.part = r.Kind, p.Part(r.Target)
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
