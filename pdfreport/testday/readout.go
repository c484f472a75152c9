package testday

import (
	"strconv"
	"strings"
	"time"

	"tenback/pdfreport/kit"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
)

// lapLength is a lap of a running track, in metres.
const lapLength = 400

type readouts struct{ *recording }

// tables are for the day's helpers: timetable, cadence, pulse, pace and levels,
// as far as the test uses them.
func (q readouts) tables() []kit.Block {
	return []kit.Block{q.levels(), q.clockAndCadence(), q.pulses(), q.paces(), q.distances()}
}

// clockAndCadence sets the timetable, with the cadence beside it.
func (q readouts) clockAndCadence() kit.Block {
	if q.day.Clock == "" {
		return nil
	}
	clock := func(width float64) kit.Block {
		const times = 32.0
		b := headed(q.Say("day.clock", nil), width)
		for _, line := range strings.Split(q.Say("day.clock."+q.day.Clock, nil), "\n") {
			at, text, ok := strings.Cut(line, " ")
			if !ok || !strings.Contains(at, ":") {
				at, text = "", line
			}
			words := kit.Lines(kit.BreakLines(text, kit.Regular, (width-times)/dayBody.Size), dayBody, width, kit.Left)
			b = kit.Stack(b, kit.Draw(words.Height(), func(s *kit.Sheet, x, y float64) {
				s.WriteRight(x+times-8, y+dayBody.Baseline(), at, dayBody.With(kit.Bold))
				words.Draw(s, x+times, y)
			}), kit.Space(2))
		}
		return b
	}
	if len(q.day.Cadence) == 0 {
		return framed(q.width, thin, 0, clock)
	}
	return q.pair(thin, clock, func(width float64) kit.Block {
		var rows [][]string
		for _, cycles := range q.day.Cadence {
			rows = append(rows, []string{strconv.Itoa(cycles), strconv.Itoa(cycles * beatsInCycle)})
		}
		return kit.Stack(headed(q.Say("day.cadence", nil), width),
			grid([]string{q.Say("day.cadence.cycles", nil), q.Say("day.cadence.beats", nil)}, rows, []float64{width / 2, width / 2}))
	})
}

// beatsInCycle is the number of metronome beats in a step cycle: up, up, down,
// down.
const beatsInCycle = 4

// pulses converts counts to beats a minute. Twice a count needs no table.
func (q readouts) pulses() kit.Block {
	var b kit.Block
	switch q.day.Count {
	case scoring.Count10:
		b = kit.Stack(q.pulse(scoring.Count10, 10, 34), kit.Space(6), q.pulse(scoring.Count15, 15, 51))
	case scoring.Count15:
		b = q.pulse(scoring.Count15, 20, 54)
	default:
		return nil
	}
	note := q.Say("day.pulse.note", kit.Words{"Seconds": q.day.Count.Seconds, "Times": q.day.Count.Times, "AtOnce": q.day.Count == scoring.Count10})
	return framed(q.width, thin, 0, func(width float64) kit.Block {
		return kit.Stack(b, kit.Space(4), kit.Paragraphs(note, daySmall, width))
	})
}

// pulse is the table for one way of counting.
func (q readouts) pulse(f scoring.PulseCount, from, to int) kit.Block {
	const label, rowHeight = 50.0, 17.0
	look := dayBody.At(10.6)
	width := q.width - 2*dayPadding
	perLine := int((width - label) / 25)
	lines := (to - from + perLine) / perLine
	perLine = (to - from + lines) / lines
	step := (width - label) / float64(perLine)
	b := headed(q.Say("day.pulse", kit.Words{"Seconds": f.Seconds, "Times": f.Times}), width)
	for first := from; first <= to; first += perLine {
		last := min(first+perLine-1, to)
		b = kit.Stack(b, kit.Draw(2*rowHeight+5, func(s *kit.Sheet, x, y float64) {
			s.Write(x, y+12, q.Say("day.pulse.count", nil), dayHead)
			at := func(n int) float64 { return x + label + (float64(n-first)+0.5)*step }
			for n := first; n <= last; n++ {
				s.WriteCentred(at(n), y+12, strconv.Itoa(n), look.With(kit.Bold))
			}
			s.Write(x, y+rowHeight+12, q.Say("day.pulse.rate", nil), dayHead)
			for n := first; n <= last; n++ {
				s.WriteCentred(at(n), y+rowHeight+12, strconv.Itoa(n*f.Times), look)
			}
			end := x + label + float64(last-first+1)*step
			s.Rule(x, y+rowHeight, end, y+rowHeight, kit.Hairline, thin)
			s.Rule(x, y+2*rowHeight+1, end, y+2*rowHeight+1, kit.Ink, thin)
		}))
	}
	return b
}

