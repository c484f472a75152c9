package person

import (
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring/reference"
)

// groupName returns the name of a group.
func (c *page) groupName(t *reference.GroupTable, g reference.Group) string {
	name := c.Declared().Group(t, g)
	if t.Own {
		return c.Clean.Text(kit.Unmarked(name))
	}
	return name
}

// friendPrefix begins the IDs of the FRIEND tables; year and machine follow.
const friendPrefix = "friend-"

// isFriend reports whether a table is an edition of FRIEND.
func isFriend(t *reference.GroupTable) bool { return strings.HasPrefix(t.ID, friendPrefix) }

// tableNote says on whom the groups are based.
func (c standingChapter) tableNote(t *reference.GroupTable) string {
	switch {
	case t.Own:
		return c.Say("standing.groups.own", kit.Words{"Table": c.Clean.Text(t.Source)})
	case isFriend(t):
		year, machine, _ := strings.Cut(strings.TrimPrefix(t.ID, friendPrefix), "-")
		return c.Say("standing.groups.friend", kit.Words{"Year": year, "Machine": machine})
	case t == reference.AdultGroups:
		return c.Say("standing.groups", nil)
	}
	return c.Say("standing.groups."+t.ID, nil)
}
