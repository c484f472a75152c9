package group

import (
	"fmt"
	"strings"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// roll lists the classes or departments of a roster, each by its first spelling.
type roll struct {
	at     map[string]int
	labels []Label
}

// noGroup is the place of people without one.
const noGroup = -1

// place returns the place of a class or department, which may be new.
func (r *roll) place(name string) int {
	tidy := strings.Join(strings.Fields(norm.NFC.String(name)), " ")
	if tidy == "" {
		return noGroup
	}
	key := groupKey(tidy)
	at, known := r.at[key]
	if !known {
		if r.at == nil {
			r.at = map[string]int{}
		}
		at = len(r.labels)
		r.at[key] = at
		r.labels = append(r.labels, Label{Key: fmt.Sprintf("group-%d", at+1), Text: tidy})
	}
	return at
}

// groupKey folds case and removes spaces, except between two digits: 1 1 is not 11.
func groupKey(tidy string) string {
	var b strings.Builder
	runes := []rune(cases.Fold().String(tidy))
	for i, r := range runes {
		if r == ' ' && i > 0 && i+1 < len(runes) && (!isDigit(runes[i-1]) || !isDigit(runes[i+1])) {
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }
