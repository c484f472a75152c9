package roster

// NameAfter names the sheets of an earlier workbook after its file, as in
// "[spring.xlsx]Squad".
func (r *Roster) NameAfter(file string) {
	named := func(sheet string) string { return "[" + file + "]" + sheet }
	for _, sheets := range [][]*Sheet{r.Sheets, r.Lists} {
		for _, s := range sheets {
			s.File, s.Name = file, named(s.Name)
			for i := range s.Rows {
				row := &s.Rows[i]
				row.Sheet = s.Name
				for j := range row.Problems {
					row.Problems[j].Sheet = named(row.Problems[j].Sheet)
				}
			}
		}
	}
	for i := range r.Problems {
		if r.Problems[i].Sheet != "" {
			r.Problems[i].Sheet = named(r.Problems[i].Sheet)
		}
	}
}
