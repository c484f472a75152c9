package summary

import (
	"tenback/pdfreport/kit"
	"tenback/scoring/group"
	"tenback/templates"
)

// seasonChange sets the change since the last round of testing: the mean of those
// tested twice, and counts of clear changes.
func (c partPassages) seasonChange() passage {
	t := c.table(group.ByChange, c.part)
	mean := c.meanChange()
	if t == nil && mean == "" {
		return passage{}
	}
	title := c.Declared().TableOf(group.ByChange, c.part)
	b := c.titled(title, c.Say("summary.change.note", nil))
	if mean != "" {
		b = kit.Stack(b, c.Text(mean), kit.Space(4))
	}
	if t == nil {
		return passage{head: b}
	}
	counts := countTable{c.summary, t, c.Width}
	return passage{head: kit.Stack(b, counts.head()), rows: counts.rows(), again: kit.Stack(c.resumed(title), counts.head())}
}

// meanChange says the mean change of a part, or nothing if that is hidden.
func (c partPassages) meanChange() string {
	if c.Summary.Seasons == nil {
		return ""
	}
	for _, m := range c.Summary.Seasons.Changes {
		if m.Part == c.part {
			return c.Say("summary.change.mean", kit.Words{"Mean": signed(c.Language, m.Mean), "Low": signed(c.Language, m.Low), "High": signed(c.Language, m.High), "Verdict": m.Verdict.ID()})
		}
	}
	return ""
}

// signed formats a change with its sign.
func signed(language *templates.Set, x float64) string {
	text := language.Number(x, 1)
	if x > 0 {
		return "+" + text
	}
	return text
}

// leavers are those tested before but not this time.
func (c closing) leavers() passage {
	if c.Summary.Seasons == nil {
		return passage{}
	}
	if left := c.Summary.Seasons.Left; left.Shown {
		return passage{head: c.Text(c.Say("summary.change.left", kit.Words{"Count": left.Count}))}
	}
	return passage{head: c.Text(c.Say("summary.change.left.hidden", kit.Words{"Smallest": c.Summary.Smallest}))}
}
