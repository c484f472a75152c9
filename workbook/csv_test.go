package workbook

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/cell"
	"tenback/workbook/delimited"
	"tenback/workbook/grid"
	"tenback/workbook/locked"
	"tenback/workbook/ooxml"
	"tenback/workbook/people"
	"tenback/workbook/result"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
	"tenback/workbook/source"
)

// writeFile makes a file in a folder of its own.
func writeFile(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func littleEndian(s string) []byte {
	b := []byte{0xFF, 0xFE}
	for _, c := range utf16.Encode([]rune(s)) {
		b = append(b, byte(c), byte(c>>8))
	}
	return b
}

// The same roster in every way that spreadsheets write it.
func TestTextRosters(t *testing.T) {
	const want = "Zoë Åberg #0417 sex=0 male 1, female 0@C2 age=40 years@D2 body-mass=63.5 kg@E2 " +
		"[run-1.5-mile time=11:30@F2] [shuttle-20-m shuttle-level=7 levels@G2 shuttle-in-level=10 laps@G2]"
	comma := "Name,ID,Sex,Age,Weight (kg),1.5 mile run,20 m shuttle level\r\nZoë Åberg,0417,F,40,63.5,11:30,7.10\r\n"
	semicolon := "Name;ID;Sex;Age;Weight (kg);1.5 mile run;20 m shuttle level\r\nZoë Åberg;0417;F;40;63,5;11:30;7.10\r\n"
	western := func(s string) []byte { return []byte(strings.NewReplacer("ë", "\xeb", "Å", "\xc5").Replace(s)) }
	for _, c := range []struct {
		name, file string
		data       []byte
		encoding   bool // a remark on the letters
	}{
		{"comma, UTF-8", "week.csv", []byte(comma), false},
		{"comma, UTF-8 with its mark", "week.csv", []byte("\ufeff" + comma), false},
		{"semicolon and decimal comma", "week.csv", []byte(semicolon), false},
		{"semicolon, Windows-1252", "week.csv", western(semicolon), true},
		{"tab, UTF-16", "week.txt", littleEndian(strings.ReplaceAll(semicolon, ";", "\t")), false},
		{"tab", "WEEK.TSV", []byte(strings.ReplaceAll(comma, ",", "\t")), false},
		{"quotation marks", "week.csv", []byte(`"` + strings.NewReplacer(",", `","`, "\r\nZ", "\"\r\n\"Z", "7.10\r\n", "7.10\"\r\n").Replace(comma)), false},
		{"separator named", "week.csv", []byte("sep=;\r\n" + semicolon), false},
		{"written as a formula", "week.csv", []byte(strings.Replace(comma, "0417", `="0417"`, 1)), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			roster := mustOpen(t, writeFile(t, c.file, c.data))
			if len(roster.Sheets) != 1 || len(roster.Sheets[0].Rows) != 1 {
				t.Fatalf("%d sheets, %v", len(roster.Sheets), roster.Problems)
			}
			sheet := roster.Sheets[0]
			if !strings.EqualFold(sheet.Name, "week") {
				t.Errorf("the sheet is called %q", sheet.Name)
			}
			if got := inWords(&sheet.Rows[0]); got != want {
				t.Errorf("read %s\nwant %s", got, want)
			}
			encoding := false
			for _, p := range roster.Problems {
				encoding = encoding || strings.Contains(p.What.String(), "does not state its character encoding")
			}
			if encoding != c.encoding {
				t.Errorf("remark on the letters: %v, want %v", encoding, c.encoding)
			}
		})
	}
}

