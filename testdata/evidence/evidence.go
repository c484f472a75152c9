// Package evidence holds what scoring is checked against: published worked
// examples of the equations, points of the published tables, and a public data
// set of 31 men with a measured uptake. It is data only and knows nothing of
// how scores are made.
package evidence

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

//go:embed equations.csv tables.csv men31.csv
var files embed.FS

// Status says how a figure was come by.
type Status string

// The kinds of evidence.
const (
	Seen       Status = "V"        // seen in the publication or in its authors' own code
	OneCopy    Status = "V1"       // seen in one secondary text
	Secondary  Status = "V2"       // seen in secondary texts that agree
	Bracketed  Status = "V3"       // bracketed from public survey codes
	Computed   Status = "C"        // computed from public-domain survey data
	Own        Status = "own"      // own arithmetic on a published equation
	FromMemory Status = "M"        // recalled, not seen
	Practice   Status = "practice" // common practice, no source
	Rejected   Status = "rejected" // in circulation and wrong: our value must differ
)

// Statuses pairs each status with what it means, for listings.
var Statuses = []struct {
	Status  Status
	Meaning string
}{
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

// Equations reads the worked examples.
func Equations() ([]Row, error) {
	var rows []Row
	err := read("equations.csv", []string{"id", "equation", "gives", "inputs", "expected", "unit", "tolerance", "status", "source", "note"},
		func(r record) {
			rows = append(rows, Row{r.text(0), r.text(1), r.text(2), r.inputs(3), r.number(4), r.text(5), r.number(6), r.status(7), r.text(8), r.fields[9]})
		})
	return rows, err
}

// TablePoints reads the points of the published tables.
func TablePoints() ([]TablePoint, error) {
	var points []TablePoint
	err := read("tables.csv", []string{"id", "table", "part", "sex", "age", "value", "unit", "expected", "status", "source", "note"},
		func(r record) {
			points = append(points, TablePoint{r.text(0), r.text(1), r.fields[2], r.text(3), int(r.number(4)), r.number(5), r.text(6), r.text(7), r.status(8), r.text(9), r.fields[10]})
		})
	return points, err
}

// Men31 reads the 31-men data.
func Men31() ([]Man, error) {
	var men []Man
	err := read("men31.csv", []string{"Age", "Weight", "Oxygen", "RunTime", "RestPulse", "RunPulse", "MaxPulse"},
		func(r record) {
			men = append(men, Man{r.number(0), r.number(1), r.number(2), r.number(3), r.number(4), r.number(5), r.number(6)})
		})
	return men, err
}

// record is one line of a file; the first fault found in it is kept.
type record struct {
	columns, fields []string
	fault           *error
}

func (r record) fail(i int, format string, args ...any) {
	if *r.fault == nil {
		*r.fault = fmt.Errorf("column %s: "+format, append([]any{r.columns[i]}, args...)...)
	}
}

func (r record) text(i int) string {
	if r.fields[i] == "" {
		r.fail(i, "empty")
	}
	return r.fields[i]
}

func (r record) number(i int) float64 {
	x, err := strconv.ParseFloat(r.fields[i], 64)
	if err != nil {
		r.fail(i, "%q is not a number", r.fields[i])
	}
	return x
}

func (r record) status(i int) Status {
	s := Status(r.fields[i])
	for _, known := range Statuses {
		if known.Status == s {
			return s
		}
	}
	r.fail(i, "unknown status %q", s)
	return s
}

// inputs splits "time=12:45;body-mass=130 lb".
func (r record) inputs(i int) []Input {
	var all []Input
	for part := range strings.SplitSeq(r.fields[i], ";") {
		name, text, ok := strings.Cut(part, "=")
		if !ok || name == "" || text == "" {
			r.fail(i, "%q is not name=value", part)
			continue
		}
		all = append(all, Input{name, text})
	}
	return all
}

// read goes through a file line by line.
func read(name string, columns []string, row func(record)) error {
	f, err := files.Open(name)
	if err != nil {
		return fmt.Errorf("evidence: %w", err)
	}
	defer f.Close()
	return readFrom(f, name, columns, row)
}

func readFrom(in io.Reader, name string, columns []string, row func(record)) error {
	reader := csv.NewReader(in)
	reader.Comment = '#'
	for first := true; ; first = false {
		fields, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("evidence: %s: %w", name, err)
		}
		line, _ := reader.FieldPos(0)
		if first {
			if !slices.Equal(fields, columns) {
				return fmt.Errorf("evidence: %s, line %d: the columns are %q and should be %q", name, line, fields, columns)
			}
			continue
		}
		var fault error
		row(record{columns, fields, &fault})
		if fault != nil {
			return fmt.Errorf("evidence: %s, line %d: %w", name, line, fault)
		}
	}
}
