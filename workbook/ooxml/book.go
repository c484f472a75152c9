package ooxml

import (
	"io"
	"strconv"
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/opc"
)

// Book is an opened workbook.
type Book struct {
	pkg      *pkg
	sheets   []Sheet
	date1904 bool
	formats  []cell.Format // by style number
	stringsF *opc.Part     // shared texts, nil if there are none
	strings  []string
	loaded   bool
}

// Sheet is one tab of a workbook.
type Sheet struct {
	Name   string
	Hidden bool
	// Cells tells whether the sheet has cells; charts and dialogs have none.
	Cells bool

	part *opc.Part
	key  string
}

// Open opens a workbook and checks all of it.
func Open(r io.ReaderAt, size int64) (*Book, error) { return open(r, size, defaultLimits) }

func open(r io.ReaderAt, size int64, lim limits) (*Book, error) {
	p, err := openPackage(r, size, lim)
	if err != nil {
		return nil, err
	}
	b := &Book{pkg: p}
	return b, b.read()
}

// Sheets lists the tabs in their order.
func (b *Book) Sheets() []Sheet { return b.sheets }

// Date1904 tells that the workbook counts its days from 1904.
func (b *Book) Date1904() bool { return b.date1904 }

// Signed tells that the workbook has a digital signature, which any change
// voids.
func (b *Book) Signed() bool { return b.pkg.Signed() }

func (b *Book) read() error {
	noWorkbook := &Error{Kind: ErrNotWorkbook, Why: "the file is a zip archive but no workbook", Do: opc.DoChoose}
	top, err := b.pkg.Rels("")
	if err != nil {
		return err
	}
	main := ""
	for _, r := range top {
		if r.Kind == "officeDocument" {
			main = r.Target
			break
		}
	}
	part := b.pkg.Part(main)
	if part == nil {
		if b.pkg.Part("content.xml") != nil {
			return &Error{Kind: ErrNotWorkbook, Why: "this is an OpenDocument file", Do: "open it in your spreadsheet program and save it as .xlsx"}
		}
		return noWorkbook
	}
	if strings.HasSuffix(main, ".bin") {
		return &Error{Kind: ErrUnsupported, Why: "the workbook is in the binary .xlsb format", Do: opc.DoResave}
	}
	rels, err := b.pkg.Rels(main)
	if err != nil {
		return err
	}
	byID := map[string]opc.Rel{}
	var styles *opc.Part
	for _, r := range rels {
		byID[r.ID] = r
		switch r.Kind {
		case "styles":
			styles = b.pkg.Part(r.Target)
		case "sharedStrings":
			b.stringsF = b.pkg.Part(r.Target)
		}
	}
	if err := b.readSheets(part, byID, noWorkbook); err != nil {
		return err
	}
	return b.readStyles(styles)
}

func (b *Book) readSheets(part *opc.Part, byID map[string]opc.Rel, noWorkbook error) error {
	inSheets := false
	return b.pkg.walk(part, b.pkg.limits.Small, func(e *element) error {
		switch {
		case e.depth == 1 && e.name != "workbook":
			return noWorkbook
		case e.end:
		case e.depth == 2:
			inSheets = e.name == "sheets"
			if e.name == "workbookPr" {
				b.date1904 = isTrue(e.attr("date1904"))
			}
		case e.depth == 3 && inSheets && e.name == "sheet":
			if len(b.sheets) >= b.pkg.limits.Entries {
				return opc.OverLimit(part.Name, "the workbook has more sheets than any roster")
			}
			rel := byID[e.relID()]
			state := e.attr("state")
			s := Sheet{Name: e.attr("name"), Hidden: state != "" && state != "visible",
				part: b.pkg.Part(rel.Target), key: rel.Target}
			s.Cells = rel.Kind == "worksheet"
			if s.Cells && s.part == nil {
				return opc.Damaged(part.Name, "the sheet "+strconv.Quote(s.Name)+" is missing in the file", nil)
			}
			b.sheets = append(b.sheets, s)
		}
		return nil
	})
}

func isTrue(s string) bool { return s == "1" || s == "true" || s == "on" }

// builtIn are the number formats that workbooks use by number alone and that
// tell something about a value. The texts of the dates vary with the language
// of the program, their class does not.
var builtIn = map[int]string{
	1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00",
	14: "yyyy-mm-dd", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM",
	20: "h:mm", 21: "h:mm:ss", 22: "yyyy-mm-dd h:mm", 27: "yyyy-mm", 28: "yyyy-mm-dd", 29: "yyyy-mm-dd", 30: "yyyy-mm-dd", 31: "yyyy-mm-dd",
	32: "h:mm", 33: "h:mm:ss", 34: "h:mm", 35: "h:mm:ss", 36: "yyyy-mm-dd", 37: "#,##0", 38: "#,##0", 39: "#,##0.00", 40: "#,##0.00",
	45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
	50: "yyyy-mm-dd", 51: "yyyy-mm-dd", 52: "yyyy-mm-dd", 53: "yyyy-mm-dd", 54: "yyyy-mm-dd", 55: "h:mm", 56: "h:mm:ss", 57: "yyyy-mm-dd", 58: "yyyy-mm-dd",
}

func (b *Book) readStyles(part *opc.Part) error {
	if part == nil {
		return nil
	}
	custom := map[int]cell.Format{}
	section := ""
	return b.pkg.walk(part, b.pkg.limits.Small, func(e *element) error {
		switch {
		case e.end:
		case e.depth == 2:
			section = e.name
		case e.depth == 3 && section == "numFmts" && e.name == "numFmt":
			if id, err := strconv.Atoi(e.attr("numFmtId")); err == nil {
				custom[id] = cell.ParseFormat(e.attr("formatCode"))
			}
		case e.depth == 3 && section == "cellXfs" && e.name == "xf":
			id, _ := strconv.Atoi(e.attr("numFmtId"))
			f, ok := custom[id]
			if !ok {
				f = cell.ParseFormat(builtIn[id])
			}
			b.formats = append(b.formats, f)
		}
		return nil
	})
}

// loadStrings reads the shared texts once.
func (b *Book) loadStrings() error {
	if b.loaded || b.stringsF == nil {
		return nil
	}
	w, err := b.pkg.walker(b.stringsF, b.pkg.limits.Part)
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
			s := unescape(item.take())
			if total += int64(len(s)) + 16; total > b.pkg.limits.texts {
				return opc.OverLimit(b.stringsF.Name, "the workbook holds more text than this program agrees to read")
			}
			b.strings = append(b.strings, s)
		} else {
			item.visit(e, w.text)
		}
	}
	b.loaded = true
	return nil
}

// richText collects the text of a string item: its t elements, those inside
// runs included, without phonetic hints.
type richText struct {
	text     []byte
	phonetic bool
}

func (r *richText) visit(e *element, before []byte) {
	switch {
	case e.name == "rPh":
		r.phonetic = !e.end
	case e.name == "t" && e.end && !r.phonetic:
		r.text = append(r.text, before...)
	}
}

func (r *richText) take() string {
	s := string(r.text)
	r.text, r.phonetic = r.text[:0], false
	return s
}

// unescape turns _x000D_ and its like into the characters they stand for.
func unescape(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '_' && len(s) >= i+7 && s[i+1] == 'x' && s[i+6] == '_' {
			if n, err := strconv.ParseUint(s[i+2:i+6], 16, 16); err == nil {
				b.WriteRune(rune(n))
				i += 6
				continue
			}
		}
		b.WriteByte(s[i])
	}
	return b.String()
}
