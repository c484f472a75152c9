package workbook

import (
	"testing"

	"tenback/workbook/people"
)

// How people can be reached is taken from all rows and lists that are about
// them, and two cells that differ are never chosen between in silence.
func TestContact(t *testing.T) {
	roster, err := openBook(buildBook(t, nil,
		sheetOf{"Class", [][]any{
			{"ID", "Name", "E-Mail", "Correo del tutor", "Passwort", "1.5 mile run", "VO2max (mL/kg/min)", "Likely low", "Likely high", "Report"},
			{"1", "Ada Lind", "ada@river.example", nil, 1234567, "11:30", 40, 35, 45, "Ada Lind.pdf"},
			{"2", "Ben Ohm", nil, "pa@ohm.example", nil, "12:30", 40, 35, 45, "Ben Ohm.pdf"},
			{"3", "Cyd Rue", "cyd@rue.example", nil, day(2010, 5, 1), "12:30"},
			{nil, "Dee Fen", nil, nil, " river  bank ", "12:30"},
		}},
		sheetOf{"Contacts", [][]any{
			{"ID", "Email", "Parent email", "Father's email"},
			{"2", "ben@ohm.example", "ma@ohm.example", nil},
			{"1", "ada@river.example", "ma@lind.example", "pa@lind.example"},
		}},
		sheetOf{"Teachers", [][]any{{"ID", "Name", "Email", "Parent email"}, {nil, "Cyd Rue", "c.rue@school.example", "x@school.example"}, {"9", "Dee Fen", "d.fen@school.example", nil}}},
	), ReadOptions{Today: afterAll.Today})
	if err != nil {
		t.Fatal(err)
	}
	visits := people.Visits(roster)
	if len(visits) != 4 {
		t.Fatalf("%d visits", len(visits))
	}
	for i, want := range []Contact{
		{Email: Typed{Text: "ada@river.example", Cell: "Class!C2"}, Guardian: Typed{Text: "ma@lind.example", Cell: "Contacts!C3", Other: "Contacts!D3"}, Password: Typed{Text: "1234567", Cell: "Class!E2"}},
		{Email: Typed{Text: "ben@ohm.example", Cell: "Contacts!B2"}, Guardian: Typed{Text: "pa@ohm.example", Cell: "Class!D3", Other: "Contacts!C2"}},
		{Email: Typed{Text: "cyd@rue.example", Cell: "Class!C4"}, Password: Typed{Text: "2010-05-01", Cell: "Class!E4", IsDate: true}},
		{Password: Typed{Text: "river  bank", Cell: "Class!E5"}},
	} {
		if got := visits[i].Row.Person.Reached(); got != want {
			t.Errorf("person %d: %+v, want %+v", i, got, want)
		}
	}
	for i, want := range []string{"Ada Lind.pdf", "Ben Ohm.pdf", "", ""} {
		if got := visits[i].Row.Report; got != want {
			t.Errorf("person %d: page %q, want %q", i, got, want)
		}
	}
}
