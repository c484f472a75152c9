package desk

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestMain is also the command for pages: it appends its arguments to a file.
func TestMain(m *testing.M) {
	note := os.Getenv("DESK_TEST_NOTE")
	if note == "" {
		os.Exit(m.Run())
	}
	f, err := os.OpenFile(note, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		panic(err)
	}
	fmt.Fprintf(f, "%q\n", os.Args[1:])
	f.Close()
	if strings.Contains(os.Args[len(os.Args)-1], "jam") {
		fmt.Fprintln(os.Stderr, "no paper\nin tray 2"+strings.Repeat(" at all", 1000))
		os.Exit(3)
	}
}

func TestParseCommand(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"lp", []string{"lp"}},
		{"lp -o sides=two-sided-long-edge", []string{"lp", "-o", "sides=two-sided-long-edge"}},
		{"  lp\t-d  'Room 12' ", []string{"lp", "-d", "Room 12"}},
		{`"C:\Program Files\Print It\p.exe" /silent`, []string{`C:\Program Files\Print It\p.exe`, "/silent"}},
		{`lp -t ''`, []string{"lp", "-t", ""}},
		{`a"b c"d 'it is "so"'`, []string{"ab cd", `it is "so"`}},
		{"lp; rm $HOME `x` | y > z && $(w) *", []string{"lp;", "rm", "$HOME", "`x`", "|", "y", ">", "z", "&&", "$(w)", "*"}},
	} {
		got, err := ParseCommand(c.text)
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, %v; want %q", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "  ", "lp 'Room", `lp "`} {
		if got, err := ParseCommand(text); err == nil {
			t.Errorf("%q gives %q", text, got)
		}
	}
}

type done struct {
	page string
	err  error
}

// recorder is a printer whose command is this test.
func recorder(t *testing.T, argv ...string) (p *Printer, results chan done, note string) {
	note = filepath.Join(t.TempDir(), "note")
	t.Setenv("DESK_TEST_NOTE", note)
	results = make(chan done, 100)
	return NewPrinter(argv, func(page string, err error) { results <- done{page, err} }), results, note
}

// Pages reach the command in order, each as one argument whatever its name. One
// that fails does not stop the others.
func TestPrinter(t *testing.T) {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	p, results, note := recorder(t, program, "-o", "two sided")
	pages := []string{"/pages/Ida Calloway.pdf", "/pages/$(touch x); `y` 'z.pdf", "/pages/paper jam.pdf", "/pages/Łukasz.pdf"}
	var want strings.Builder
	for _, page := range pages {
		p.Hand(page)
		fmt.Fprintf(&want, "%q\n", []string{"-o", "two sided", page})
	}
	for _, page := range pages {
		switch r := <-results; {
		case r.page != page:
			t.Errorf("%q came when %q was due", r.page, page)
		case strings.Contains(page, "jam"):
			if r.err == nil || !strings.Contains(r.err.Error(), "exit status 3: no paper in tray 2 at all") || len(r.err.Error()) > 2*saidMost {
				t.Errorf("error %v", r.err)
			}
		case r.err != nil:
			t.Error(r.err)
		}
	}
	if left := p.Close(); len(left) > 0 {
		t.Errorf("%q were left", left)
	}
	got, err := os.ReadFile(note)
	if err != nil || string(got) != want.String() {
		t.Errorf("the command was called with\n%s, want\n%s, %v", got, &want, err)
	}
}

// Close returns the pages still in the queue.
func TestPrinterCloses(t *testing.T) {
	begun, goOn := make(chan struct{}), make(chan struct{})
	p := NewPrinter([]string{filepath.Join(t.TempDir(), "no such program")}, func(page string, err error) {
		if err == nil {
			t.Error("a program that is not there has run")
		}
		close(begun)
		<-goOn
	})
	p.Hand("1.pdf")
	<-begun
	p.Hand("2.pdf")
	p.Hand("3.pdf")
	left := make(chan []string)
	go func() { left <- p.Close() }()
	<-p.closed
	close(goOn)
	if got := <-left; !slices.Equal(got, []string{"2.pdf", "3.pdf"}) {
		t.Errorf("%q were left", got)
	}
}

// FuzzParseCommand: a command has a program, and its words contain only typed
// characters in their order.
func FuzzParseCommand(f *testing.F) {
	for _, text := range []string{"lp -d 'Room 12'", `"C:\Program Files\p.exe" /silent`, "lp ''", `lp "`, " ", "a\"b c\"d"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		argv, err := ParseCommand(text)
		if err != nil {
			return
		}
		if len(argv) == 0 {
			t.Fatalf("%q: no program and no error", text)
		}
		rest := []rune(text)
		for _, r := range strings.Join(argv, "") {
			at := slices.Index(rest, r)
			if at < 0 {
				t.Fatalf("%q gives %q", text, argv)
			}
			rest = rest[at+1:]
		}
	})
}
