package main

import (
	"cmp"
	"fmt"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/pdfreport/kit"
)

func paperFlag() cli.Flag {
	return &cli.StringFlag{Name: "paper", Usage: "`PAPER` is a4 or letter (default: from the locale, else a4)"}
}

// paperOf returns the paper asked for, or that of the locale.
func paperOf(c *cli.Context) (kit.Paper, error) {
	if !c.IsSet("paper") {
		return localePaper(os.Getenv), nil
	}
	paper, err := kit.ParsePaper(c.String("paper"))
	if err != nil {
		return paper, usageError(fmt.Sprintf("--paper: %v", err))
	}
	return paper, nil
}

// letterCountries holds the countries whose offices use Letter paper.
// Source: Unicode CLDR, paper size by territory; from memory.
var letterCountries = map[string]bool{"US": true, "CA": true, "MX": true, "PH": true, "CL": true, "CO": true,
	"CR": true, "GT": true, "NI": true, "PA": true, "PR": true, "SV": true, "VE": true, "BZ": true}

// localePaper returns the paper of the locale's country, A4 if it has none.
func localePaper(getenv func(string) string) kit.Paper {
	locale := cmp.Or(getenv("LC_ALL"), getenv("LC_PAPER"), getenv("LANG"))
	locale, _, _ = strings.Cut(locale, ".")
	if _, country, ok := strings.Cut(locale, "_"); ok && letterCountries[strings.ToUpper(country)] {
		return kit.Letter
	}
	return kit.A4
}
