package ooxml

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/opc"
	"tenback/workbook/xmlscan"
)

// Book is an opened workbook.
type Book struct {
	*opc.Package
	Main   *opc.Part // lists the sheets
	Styles *opc.Part // nil if there is none

	sheets   []Sheet
	date1904 bool
	formats  []cell.Format // by style number
	texts    *opc.Part     // shared texts, nil if there are none
	strings  []string
	loaded   bool
	limits   limits
	tables   map[*opc.Part]*Table // already read
}

// Sheet is one tab of a workbook.
type Sheet struct {
	Name   string
	Hidden bool
	Cells  bool      // false for charts, dialogs and macro sheets
	Part   *opc.Part // not nil if the sheet has cells
}

// Open opens a workbook and checks all of it.
func Open(r io.ReaderAt, size int64) (*Book, error) { return open(r, size, defaultLimits) }

func open(r io.ReaderAt, size int64, lim limits) (*Book, error) {
	b, err := openParts(r, size, lim)
	if err != nil {
		return nil, err
	}
	if err := b.Check(b.Parts...); err != nil {
		return nil, err
	}
	return b, b.readFormats()
}

// OpenParts opens a workbook and reads its list of sheets. Other parts are
// checked when they are read.
func OpenParts(r io.ReaderAt, size int64, lim opc.Limits) (*Book, error) {
	return openParts(r, size, limits{lim, MaxStrings})
}

func openParts(r io.ReaderAt, size int64, lim limits) (*Book, error) {
	p, err := opc.Open(r, size, lim.Limits)
	if err != nil {
		return nil, err
	}
	b := &Book{Package: p, limits: lim, tables: map[*opc.Part]*Table{}}
	return b, b.read()
}

// Sheets lists the tabs in their order.
func (b *Book) Sheets() []Sheet { return b.sheets }

// Date1904 reports whether the workbook counts its days from 1904.
func (b *Book) Date1904() bool { return b.date1904 }

func (b *Book) read() error {
	top, err := b.Rels("")
	if err != nil {
		return err
	}
	for _, r := range top {
		if r.Kind == "officeDocument" {
			b.Main = b.Part(r.Target)
			break
		}
	}
	switch {
	case b.Main == nil:
		return b.NoWorkbook()
	case strings.HasSuffix(opc.Key(b.Main.Name), ".bin"):
		return &opc.Error{Kind: opc.ErrUnsupported, Why: "the workbook is in the binary .xlsb format", Do: opc.DoResave}
	}
	rels, err := b.Rels(opc.Key(b.Main.Name))
	if err != nil {
		return err
	}
	byID := map[string]opc.Rel{}
	for _, r := range rels {
		byID[r.ID] = r
		switch r.Kind {
		case "styles":
			b.Styles = b.Part(r.Target)
		case "sharedStrings":
			b.texts = b.Part(r.Target)
		}
	}
	return b.readSheets(byID)
}

func (b *Book) readSheets(byID map[string]opc.Rel) error {
	inSheets := false
	return b.eachStart(b.Main, func(s *xmlscan.Scanner) error {
		name := xmlscan.LocalName(s.Name)
		switch {
		case s.Level == 1 && name != "workbook":
			return b.NoWorkbook()
		case s.Level == 2:
			inSheets = name == "sheets"
			if name == "workbookPr" {
				v, _, err := xmlscan.AttrValue(s.Attrs(), "date1904")
				b.date1904 = isTrue(v)
				return err
			}
		case s.Level == 3 && inSheets && name == "sheet":
			return b.addSheet(s.Attrs(), byID)
		}
		return nil
	})
}

