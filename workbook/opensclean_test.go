package workbook

import (
	"archive/zip"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// opensClean lists what would make a spreadsheet program offer to repair a
// workbook, as far as ECMA-376 part 1 says it and practice knows it. It reads
// the file by means of its own, none of which wrote it.
func opensClean(file string) (faults []string, err error) {
	raw, err := zip.OpenReader(file)
	if err != nil {
		return nil, err
	}
	defer raw.Close()
	c := cleanCheck{parts: map[string]*zip.File{}, kinds: map[string]string{}, ids: map[string]string{}, names: map[string]string{}}
	for _, f := range raw.File {
		name := strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(f.Name, `\`, "/"), "/"))
		if c.parts[name] != nil {
			c.fault("the part %s is there twice", name)
		}
		c.parts[name] = f
	}
	if err := c.types(); err != nil {
		return nil, err
	}
	if err := c.styles(); err != nil {
		return nil, err
	}
	if err := c.strings(); err != nil {
		return nil, err
	}
	for name := range c.parts {
		if strings.Contains(name, "worksheets/") && strings.HasSuffix(name, ".xml") {
			if err := c.sheet(name); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	return c.faults, nil
}

type cleanCheck struct {
	parts  map[string]*zip.File
	kinds  map[string]string // parts by the end of their types
	faults []string
	shared []string
	xfs    int
	ids    map[string]string // of tables, to their parts
	names  map[string]string // of tables, in lower case
}

func (c *cleanCheck) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

func (c *cleanCheck) decode(name string, v any) error {
	f := c.parts[name]
	if f == nil {
		return nil // what is not there is missed by those who need it
	}
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	if err := xml.NewDecoder(r).Decode(v); err != nil && !errors.Is(err, io.EOF) {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// types: each part has a type.
func (c *cleanCheck) types() error {
	var types struct {
		Default []struct {
			Extension string `xml:",attr"`
		}
		Override []struct {
			PartName    string `xml:",attr"`
			ContentType string `xml:",attr"`
		}
	}
	if err := c.decode("[content_types].xml", &types); err != nil {
		return err
	}
	known := map[string]bool{}
	for _, d := range types.Default {
		ext := "." + strings.ToLower(d.Extension)
		if known[ext] {
			c.fault("the type of %s is given twice", ext)
		}
		known[ext] = true
	}
	for _, o := range types.Override {
		name := strings.ToLower(strings.TrimPrefix(o.PartName, "/"))
		if known[name] {
			c.fault("the type of %s is given twice", name)
		}
		known[name] = true
		if c.parts[name] != nil {
			c.kinds[strings.TrimPrefix(o.ContentType, "application/vnd.openxmlformats-officedocument.spreadsheetml.")] = name
		}
	}
	for name := range c.parts {
		if name != "[content_types].xml" && !strings.HasSuffix(name, "/") && !known[name] && !known[path.Ext(name)] {
			c.fault("the part %s has no type", name)
		}
	}
	return nil
}

// styles: the formats that cells use are there, and so is what they use.
func (c *cleanCheck) styles() error {
	type list struct {
		Count string     `xml:"count,attr"`
		Items []struct{} `xml:",any"`
	}
	var styles struct {
		Fonts   list `xml:"fonts"`
		Fills   list `xml:"fills"`
		Borders list `xml:"borders"`
		Formats struct {
			Items []struct {
				ID int `xml:"numFmtId,attr"`
			} `xml:"numFmt"`
		} `xml:"numFmts"`
		Xfs struct {
			Count string `xml:"count,attr"`
			Items []struct {
				Font   int `xml:"fontId,attr"`
				Fill   int `xml:"fillId,attr"`
				Border int `xml:"borderId,attr"`
				Format int `xml:"numFmtId,attr"`
			} `xml:"xf"`
			Choices []struct {
				Items []struct{} `xml:"Choice>xf"`
			} `xml:"AlternateContent"`
		} `xml:"cellXfs"`
	}
	if err := c.decode(c.kinds["styles+xml"], &styles); err != nil {
		return err
	}
	xfs := len(styles.Xfs.Items)
	for _, choice := range styles.Xfs.Choices {
		xfs += len(choice.Items)
	}
	c.xfs = max(1, xfs)
	for what, l := range map[string]list{"fonts": styles.Fonts, "fills": styles.Fills, "borders": styles.Borders} {
		if l.Count != "" && l.Count != strconv.Itoa(len(l.Items)) {
			c.fault("%s says %s and has %d", what, l.Count, len(l.Items))
		}
	}
	formats := map[int]bool{}
	for _, f := range styles.Formats.Items {
		if formats[f.ID] {
			c.fault("the number format %d is there twice", f.ID)
		}
		formats[f.ID] = true
	}
	if n := styles.Xfs.Count; n != "" && n != strconv.Itoa(xfs) {
		c.fault("cellXfs says %s and has %d", n, xfs)
	}
	for i, x := range styles.Xfs.Items {
		if x.Font >= max(1, len(styles.Fonts.Items)) || x.Fill >= max(2, len(styles.Fills.Items)) || x.Border >= max(1, len(styles.Borders.Items)) {
			c.fault("format %d uses what is not there: %+v", i, x)
		}
		if x.Format >= 164 && !formats[x.Format] {
			c.fault("format %d uses the number format %d, which is not there", i, x.Format)
		}
	}
	return nil
}

type textRun struct {
	T string    `xml:"t"`
	R []textRun `xml:"r"`
}

func (r *textRun) text() string {
	s := r.T
	for i := range r.R {
		s += r.R[i].text()
	}
	return s
}

func (c *cleanCheck) strings() error {
	var table struct {
		SI []textRun `xml:"si"`
	}
	if err := c.decode(c.kinds["sharedStrings+xml"], &table); err != nil {
		return err
	}
	for i := range table.SI {
		c.shared = append(c.shared, table.SI[i].text())
	}
	return nil
}

type refAttr struct {
	Ref string `xml:"ref,attr"`
}

type cleanCell struct {
	R  string  `xml:"r,attr"`
	S  int     `xml:"s,attr"`
	T  string  `xml:"t,attr"`
	V  string  `xml:"v"`
	IS textRun `xml:"is"`
}

type cleanSheet struct {
	Dimension refAttr `xml:"dimension"`
	Cols      []struct {
		Col []struct {
			Min int `xml:"min,attr"`
			Max int `xml:"max,attr"`
		} `xml:"col"`
	} `xml:"cols"`
	Rows []struct {
		R     string      `xml:"r,attr"`
		Cells []cleanCell `xml:"c"`
	} `xml:"sheetData>row"`
	Filter *refAttr  `xml:"autoFilter"`
	Merges []refAttr `xml:"mergeCells>mergeCell"`
	Tables []struct {
		ID string `xml:"id,attr"`
	} `xml:"tableParts>tablePart"`
}

// box is a range of cells, both ends included.
type box struct{ left, top, right, bottom int }

func parseBox(ref string) (b box, ok bool) {
	from, to, two := strings.Cut(strings.ReplaceAll(ref, "$", ""), ":")
	if !two {
		to = from
	}
	var errA, errB error
	b.left, b.top, errA = excelize.CellNameToCoordinates(from)
	b.right, b.bottom, errB = excelize.CellNameToCoordinates(to)
	return b, errA == nil && errB == nil && b.left <= b.right && b.top <= b.bottom
}

func (b box) meets(o box) bool {
	return b.left <= o.right && o.left <= b.right && b.top <= o.bottom && o.top <= b.bottom
}

func (c *cleanCheck) sheet(name string) error {
	var s cleanSheet
	if err := c.decode(name, &s); err != nil {
		return err
	}
	texts := c.cells(name, &s)
	for _, cols := range s.Cols {
		last := 0
		for _, col := range cols.Col {
			if col.Min <= last || col.Max < col.Min || col.Max > 16384 {
				c.fault("%s: the widths of columns are out of order at %d", name, col.Min)
			}
			last = col.Max
		}
	}
	var taken []box
	claim := func(what, ref string) {
		b, ok := parseBox(ref)
		if !ok {
			c.fault("%s: the %s has the range %q", name, what, ref)
			return
		}
		for _, o := range taken {
			if b.meets(o) {
				c.fault("%s: the %s in %s lies on something else", name, what, ref)
			}
		}
		taken = append(taken, b)
	}
	for _, m := range s.Merges {
		claim("merge", m.Ref)
	}
	relations := struct {
		Rel []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}{}
	if err := c.decode(path.Dir(name)+"/_rels/"+path.Base(name)+".rels", &relations); err != nil {
		return err
	}
	for _, t := range s.Tables {
		at := ""
		for _, r := range relations.Rel {
			if r.ID == t.ID {
				if at = r.Target; !strings.HasPrefix(at, "/") {
					at = path.Join(path.Dir(name), at)
				}
			}
		}
		at = strings.ToLower(strings.TrimPrefix(at, "/"))
		if c.parts[at] == nil {
			c.fault("%s: the table %s is not there", name, t.ID)
			continue
		}
		ref, err := c.table(at, texts)
		if err != nil {
			return err
		}
		claim("table", ref)
	}
	if s.Filter != nil {
		claim("filter", s.Filter.Ref)
	}
	return nil
}

// cells holds rows and cells to be in order and gives their texts.
func (c *cleanCheck) cells(name string, s *cleanSheet) map[string]string {
	texts := map[string]string{}
	lastRow := 0
	for _, row := range s.Rows {
		number := lastRow + 1
		if row.R != "" {
			number, _ = strconv.Atoi(row.R)
		}
		if number <= lastRow {
			c.fault("%s: row %d follows row %d", name, number, lastRow)
		}
		lastRow = number
		last := 0
		for i := range row.Cells {
			cell := &row.Cells[i]
			col := last + 1
			if cell.R != "" {
				var at int
				var err error
				if col, at, err = excelize.CellNameToCoordinates(cell.R); err != nil || at != number {
					c.fault("%s: row %d has a cell %s", name, number, cell.R)
				}
			}
			if col <= last {
				c.fault("%s: cell %s is out of order", name, cell.R)
			}
			last = col
			if cell.S >= c.xfs {
				c.fault("%s: cell %s uses the format %d of %d", name, cell.R, cell.S, c.xfs)
			}
			at, _ := excelize.CoordinatesToCellName(col, number)
			switch cell.T {
			case "s":
				n, err := strconv.Atoi(strings.TrimSpace(cell.V))
				if err != nil || n >= len(c.shared) {
					c.fault("%s: cell %s uses the text %q of %d", name, at, cell.V, len(c.shared))
					continue
				}
				texts[at] = c.shared[n]
			case "inlineStr":
				texts[at] = cell.IS.text()
			case "str":
				texts[at] = cell.V
			}
		}
	}
	return texts
}

var escapedChar = regexp.MustCompile(`_x([0-9A-Fa-f]{4})_`)

func unescapeChars(s string) string {
	return escapedChar.ReplaceAllStringFunc(s, func(m string) string {
		n, _ := strconv.ParseUint(m[2:6], 16, 16)
		return string(rune(n))
	})
}

// table: what a program requires of a table.
func (c *cleanCheck) table(name string, texts map[string]string) (ref string, err error) {
	var t struct {
		ID      string   `xml:"id,attr"`
		Name    string   `xml:"displayName,attr"`
		Ref     string   `xml:"ref,attr"`
		Headers *int     `xml:"headerRowCount,attr"`
		Totals  int      `xml:"totalsRowCount,attr"`
		Filter  *refAttr `xml:"autoFilter"`
		Columns struct {
			Count  int `xml:"count,attr"`
			Column []struct {
				ID   int    `xml:"id,attr"`
				Name string `xml:"name,attr"`
			} `xml:"tableColumn"`
		} `xml:"tableColumns"`
	}
	if err := c.decode(name, &t); err != nil {
		return "", err
	}
	if other := c.ids[t.ID]; other != "" {
		c.fault("%s and %s are both table %s", name, other, t.ID)
	}
	if other := c.names[strings.ToLower(t.Name)]; other != "" || t.Name == "" {
		c.fault("%s and %s are both called %q", name, other, t.Name)
	}
	c.ids[t.ID], c.names[strings.ToLower(t.Name)] = name, name
	headers := 1
	if t.Headers != nil {
		headers = *t.Headers
	}
	all, ok := parseBox(t.Ref)
	if !ok || all.bottom-all.top+1 < headers+t.Totals {
		c.fault("%s: the range %q", name, t.Ref)
		return t.Ref, nil
	}
	if n := all.right - all.left + 1; n != len(t.Columns.Column) || n != t.Columns.Count {
		c.fault("%s: %s has %d columns, counts %d and lists %d", name, t.Ref, n, t.Columns.Count, len(t.Columns.Column))
	}
	if t.Filter != nil {
		if f, ok := parseBox(t.Filter.Ref); !ok || f != (box{all.left, all.top, all.right, all.bottom - t.Totals}) {
			c.fault("%s: %s has its filter over %s", name, t.Ref, t.Filter.Ref)
		}
	}
	ids, names := map[int]bool{}, map[string]bool{}
	for i, col := range t.Columns.Column {
		key := strings.ToLower(col.Name)
		if col.ID < 1 || ids[col.ID] || col.Name == "" || names[key] {
			c.fault("%s: column %d, %q, is there twice or has no name", name, col.ID, col.Name)
		}
		ids[col.ID], names[key] = true, true
		at, _ := excelize.CoordinatesToCellName(all.left+i, all.top)
		if headers > 0 && unescapeChars(texts[at]) != unescapeChars(col.Name) {
			c.fault("%s: the column %q has the header %q in %s", name, col.Name, texts[at], at)
		}
	}
	return t.Ref, nil
}

// wantClean holds a written workbook to open as cleanly as the one it was made
// from.
func wantClean(t *testing.T, before, after string) {
	t.Helper()
	faults, err := opensClean(after)
	if err != nil {
		t.Errorf("%s: %v", after, err)
		return
	}
	if len(faults) == 0 {
		return
	}
	old, err := opensClean(before)
	if err != nil {
		t.Errorf("%s: %v", before, err)
		return
	}
	known := map[string]bool{}
	for _, f := range old {
		known[f] = true
	}
	for _, f := range faults {
		if !known[f] {
			t.Errorf("%s: %s", path.Base(after), f)
		}
	}
}

// The check itself is checked: a workbook with a fault of each kind.
func TestOpensCleanSeesFaults(t *testing.T) {
	good := tableBook(t, func(*excelize.File) error { return nil })
	if faults, err := opensClean(good); err != nil || len(faults) > 0 {
		t.Fatalf("a good workbook: %q, %v", faults, err)
	}
	for _, tc := range []struct{ part, old, new, says string }{
		{"xl/tables/table1.xml", `name="Weight"`, `name="name"`, "twice"},
		{"xl/tables/table1.xml", `name="Weight"`, `name="Mass"`, "has the header"},
		{"xl/tables/table1.xml", `id="2"`, `id="1"`, "twice"},
		{"xl/tables/table1.xml", `count="6"`, `count="7"`, "counts 7"},
		{"xl/tables/table1.xml", `autoFilter ref="A1:F4"`, `autoFilter ref="A1:E4"`, "filter"},
		{"xl/tables/table1.xml", `ref="A1:F4"`, `ref="A1:G4"`, "lists 6"},
		{"xl/worksheets/sheet1.xml", `</sheetData>`, `</sheetData><mergeCells><mergeCell ref="F2:G2"/></mergeCells>`, "lies on something else"},
		{"xl/worksheets/sheet1.xml", `r="B2"`, `r="A2"`, "out of order"},
		{"xl/worksheets/sheet1.xml", `r="A1"`, `s="99" r="A1"`, "format 99"},
		{"[Content_Types].xml", `/xl/tables/table1.xml`, `/xl/tables/table7.xml`, ""},
	} {
		bad := path.Join(t.TempDir(), "bad.xlsx")
		rezip(t, good, bad, tc.part, tc.old, tc.new)
		faults, err := opensClean(bad)
		if err != nil {
			t.Fatal(err)
		}
		if tc.says != "" && !strings.Contains(strings.Join(faults, "\n"), tc.says) {
			t.Errorf("%s with %s: %q", tc.part, tc.new, faults)
		}
	}
}

// rezip copies a workbook with one text of one part replaced.
func rezip(t *testing.T, src, dst, part, from, to string) {
	t.Helper()
	in, err := zip.OpenReader(src)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	out, err := os.Create(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	w := zip.NewWriter(out)
	done := false
	for _, f := range in.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		r.Close()
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		if f.Name == part {
			done = strings.Contains(text, from)
			text = strings.Replace(text, from, to, 1)
		}
		o, err := w.Create(f.Name)
		if err == nil {
			_, err = io.WriteString(o, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if !done {
		t.Fatalf("%s has no %q", part, from)
	}
}

// Every roster that can be read opens as cleanly with its results as without.
func TestScoredRostersOpenClean(t *testing.T) {
	files, err := filepath.Glob(rosterFolder + "/*.xlsx")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d rosters, %v", len(files), err)
	}
	for _, src := range files {
		roster, err := Open(src, ReadOptions{Today: testToday})
		if err != nil {
			continue // refused, as TestRosters has it
		}
		dst := filepath.Join(t.TempDir(), filepath.Base(src))
		if _, err := WriteResults(context.Background(), roster, scoreAll(roster), dst, WriteOptions{}); err != nil {
			t.Errorf("%s: %v", src, err)
			continue
		}
		wantClean(t, src, dst)
	}
}
