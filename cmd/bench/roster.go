package main

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

//go:embed people.csv
var people string

// rosterCols is the number of columns of a roster, A to T: a name, an ID, those of
// people.csv, and remarks.
const rosterCols = 20

// names are the given and family names of each kind of roster. Names of the
// second kind need a font other than that of the page's words.
var names = map[string][2]string{
	"european": {
		"Ida Łucja Zoë Jiří Wren Søren Þórdís Çağla Aoife Maëlle Ștefan Zsófia Ieva Óscar Ελένη Никола Robin Halldóra Anneli Ümit",
		"Calloway Brzegowska Öztepe Třešňák Otterburn Åkjær Hafdal Kőhegyi Krūmiņa Peñalba Corbière Țepușel Sääsk Sluyse Ljósavík Καλογήρου Береговой Môr Skærbæk Kvist",
	},
	"other-script": {
		"Ελένη Γιώργος Δήμητρα Νίκος Στέλλα Θωμάς Οксана Тарас Никола Оксана Людмила Фёдор Ївга Жанна Юрій Щедра Иван Эдуард Ξένια Ψάλτης",
		"Καλογήρου Λιμανάκης Ποταμού Θαλασσινός Βράχου Δρόσος Причал Їжакович Береговой Річкова Щукин Ёлкина Юнга Жура Якорь Эльбов Ξυλούρη Φάρου Ψαράς Χώρα",
	},
}

// nameOf returns the name of person i, which no other of a kind has.
func nameOf(kind string, i int) string {
	part := func(column, n int) string {
		all := strings.Fields(names[kind][column])
		return all[n%len(all)]
	}
	name := part(0, i) + " " + part(1, i/20)
	if i >= 20*20 {
		name += "-" + part(1, i/400)
	}
	if i >= 20*20*20 {
		name = part(0, i/8000) + " " + name
	}
	return name
}

// writeRoster writes a roster of n people, with shared strings as spreadsheet
// programs write them.
func writeRoster(path, kind string, n int) error {
	rows, err := csv.NewReader(strings.NewReader(people)).ReadAll()
	if err != nil {
		return err
	}
	f := excelize.NewFile()
	defer f.Close()
	for i := range n + 1 {
		row, from, note := []any{"Name", "ID"}, 0, "Note"
		if i > 0 {
			row, from, note = []any{nameOf(kind, i-1), fmt.Sprintf("%06d", i)}, 1+(i-1)%(len(rows)-1), "remark"
		}
		for _, text := range rows[from] {
			row = append(row, typed(text))
		}
		for c := len(row); c < rosterCols; c++ {
			row = append(row, fmt.Sprintf("%s %d", note, (i*rosterCols+c)%9973))
		}
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &row); err != nil {
			return err
		}
	}
	return f.SaveAs(path)
}

// typed returns a cell as its kind: a number, a date or a text.
func typed(text string) any {
	if x, err := strconv.ParseFloat(text, 64); err == nil {
		return x
	}
	if day, err := time.Parse(time.DateOnly, text); err == nil {
		return day
	}
	return text
}
