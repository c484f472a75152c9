package mail

import (
	"fmt"
	"io"

	"tenback/cmd/internal/terminal"
	"tenback/workbook"
	"tenback/workbook/people"
)

// unreachedMost bounds the people who are listed.
const unreachedMost = 10

// TellUnreached lists the people whom no message could reach, with the cell and the
// reason. It prints no address.
func (r *Rules) TellUnreached(w io.Writer, roster *workbook.Roster) {
	left := r.unreached(roster)
	if len(left) == 0 {
		return
	}
	fmt.Fprintf(w, "\nNo message could reach %s:\n", terminal.Count(len(left), "person", "people"))
	for _, l := range left[:min(unreachedMost, len(left))] {
		fmt.Fprintf(w, "  %s!%s  %s\n      %s\n", l.Problem.Sheet, l.Problem.Cell, l.Outcome.Row.Person.Label(), l.Problem.What)
	}
	if more := len(left) - unreachedMost; more > 0 {
		fmt.Fprintf(w, "  and %d more\n", more)
	}
}

// unreached returns the people for whom no message could be made, for want of an address
// that can be used; none if no row of the roster has one.
func (r *Rules) unreached(roster *workbook.Roster) []Left {
	var items []Item
	var left []Left
	addressed := false
	visits := people.Visits(roster)
	for i := range visits {
		o := &workbook.Outcome{Visit: visits[i]}
		contact := o.Row.Person.Reached()
		addressed = addressed || contact.Email.Text != "" || contact.Guardian.Text != ""
		item := Item{Outcome: o, Key: r.Secret.Of(o.Row), Name: o.Row.Person.Label(), Audience: r.Audience(o)}
		if problem := r.address(&item); problem != nil {
			left = append(left, Left{o, *problem})
		} else {
			items = append(items, item)
		}
	}
	if !addressed {
		return nil
	}
	_, left = holdShared(items, left)
	return left
}
