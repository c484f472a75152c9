package delimited

import (
	"bytes"
	"encoding/csv"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"
)

func read(f *File) (rows [][]string) {
	for r := f.Rows(); r.Next(); {
		rows = append(rows, slices.Clone(r.Fields()))
	}
	return rows
}

func utf16Bytes(s string, big bool) []byte {
	var b []byte
	for _, c := range utf16.Encode([]rune("\ufeff" + s)) {
		if big {
			b = append(b, byte(c>>8), byte(c))
		} else {
			b = append(b, byte(c), byte(c>>8))
		}
	}
	return b
}

func TestEncodings(t *testing.T) {
	const text = "Name;Größe\r\nZoë Åberg;1,72\r\n"
	want := [][]string{{"Name", "Größe"}, {"Zoë Åberg", "1,72"}}
	for _, c := range []struct {
		name    string
		data    []byte
		guessed bool
	}{
		{"UTF-8", []byte(text), false},
		{"UTF-8 with its mark", []byte("\ufeff" + text), false},
		{"UTF-16, little end first", utf16Bytes(text, false), false},
		{"UTF-16, big end first", utf16Bytes(text, true), false},
		{"Windows-1252", []byte("Name;Gr\xf6\xdfe\r\nZo\xeb \xc5berg;1,72\r\n"), true},
	} {
		f, err := Parse(c.data)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if f.Guessed != c.guessed || f.Separator != ';' {
			t.Errorf("%s: guessed %v, separator %q", c.name, f.Guessed, f.Separator)
		}
		if got := read(f); !slices.EqualFunc(got, want, slices.Equal) {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
	}
}

func TestWindows1252Signs(t *testing.T) {
	f, err := Parse([]byte("11\x9230\x94,\x80"))
	if err != nil {
		t.Fatal(err)
	}
	if got := read(f); got[0][0] != "11’30”" || got[0][1] != "€" {
		t.Errorf("%q", got)
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
		want error
	}{
		{"too large", make([]byte, MaxBytes+1), ErrTooLarge},
		{"zero bytes", []byte("a,b\x00c"), ErrBinary},
		{"UTF-16 without its mark", utf16Bytes("a,b", false)[2:], ErrBinary},
	} {
		if _, err := Parse(c.data); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
}

func TestSeparators(t *testing.T) {
	for _, c := range []struct {
		text string
		want byte
	}{
		{"Name,Age\nIda,40\n", ','},
		{"Name;Age\nIda;40\n", ';'},
		{"Name\tAge\nIda\t40\n", '\t'},
		{"Name;Weight;Height\nIda;63,5;170,2\nKim;60,1;165,0\n", ';'},
		{"Name\tWeight\tHeight\nIda\t63,5\t170,2\n", '\t'},
		{"Fitness week, spring, class 8B, gym\n\nName;Age\nIda;40\nKim;41\nBo;39\nUna;37", ';'},
		{"Name,Notes\nIda,\"tired; hot; slow\"\nKim,\"a;b;c\"\n", ','},
		{"Name,Notes\nIda,slow; tired\nKim,ok\n", ','},
		{"sep=;\nName,first;Age\n", ';'},
		{"\"sep=,\"\r\nName;first,Age\r\n", ','},
		{"Name\nIda\n", ','},
		{"", ','},
	} {
		f, err := Parse([]byte(c.text))
		if err != nil {
			t.Fatal(err)
		}
		if f.Separator != c.want {
			t.Errorf("%q: separator %q, want %q", c.text, f.Separator, c.want)
		}
	}
}

func TestRows(t *testing.T) {
	type rows = [][]string
	for _, c := range []struct {
		name, text string
		want       rows
		odd        []Oddity
	}{
		{"plain", "a,b\nc,d\n", rows{{"a", "b"}, {"c", "d"}}, nil},
		{"no end of line at the end", "a,b\nc,d", rows{{"a", "b"}, {"c", "d"}}, nil},
		{"CR LF and CR", "a,b\r\nc,d\re,f", rows{{"a", "b"}, {"c", "d"}, {"e", "f"}}, nil},
		{"empty lines are rows", "a,b\n\n\nc,d\n", rows{{"a", "b"}, {""}, {""}, {"c", "d"}}, nil},
		{"empty fields", ",a,,\n", rows{{"", "a", "", ""}}, nil},
		{"quotation marks", `"a,b","say ""no""",""` + "\n", rows{{"a,b", `say "no"`, ""}}, nil},
		{"a field of two lines", "\"a\nb\",c\n", rows{{"a\nb", "c"}}, nil},
		{"a field that may have swallowed a line", "\"a\nb,c\",d\n", rows{{"a\nb,c", "d"}}, []Oddity{{Field: 0}}},
		{"seconds and inches", `Ida,11'30",5'7"` + "\n", rows{{"Ida", `11'30"`, `5'7"`}}, nil},
		{"text behind the closing mark", `"Kim" Sample,F` + "\n", rows{{"Kim Sample", "F"}}, nil},
		{"a mark that is not closed", "a,\"b\nc,d\n", rows{{"a", `"b`}, {"c", "d"}}, []Oddity{{Field: 1, Open: true}}},
		{"a mark at the end", `a,"`, rows{{"a", `"`}}, []Oddity{{Field: 1, Open: true}}},
		{"a separator at the end", "a,", rows{{"a", ""}}, nil},
		{"a blank before the mark", `a, "b"` + "\n", rows{{"a", ` "b"`}}, nil},
	} {
		f := File{Separator: ',', text: c.text}
		if got := read(&f); !slices.EqualFunc(got, c.want, slices.Equal) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		var odd []Oddity
		for r := f.Rows(); r.Next(); {
			odd = append(odd, r.Oddities()...)
		}
		if !slices.Equal(odd, c.odd) {
			t.Errorf("%s: oddities %v, want %v", c.name, odd, c.odd)
		}
	}
}

// A quotation mark is not looked for without end, again and again.
func TestHostileQuotes(t *testing.T) {
	for name, line := range map[string]string{
		"marks that open":  `,"` + strings.Repeat("x", 40),
		"marks in pairs":   `,""x`,
		"marks in threes":  `,"""x`,
		"marks that close": `,"",`,
		"nothing but them": `"`,
	} {
		text := strings.Repeat(line, (8<<20)/len(line))
		start := time.Now()
		f, err := Parse([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		fields := 0
		for r := f.Rows(); r.Next(); {
			fields += len(r.Fields())
		}
		if took := time.Since(start); took > 3*time.Minute || fields == 0 {
			t.Errorf("%s: %v for %d fields", name, took, fields)
		}
	}
}

// FuzzCSV compares what is read with the standard library's reader wherever
// that one accepts a file, and holds that no character is lost.
func FuzzCSV(f *testing.F) {
	for _, seed := range []string{
		"Name,Sex,Age,1.5 mile run\nIda,F,40,11:30\n", "a;b\r\n\"c\";\"d\"\"\"\r\n", "a\tb\rc\td", "sep=;\na;b", "\"a\nb\",c", "\"\"\"", ",,\n\n,",
	} {
		f.Add([]byte(seed))
		f.Add(utf16Bytes(seed, true))
	}
	f.Add([]byte("Zo\xeb,\x80\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Parse(data)
		if err != nil {
			return
		}
		var got [][]string
		kept := 0
		number := 0
		for r := file.Rows(); r.Next(); {
			number++
			if r.Number() != number {
				t.Fatalf("row %d has the number %d", number, r.Number())
			}
			for _, field := range r.Fields() {
				kept += len(field)
			}
			if !slices.Equal(r.Fields(), []string{""}) {
				got = append(got, slices.Clone(r.Fields()))
			}
		}
		signs := strings.Count(file.text, string(file.Separator)) + strings.Count(file.text, "\n") + strings.Count(file.text, "\r") + strings.Count(file.text, `"`)
		if kept < len(file.text)-signs || kept > len(file.text) {
			t.Fatalf("%d bytes of %d were kept, of which %d may go", kept, len(file.text), signs)
		}
		if strings.Contains(file.text, "\r") {
			return // the standard library ends no line with CR alone
		}
		reader := csv.NewReader(bytes.NewReader([]byte(file.text)))
		reader.Comma, reader.FieldsPerRecord = rune(file.Separator), -1
		want, err := reader.ReadAll()
		if err != nil {
			return
		}
		want = slices.DeleteFunc(want, func(row []string) bool { return slices.Equal(row, []string{""}) })
		if !slices.EqualFunc(got, want, slices.Equal) {
			t.Fatalf("%q\nread as %q\nnot as %q", file.text, got, want)
		}
	})
}
