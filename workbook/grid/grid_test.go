package grid

import (
	"strings"
	"testing"
)

func TestAddresses(t *testing.T) {
	good := map[string]Address{"A1": {1, 1}, "z9": {9, 26}, "AA10": {10, 27}, "XFD1048576": {MaxRow, MaxCol}}
	for s, want := range good {
		if got, ok := ParseAddress(s); !ok || got != want {
			t.Errorf("%s: got %v %v", s, got, ok)
		}
		if got := want.String(); got != strings.ToUpper(s) {
			t.Errorf("%v prints as %s", want, got)
		}
		if got := At(want.Col, want.Row); got != strings.ToUpper(s) || !strings.HasPrefix(got, Column(want.Col)) {
			t.Errorf("%v is written %s", want, got)
		}
	}
	for _, s := range []string{"", "A", "1", "A0", "A01", "XFE1", "A1048577", "ABCD1", "A1B", "$A$1", "A-1", "A99999999999999999999", "AAAAAAAAAAA1", "Ä1", "A 1"} {
		if got, ok := ParseAddress([]byte(s)); ok {
			t.Errorf("%q: got %v", s, got)
		}
	}
	ranges := map[string]Range{
		"B2": {2, 2, 2, 2}, "B2:C9": {2, 2, 9, 3}, "$C$9:$B$2": {2, 2, 9, 3},
		"A:C": {1, 1, MaxRow, 3}, "2:7": {2, 1, 7, MaxCol},
		"": {}, "A": {}, "B2:": {}, ":B2": {}, "A1:B2:C3": {}, "A:7": {}, "2:B": {}, "B2:C": {}, strings.Repeat("A", 99): {},
	}
	for s, want := range ranges {
		if got, ok := ParseRange(s); got != want || ok != want.Valid() {
			t.Errorf("%q: got %v %v, want %v", s, got, ok, want)
		}
	}
}
