package columns

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// ageThenSex and sexThenAge match cells such as 34/F, "34 yrs, female" and M 52.
var (
	ageThenSex = cell.Pattern(`^\(?(\d{1,3}(?:[.,]\d+)?)(?: ?(?:(?:yrs?|years?|yo|y|ans?|anos?|anni|jahre|j|jaar|ar|lat|let|vuotta)\b\.?|лет|岁|歳|세))?[ /,;|·•()-]*(\p{L}+)[.)]?$`)
	sexThenAge = cell.Pattern(`^\(?(\p{L}+)[ /,;|·•().-]*(\d{1,3}(?:[.,]\d+)?)(?: ?(?:yrs?|years?|yo|y|ans?|anos?|anni|jahre|j|jaar|ar|lat|let|vuotta|лет|岁|歳|세))?[.)]?$`)
)

// ParseAgeSex splits a cell with an age and a sex. One of them may be missing;
// any other text is returned as the age.
func ParseAgeSex(r cell.Raw) (age, sex cell.Raw) {
	if r.Kind != cell.Text {
		return r, cell.Raw{}
	}
	text := func(s string) cell.Raw { return cell.Raw{Kind: cell.Text, Text: s} }
	s := cell.Fold(r.Text)
	if m := ageThenSex().FindStringSubmatch(s); m != nil {
		return text(m[1]), text(m[2])
	}
	if m := sexThenAge().FindStringSubmatch(s); m != nil {
		return text(m[2]), text(m[1])
	}
	if lone, doubt := (&cell.SexColumn{}).ParseSex(r); doubt == nil && lone != scoring.SexUnspecified {
		return cell.Raw{}, r
	}
	return r, cell.Raw{}
}

// SplitSexes makes a column of ages and sexes one of ages, and returns another one
// for the sexes, with its slot.
func (c *Column) SplitSexes(slot int, f *Facts) *Column {
	c.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.Age, Unit: scoring.Years}
	sexes := &Column{Column: c.Column, Slot: slot, known: c.known, told: c.told}
	sexes.Meaning = roster.Meaning{Role: roster.InputData, Input: scoring.SexInput}
	sexes.Sexes.ObserveHeader(c.known)
	sexes.Sexes.Codes = f.SexCodes
	return sexes
}
