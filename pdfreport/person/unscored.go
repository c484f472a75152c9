package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/templates/wording"
)

// These chapters are for someone who was tested and has neither an estimate nor a
// reading against norms.

// unscored reports whether the page has no number.
func (c *facts) unscored() bool { return c.best == nil && c.norm == nil }

type whyChapter struct{ *page }

// lay says what was done and why there is no number.
func (c whyChapter) lay() kit.Block {
	var done []string
	trials := c.score.Entry().Trials
	for i := range trials {
		done = append(done, c.Declared().TestAndResult(&trials[i]))
	}
	text := c.Say("unscored.meaning", nil)
	if done != nil {
		text = c.Say("unscored.done", kit.Words{"Done": strings.Join(done, "; ")}) + "\n" + text
	}
	reasons := c.reasons()
	for i, r := range reasons {
		if len(reasons) > 1 {
			reasons[i] = "- " + r
		}
	}
	return kit.Stack(c.Heading("unscored.heading"), c.Text(text), kit.Space(3.5), c.Text(strings.Join(reasons, "\n")))
}

// reasons says why each test gave no number, and which entries could not be used.
func (c whyChapter) reasons() []string {
	var all []string
	for i := range c.score.Refused {
		r := &c.score.Refused[i]
		slots := kit.Words{"Test": c.Declared().Test(r.Test)}
		switch key := refusalKey(r); key {
		case "missing":
			slots["Input"] = c.Declared().Input(r.Input)
			all = append(all, c.Say("unscored.why.missing", slots))
		case "other":
			what := c.Declared().Said(r.Why)
			if strings.Contains(what, slots["Test"].(string)) {
				slots["Test"], what = "", wording.Capital(what)
			}
			slots["What"] = what
			all = append(all, c.Say("unscored.why.other", slots))
		default:
			all = append(all, c.Say("unscored.why."+key, slots))
		}
	}
	for _, p := range c.unread() {
		all = append(all, c.Clean.Text(c.Say("unscored.why.unread", kit.Words{"Read": p.Read, "What": c.Declared().Said(p.What)})))
	}
	var once []string
	for _, text := range all {
		if !slices.Contains(once, text) {
			once = append(once, text)
		}
	}
	return once
}

// refusalKey ends the key of the block that says a refusal.
func refusalKey(r *scoring.Refusal) string {
	switch {
	case r.Doubt != nil: // not the value itself, which may be painful to read
		return "doubtful"
	case r.OtherTest && r.Input == scoring.HeartRateDrug:
		return "medicine"
	case r.Input == scoring.HeartRateDrug:
		return "unclear"
	case r.Missing && r.Input == scoring.Age:
		return "age"
	case r.Missing:
		return "missing"
	case r.NotForAge:
		return "not-for-age"
	case r.Beyond:
		return "beyond"
	}
	return "other"
}

// unread lists the entries that could not be used, as many as a page shows.
func (c *page) unread() []Problem {
	var all []Problem
	for _, p := range c.problems {
		if p.Unread && len(all) < problemsMost {
			all = append(all, p)
		}
	}
	return all
}

type doNowChapter struct{ *page }

// lay says what would give a number, and whom to ask: what is missing in the list,
// what to look at again, or another test.
func (c doNowChapter) lay() kit.Block {
	var missing []string
	check, other := len(c.unread()) > 0, false
	said := map[string]bool{}
	for i := range c.score.Refused {
		r := &c.score.Refused[i]
		key := refusalKey(r)
		name := c.Declared().Input(r.Input)
		if r.Missing && !slices.Contains(missing, name) {
			missing = append(missing, name)
		}
		said[key] = true
		check = check || key == "beyond" || key == "doubtful" || key == "other"
		other = other || r.OtherTest || r.Beyond
	}
	var texts []string
	if missing != nil {
		texts = append(texts, c.Say("unscored.do.fill", kit.Words{"Inputs": strings.Join(missing, ", ")}))
	}
	if check {
		texts = append(texts, c.Say("unscored.do.check", nil))
	}
	if said["unclear"] {
		texts = append(texts, c.Say("unscored.do.answer", nil))
	}
	if other {
		texts = append(texts, c.suitWords(said["medicine"])...)
	}
	if said["medicine"] || said["unclear"] {
		texts = append(texts, c.Say("unscored.do.medicine", nil))
	}
	return kit.Stack(c.Heading("unscored.do.heading"), c.Text(strings.Join(texts, "\n")))
}

// suitWords name the tests that suit the person.
func (c doNowChapter) suitWords(medicine bool) []string {
	if len(c.suits) == 0 {
		return []string{c.Say("unscored.do.none", nil)}
	}
	var names []string
	var alone *scoring.Test
	for _, t := range c.suits {
		names = append(names, c.Declared().Test(t)+" ("+c.Say("suits."+t.Exertion.ID(), nil)+")")
		if medicine && t.Norm == nil && alone == nil {
			alone = t
		}
	}
	slots := kit.Words{"First": names[0], "Second": "", "Agreed": c.score.SeeClinicianFirst()}
	if len(names) > 1 {
		slots["Second"] = names[1]
	}
	texts := []string{c.Say("unscored.do.suit", slots)}
	if alone != nil {
		texts = append(texts, c.Say("unscored.do.alone", kit.Words{"Test": c.Declared().Test(alone)}))
	}
	return texts
}

// unscoredSince says the last number, and the results of the same tests then and now.
func (c changeChapter) unscoredSince() [][]string {
	var texts [][]string
	line := c.review.Line
	for i := len(line) - 2; i >= 0; i-- {
		if best := line[i].Score.Best(); best != nil {
			texts = append(texts, []string{c.Say("unscored.since.number", kit.Words{"Value": float64(best.VO2), "Day": line[i].Day})})
			break
		}
	}
	for _, s := range change.SameTests(line) {
		texts = append(texts, []string{c.Say("unscored.since.test", kit.Words{"Test": c.Declared().Test(s.Now.Test), "Day": s.Since,
			"Before": c.Declared().Result(s.Before), "Now": c.Declared().Result(s.Now)})})
	}
	return texts
}