// paces is the table of even pace over a set distance.
func (q readouts) paces() kit.Block {
	if q.day.Pace == (scoring.FinishTimes{}) {
		return nil
	}
	head := []string{q.Say("day.pace.finish", nil)}
	laps := int(q.day.Course) / lapLength
	for lap := 1; lap <= laps; lap++ {
		head = append(head, q.Say("day.pace.at", kit.Words{"Metres": lap * lapLength}))
	}
	var rows [][]string
	for finish := q.day.Pace.From; finish <= q.day.Pace.To; finish += q.day.Pace.Step {
		each := float64(finish) * lapLength / q.day.Course
		row := []string{clockOf(float64(finish))}
		for lap := 1; lap <= laps; lap++ {
			row = append(row, clockOf(each*float64(lap)))
		}
		rows = append(rows, row)
	}
	return q.paceTable("day.pace", head, rows)
}

// distances is the table of even pace for a run for distance.
func (q readouts) distances() kit.Block {
	if q.day.RunFor == 0 {
		return nil
	}
	const from, to, step = 1400, 3400, 100
	head := []string{q.Say("day.pace.distance", nil), q.Say("day.pace.laps", nil), q.Say("day.pace.lap", nil)}
	var rows [][]string
	for d := from; d <= to; d += step {
		rows = append(rows, []string{strconv.Itoa(d), q.Say("day.pace.of", kit.Words{"Laps": d / lapLength, "Metres": d % lapLength}),
			clockOf(float64(q.day.RunFor*lapLength) / float64(d))})
	}
	return q.paceTable("day.pace.12", head, rows)
}

// paceTable sets a table with its heading and note.
func (q readouts) paceTable(key string, head []string, rows [][]string) kit.Block {
	return framed(q.width, thin, 0, func(width float64) kit.Block {
		return kit.Stack(headed(q.Say(key, nil), width), grid(head, rows, evenly(width, len(head))), kit.Space(4),
			kit.Paragraphs(q.Say(key+".note", nil), daySmall, width))
	})
}

// evenly splits a width.
func evenly(width float64, n int) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = width / float64(n)
	}
	return all
}

// clockOf formats seconds as m:ss.
func clockOf(seconds float64) string {
	return scoring.Clock(time.Duration(seconds * float64(time.Second)))
}

// shuttleSeconds returns the time of a 20 m shuttle of a level. start is the
// speed of level 1 in km/h.
func shuttleSeconds(level int, start float64) float64 {
	const length, perHour = 20, 3.6
	return length / (fieldtests.ShuttleLevelSpeed(level, start) / perHour)
}

// levels is the table of the shuttle run's levels on the recording in use.
func (q readouts) levels() kit.Block {
	if !q.day.Levels {
		return nil
	}
	head := []string{q.Say("day.level", nil), q.Say("day.level.speed", nil), q.Say("day.level.shuttles", nil),
		q.Say("day.level.sum", nil), q.Say("day.level.each", nil), q.Say("day.level.clock", nil)}
	var rows [][]string
	sum, clock := 0, 0.0
	for i, shuttles := range fieldtests.ShuttlesInLevels(q.ShuttleStart) {
		level := i + 1
		each := shuttleSeconds(level, q.ShuttleStart)
		sum += shuttles
		clock += float64(shuttles) * each
		rows = append(rows, []string{strconv.Itoa(level), q.Language.Number(fieldtests.ShuttleLevelSpeed(level, q.ShuttleStart), 1), strconv.Itoa(shuttles),
			strconv.Itoa(sum), q.Language.Number(each, 2), clockOf(clock)})
	}
	source, other := "day.levels.source.80", fieldtests.ShuttleStart85
	if q.ShuttleStart == fieldtests.ShuttleStart85 {
		source, other = "day.levels.source.85", fieldtests.ShuttleStart80
	}
	return framed(q.width, thin, 0, func(width float64) kit.Block {
		b := headed(q.Say("day.levels", kit.Words{"Start": q.ShuttleStart}), width)
		check := q.Say("day.levels.check", kit.Words{"Start": q.ShuttleStart, "Seconds": shuttleSeconds(1, q.ShuttleStart),
			"Other": other, "OtherSeconds": shuttleSeconds(1, other)})
		b = kit.Stack(b, kit.Paragraphs(check, dayBody, width), kit.Space(2))
		columnWidth := (width - 2*kit.Gutter) / 2
		half := (len(rows) + 1) / 2
		widths := evenly(columnWidth, len(head))
		return kit.Stack(b, kit.Beside(kit.At(0, grid(head, rows[:half], widths)), kit.At(columnWidth+2*kit.Gutter, grid(head, rows[half:], widths))),
			kit.Space(4), kit.Paragraphs(q.Say(source, nil), daySmall, width))
	})
}
