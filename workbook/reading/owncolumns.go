package reading

import (
	"tenback/workbook/cell"
	"tenback/workbook/header"
	"tenback/workbook/ooxml"
	"tenback/workbook/result"
)

// ownColumns finds the result columns of an earlier run, and gives them the texts of
// the header row itself, which may be empty.
func (rd *reader) ownColumns(sheet string, texts []string, head []header.Row, at int) ([]string, map[int]string) {
	var below [][]ooxml.Cell
	for _, row := range head[at+1:] {
		below = append(below, row.Cells)
	}
	own := result.Own(head[at].Cells, below, rd.named[sheet])
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
