package mail

import (
	"strings"
	"testing"

	"tenback/workbook"
)

// Two adults with one address are held until that is confirmed; brothers and sisters
// with one parent are not.
func TestSharedAddress(t *testing.T) {
	for _, allowed := range []bool{false, true} {
		c := newClass(t)
		c.rules.AllowShared = allowed
		office := func(r *workbook.Row) { r.Person.Contact.Email.Text = "Office@river.example" }
		parent := func(r *workbook.Row) { r.Person.Contact.Guardian = guardian }
		c.add(t, "1", "Ann", "1990-01-01", office)
		c.add(t, "2", "Bo", "1991-01-01", func(r *workbook.Row) { r.Person.Contact.Email.Text = "office@river.example" })
		c.add(t, "3", "Cy", "1992-01-01", nil)
		c.add(t, "4", "Di", "2013-01-01", parent)
		c.add(t, "5", "Ed", "2014-01-01", parent)
		items, left, err := c.rules.Choose(c.roster)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, item := range items {
			names = append(names, item.Name)
		}
		want, held := "Cy Di Ed", 2
		if allowed {
			want, held = "Ann Bo Cy Di Ed", 0
		}
		if got := strings.Join(names, " "); got != want || len(left) != held {
			t.Errorf("allowed %v: messages for %s, %d held", allowed, got, len(left))
		}
		for _, l := range left {
			if !strings.HasPrefix(l.Problem.String(), "P!C") || !strings.Contains(l.Problem.String(), "2 people have this address") {
				t.Errorf("%s", l.Problem)
			}
		}
	}
}