// What a spreadsheet did to the values before it wrote the file.
func TestTextDamage(t *testing.T) {
	for _, c := range []struct {
		name, text, say string
		blocking        bool
	}{
		{"time of the day", "Name,1.5 mile run\nIda,11:30:00 AM\n", "read as minutes and seconds", false},
		{"the first day of the calendar", "Name,1.5 mile run\nIda,31-Dec-1899\n", "a date, not a time", true},
		{"a date for a time", "Name,1.5 mile run\nIda,11-Jan\n", "turned what was typed into a date", true},
		{"a date for a level", "Name,20 m shuttle level\nIda,07. Okt\n", "turned what was typed into a date", true},
		{"a column too narrow", "Name,Date of birth,1.5 mile run\nIda,########,11:30\n", "too narrow", true},
		{"a long number", "Name,ID,1.5 mile run\nIda,1.23457E+11,11:30\nKim,1.23457E+11,12:30\n", "cut off digits of this number", false},
		{"a zero gone", "Name,20 m shuttle level\nIda,7.1\nKim,6.4\n", "7.1 was read as shuttle 1", false},
		{"a quotation mark not closed", "Name,1.5 mile run\n\"Ida,11:30\nKim,12:30\n", "never closed", false},
		{"lines joined", "Name,Notes,1.5 mile run\nIda,\"slow,11:30\nKim,\",12:30\n", "joins several lines", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			roster := mustOpen(t, writeFile(t, "week.csv", []byte(c.text)))
			all := slices.Clone(roster.Problems)
			for _, s := range roster.Sheets {
				for i := range s.Rows {
					all = append(all, s.Rows[i].Problems...)
				}
			}
			if !slices.ContainsFunc(all, func(p Problem) bool { return strings.Contains(p.String(), c.say) && p.Blocking == c.blocking }) {
				t.Errorf("nothing says %q, blocking %v: %v", c.say, c.blocking, all)
			}
		})
	}
	// No remark where nothing is wrong, and nobody becomes another person.
	kept := mustOpen(t, writeFile(t, "week.csv", []byte("Name,20 m shuttle level\nIda,7.1\nKim,6.10\n")))
	if len(kept.Problems) != 0 {
		t.Errorf("the file kept its zeros, and still: %v", kept.Problems)
	}
	cut := mustOpen(t, writeFile(t, "week.csv", []byte("Name,ID,1.5 mile run\nIda,1.23457E+11,11:30\nKim,1.23457E+11,12:30\n")))
	if visits := people.Visits(cut); len(visits) != 2 {
		t.Errorf("%d visits of two people", len(visits))
	}
}

func TestTextRefused(t *testing.T) {
	wide := strings.Repeat("a,", grid.MaxCol) + "b\n"
	for _, c := range []struct {
		name, file string
		data       []byte
		kind       error
	}{
		{"empty", "a.csv", nil, source.ErrEmpty},
		{"zero bytes", "a.csv", []byte("Name\x00,Age\n"), source.ErrNotWorkbook},
		{"a workbook", "a.csv", []byte("PK\x03\x04..."), source.ErrNotWorkbook},
		{"an old workbook", "a.txt", []byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1..."), source.ErrNotWorkbook},
		{"too many columns", "a.csv", []byte(wide), source.ErrTooLarge},
		{"too many rows", "a.csv", bytes.Repeat([]byte("\n"), grid.MaxRow+1), source.ErrTooLarge},
		{"a cell too long", "a.csv", append([]byte("Name,Age\n"), bytes.Repeat([]byte("x"), 40_000)...), source.ErrTooLarge},
		{"too large", "a.csv", bytes.Repeat([]byte("Ida,40\n"), delimited.MaxBytes/7+1), source.ErrTooLarge},
		{"no header", "a.csv", []byte("apples,pears\n1,2\n"), source.ErrNoHeader},
		{"nobody", "a.csv", []byte("Name,1.5 mile run\n"), source.ErrNoPeople},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Open(writeFile(t, c.file, c.data), afterAll)
			if !errors.Is(err, c.kind) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%v, want %v in one line", err, c.kind)
			}
		})
	}
}

