// Package testday draws the papers of a test day: recording sheets, lap cards, the
// day plan and slips with passwords.
package testday

import (
	"errors"
	"io"
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/templates"
)

// Recording is the input of the recording sheets of one test.
type Recording struct {
	Test    *scoring.Test
	Columns []Column // in the order of typing
	People  []Listed // in the order of the roster
	Blank   int      // empty lines, if no one is listed
	// ShuttleStart is the speed in km/h of level 1 on the shuttle run's
	// recording, 8.0 or 8.5. Zero is 8.0.
	ShuttleStart float64
	Paper        kit.Paper
	Words        *templates.Set
	Program      string // name and version
}

// Column is a column of the roster that the test fills.
type Column struct {
	Header string
	Input  scoring.Input
}

// Listed is a person on the list.
type Listed struct {
	Name, ID string
	Group    string // class, department or squad; may be empty
	Sheet    string // worksheet, if the roster has several
	Row      int    // in the worksheet
	Known    *scoring.Entry
}

// Errors of recording sheets.
var (
	ErrNotRecordable = errors.New("this test is not run with a group, so it has no recording sheets")
	ErrNobodyListed  = errors.New("no people to list")
)

// Recordable reports whether a test is run with a group, so that there is something
// to write down. A laboratory's value is not.
func Recordable(t *scoring.Test) bool { return t.Day != nil }

// WriteRecording writes the recording sheets of one test as a PDF. The same input
// gives the same bytes.
func WriteRecording(w io.Writer, r Recording) (report kit.Report, err error) {
	defer kit.AsError(&err, "recording sheets")
	if r.Test == nil || !Recordable(r.Test) {
		return kit.Report{}, ErrNotRecordable
	}
	if len(r.People) == 0 && r.Blank <= 0 {
		return kit.Report{}, ErrNobodyListed
	}
	if r.ShuttleStart != fieldtests.ShuttleStart85 {
		r.ShuttleStart = fieldtests.ShuttleStart80
	}
	q := &recording{papers: newPapers(r.Paper, r.Words, r.Program), Recording: r, day: r.Test.Day}
	q.title = q.name() + " · " + q.Say("day.recording", nil)
	listed := list{newColumns(q)}
	pages := slices.Concat(q.sheets(q.share(q.front())), listed.sheets(listed.pages()))
	if r.Test.Day.Levels {
		pages = append(pages, q.sheets(lapCards{q}.pages())...)
	}
	return q.write(w, pages)
}

// recording lays out the sheets of one test.
type recording struct {
	*papers
	Recording
	day *scoring.Day
}

func (q *recording) name() string { return q.Declared().Test(q.Test) }

// front returns what precedes the list: how to run the test, safety, and tables
// to read from.
func (q *recording) front() []kit.Block {
	return append([]kit.Block{q.head(), q.protocol(), q.safety(), q.emergency()}, readouts{q}.tables()...)
}

// head names the test and says whom it suits.
func (q *recording) head() kit.Block {
	return kit.Stack(titled(q.name(), q.Say("day.recording", nil), q.width), kit.Paragraphs(q.Declared().Suits(q.Test), dayBody, q.width), q.whenAndWhere())
}

// protocol says how to run the test.
func (q *recording) protocol() kit.Block {
	return framed(q.width, thick, 0, func(width float64) kit.Block {
		return kit.Stack(headed(q.Say("day.how", nil), width), numbered(q.Declared().Protocol(q.Test), dayBody, width), kit.Space(5),
			headed(q.Say("day.warm-up", nil), width), kit.Paragraphs(q.Say("day.warm-up."+q.day.WarmUp, nil), dayBody, width), kit.Space(5),
			headed(q.Say("day.say", nil), width), kit.Paragraphs(q.Say("day.say."+q.day.Say, nil), dayBody, width), kit.Space(3),
			kit.Paragraphs(q.Say("day.say.stop", nil), dayBody, width), kit.Space(3), kit.Paragraphs(q.Say("day.practice", nil), daySmall, width))
	})
}

// safety says whom to ask what before, and when to stop someone.
func (q *recording) safety() kit.Block {
	return q.pair(thick,
		func(width float64) kit.Block {
			return kit.Stack(headed(q.Say("day.ask", nil), width), kit.Paragraphs(strings.Join(append(q.Declared().ScreenFirst(), q.Declared().Caution(q.Test)), "\n"), dayBody, width),
				kit.Space(4), kit.Paragraphs(q.Say("day.ask.tick", nil), dayBody, width))
		},
		func(width float64) kit.Block {
			b := headed(q.Say("day.stop", nil), width)
			signs := q.Declared().StopSigns()
			return kit.Stack(b, kit.Paragraphs("**"+signs[0]+"**\n"+strings.Join(signs[1:], "\n"), dayBody, width), kit.Space(4),
				kit.Paragraphs(q.Say("day.after", nil), dayBody, width))
		})
}

// emergency is to be filled in before the first start.
func (p *papers) emergency() kit.Block {
	return framed(p.width, thick, 0, func(width float64) kit.Block {
		half := (width + 8) / 2 // the rules end short of their fields
		b := headed(p.Say("day.emergency", nil), width)
		for _, keys := range [][2]string{{"number", "telephone"}, {"first-aider", "defibrillator"}} {
			b = kit.Stack(b, fields([]field{{p.Say("day.emergency."+keys[0], nil), half}, {p.Say("day.emergency."+keys[1], nil), half}}))
		}
		for _, key := range []string{"address", "meeting"} {
			b = kit.Stack(b, fields([]field{{p.Say("day.emergency."+key, nil), width + 8}}))
		}
		return b
	})
}
