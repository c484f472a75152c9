package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/jedib0t/go-pretty/v6/table"
	"golang.org/x/term"
)

// plainWriter stands between the program and the terminal. All that a command
// prints goes through it, so that no name, header or file name can act on the
// terminal or turn the direction of a line, whoever prints it.
type plainWriter struct{ w io.Writer }

// Write writes a text without what plain takes out. The count is that of the
// text as given, for callers ask whether all of it was taken.
func (p plainWriter) Write(text []byte) (int, error) {
	if _, err := p.w.Write(plain(text)); err != nil {
		return 0, err
	}
	return len(text), nil
}

// acts tells the signs that act on a terminal. Those of the direction of writing
// include the marks that stand in Hebrew and Arabic names: a terminal that can
// show such names finds their direction without.
func acts(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }

// plain puts a blank in place of control characters and takes out the signs that
// turn the direction of writing. Ends of lines and tabs stay.
func plain(text []byte) []byte {
	return replaceActing(text, func(r rune) string {
		switch {
		case r == '\n' || r == '\t':
			return string(r)
		case unicode.IsControl(r):
			return " "
		}
		return ""
	})
}

// plainLine is a text on one line, without what plain takes out.
func plainLine(text string) string {
	return strings.Join(strings.Fields(string(plain([]byte(text)))), " ")
}

// plainJSON writes the signs that act as JSON allows to write any: so nothing is
// lost of what a script reads.
func plainJSON(document []byte) []byte {
	return replaceActing(document, func(r rune) string {
		if r == '\n' {
			return "\n" // between the values; within them it is written out
		}
		return fmt.Sprintf(`\u%04x`, r)
	})
}

// replaceActing puts something in place of the signs that act. Bytes that are no
// letters stay, for a path may hold some.
func replaceActing(text []byte, by func(rune) string) []byte {
	var out []byte
	from := 0
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if acts(r) {
			out = append(append(out, text[from:i]...), by(r)...)
			from = i + size
		}
		i += size
	}
	if from == 0 {
		return text
	}
	return append(out, text[from:]...)
}

// screenOf is the terminal that a writer leads to, for what draws on it with
// signs that act and answers for all that it draws; nil if there is none.
func screenOf(w io.Writer) *os.File {
	if p, ok := w.(plainWriter); ok {
		w = p.w
	}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return f
	}
	return nil
}

// newTable is the one look of tables in the terminal: no rules, two spaces.
func newTable(w io.Writer) table.Writer {
	t := table.NewWriter()
	t.SetOutputMirror(w)
	style := table.StyleDefault
	style.Options = table.OptionsNoBordersAndSeparators
	style.Format.Header = 0
	style.Box.PaddingLeft, style.Box.PaddingRight = "", "  "
	t.SetStyle(style)
	t.SuppressTrailingSpaces()
	return t
}

// section prints lines as a list under a title.
func section(w io.Writer, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, line := range lines {
		fmt.Fprintln(w, strings.Replace(wrap(line, "    "), "    ", "  - ", 1))
	}
}

// lineMost is how many letters a line of running text has at most.
const lineMost = 78

// wrap breaks text into lines, each indented.
func wrap(text, indent string) string {
	var lines []string
	line := indent
	for _, word := range strings.Fields(text) {
		begun := strings.TrimSpace(line) != ""
		if begun && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > lineMost {
			lines = append(lines, line)
			line, begun = indent, false
		}
		if begun {
			line += " "
		}
		line += word
	}
	return strings.Join(append(lines, line), "\n")
}