// The rows of a text file stand in the new workbook as they were, numbers in
// columns of amounts as numbers that show the same digits.
func TestTextResults(t *testing.T) {
	const text = "Fitness week;;;;;;\r\n\r\nName;ID;Age;Weight (kg);Phone;1.5 mile run;Notes\r\n" +
		"Ida;0417;40;63.50;015550;11:30;\"=1+1\"\r\nKim;12;51;81,5;123456789012;13:30;\"two\r\nlines_x000D_\"\r\nBo;1.50;-0;007;-3;12:00;1e5\r\n"
	src := writeFile(t, "week.csv", []byte(text))
	dst := filepath.Join(filepath.Dir(src), "week-scored.xlsx")
	roster := mustOpen(t, src)
	outcomes := scoreAll(roster)
	for _, c := range []struct {
		dst string
		opt WriteOptions
	}{{src, WriteOptions{InPlace: true}}, {src, WriteOptions{}}, {strings.TrimSuffix(dst, ".xlsx") + ".csv", WriteOptions{}}} {
		if _, err := WriteResults(context.Background(), roster, outcomes, c.dst, c.opt); err == nil {
			t.Errorf("results were written to %s, %+v", filepath.Base(c.dst), c.opt)
		}
	}
	mustWrite(t, src, dst, WriteOptions{})
	if got, err := os.ReadFile(src); err != nil || string(got) != text {
		t.Errorf("the text file has changed: %v", err)
	}
	f, err := excelize.OpenFile(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	shown, err := f.GetRows("week")
	if err != nil {
		t.Fatal(err)
	}
	source, err := delimited.Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for rows := source.Rows(); rows.Next(); {
		for i, field := range rows.Fields() {
			if got := cellAt(shown[rows.Number()-1], i+1); got != field {
				t.Errorf("row %d, field %d shows %q instead of %q", rows.Number(), i+1, got, field)
			}
		}
	}
	for at, number := range map[string]bool{"D4": true, "C4": true, "B4": false, "B5": false, "D5": false, "E5": false, "B6": false, "C6": false, "D6": false, "E6": true, "F4": false, "G6": false} {
		kind, err := f.GetCellType("week", at)
		if err != nil {
			t.Fatal(err)
		}
		if got := kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString; got != number {
			t.Errorf("%s is a number: %v, want %v", at, got, number)
		}
	}
	if formula, _ := f.GetCellFormula("week", "G4"); formula != "" {
		t.Errorf("a text became the formula %q", formula)
	}
	again := mustOpen(t, dst)
	if len(again.Sheets[0].Rows) != 3 || again.Sheets[0].Columns[7].Header != result.Columns(sheetwords.Of(nil))[0].Header {
		t.Errorf("read again: %d rows, columns %v", len(again.Sheets[0].Rows), again.Sheets[0].Columns)
	}
}

// A scored workbook that was saved as text loses its old results, not its
// columns.
func TestTextWithEarlierResults(t *testing.T) {
	var head []string
	for _, c := range result.Columns(sheetwords.Of(nil)) {
		head = append(head, c.Header)
	}
	text := "Name;Age;1.5 mile run;" + strings.Join(head, ";") + "\nIda;40;11:30;99.9;98;97\n"
	src := writeFile(t, "week.csv", []byte(text))
	dst := filepath.Join(filepath.Dir(src), "week-scored.xlsx")
	mustWrite(t, src, dst, WriteOptions{})
	f, err := excelize.OpenFile(dst)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("week")
	if err != nil {
		t.Fatal(err)
	}
	if len(rows[0]) != 3+len(head) || rows[1][3] == "99.9" || rows[1][3] == "" {
		t.Errorf("%d columns, and the value is %q", len(rows[0]), rows[1][3])
	}
}

// FuzzTextRoster holds that the workbook made of a text file has the file's
// rows, whatever stands in them.
func FuzzTextRoster(f *testing.F) {
	f.Add([]byte("Name,Sex,Age,1.5 mile run\nIda,F,40,11:30\n"))
	f.Add([]byte("Name;Weight (kg);20 m shuttle level\r\n\"Ida\";63,5;7.10\r\n\r\nKim;\"\";x\n"))
	f.Add(littleEndian("Name\tAge\t1 mile walk\nZoë\t40.50\t14:12\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		roster, err := openReader("a.csv", bytes.NewReader(data), int64(len(data)), afterAll)
		var known *source.Error
		if err != nil {
			if !errors.As(err, &known) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%v is no error of this package in one line", err)
			}
			return
		}
		roster.Path = writeFile(t, "a.csv", data)
		plain, err := source.OpenPlain(roster)
		if err != nil {
			t.Fatal(err)
		}
		file, err := source.Open(roster.Path, bytes.NewReader(data), int64(len(data)), nil)
		if err != nil {
			t.Fatal(err)
		}
		was, err := file.Rows(file.Sheets()[0])
		if err != nil {
			t.Fatal(err)
		}
		book, err := ooxml.Open(plain, plain.Size)
		if err != nil {
			t.Fatal(err)
		}
		is, err := book.Rows(book.Sheets()[0])
		if err != nil {
			t.Fatal(err)
		}
		defer is.Close()
		for was.Next() {
			if !is.Next() || is.Row().Number != was.Row().Number || len(is.Row().Cells) != len(was.Row().Cells) {
				t.Fatalf("row %d is missing or has other cells: %v", was.Row().Number, is.Err())
			}
			for i, c := range was.Row().Cells {
				got, want := is.Row().Cells[i], strings.Map(inXML, c.Text)
				if x, err := strconv.ParseFloat(want, 64); got.Kind == cell.Number && err == nil {
					if shown := cell.Display(got.Raw, false); shown != want && got.Text != strconv.FormatFloat(x, 'g', -1, 64) {
						t.Fatalf("%q became the number %q, shown as %q", want, got.Text, shown)
					}
					continue
				}
				if got.Col != c.Col || got.Text != want {
					t.Fatalf("row %d, column %d holds %q instead of %q", was.Row().Number, c.Col, got.Text, want)
				}
			}
		}
		if is.Next() {
			t.Fatalf("row %d came from nowhere", is.Row().Number)
		}
	})
}

