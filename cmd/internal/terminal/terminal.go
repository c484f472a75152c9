// Package terminal writes for people at a terminal: text that cannot act on it,
// tables, lists, a progress bar, and questions.
package terminal

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

// writer stands between the program and the terminal.
type writer struct{ w io.Writer }

// Plain returns a writer to w that replaces control characters and removes marks
// of writing direction, because a name in a sheet could otherwise act on the terminal.
func Plain(w io.Writer) io.Writer { return writer{w} }

// Write writes plain(text) and reports the length of text, as [io.Writer] wants.
func (p writer) Write(text []byte) (int, error) {
	if _, err := p.w.Write(plain(text)); err != nil {
		return 0, err
	}
	return len(text), nil
}

// acts reports whether r acts on a terminal. Direction marks in Hebrew and Arabic
// names count too, because a terminal that shows such names does without them.
func acts(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }

// plain replaces control characters by blanks and removes direction marks. Line
// breaks and tabs stay.
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

// Line returns plain text on one line.
func Line(text string) string {
	return strings.Join(strings.Fields(string(plain([]byte(text)))), " ")
}

// JSON escapes the characters that act on a terminal, so a script loses nothing.
func JSON(document []byte) []byte {
	return replaceActing(document, func(r rune) string {
		if r == '\n' {
			return "\n" // between the values; within them it is written out
		}
		return fmt.Sprintf(`\u%04x`, r)
	})
}

// replaceActing replaces the characters that act on a terminal. Invalid UTF-8
// stays, because a path may hold some.
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

// Screen returns the terminal behind w, nil if there is none. Text written to it
// bypasses [Plain].
func Screen(w io.Writer) *os.File {
	if p, ok := w.(writer); ok {
		w = p.w
	}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return f
	}
	return nil
}

// Table returns a table in the style of all commands: no rules, two spaces.
func Table(w io.Writer) table.Writer {
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

// Section prints lines as a list under a title.
func Section(w io.Writer, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, line := range lines {
		fmt.Fprintln(w, strings.Replace(Wrap(line, "    "), "    ", "  - ", 1))
	}
}

// lineMost is the greatest width of running text, in characters.
const lineMost = 78

// Wrap breaks text into indented lines.
func Wrap(text, indent string) string {
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
