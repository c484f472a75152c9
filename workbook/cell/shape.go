package cell

import "fmt"

var kindNames = [...]string{Blank: "blank", Number: "number", Text: "text", Bool: "true-or-false", Error: "error", ISODate: "date", Uncached: "formula without a value"}

func (k Kind) String() string { return kindNames[k] }

var classNames = [...]string{General: "", Plain: "decimals", PerCent: "percent", Date: "date", Clock: "clock", Stopwatch: "stopwatch", DayTime: "date and time", AsText: "text"}

// String returns in words what the format shows; empty for General.
func (f Format) String() string {
	switch {
	case f.Class == Plain && f.Zeros > 1:
		return fmt.Sprintf("%d digits", f.Zeros)
	case f.Class == Plain:
		return fmt.Sprintf("%d decimals", f.Decimals)
	case f.Class == Clock && f.Seconds:
		return "clock with seconds"
	}
	return classNames[f.Class]
}