// inXML replaces what a workbook cannot hold.
func inXML(r rune) rune {
	if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0xFFFE || r == 0xFFFF {
		return '\uFFFD'
	}
	return r
}

const testPassword = "river bank ö"

func ask(password string) func() (string, error) {
	return func() (string, error) { return password, nil }
}

// lockedRoster is the test workbook with a password.
func lockedRoster(t *testing.T) (path string, plain []byte) {
	t.Helper()
	path = testWorkbook(t)
	plain, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	raw, err := locked.Close(plain, testPassword)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	return path, plain
}

func TestPasswordNeeded(t *testing.T) {
	path, _ := lockedRoster(t)
	broken := errors.New("nobody there")
	for _, c := range []struct {
		name string
		ask  func() (string, error)
		want error
	}{
		{"none", nil, source.ErrLocked},
		{"wrong", ask("River bank ö"), source.ErrPassword},
		{"empty", ask(""), source.ErrPassword},
		{"not given", func() (string, error) { return "", broken }, broken},
	} {
		if _, err := Open(path, ReadOptions{Password: c.ask}); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	never := func() (string, error) { t.Error("asked for the password of an open workbook"); return "", nil }
	if roster, err := Open(testWorkbook(t), ReadOptions{Password: never}); err != nil || roster.Locked() {
		t.Errorf("%v, locked %v", err, roster.Locked())
	}
}

// A locked roster gets the results that it would get without its password, in
// a copy and in place, and stays locked; no readable file is left or made.
func TestPasswordKept(t *testing.T) {
	for _, inPlace := range []bool{false, true} {
		path, plain := lockedRoster(t)
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		opt := ReadOptions{Today: afterAll.Today, Password: ask(testPassword)}
		roster, err := Open(path, opt)
		if err != nil {
			t.Fatal(err)
		}
		if !roster.Locked() || len(roster.Sheets) != 1 || len(roster.Sheets[0].Rows) != len(testNames) {
			t.Fatalf("locked %v, %d sheets", roster.Locked(), len(roster.Sheets))
		}
		dst := filepath.Join(filepath.Dir(path), "scored.xlsx")
		if inPlace {
			dst = path
		}
		written, err := WriteResults(context.Background(), roster, scoreAll(roster), dst, WriteOptions{InPlace: inPlace})
		if err != nil {
			t.Fatal(err)
		}
		raw, err := os.ReadFile(dst)
		if err != nil {
			t.Fatal(err)
		}
		opened, scheme, err := locked.Open(raw, testPassword)
		if err != nil || scheme != locked.Standard {
			t.Fatalf("what was written: %v, %v", scheme, err)
		}
		open := filepath.Join(t.TempDir(), "roster.xlsx")
		if err := os.WriteFile(open, plain, 0o600); err != nil {
			t.Fatal(err)
		}
		twin := filepath.Join(filepath.Dir(open), "twin.xlsx")
		mustWrite(t, open, twin, WriteOptions{})
		if want, err := os.ReadFile(twin); err != nil || !bytes.Equal(opened, want) {
			t.Errorf("in place %v: %d bytes, want the %d of the same roster without a password: %v", inPlace, len(opened), len(want), err)
		}
		if inPlace {
			if got, err := os.ReadFile(written.Backup); err != nil || !bytes.Equal(got, before) {
				t.Errorf("the backup is not the locked roster: %v", err)
			}
			if roster, err = Open(path, opt); err != nil || roster.Sheets[0].Columns[3].Meaning.Role != Ours {
				t.Errorf("read again: %v", err)
			}
		}
		entries, err := os.ReadDir(filepath.Dir(path))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if data, err := os.ReadFile(filepath.Join(filepath.Dir(path), e.Name())); err != nil || bytes.HasPrefix(data, []byte("PK")) {
				t.Errorf("%s can be read without the password: %v", e.Name(), err)
			}
		}
	}
}

