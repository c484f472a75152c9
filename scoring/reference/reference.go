// Package reference holds the published tables that a VO2max or a resting
// pulse is read against, and their look-up.
//
// Each table is one embedded CSV file in data/, headed by comment lines that
// state what it is, its unit, its source and how the values were checked.
// Ages are whole years lived on the test day; a row holds for age_min to
// age_max inclusive, and an age_max of 120 means "and over".
package reference

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed data/*.csv
var files embed.FS

// Sex says which of a table's two halves applies. The published tables know
// only two; Unspecified means that both are to be shown.
type Sex uint8

// The values of Sex.
const (
	Unspecified Sex = iota
	Female
	Male
)

func (s Sex) String() string {
	return [...]string{"not given", "female", "male"}[s]
}

// VO2 is oxygen uptake relative to body mass, in mL/kg/min.
type VO2 float64

// Tenths returns v as printed, with one decimal, so that a printed difference is that
// of the printed values.
func (v VO2) Tenths() VO2 { return VO2(math.Round(10*float64(v)) / 10) }

// MET is oxygen uptake in multiples of the resting rate taken by convention
// as 3.5 mL/kg/min.
type MET float64

// MLPerKgMinPerMET is the conventional resting uptake that defines the MET.
const MLPerKgMinPerMET = 3.5

// METs converts to multiples of resting uptake, without rounding.
func (v VO2) METs() MET { return MET(v / MLPerKgMinPerMET) }

// VO2 converts to mL/kg/min.
func (m MET) VO2() VO2 { return VO2(m * MLPerKgMinPerMET) }

// Table describes a published table for listings.
type Table struct {
	ID     string // short name, as shown by `tenback tables`
	Title  string // what the table holds
	Unit   string
	Source string // key into the bibliography of package scoring
	Status string // how the values were checked
	Notes  []string
	// ShownOnly marks a table that no score is read against.
	ShownOnly bool
	file      string
}

// Ages is a range of whole years lived, both ends included.
type Ages struct{ Min, Max int }

// openEnd is the age_max of a row without an upper end.
const openEnd = 120

// Contains reports whether a person of that many whole years is in the range.
func (a Ages) Contains(years int) bool { return a.Min <= years && years <= a.Max }

// IsOpen reports whether the range has no upper end.
func (a Ages) IsOpen() bool { return a.Max >= openEnd }

func (a Ages) String() string {
	if a.IsOpen() {
		return fmt.Sprintf("%d and over", a.Min)
	}
	return fmt.Sprintf("%d–%d", a.Min, a.Max)
}

// WholeYears returns the number of birthdays, by which the tables are keyed.
func WholeYears(age float64) int { return int(math.Floor(age)) }

// record gives typed access to one CSV row.
type record struct {
	table  string
	fields map[string]string
}

func (r record) text(column string) string {
	s, ok := r.fields[column]
	if !ok {
		panic(fmt.Sprintf("reference: %s has no column %s", r.table, column))
	}
	return s
}

func (r record) number(column string) float64 {
	x, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil {
		panic(fmt.Sprintf("reference: %s: column %s: %v", r.table, column, err))
	}
	return x
}

func (r record) ages() Ages {
	return Ages{int(r.number("age_min")), int(r.number("age_max"))}
}

func (r record) sex() Sex {
	switch r.text("sex") {
	case "F":
		return Female
	case "M":
		return Male
	}
	panic(fmt.Sprintf("reference: %s: sex %q", r.table, r.text("sex")))
}

// load reads an embedded table. A damaged one panics; a test loads them all.
func load(name string) (records []record, head map[string]string) {
	data, rows := read(name)
	head = map[string]string{}
	for line := range strings.Lines(string(data)) {
		comment, ok := strings.CutPrefix(line, "# ")
		if !ok {
			break
		}
		key, value, _ := strings.Cut(strings.TrimSpace(comment), ": ")
		head[key] = value
	}
	for _, row := range rows[1:] {
		fields := make(map[string]string, len(row))
		for i, column := range rows[0] {
			fields[column] = row[i]
		}
		records = append(records, record{name, fields})
	}
	return records, head
}

// read returns an embedded file and its rows, header first.
func read(name string) (data []byte, rows [][]string) {
	data, err := files.ReadFile("data/" + name)
	if err != nil {
		panic("reference: " + err.Error())
	}
	reader := csv.NewReader(bytes.NewReader(data))
	reader.Comment = '#'
	if rows, err = reader.ReadAll(); err != nil {
		panic(fmt.Sprintf("reference: %s: %v", name, err))
	}
	return data, rows
}

// describe fills a Table from the head of its file.
func describe(id, file string, notes ...string) Table {
	_, head := load(file)
	source, _, _ := strings.Cut(head["source"], ",")
	source, _, _ = strings.Cut(source, " ") // a remark may follow the key
	return Table{ID: id, Title: head["table"], Unit: head["unit"], Source: source,
		Status: head["status"], Notes: notes, file: file}
}

// The tables that are only shown, and those read by more than one look-up.
const (
	almeidaFile      = "adult_fifths_almeida2019.csv"
	nhanesFile       = "vo2max_nhanes0104.csv"
	meansFile        = "means_loe2013.csv"
	run15File        = "run_1p5_mile_nysp.csv"
	run12File        = "run_12_minute_classes.csv"
	youthMileFile    = "youth_mile_us1985.csv"
	riskFile         = "resting_rate_risk.csv"
	usafFile         = "run_shuttle_usaf.csv"
	restingMeansFile = "resting_rate_means.csv"
	paraplegiaFile   = "paraplegia_simmons2014.csv"
)

// Tables lists every published table, in the order they are used.
func Tables() []Table {
	return []Table{
		describe("friend-percentiles", friendFile,
			"the default for adults: friend-2022-treadmill, and friend-2022-cycle for tests on a cycle; also friend-2015-treadmill, friend-2017-cycle",
			"measured with gas analysis in US laboratories; people without cardiovascular disease",
			"the 2022 edition is the selection with RER of at least 1.10; ages 80-89 rest on few tests",
			"at 18 and 19 the row of 20 to 29 serves"),
		describe("adult-groups", groupsFile,
			"an adult table, by choice only: METs by the treadmill stage reached read 15 to 25% above measured uptake",
			"groups are decided in METs rounded to one decimal, as the table is printed",
			"patients referred for treadmill testing; uptake estimated from the stage reached, not measured",
			"whole-number charts in circulation round the upper limits up and so ask for up to 1.2 mL/kg/min more"),
		describe("almeida-2019", almeidaFile, "an adult table in fifths"),
		describe("nhanes-2001-2004", nhanesFile, "an adult table in fifths for 20 to 49; percentiles of the young are not shown to them: no ranks under 18"),
		shown("means-loe2013", meansFile, "healthy volunteers, well above other tables"),
		describe("youth-health-lines", youthFile,
			"a line for health risk in a population, not a rank and not a diagnosis",
			"the default is ruiz2016; the others are chosen with the setting Youth table"),
		describe("resting-rate", restingFile,
			"30-second pulse counted twice, seated five minutes; pregnancy excluded, illness and drugs not excluded"),
		shown("resting-rate-risk", riskFile, "risk in large groups says little about one person"),
		shown("resting-rate-means", restingMeansFile, "published means, which the percentiles used here agree with within 1 beat for adults"),
		shown("run-shuttle-points", usafFile, "ties a run time to a shuttle count; for men under 25 only"),
		shown("run-1.5-mile-times", run15File),
		shown("run-12-minute-classes", run12File, "pages credit Cooper 1968, which has no such table"),
		shown("youth-mile-times", youthMileFile, "no ranks under 18"),
		shown("paraplegia", paraplegiaFile, "no published table adjusts for disability, so tenback gives the value and no group"),
	}
}

// shown describes a table that is only shown.
func shown(id, file string, notes ...string) Table {
	t := describe(id, file, notes...)
	t.ShownOnly = true
	return t
}

// Edition marks the state of the table: the first eight hexadecimal digits of
// the SHA-256 of its file. Answers may differ only where the marks do.
func (t Table) Edition() string {
	data, _ := read(t.file)
	return fmt.Sprintf("%x", sha256.Sum256(data))[:8]
}

// Rows returns a table's CSV rows, header first, for printing.
func (t Table) Rows() [][]string {
	_, rows := read(t.file)
	return rows
}
