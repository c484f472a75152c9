package reference

import "testing"

func TestOrdinals(t *testing.T) {
	for x, want := range map[float64]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 52: "52nd", 93: "93rd", 97.5: "97.5th", 2.5: "2.5th"} {
		if got := Ordinal(x); got != want {
			t.Errorf("%v is written %q, want %q", x, got, want)
		}
	}
}

func TestPercentileInWords(t *testing.T) {
	for want, p := range map[string]Percentile{
		"31st":            {At: 30.6},
		"above the 95th":  {At: 95, Above: true},
		"below the 2.5th": {At: 2.5, Below: true},
	} {
		if got := p.String(); got != want {
			t.Errorf("%+v is written %q, want %q", p, got, want)
		}
	}
}
