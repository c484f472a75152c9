package pdfreport

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/scoring/reference"
)

func TestBreakLines(t *testing.T) {
	const width = 20.0
	texts := []string{
		"", "one", "a few **bold words** here and a *star", "no-break\u00a0space 12\u202fmL/kg/min",
		strings.Repeat("word ", 80), strings.Repeat("unbroken", 40), "**bold " + strings.Repeat("x", 90) + "** end", "**odd",
	}
	for _, text := range texts {
		var back strings.Builder
		for i, l := range breakMarked(text, regular, width) {
			var sum float64
			for _, s := range l.spans {
				sum += textWidth(s.text, s.weight)
				back.WriteString(s.text)
			}
			if sum > width+1e-9 || sum-l.width > 1e-9 || l.width-sum > 1e-9 {
				t.Errorf("%.20q line %d: %.2f wide, said to be %.2f, at most %.2f", text, i, sum, l.width, width)
			}
		}
		squash := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		want := text
		if strings.Count(text, "**")%2 == 0 {
			want = strings.ReplaceAll(text, "**", "")
		}
		if got := squash(back.String()); got != squash(want) {
			t.Errorf("%.20q: lines hold %q", text, got)
		}
	}
}

func TestSpans(t *testing.T) {
	got := spans("a **b** c ** d", regular)
	want := []span{{regular, "a "}, {bold, "b"}, {regular, " c ** d"}}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("span %d is %v, want %v", i, got[i], want[i])
		}
	}
}

func TestFlow(t *testing.T) {
	of := func(heights ...float64) []part {
		var parts []part
		for _, h := range heights {
			parts = append(parts, part{block: block{space(h)}})
		}
		return parts
	}
	early := of(300, 500, 100)
	early[2].early = true
	tests := []struct {
		name  string
		parts []part
		want  [][]float64
	}{
		{"one page", of(100, 200, 300), [][]float64{{100, 200, 300}}},
		{"in order", of(300, 500, 100), [][]float64{{300}, {500, 100}}},
		{"early fills the room", early, [][]float64{{300, 100}, {500}}},
		{"taller than a page", of(100, 2000, 100), [][]float64{{100}, {2000}, {100}}},
		{"none", nil, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pages, gaps := flow(tt.parts, 700, 700, blockGap)
			if len(pages) != len(tt.want) {
				t.Fatalf("%d pages, want %d", len(pages), len(tt.want))
			}
			for i, page := range pages {
				if gaps[i] < blockGap || gaps[i] > blockGapMost {
					t.Errorf("page %d: gap %.1f", i, gaps[i])
				}
				if len(page) != len(tt.want[i]) {
					t.Fatalf("page %d has %d parts, want %d", i, len(page), len(tt.want[i]))
				}
				for j, b := range page {
					if b.height() != tt.want[i][j] {
						t.Errorf("page %d part %d is %.0f high, want %.0f", i, j, b.height(), tt.want[i][j])
					}
				}
			}
		})
	}
}

// apart checks labels for order, distance and bounds.
func apart(t *testing.T, where string, labels []label, width float64) {
	t.Helper()
	end := 0.0
	for _, l := range labels {
		if l.at-l.width/2 < end-1e-6 {
			t.Errorf("%s: %q begins at %.1f, before %.1f", where, l.text, l.at-l.width/2, end)
		}
		end = l.at + l.width/2
	}
	if end > width+1e-6 {
		t.Errorf("%s: labels end at %.1f of %.1f", where, end, width)
	}
}

// TestLabelsNeverCollide draws the group scale for every row of the table and
// every uptake from 8 to 97 mL/kg/min.
func TestLabelsNeverCollide(t *testing.T) {
	for _, sex := range []scoring.Sex{scoring.Female, scoring.Male} {
		for years := 18.5; years < 90; years += 10 {
			for v := 8.0; v <= 97; v++ {
				m := made{name: "x", sex: sex, age: years, tests: measured(v)}
				c := newPage(m.person(t), options{})
				st := c.adults[0]
				own := st.Decades()[0]
				a := c.groupAxis(st.Decades()[:1], c.width)
				where := sex.String() + " " + c.ages(own.Ages) + " " + c.one(c.best.VO2)
				apart(t, where, standingChapter{c}.openingLabels(a, own), c.width)
				apart(t, where, standingChapter{c}.groupLabels(a, st), c.width)
				low, high := c.best.Likely()
				for _, end := range []scoring.VO2{low, high} {
					text := labelled(0, c.one(end), smallFace)
					if at := a.at(float64(end)); at < text.width+4 && end == low || c.width-at < text.width+4 && end == high {
						t.Errorf("%s: no room for %s beside the band", where, text.text)
					}
				}
				for _, g := range reference.Groups() {
					if from, to := segment(a, own, g); to <= from {
						t.Errorf("%s: group %s has no width", where, g)
					}
				}
			}
		}
	}
}

// TestGroupLabelsOfOtherTables draws the names of every other table.
func TestGroupLabelsOfOtherTables(t *testing.T) {
	for _, table := range append([]*reference.GroupTable{ownTable()}, reference.AdultTables[1:]...) {
		for _, years := range []float64{20.5, 45.5} {
			for v := 8.0; v <= 97; v += 3 {
				m := made{name: "x", sex: scoring.Female, age: years, tests: measured(v), adults: table}
				c := newPage(m.person(t), options{})
				st := c.adults[0]
				a := c.groupAxis(st.Decades()[:1], c.width)
				where := table.ID + " " + c.ages(st.Decades()[0].Ages) + " " + c.one(c.best.VO2)
				apart(t, where, standingChapter{c}.openingLabels(a, st.Decades()[0]), c.width)
				apart(t, where, standingChapter{c}.groupLabels(a, st), c.width)
			}
		}
	}
}

