package pdfreport_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
)

// file is a PDF parsed by its table of objects.
type file struct {
	objects map[int]string
	root    int
	info    int
}

var (
	trailerPattern = regexp.MustCompile(`(?s)\ntrailer\n<<(.*?)>>\nstartxref\n(\d+)\n%%EOF\n?$`)
	refPattern     = regexp.MustCompile(`(\d+) 0 R`)
	fontPattern    = regexp.MustCompile(`/Type /Font\b`)
	subsetPattern  = regexp.MustCompile(`/FontName /[A-Z]{6}\+`)
	streamHead     = regexp.MustCompile(`/Length (\d+)`)
)

// takeApart parses a PDF as a reader program does. Every object must be where the
// table of offsets says.
func takeApart(t testing.TB, pdf []byte) file {
	t.Helper()
	if !bytes.HasPrefix(pdf, []byte("%PDF-1.")) {
		t.Fatalf("begins %q", pdf[:8])
	}
	m := trailerPattern.FindSubmatch(pdf)
	if m == nil {
		t.Fatal("no trailer at the end")
	}
	number := func(key string) int {
		v := regexp.MustCompile(`/` + key + ` (\d+)`).FindSubmatch(m[1])
		if v == nil {
			t.Fatalf("the trailer has no %s", key)
		}
		n, _ := strconv.Atoi(string(v[1]))
		return n
	}
	f := file{objects: map[int]string{}, root: number("Root"), info: number("Info")}
	start, _ := strconv.Atoi(string(m[2]))
	size := number("Size")
	head := fmt.Sprintf("xref\n0 %d\n", size)
	if !bytes.HasPrefix(pdf[start:], []byte(head)) {
		t.Fatalf("no table of %d objects at %d", size, start)
	}
	table := pdf[start+len(head):]
	const entry = 20
	if string(table[:entry]) != "0000000000 65535 f \n" {
		t.Fatalf("the table begins %q", table[:entry])
	}
	for n := 1; n < size; n++ {
		line := string(table[n*entry : (n+1)*entry])
		at, err := strconv.Atoi(line[:10])
		if err != nil || line[10:] != " 00000 n \n" {
			t.Fatalf("object %d: entry %q", n, line)
		}
		begin := fmt.Sprintf("%d 0 obj\n", n)
		if !bytes.HasPrefix(pdf[at:], []byte(begin)) {
			t.Fatalf("object %d is not at %d: %.20q", n, at, pdf[at:])
		}
		f.objects[n] = objectAt(t, pdf[at+len(begin):])
	}
	return f
}

// objectAt returns the body of an object and checks the length of its stream.
func objectAt(t testing.TB, rest []byte) string {
	t.Helper()
	end := bytes.Index(rest, []byte("endobj"))
	stream := bytes.Index(rest, []byte("stream\n"))
	if stream < 0 || stream > end {
		return string(rest[:end])
	}
	length := streamHead.FindSubmatch(rest[:stream])
	if length == nil {
		t.Fatalf("a stream without a length: %q", rest[:stream])
	}
	n, _ := strconv.Atoi(string(length[1]))
	after := rest[stream+len("stream\n")+n:]
	if !bytes.HasPrefix(after, []byte("\nendstream\nendobj")) {
		t.Fatalf("a stream does not end where it says: %.30q", after)
	}
	return string(rest[:stream]) // what is in it is another matter
}

// textString is a text as the document's properties hold it.
func textString(text string) string {
	var b strings.Builder
	b.WriteString("(\xfe\xff")
	for _, u := range utf16.Encode([]rune(text)) {
		for _, c := range []byte{byte(u >> 8), byte(u)} {
			if strings.ContainsRune(`\()`, rune(c)) {
				b.WriteByte('\\')
			}
			if c == '\r' {
				b.WriteString(`\r`)
				continue
			}
			b.WriteByte(c)
		}
	}
	return b.String() + ")"
}

