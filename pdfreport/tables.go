package pdfreport

import (
	"strings"

	"tenback/scoring/reference"
)

// groupName is what a group is called.
func (c *page) groupName(t *reference.GroupTable, g reference.Group) string {
	name := c.declared().Group(t, g)
	if t.Own {
		return c.clean.text(unmarked(name))
	}
	return name
}

// friendPrefix begins the names of the FRIEND tables, which go on with year
// and machine.
const friendPrefix = "friend-"

// isFriend tells a table that is an edition of FRIEND.
func isFriend(t *reference.GroupTable) bool { return strings.HasPrefix(t.ID, friendPrefix) }

// tableNote says whom the groups were made on.
func (c standingChapter) tableNote(t *reference.GroupTable) string {
	switch {
	case t.Own:
		return c.say("standing.groups.own", words{"Table": c.clean.text(t.Source)})
	case isFriend(t):
		year, machine, _ := strings.Cut(strings.TrimPrefix(t.ID, friendPrefix), "-")
		return c.say("standing.groups.friend", words{"Year": year, "Machine": machine})
	case t == reference.AdultGroups:
		return c.say("standing.groups", nil)
	}
	return c.say("standing.groups."+t.ID, nil)
}
