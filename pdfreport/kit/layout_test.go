package kit

import (
	"bytes"
	"compress/zlib"
	"io"
	"strings"
	"testing"
)

func TestBreakLines(t *testing.T) {
	const width = 20.0
	texts := []string{
		"", "one", "a few **bold words** here and a *star", "no-break\u00a0space 12\u202fmL/kg/min",
		strings.Repeat("word ", 80), strings.Repeat("unbroken", 40), "**bold " + strings.Repeat("x", 90) + "** end", "**odd",
	}
	for _, text := range texts {
		var back strings.Builder
		for i, l := range BreakMarked(text, Regular, width) {
			var sum float64
			for _, s := range l.spans {
				sum += TextWidth(s.text, s.weight)
				back.WriteString(s.text)
			}
			if sum > width+1e-9 || sum-l.Width > 1e-9 || l.Width-sum > 1e-9 {
				t.Errorf("%.20q line %d: %.2f wide, said to be %.2f, at most %.2f", text, i, sum, l.Width, width)
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
	got := spans("a **b** c ** d", Regular)
	want := []span{{Regular, "a "}, {Bold, "b"}, {Regular, " c ** d"}}
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
	of := func(heights ...float64) []Part {
		var parts []Part
		for _, h := range heights {
			parts = append(parts, Part{Block: Space(h)})
		}
		return parts
	}
	early := of(300, 500, 100)
	early[2].Early = true
	tests := []struct {
		name  string
		parts []Part
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
			pages, gaps := Flow(tt.parts, 700, 700, BlockGap)
			if len(pages) != len(tt.want) {
				t.Fatalf("%d pages, want %d", len(pages), len(tt.want))
			}
			for i, page := range pages {
				if gaps[i] < BlockGap || gaps[i] > blockGapMost {
					t.Errorf("page %d: gap %.1f", i, gaps[i])
				}
				if len(page) != len(tt.want[i]) {
					t.Fatalf("page %d has %d parts, want %d", i, len(page), len(tt.want[i]))
				}
				for j, b := range page {
					if b.Height() != tt.want[i][j] {
						t.Errorf("page %d part %d is %.0f high, want %.0f", i, j, b.Height(), tt.want[i][j])
					}
				}
			}
		})
	}
}

// TestCut: only a text that is too long is cut.
func TestCut(t *testing.T) {
	if got := CutText("short", Regular, 50); got != "short" {
		t.Errorf("%q", got)
	}
	long := strings.Repeat("wide ", 20)
	got := CutText(long, Bold, 9)
	if w := TextWidth(got, Bold); w > 9 || w < 7 || !strings.HasSuffix(got, "…") || !strings.HasPrefix(long, strings.TrimSuffix(got, "…")) {
		t.Errorf("%q is %.1f wide", got, w)
	}
}

// TestFonts: every character is in one prepared font, and the files are whole.
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
			if w != Regular {
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