// checkStructure checks a document's form and properties.
func checkStructure(t testing.TB, name string, pdf []byte) file {
	t.Helper()
	f := takeApart(t, pdf)
	fontCount := 0
	for n, body := range f.objects {
		for _, ref := range refPattern.FindAllStringSubmatch(body, -1) {
			if to, _ := strconv.Atoi(ref[1]); f.objects[to] == "" {
				t.Errorf("%s: object %d points to %d, which is not there", name, n, to)
			}
		}
		if fontPattern.MatchString(body) {
			fontCount++
			if !strings.Contains(body, "/FontDescriptor") {
				t.Errorf("%s: font %d has no descriptor: %s", name, n, body)
			}
		}
		// Every font is embedded, as a subset.
		if strings.Contains(body, "/Type /FontDescriptor") && (!strings.Contains(body, "/FontFile2") || !subsetPattern.MatchString(body)) {
			t.Errorf("%s: the font of descriptor %d is not embedded as a subset: %s", name, n, body)
		}
	}
	if fontCount == 0 {
		t.Errorf("%s: no fonts", name)
	}
	if !strings.Contains(f.objects[f.root], "/Lang (en)") || !strings.Contains(f.objects[f.root], "/Type /Catalog") {
		t.Errorf("%s: the catalogue names no language: %s", name, f.objects[f.root])
	}
	return f
}

func TestStructure(t *testing.T) {
	for _, name := range caseNames() {
		p := cases[name].person(t)
		pdf, _ := pageOf(t, p)
		f := checkStructure(t, name, pdf)
		info := f.objects[f.info]
		author := p.Program
		if p.Brand != nil && p.Brand.Organisation != "" {
			author = p.Brand.Organisation
		}
		for key, want := range map[string]string{"Author": author, "Creator": p.Program} {
			if !strings.Contains(info, "/"+key+" "+textString(want)) {
				t.Errorf("%s: %s is not %q in %q", name, key, want, info)
			}
		}
		for _, key := range []string{"Title", "Subject"} {
			if !strings.Contains(info, "/"+key+" (\xfe\xff") {
				t.Errorf("%s: no %s", name, key)
			}
		}
	}
	all := people(t, "woman-45", "man-55", "greek", "vietnamese", "boy-12-below")
	pdf, _ := booklet(t, all)
	f := checkStructure(t, "booklet", pdf)
	if root := f.objects[f.root]; !strings.Contains(root, "/Outlines") {
		t.Errorf("no bookmarks in %q", root)
	}
}

// TestReadingOrder: a program that copies the text gets it in reading order.
func TestReadingOrder(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed; the order of the text was not looked at")
	}
	for name, order := range map[string][]string{
		"woman-45": {"Fitness report", "Marta Lindgren-Okafor", "45 years old", "Estimated VO₂max", "34.5", "Where you stand", "Your number against younger people",
			"Heart rates to train at", "Your resting heart rate", "What to do next", "Stay safe", "How the number was worked out", "Sources"},
		"boy-12-below": {"Jonas Pettit", "The health line", "Growing and trying", "What helps", "Stay safe", "How the number was worked out"},
		"squad-full": {"Kerstin Aalto", "Your tests side by side", "Where you stand", "Targets for your age", "1.5 miles in …", "From the laboratory",
			"Your resting heart rate", "From here", "Stay safe", "How the number"},
		"work-woman": {"Quillhaven Harbour Office", "Marta Lindgren-Okafor", "Private, for Marta Lindgren-Okafor only", "Estimated VO₂max", "Stay safe", "Sources"},
	} {
		pdf, _ := pageOf(t, cases[name].person(t))
		path := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(path, pdf, 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(tool, path, "-").Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		text := string(out)
		for _, part := range order {
			at := strings.Index(text, part)
			if at < 0 {
				t.Errorf("%s: %q does not follow in what is left: %.200q", name, part, text)
				break
			}
			text = text[at+len(part):]
		}
	}
}
