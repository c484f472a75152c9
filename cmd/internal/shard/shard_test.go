package shard

import (
	"fmt"
	"testing"

	"tenback/workbook"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]Part{"1/1": {1, 1}, "2/4": {2, 4}, " 3 / 4 ": {3, 4}, "10000/10000": {10000, 10000}} {
		if got, err := Parse(text); err != nil || got != want {
			t.Errorf("%q reads as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "2", "0/4", "5/4", "-1/4", "1/0", "1/10001", "a/b", "1/2/3", "1.0/2"} {
		if got, err := Parse(text); err == nil {
			t.Errorf("%q reads as %v", text, got)
		}
	}
}

func people(n int) (outcomes []workbook.Outcome) {
	for i := range n {
		// Everybody comes twice, the second time under a name typed otherwise.
		for again := range 2 {
			row := &workbook.Row{Number: 2*i + again, Person: workbook.Person{ID: fmt.Sprint(1000 + i), Name: fmt.Sprint("Person ", i, " ", again)}}
			outcomes = append(outcomes, workbook.Outcome{Person: i, Row: row})
		}
	}
	return outcomes
}

// Every person is in one part, with all visits, and the parts are about as large.
func TestPartsAreEverybodyOnce(t *testing.T) {
	outcomes := people(2000)
	const parts = 4
	in := map[int]int{}
	for k := 1; k <= parts; k++ {
		mine := Part{k, parts}.Of(outcomes)
		if len(mine) < 2*400 || len(mine) > 2*600 {
			t.Errorf("part %d has %d visits", k, len(mine))
		}
		for _, o := range mine {
			in[o.Row.Number]++
			if o.Row.Number%2 == 0 {
				continue
			}
			if in[o.Row.Number-1] != 1 {
				t.Errorf("visit %d is not with the person's other one", o.Row.Number)
			}
		}
	}
	if len(in) != len(outcomes) {
		t.Errorf("%d visits of %d are in a part", len(in), len(outcomes))
	}
	for n, times := range in {
		if times != 1 {
			t.Errorf("visit %d is in %d parts", n, times)
		}
	}
	if all := (Part{}).Of(outcomes); len(all) != len(outcomes) {
		t.Errorf("everybody is %d", len(all))
	}
}

// Who else is in the roster does not matter.
func TestPartStays(t *testing.T) {
	outcomes := people(50)
	whole := Part{2, 3}.Of(outcomes)
	half := Part{2, 3}.Of(outcomes[:50])
	if len(half) == 0 || len(half) >= len(whole) {
		t.Fatalf("%d visits of half the people, %d of all", len(half), len(whole))
	}
	for i := range half {
		if half[i].Row != whole[i].Row {
			t.Fatalf("visit %d moved", half[i].Row.Number)
		}
	}
}

// FuzzParse: what is taken is a part that there can be, and reads back from how
// it is written.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"2/4", " 1 / 1 ", "0/4", "-1/-1", "1/10001", "1/2/3", "+1/+2", "9223372036854775808/1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Parse(text)
		if err != nil {
			return
		}
		if p.K < 1 || p.K > p.N || p.N > partsMost {
			t.Errorf("%q is taken for part %d of %d", text, p.K, p.N)
		}
		if again, err := Parse(fmt.Sprintf("%d/%d", p.K, p.N)); err != nil || again != p {
			t.Errorf("%q: %v, then %v, %v", text, p, again, err)
		}
	})
}