// TestOutlookLabels: whatever the value and the age, the names of the edges and
// of the line stand apart beside the drawing, and the wedge stays in it.
func TestOutlookLabels(t *testing.T) {
	const height = outlookLeast
	for _, sex := range []scoring.Sex{scoring.Female, scoring.Male} {
		for age := 50.2; age < lastAge; age += 4.3 {
			for v := float64(scoring.Independence(sex)); v <= 97; v++ {
				m := made{name: "x", sex: sex, age: age, tests: measured(v)}
				c := newPage(m.person(t), options{})
				line := refLine{float64(scoring.Independence(sex)), c.say("older.line", words{"Line": float64(scoring.Independence(sex))})}
				o, ages, values := olderChapter{c}.outlookAxes(sex, age, line, 240, height)
				for _, p := range o.corners() {
					if x, y := ages.at(p[0]), values.at(p[1]); x < -1e-6 || x > ages.width+1e-6 || y < -1e-6 || y > values.width+1e-6 {
						t.Fatalf("%s %.1f %.0f: corner %v is drawn at %.1f, %.1f", sex, age, v, p, x, y)
					}
				}
				bottom := 0.0
				for _, e := range (olderChapter{c}).outlookEnds(o, line, height, func(v float64) float64 { return height - outlookFoot - values.at(v) }) {
					if top := e.middle - e.text.height/2; top < bottom-1e-6 {
						t.Errorf("%s %.1f %.0f: a name begins at %.1f, before %.1f", sex, age, v, top, bottom)
					}
					bottom = e.middle + e.text.height/2
				}
				if bottom > height-outlookFoot+1e-6 {
					t.Errorf("%s %.1f %.0f: the names end at %.1f", sex, age, v, bottom)
				}
				last := -10.0
				for _, l := range (olderChapter{c}).outlookAges(ages) {
					if l.at-l.width/2 < last {
						t.Errorf("%s %.1f: %q touches the age before it", sex, age, l.text)
					}
					last = l.at + l.width/2
				}
			}
		}
	}
}

// TestCut: a text that is too long is cut to the width, and only then.
func TestCut(t *testing.T) {
	if got := cutText("short", regular, 50); got != "short" {
		t.Errorf("%q", got)
	}
	long := strings.Repeat("wide ", 20)
	got := cutText(long, bold, 9)
	if w := textWidth(got, bold); w > 9 || w < 7 || !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) {
		t.Errorf("%q is %.1f wide", got, w)
	}
}

// TestRestingLabels draws the resting scale for every rate that can be typed.
func TestRestingLabels(t *testing.T) {
	for rate := 25.0; rate <= 150; rate++ {
		m := cases["woman-45"]
		m.rest = rate
		p := m.person(t)
		c := newPage(p, options{})
		a := restingAxis(rate, c.width)
		if at := a.at(rate); at < 0 || at > c.width {
			t.Errorf("%.0f lies outside the scale", rate)
		}
		p5, _ := reference.RestingValue(scoring.Female, c.years, 5)
		p95, _ := reference.RestingValue(scoring.Female, c.years, 95)
		const width = 26
		if name := whoseAt(a.at(p5), a.at(p95), width, a.at(rate)); math.Abs(name-a.at(rate)) < width/2 {
			t.Errorf("%.0f: the line runs through the name of the bar", rate)
		}
		low := labelled(0, c.say("resting.mark.symptoms", nil), smallFace).width
		high := labelled(0, c.say("resting.mark.clinician", nil), smallFace).width
		room := a.at(scoring.RestingClinicalHigh) - a.at(scoring.RestingClinicalLow)
		if low+high+12 > room {
			t.Errorf("%.0f: the words at the clinical lines take %.0f of %.0f", rate, low+high+12, room)
		}
		pdf, _ := pageOf(t, p)
		extract(t, pdf)
	}
}

// TestFonts checks the prepared fonts: every character once, files whole.
func TestFonts(t *testing.T) {
	seen := map[rune]string{}
	for _, p := range fonts().pages {
		for w := range weightCount {
			def := p.definition[w]
			reader, err := zlib.NewReader(bytes.NewReader(p.file[w]))
			if err != nil {
				t.Fatal(err)
			}
			data, err := io.ReadAll(reader)
			if err != nil {
				t.Fatal(err)
			}
			if len(data) != def.OriginalSize || !bytes.HasPrefix(data, []byte{0, 1, 0, 0}) {
				t.Errorf("%s: %d bytes, said to be %d; begins % x", def.File, len(data), def.OriginalSize, data[:4])
			}
			chars := []rune(def.Chars)
			if names := len(strings.Fields(def.Diff)) - 1; names != len(chars) || len(chars) > 224 || len(def.Cw) != 256 {
				t.Errorf("%s: %d names, %d characters, %d widths", def.File, names, len(chars), len(def.Cw))
			}
			if w != regular {
				continue
			}
			for _, r := range chars {
				if other := seen[r]; other != "" && r != 0 {
					t.Errorf("%q is in %s and in %s", r, other, p.family)
				}
				seen[r] = p.family
			}
		}
	}
	if _, ok := fonts().glyphs[missingMark]; !ok {
		t.Error("the mark for missing characters is missing")
	}
}

func TestParsePaper(t *testing.T) {
	for text, want := range map[string]Paper{"a4": A4, " A4 ": A4, "letter": Letter, "Letter": Letter} {
		if got, err := ParsePaper(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if _, err := ParsePaper("a5"); err == nil {
		t.Error("a5 is taken")
	}
}
