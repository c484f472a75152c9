package rowwords

import (
	"strings"
	"testing"
)

func TestIsSummary(t *testing.T) {
	for _, s := range []string{"Average", "TOTAL:", "TOTAL / AVG", "médiane", "Średnia", "平均", "Mittelwert", "Std. dev.", "Grand total", "rata-rata", "Highest", "Class average 7b",
		"Ø", "Durchschnitt 7b", "moyenne de la classe", "Promedio", "gemiddelde", "Medelvärde", "Gjennomsnitt", "Gennemsnit", "Average (girls)", "Fastest time", "Écart type", "Minimum", "Avg/Max"} {
		if is, sure := IsSummary(s); !is || !sure {
			t.Errorf("%q: %v, sure %v", s, is, sure)
		}
	}
	for _, s := range []string{"Max", "Min", "Mean", "Max Total", "Best", "Sum", "Media", "SD", "Low"} {
		if is, sure := IsSummary(s); !is || sure {
			t.Errorf("%q: %v, sure %v; it may be a name", s, is, sure)
		}
	}
	for _, s := range []string{"", "Ava Rage", "Sumner", "Totally Else", "Maximilian", "Summer", "Min-ji Kwon", "Max Ohm", "Meanwell, Ada", "Øyvind", "Ø Lind", "Best, Ada", "Grace Class"} {
		if is, _ := IsSummary(s); is {
			t.Errorf("%q counts as a summary", s)
		}
	}
	for w := range statistics {
		if is, _ := IsSummary(w); !is && !strings.Contains(w, "-") {
			t.Errorf("%q is not found", w)
		}
	}
}

func TestIsNote(t *testing.T) {
	for _, s := range []string{"A = absent", "Page 1 of 2", "Seite 2 von 3", "Date: 3 May", "Tested in the hall on 12/05/2026", "Class 7b", "7a", "Signature ________", "* shoes on", "Spring 2026"} {
		if !IsNote(s, false) {
			t.Errorf("%q is taken for a person", s)
		}
	}
	for _, s := range []string{"Tested by K Tarn", "Signature", "Unterschrift Lehrer", "Firma del profesor"} {
		if !IsNote(s, true) || IsNote(s, false) {
			t.Errorf("%q is a note only below the list", s)
		}
	}
	for _, s := range []string{"Ada Lind", "Ben van der Ohm", "Pupil 12", "Ana María de la Cruz Lind"} {
		if IsNote(s, false) {
			t.Errorf("%q is taken for a note", s)
		}
	}
}
