package person

import (
	"slices"
	"strings"

	"tenback/pdfreport/kit"
	"tenback/scoring/fieldtests"
)

// commonPractice is the bibliography's key for what has no source to list.
const commonPractice = "common"

// citing is a chapter that rests on literature.
type citing interface {
	// cites returns keys of the bibliography. They may be empty or repeat.
	cites() []string
}

type sourcesChapter struct{ *page }

// lay lists the literature that the page rests on.
func (c sourcesChapter) lay() kit.Block {
	p := c.page
	var citations, keys []string
	for _, ch := range []citing{testsChapter{p}, standingChapter{p}, olderChapter{p}, healthLineChapter{p}, restingChapter{p},
		nextChapter{p}, changeChapter{p}, trainingChapter{p}, labChapter{p}} {
		keys = append(keys, ch.cites()...)
	}
	for i, key := range append(keys, "who2020") {
		if key != "" && key != commonPractice && !slices.Contains(keys[:i], key) {
			citations = append(citations, fieldtests.Cite(key))
		}
	}
	look := kit.SourceFace
	if c.spares(spareSmallPrint) {
		look = look.At(kit.SizeFine)
	}
	return kit.Paragraphs("**"+c.Say("sources.heading", nil)+":** "+strings.Join(citations, " · "), look, c.Width)
}
