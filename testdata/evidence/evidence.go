// Package evidence holds what scoring is checked against: published worked examples,
// points of published tables, and two sets of people with measured uptake.
package evidence

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

//go:embed equations.csv tables.csv men31.csv astrand1964.csv
var files embed.FS

// Status is how a figure is known.
type Status string

// The kinds of evidence; [Statuses] says what each means.
const (
	Seen       Status = "V"
	OneCopy    Status = "V1"
	Secondary  Status = "V2"
	Bracketed  Status = "V3"
	Computed   Status = "C"
	Own        Status = "own"
	FromMemory Status = "M"
	Practice   Status = "practice"
	Rejected   Status = "rejected"
)

// Meaning is a status and what it means.
type Meaning struct {
	Status  Status
	Meaning string
}

// Statuses lists what each status means.
var Statuses = []Meaning{
	{Seen, "seen in the publication or in its authors' own code"},
	{OneCopy, "seen in one secondary text"},
	{Secondary, "seen in secondary texts that agree"},
	{Bracketed, "bracketed from public survey codes"},
	{Computed, "computed from public-domain survey data"},
	{Own, "own arithmetic on a published equation"},
	{FromMemory, "from memory"},
	{Practice, "common practice, no source"},
	{Rejected, "in circulation and wrong: our value must differ"},
}

// Row is one worked example of an equation.
type Row struct {
	ID        string
	Equation  string  // ID of the equation
	Gives     string  // "VO2max", or the symbol of a step on the way to it
	Inputs    []Input // only those that enter what is given
	Expected  float64
	Unit      string  // of Expected
	Tolerance float64 // half the last digit printed, unless the note says otherwise
	Status    Status
	Source    string
	Note      string
}

// Input is one number of a worked example as printed: "body-mass", "130 lb".
type Input struct{ Name, Text string }

// TablePoint is one value and where a published table puts it.
type TablePoint struct {
	ID       string
	Table    string // ID of the table
	Part     string // edition and exercise mode, where a table has several
	Sex      string // "F", "M" or "any"
	Age      int    // whole years
	Value    float64
	Unit     string
	Expected string // name of a group or side of a line, or a percentile such as "P50"
	Status   Status
	Source   string
	Note     string
}

// Man is one row of the 31-men data.
type Man struct {
	Age                            float64 // years
	BodyMass                       float64 // kg
	VO2max                         float64 // measured, mL/kg/min
	RunTime                        float64 // 1.5 miles all-out, decimal minutes
	RestPulse, RunPulse, PeakPulse float64 // beats/min
}

// Equations returns the worked examples.
func Equations() ([]Row, error) {
	return read("equations.csv", func(r *record) Row {
		return Row{r.text("id"), r.text("equation"), r.text("gives"), r.inputs("inputs"), r.number("expected"), r.text("unit"),
			r.number("tolerance"), r.status("status"), r.text("source"), r.fields["note"]}
	})
}

// TablePoints returns the points of the published tables.
func TablePoints() ([]TablePoint, error) {
	return read("tables.csv", func(r *record) TablePoint {
		return TablePoint{r.text("id"), r.text("table"), r.fields["part"], r.text("sex"), int(r.number("age")), r.number("value"), r.text("unit"),
			r.text("expected"), r.status("status"), r.text("source"), r.fields["note"]}
	})
}

// Men31 returns the 31-men data.
func Men31() ([]Man, error) {
	return read("men31.csv", func(r *record) Man {
		return Man{r.number("Age"), r.number("Weight"), r.number("Oxygen"), r.number("RunTime"), r.number("RestPulse"), r.number("RunPulse"), r.number("MaxPulse")}
	})
}

// Stage is one measured stage of a cycle test; 0 is rest and a person's last is maximal.
type Stage struct {
	Subject, Sex string
	Age          float64 // years
	BodyMass     float64 // kg
	Stage        int
	Uptake       float64 // L/min
	Pulse        float64 // beats/min
}

// Astrand1964 returns the stages of 23 people, in order.
func Astrand1964() ([]Stage, error) {
	return read("astrand1964.csv", func(r *record) Stage {
		return Stage{r.text("subject"), r.text("sex"), r.number("age"), r.number("mass"), int(r.number("stage")), r.number("VO2"), r.number("HR")}
	})
}

// record is one line of a file by its columns, with the first fault found in it.
type record struct {
	fields map[string]string
	fault  error
}

func (r *record) fail(column, format string, args ...any) {
	if r.fault == nil {
		r.fault = fmt.Errorf("column %s: %s", column, fmt.Sprintf(format, args...))
	}
}

func (r *record) text(column string) string {
	if r.fields[column] == "" {
		r.fail(column, "empty")
	}
	return r.fields[column]
}

func (r *record) number(column string) float64 {
	x, err := strconv.ParseFloat(r.fields[column], 64)
	if err != nil {
		r.fail(column, "%q is not a number", r.fields[column])
	}
	return x
}

func (r *record) status(column string) Status {
	s := Status(r.fields[column])
	if !slices.ContainsFunc(Statuses, func(m Meaning) bool { return m.Status == s }) {
		r.fail(column, "unknown status %q", s)
	}
	return s
}

// inputs splits "time=12:45;body-mass=130 lb".
func (r *record) inputs(column string) []Input {
	var all []Input
	for part := range strings.SplitSeq(r.fields[column], ";") {
		name, text, _ := strings.Cut(part, "=")
		if name == "" || text == "" {
			r.fail(column, "%q is not name=value", part)
		}
		all = append(all, Input{name, text})
	}
	return all
}

func read[T any](name string, row func(*record) T) ([]T, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, fmt.Errorf("evidence: %w", err)
	}
	defer f.Close()
	return readFrom(f, name, row)
}

func readFrom[T any](in io.Reader, name string, row func(*record) T) ([]T, error) {
	reader := csv.NewReader(in)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("evidence: %s: %w", name, err)
	}
	var all []T
	for _, line := range lines[1:] {
		r := &record{fields: map[string]string{}}
		for i, column := range lines[0] {
			r.fields[column] = line[i]
		}
		all = append(all, row(r))
		if r.fault != nil {
			return nil, fmt.Errorf("evidence: %s, %s: %w", name, line[0], r.fault)
		}
	}
	return all, nil
}
