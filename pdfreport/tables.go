package pdfreport

import (
	"strings"

	"tenback/scoring/reference"
)

// groupKeys are the names of the default table's groups in the words.
var groupKeys = [...]string{"group.low", "group.below-average", "group.above-average", "group.high", "group.elite"}

// groupName is what a group is called: the default table's names are words of
// the page, the others bring their own.
func (c *composer) groupName(t *reference.GroupTable, g reference.Group) string {
	if t == reference.AdultGroups {
		return c.say(groupKeys[g], nil)
	}
	// A name from a sheet must not be taken for a mark of bold.
	return c.clean.text(strings.ReplaceAll(t.Names[g], "**", "*"))
}

// friendPrefix begins the names of the FRIEND tables, which go on with year
// and machine.
const friendPrefix = "friend-"

// isFriend tells a table that is an edition of FRIEND.
func isFriend(t *reference.GroupTable) bool { return strings.HasPrefix(t.ID, friendPrefix) }

// tableNote says whom the groups were made on.
func (c *composer) tableNote(t *reference.GroupTable) string {
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
