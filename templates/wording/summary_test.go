package wording

import (
	"fmt"
	"strings"
	"testing"

	"tenback/scoring/group"
	"tenback/scoring/reference"
)

// spoken are words that tell which block was said, with its slots.
var spoken = Words{
	Say: func(key string, slots Slots) string {
		if len(slots) == 0 {
			return key
		}
		return fmt.Sprint(key, slots)
	},
}

func TestLabel(t *testing.T) {
	own, err := reference.OwnGroupTable("club", [][]string{
		{"sex", "age_min", "age_max", "unit", "weak", "fair", "sound", "strong", "superb"},
		{"F", "20", "110", "mL/kg/min", "", "28", "33", "38", "45"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		label  group.Label
		adults *reference.GroupTable
		want   string
	}{
		{group.Label{Key: "all", Text: "All"}, nil, "summary.all"},
		{group.Label{Key: "no-group", Text: "none given"}, nil, "summary.no-group"},
		{group.Label{Key: "group-2", Text: "8b, the late ones"}, nil, "<8b, the late ones>"},
		{group.Label{Key: "group-1+no-group", Of: []string{"group-1", "no-group"}, Texts: []string{"8a", "none given"}}, nil, "<8a> + summary.no-group"},
		{group.Label{Key: "test-run-1.5-mile"}, nil, "test.run-1.5-mile.name"},
		{group.Label{Key: "test-of-old"}, nil, "summary.test-of-old"},
		{group.Label{Key: "adults-2"}, nil, "quarter.2"},
		{group.Label{Key: "adults-2", Text: "fair"}, own, "<fair>"},
		{group.Label{Key: "line-below"}, own, "summary.line-below"},
		{group.Label{Ages: reference.Ages{Min: 30, Max: 39}}, nil, "ages" + fmt.Sprint(Slots{"From": 30, "To": 39})},
		{group.Label{Ages: reference.Ages{Max: 12}}, nil, "summary.ages-under" + fmt.Sprint(Slots{"Age": 13})},
		{group.Label{Ages: reference.Ages{Min: 80, Max: 120}}, nil, "ages.open" + fmt.Sprint(Slots{"From": 80})},
		// A table of the user's own may end between 100 and what stands for no end.
		{group.Label{Ages: reference.Ages{Min: 80, Max: 110}}, nil, "ages" + fmt.Sprint(Slots{"From": 80, "To": 110})},
	} {
		got := spoken.Label(c.label, c.adults, func(name string) string { return "<" + name + ">" })
		if got != c.want {
			t.Errorf("label %q is %q, want %q", strings.Join(append(c.label.Of, c.label.Key), " "), got, c.want)
		}
	}
}
