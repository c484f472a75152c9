package filename

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	for _, tc := range []struct{ in, want string }{
		{"Ada Quill", "Ada Quill"},
		{"  Ada\t Quill \n", "Ada Quill"},
		{"../../etc/passwd", "etc passwd"},
		{`C:\evil`, "C evil"},
		{"=HYPERLINK(\"x\")", "HYPERLINK x"},
		{"CON", "CON page"},
		{"lpt1", "lpt1 page"},
		{"-rf", "rf"},
		{"- 0", "0"},
		{"Łukasz Żuraw", "Łukasz Żuraw"},
		{"Nguye\u0302\u0303n", "Nguyễn"},
		{"Ада Ольхова", "Ада Ольхова"},
		{"हिन्दी शर्मा", "हिन्दी शर्मा"},
		{"dot.", "dot"},
		{"zero\u200bwidth", "zero width"},
		{"\u202egnp.exe", "gnp exe"},
		{"🙂", ""},
		{"bad\xffbyte", "bad byte"},
	} {
		if got := Clean(tc.in); got != tc.want {
			t.Errorf("Clean(%q) = %q, want %q", tc.in, got, tc.want)
		}
	}
}

func TestIsPlain(t *testing.T) {
	for name, want := range map[string]bool{"Ada Quill.pdf": true, "logo.png": true, ".hidden": true, "": false, ".": false, "..": false,
		"/etc/passwd": false, "../a.pdf": false, "a/b": false, `a\b`: false, "C:a.pdf": false, "a\x00b": false} {
		if IsPlain(name) != want {
			t.Errorf("IsPlain(%q) is %v", name, !want)
		}
	}
}

func TestUnique(t *testing.T) {
	var s Set
	for _, tc := range []struct {
		candidates []string
		want       string
	}{
		{[]string{"Ada Quill", "Ada Quill A1"}, "Ada Quill.pdf"},
		{[]string{"ada quill", "ada quill A2"}, "ada quill A2.pdf"},
		{[]string{"ADA QUILL", "ada quill a2"}, "ada quill a2 1.pdf"},
		{[]string{"🙂", ""}, "person 1.pdf"},
		{[]string{"🙂"}, "person 2.pdf"},
	} {
		if got := s.Unique(".pdf", tc.candidates...); got != tc.want {
			t.Errorf("Unique(%q) = %q, want %q", tc.candidates, got, tc.want)
		}
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"Ada", "../x", "CON", "a\x00b", strings.Repeat("ü", 300), "\xff\xfe", "\xf2\u0340"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		got := Clean(in)
		if !utf8.ValidString(got) || len(got) > maxBytes+5 || strings.ContainsAny(got, "/\\:*?\"<>|.\x00\n") || strings.TrimSpace(got) != got {
			t.Errorf("Clean(%q) = %q", in, got)
		}
		if again := Clean(got); again != got {
			t.Errorf("Clean is not stable: %q then %q", got, again)
		}
	})
}