func TestNewerEncryptionIsNoted(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join("locked", "testdata", "agile.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	path := writeFile(t, "agile.xlsx", raw)
	roster, err := Open(path, ReadOptions{Password: ask(testPassword)})
	if err != nil {
		t.Fatal(err)
	}
	written, err := WriteResults(context.Background(), roster, scoreAll(roster), filepath.Join(filepath.Dir(path), "scored.xlsx"), WriteOptions{})
	if err != nil || !slices.Contains(written.Notes, noteStandard) {
		t.Errorf("%v, notes %q", err, written.Notes)
	}
}

// Workbooks that are encrypted only to protect them against changes are opened
// without a question and stay so.
func TestPasswordThatEveryoneKnows(t *testing.T) {
	path, plain := lockedRoster(t)
	raw, err := locked.Close(plain, roster.DefaultPassword)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	dst := filepath.Join(filepath.Dir(path), "scored.xlsx")
	mustWrite(t, path, dst, WriteOptions{})
	if roster := mustOpen(t, dst); roster.Locked() || len(roster.Sheets) != 1 {
		t.Errorf("locked %v, %d sheets", roster.Locked(), len(roster.Sheets))
	}
	if got, err := os.ReadFile(dst); err != nil || !locked.IsContainer(got) {
		t.Errorf("the copy is not encrypted: %v", err)
	}
}

// signed puts the parts of a signature into a workbook.
func signed(t *testing.T, path string) {
	t.Helper()
	edit(t, path, func(f *excelize.File) error {
		f.Pkg.Store("_xmlsignatures/sig1.xml", []byte("<Signature/>"))
		return nil
	})
}

func TestSignature(t *testing.T) {
	src := testWorkbook(t)
	signed(t, src)
	roster := mustOpen(t, src)
	if !roster.Signed {
		t.Fatal("the signature was not seen")
	}
	before, err := os.ReadFile(src)
	if err != nil {
		t.Fatal(err)
	}
	dst := filepath.Join(filepath.Dir(src), "scored.xlsx")
	for _, opt := range []WriteOptions{{}, {InPlace: true}} {
		to := dst
		if opt.InPlace {
			to = src
		}
		if _, err := WriteResults(context.Background(), roster, scoreAll(roster), to, opt); !errors.Is(err, ErrSigned) {
			t.Errorf("%+v: %v, want ErrSigned", opt, err)
		}
	}
	entries, err := os.ReadDir(filepath.Dir(src))
	if err != nil || len(entries) != 1 {
		t.Errorf("%d files in the folder of the roster, %v", len(entries), err)
	}
	if after, err := os.ReadFile(src); err != nil || !bytes.Equal(after, before) {
		t.Errorf("the signed roster has changed: %v", err)
	}
	if written, err := WriteResults(context.Background(), roster, scoreAll(roster), dst, WriteOptions{BreakSignature: true}); err != nil || !written.Signed {
		t.Errorf("%v, signed %v", err, written.Signed)
	}
}
