// Package shard divides the people of a roster into parts, for several
// programs or machines that share the work.
package shard

import (
	"fmt"
	"strconv"
	"strings"

	"tenback/cmd/internal/personkey"
	"tenback/workbook"
)

// partsMost bounds the number of parts.
const partsMost = 10_000

// Part is the K-th of N parts, counted from 1. The zero Part is everybody.
type Part struct{ K, N int }

// Parse reads a part as in "2/4".
func Parse(text string) (Part, error) {
	k, n, ok := strings.Cut(text, "/")
	var p Part
	var err, err2 error
	p.K, err = strconv.Atoi(strings.TrimSpace(k))
	p.N, err2 = strconv.Atoi(strings.TrimSpace(n))
	if !ok || err != nil || err2 != nil || p.N < 1 || p.N > partsMost || p.K < 1 || p.K > p.N {
		return Part{}, fmt.Errorf("%q should be such as 2/4, the second of four parts, of at most %d", text, partsMost)
	}
	return p, nil
}

// Suffix marks the names of files that hold only the part: "-2-of-4", or
// nothing for everybody.
func (p Part) Suffix() string {
	if p == (Part{}) {
		return ""
	}
	return fmt.Sprintf("-%d-of-%d", p.K, p.N)
}

// Of picks the outcomes of the part's people, in their order. All visits of a
// person are in one part, and the part a person is in hangs on who it is, not on
// who else is in the roster.
func (p Part) Of(outcomes []workbook.Outcome) []workbook.Outcome {
	if p == (Part{}) {
		return outcomes
	}
	in := map[int]bool{}
	var all []workbook.Outcome
	for i := range outcomes {
		o := &outcomes[i]
		mine, known := in[o.Person]
		if !known {
			// The key without a secret: every machine must find the same part.
			mine = p.has(personkey.Secret{}.Of(o.Row))
			in[o.Person] = mine
		}
		if mine {
			all = append(all, *o)
		}
	}
	return all
}

// has tells whether the person with the key is in the part.
func (p Part) has(key personkey.Key) bool {
	n, err := strconv.ParseUint(string(key)[:15], 16, 64)
	if err != nil {
		panic("shard: a key is not in hexadecimal digits: " + string(key))
	}
	return n%uint64(p.N) == uint64(p.K-1)
}
