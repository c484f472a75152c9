package main

import (
	"cmp"
	"strings"

	"tenback/pdfreport"
)

// letterCountries are the countries whose offices use Letter paper.
// Source: Unicode CLDR, paper size by territory; from memory.
var letterCountries = map[string]bool{"US": true, "CA": true, "MX": true, "PH": true, "CL": true, "CO": true,
	"CR": true, "GT": true, "NI": true, "PA": true, "PR": true, "SV": true, "VE": true, "BZ": true}

// localePaper chooses the paper from the environment's locale: A4 unless its
// country uses Letter.
func localePaper(getenv func(string) string) pdfreport.Paper {
	locale := cmp.Or(getenv("LC_ALL"), getenv("LC_PAPER"), getenv("LANG"))
	locale, _, _ = strings.Cut(locale, ".")
	if _, country, ok := strings.Cut(locale, "_"); ok && letterCountries[strings.ToUpper(country)] {
		return pdfreport.Letter
	}
	return pdfreport.A4
}
