package columns

import (
	"slices"

	"tenback/workbook/cell"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/result"
	"tenback/workbook/roster"
)

// ownColumns finds the result columns of an earlier run, and gives them the texts of
// the header row itself, which may be empty.
func (w *Workbook) ownColumns(sheet string, texts []string, head []header.Row, at int) ([]string, map[int]string) {
	var below [][]ooxml.Cell
	for _, row := range head[at+1:] {
		below = append(below, row.Cells)
	}
	own := result.Own(head[at].Cells, below, w.Named[sheet])
	if len(own) == 0 {
		return texts, nil
	}
	for col := range own {
		for len(texts) < col {
			texts = append(texts, "")
		}
		texts[col-1] = ""
	}
	for _, c := range head[at].Cells {
		if _, ours := own[c.Col]; ours && c.Kind == cell.Text {
			texts[c.Col-1] = cell.Label(c.Raw)
		}
	}
	return texts, own
}

// columnAnswers returns the answers about the columns of a sheet, without those
// that the option Columns overrides.
func (w *Workbook) columnAnswers(sheet string) []roster.ColumnAnswer {
	return slices.DeleteFunc(w.Answers.AboutColumns(sheet), func(a roster.ColumnAnswer) bool {
		return slices.ContainsFunc(w.OptionKeys, func(key string) bool { return key == heading.Key(a.Header) })
	})
}
