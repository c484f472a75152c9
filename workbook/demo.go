package workbook

import (
	"fmt"
	"io"
	"time"

	"github.com/xuri/excelize/v2"

	"tenback/scoring"
	"tenback/workbook/grid"
)

// demoSheet is one sheet of the demonstration roster.
type demoSheet struct {
	name    string
	title   string // a line above the header; empty for none
	group   string
	setting Setting
	first   time.Time // test day of the first person
	people  []demoPerson
	// personal are the headers of what is known of everyone, as this
	// organiser wrote them, in the order of their sheet.
	personal []demoColumn
	mail     []demoColumn // how people are reached, at the right
	number   int          // of the first person
	paired   bool         // a Test and a Result column in place of a column per test
	// typesTimes tells that times were typed into cells without a format, so
	// that the spreadsheet took them for times of day.
	typesTimes bool
}

func demoSheets() []demoSheet {
	day := func(d int) time.Time { return time.Date(2026, time.May, d, 0, 0, 0, 0, time.UTC) }
	return []demoSheet{
		{name: "School 8B", title: "Quillhaven School, fitness week, class 8B", group: "8B", setting: School,
			first: day(11), number: 8201, people: demoPupils,
			personal: []demoColumn{numberColumn("Student ID"), nameColumn("Name"), groupColumn("Class"), sexColumn("Sex", "F", "M"),
				bornColumn("Date of birth"), testedColumn("Test date"), massColumn("Body mass (kg)", scoring.Kilograms),
				inputColumn("Stature (cm)", scoring.Stature, noColumn), inputColumn("Resting heart rate", scoring.RestingHR, messResting)},
			mail: []demoColumn{mailColumn("Guardian email", "families.quillhaven.example")}},
		{name: "Harbour office", group: "Harbour office", setting: Workplace, paired: true,
			first: day(18), number: 31, people: demoStaff,
			personal: []demoColumn{nameColumn("Name"), numberColumn("ID"), groupColumn("Department"), sexColumn("Gender", "female", "male"),
				bornColumn("DOB"), testedColumn("Test date"), massColumn("Weight (kg)", scoring.Kilograms),
				inputColumn("Height (cm)", scoring.Stature, noColumn), inputColumn("Resting HR", scoring.RestingHR, messResting)},
			mail: []demoColumn{mailColumn("Email", "harbour.quillhaven.example")}},
		{name: "Otter squad", title: "Otter running squad, first test of the season", group: "Otter squad", setting: Squad, typesTimes: true,
			first: day(23), people: demoRunners,
			personal: []demoColumn{nameColumn("Name"), sexColumn("Sex", "F", "M"), bornColumn("Date of birth"), testedColumn("Test date"),
				massColumn("Weight (lb)", scoring.Pounds), inputColumn("Resting pulse", scoring.RestingHR, messResting),
				paceColumn("Fixed pace (mph)"), inputColumn("Pulse at pace", scoring.PaceHR, noColumn)},
			mail: []demoColumn{mailColumn("Email", "otters.quillhaven.example"), mailColumn("Parent's email", "families.quillhaven.example")}},
	}
}

// WriteDemo writes the demonstration roster: the invented town of Quillhaven
// with a school class, an office and a running squad, every field test that is
// declared, and some rows that went wrong. It is the same every time.
func WriteDemo(w io.Writer) error {
	draw := newDemoDraw()
	sheets := demoSheets()
	rows := make([][]demoRow, len(sheets))
	for i, sheet := range sheets {
		var err error
		if rows[i], err = draw.rows(sheet); err != nil {
			return err
		}
	}
	return writeDemoSheets(w, "Quillhaven fitness week", "2026-05-29T12:00:00Z", sheets, rows)
}

// writeDemoSheets writes sheets of invented people as a workbook.
func writeDemoSheets(w io.Writer, title, created string, sheets []demoSheet, rows [][]demoRow) error {
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "tenback demo", Title: title,
		Description: "Invented people, for demonstration", Created: created, Modified: created}); err != nil {
		return err
	}
	for i, sheet := range sheets {
		if err := addSheet(f, i, sheet.name); err != nil {
			return err
		}
		if err := sheet.write(f, rows[i]); err != nil {
			return fmt.Errorf("sheet %q: %w", sheet.name, err)
		}
	}
	return f.Write(w)
}

// rows invents the sheet's people, a third of them on each of three days.
func (d *demoDraw) rows(sheet demoSheet) ([]demoRow, error) {
	suited := sheet.setting.tests()
	var rows []demoRow
	for i, p := range sheet.people {
		if p.group == "" {
			p.group = sheet.group
		}
		if sheet.setting == School && len(p.tests) == 0 {
			p.tests = []string{"shuttle-20-m"}
		}
		r, ok := d.row(p, sheet.first.AddDate(0, 0, 3*i/len(sheet.people)), suited)
		if !ok {
			return nil, fmt.Errorf("no result of a test was found for %s, %d years, uptake %.1f", p.name, p.age, float64(p.uptake))
		}
		r.number = sheet.number + i
		if sheet.setting == Squad {
			r.setPace(i)
		}
		rows = append(rows, r)
	}
	return rows, nil
}

func (s demoSheet) write(f *excelize.File, rows []demoRow) error {
	columns := s.columns(rows)
	head := 1
	if s.title != "" {
		head = 3
		if err := writeTitle(f, s.name, s.title); err != nil {
			return err
		}
	}
	if err := writeHeader(f, s.name, head, len(columns), func(i int) (string, float64) { return columns[i].header, columns[i].width }); err != nil {
		return err
	}
	styles := map[string]int{"": 0}
	for r := range rows {
		for c, column := range columns {
			is := column.value(&rows[r])
			if is.value == nil {
				continue
			}
			cell := grid.At(c+1, head+1+r)
			if err := f.SetCellValue(s.name, cell, is.value); err != nil {
				return err
			}
			style, ok := styles[is.format]
			if !ok {
				var err error
				if style, err = f.NewStyle(&excelize.Style{CustomNumFmt: &is.format}); err != nil {
					return err
				}
				styles[is.format] = style
			}
			if err := f.SetCellStyle(s.name, cell, cell, style); err != nil {
				return err
			}
		}
	}
	return nil
}