func (b *Book) addSheet(attrs []byte, byID map[string]opc.Rel) error {
	if len(b.sheets) >= b.limits.Entries {
		return opc.OverLimit(b.Main.Name, "the workbook has more sheets than any roster")
	}
	var s Sheet
	var rel opc.Rel
	err := xmlscan.EachAttr(attrs, func(name, value string) {
		switch {
		case name == "name":
			s.Name = value
		case name == "state":
			s.Hidden = value != "" && value != "visible"
		case strings.HasSuffix(name, ":id"):
			rel = byID[value]
		}
	})
	if err != nil {
		return err
	}
	s.Part, s.Cells = b.Part(rel.Target), rel.Kind == "worksheet"
	if s.Cells && s.Part == nil {
		return opc.Damaged(b.Main.Name, "the sheet "+strconv.Quote(s.Name)+" is missing in the file", nil)
	}
	if s.Cells && slices.ContainsFunc(b.sheets, func(t Sheet) bool { return t.Part == s.Part }) {
		return opc.Damaged(b.Main.Name, "several sheets share the same cells", nil)
	}
	b.sheets = append(b.sheets, s)
	return nil
}

// eachStart calls visit at every start tag of a small part.
func (b *Book) eachStart(part *opc.Part, visit func(*xmlscan.Scanner) error) error {
	data, err := b.Load(part)
	if err != nil {
		return err
	}
	if err := xmlscan.EachStart(data, visit); err != nil {
		return failure(part, err)
	}
	return nil
}

func isTrue(s string) bool { return s == "1" || s == "true" || s == "on" }

// builtIn holds the number formats that workbooks use by number alone. The text
// of date formats varies with the program's language, their class does not.
var builtIn = map[int]string{
	1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00",
	14: "yyyy-mm-dd", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM",
	20: "h:mm", 21: "h:mm:ss", 22: "yyyy-mm-dd h:mm", 27: "yyyy-mm", 28: "yyyy-mm-dd", 29: "yyyy-mm-dd", 30: "yyyy-mm-dd", 31: "yyyy-mm-dd",
	32: "h:mm", 33: "h:mm:ss", 34: "h:mm", 35: "h:mm:ss", 36: "yyyy-mm-dd", 37: "#,##0", 38: "#,##0", 39: "#,##0.00", 40: "#,##0.00",
	45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
	50: "yyyy-mm-dd", 51: "yyyy-mm-dd", 52: "yyyy-mm-dd", 53: "yyyy-mm-dd", 54: "yyyy-mm-dd", 55: "h:mm", 56: "h:mm:ss", 57: "yyyy-mm-dd", 58: "yyyy-mm-dd",
}

// readFormats reads the number formats of all styles.
func (b *Book) readFormats() error {
	if b.Styles == nil {
		return nil
	}
	custom := map[int]cell.Format{}
	section, branch := "", ""
	return b.eachStart(b.Styles, func(s *xmlscan.Scanner) error {
		name := xmlscan.LocalName(s.Name)
		if s.Level == 2 {
			section = name
		}
		if s.Level == 4 {
			branch = name
		}
		// An entry may be a choice between formats; the last one is for all programs.
		chosen := s.Level == 5 && branch == "Fallback" && section+name == "cellXfsxf"
		if !chosen && (s.Level != 3 || section+name != "numFmtsnumFmt" && section+name != "cellXfsxf") {
			return nil
		}
		number, _, err := xmlscan.AttrValue(s.Attrs(), "numFmtId")
		if err != nil {
			return err
		}
		id, notNumber := strconv.Atoi(number)
		if name == "numFmt" {
			code, _, err := xmlscan.AttrValue(s.Attrs(), "formatCode")
			if notNumber == nil {
				custom[id] = cell.ParseFormat(code)
			}
			return err
		}
		f, ok := custom[id]
		if !ok {
			f = cell.ParseFormat(builtIn[id])
		}
		b.formats = append(b.formats, f)
		return nil
	})
}

// loadStrings reads the shared texts once.
func (b *Book) loadStrings() error {
	if b.loaded || b.texts == nil {
		return nil
	}
	w, err := b.walker(b.texts)
	if err != nil {
		return err
	}
	defer w.close()
	var item richText
	var total int64
	for {
		if err := w.next(); err == io.EOF {
			break
		} else if err != nil {
			return err
		}
		if e := &w.element; e.name == "si" && e.depth == 2 && e.end {
			s := Unescape(item.take())
			if total += int64(len(s)) + 16; total > b.limits.texts {
				return opc.OverLimit(b.texts.Name, "the workbook holds more text than this program reads")
			}
			b.strings = append(b.strings, s)
		} else {
			item.visit(e, w.text)
		}
	}
	b.loaded = true
	return nil
}
