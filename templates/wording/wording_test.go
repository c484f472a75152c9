package wording

import "testing"

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{"Ida": "Ida", "a\x1b[31mb": "a [31mb", "a\nb\tc": "a b c", "a\u202eb\u2066c": "a b c", "é\u200d王": "é\u200d王"} {
		if got := visible(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}
