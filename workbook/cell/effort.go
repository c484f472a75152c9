package cell

import (
	"strings"

	"tenback/scoring"
)

const effortFix = "type all-out or steady"

var efforts = func() map[string]float64 {
	all := map[string]float64{}
	for _, w := range strings.Split("all-out,all out,allout,max,maximal,maximum,race,full,full effort,hard as possible,maximale,maximaal,maximalt,maksymalny,maximo,massimo,ausbelastung,vollgas,a fond,максимум,максимальный,全力,전력", ",") {
		all[w] = scoring.EffortAllOut
	}
	for _, w := range strings.Split("steady,submax,submaximal,sub-max,sub-maximal,even,even pace,easy,jog,jogging,moderate,comfortable,locker,submaximale,submaximaal,constante,gleichmassig,ruhig,ровный,匀速", ",") {
		all[w] = scoring.EffortSteady
	}
	return all
}()

// ParseEffort reads scoring.EffortAllOut or scoring.EffortSteady.
func ParseEffort(r Raw) (float64, *Doubt) {
	if d := r.unreadable(effortFix); d != nil {
		return 0, d
	}
	if e, ok := efforts[Fold(r.Text)]; ok && r.Kind == Text {
		return e, nil
	}
	return 0, doubt(effortFix, "this is not known as an effort")
}

// Label reads a text that names something, such as a person, a class or a
// number that is a name: leading zeros that the format shows are kept.
func Label(r Raw) string {
	switch r.Kind {
	case Error, Uncached:
		return ""
	case Number:
		return numberLabel(r)
	}
	return strings.Join(strings.Fields(strings.ToValidUTF8(r.Text, "�")), " ")
}

func numberLabel(r Raw) string {
	x, d := storedNumber(r)
	if d != nil || x > 1e15 || x < -1e15 {
		return r.Text
	}
	s := trim(x)
	if whole, decimals, _ := strings.Cut(s, "."); decimals == "" && x >= 0 && r.Format.Class == Plain {
		return strings.Repeat("0", max(0, int(r.Format.Zeros)-len(whole))) + whole
	}
	return s
}
