package heading

import "slices"

// startWords and finishWords are headers of the clock at the start and the finish
// of a run, by Key.
var (
	startWords  = []string{"start", "starttime", "timestart", "startzeit", "depart", "heuredepart", "salida", "partenza", "largada", "starttid", "старт"}
	finishWords = []string{"finish", "finishtime", "timefinish", "end", "endtime", "stop", "zielzeit", "ziel", "arrivee", "heurearrivee", "llegada", "meta", "arrivo", "chegada", "mal", "maltid", "финиш"}
)

// HeadsStart reports whether a header is that of the clock at the start of a run.
func HeadsStart(header string) bool {
	return slices.Contains(startWords, Key(withoutParentheses(header)))
}

// HeadsFinish reports whether a header is that of the clock at the finish.
func HeadsFinish(header string) bool {
	return slices.Contains(finishWords, Key(withoutParentheses(header)))
}
