package catalogue

import (
	"fmt"
	"strings"

	"tenback/cmd/internal/terminal"
	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/scoring/reference"
)

// items lists lines under dashes.
func items(lines []string) string {
	var out strings.Builder
	terminal.Section(&out, "", lines)
	return strings.TrimLeft(out.String(), "\n")
}

// StopSigns lists when a test ends at once.
func StopSigns() string { return items(scoring.StopSigns()) }

// ScreenFirst lists what to ask before any test, and what holds by how hard it is.
func ScreenFirst() string {
	all := scoring.ScreenFirst()
	for _, e := range scoring.Exertions() {
		all = append(all, e.Caution())
	}
	return items(all)
}

// PersonalInputs lists the inputs about a person, as opposed to a test.
func PersonalInputs() string {
	var out strings.Builder
	for in := range scoring.InputCount {
		info := in.Info()
		if !info.Personal || in == scoring.Age {
			continue
		}
		head := info.Name
		if unit := info.Unit.String(); !info.YesNo && in != scoring.SexInput && unit != "" {
			head += " (" + unit + ")"
		}
		fmt.Fprintf(&out, "  %s\n%s\n", head, terminal.Wrap(info.Meaning, "      "))
	}
	return out.String()
}

// ForWhom lists whom each test suits.
func ForWhom() string {
	var out strings.Builder
	for _, t := range fieldtests.All() {
		if !t.Fallback {
			fmt.Fprintf(&out, "%s (%s)\n%s\n\n", t.Name, t.ID, terminal.Wrap(t.Suits, "  "))
		}
	}
	return out.String()
}

// Choices lists, for each test, what reads it unasked and why.
func Choices() string {
	var out strings.Builder
	for _, t := range fieldtests.All() {
		if t.Choice == "" {
			continue
		}
		fmt.Fprintln(&out, t.Name)
		for _, e := range t.Equations {
			if !e.Choice {
				fmt.Fprintln(&out, terminal.Wrap(fmt.Sprintf("%s; ages %s; %s", e.Name, e.Ages, e.Error), "  "))
			}
		}
		fmt.Fprintf(&out, "%s\n\n", terminal.Wrap(t.Choice, "  "))
	}
	return out.String()
}

// AdultTables lists the tables that adults can be read against.
func AdultTables() string {
	var all []string
	for _, t := range reference.AdultTables {
		all = append(all, t.ID)
	}
	return strings.Join(all, ", ")
}

// YouthTables lists the tables of health lines.
func YouthTables() string {
	var all []string
	for _, t := range reference.YouthTables {
		all = append(all, t.ID)
	}
	return strings.Join(all, ", ")
}
