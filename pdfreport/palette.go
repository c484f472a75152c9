package pdfreport

// colour is red, green and blue, 0 to 255 each.
type colour struct{ r, g, b int }

// The palette: ink on paper, one family of petrol from light to dark for
// amounts, and copper for the reader. Copper and petrol differ in hue for
// every kind of colour vision and in lightness as well; a test simulates the
// three kinds of colour blindness and measures the contrast of all text.
// Nothing is told by colour alone: groups carry their names, the reader's
// place is a diamond, what is reached has a tick.
var (
	ink       = colour{34, 38, 43}
	soft      = colour{84, 92, 100}   // second-rank text
	hairline  = colour{196, 203, 207} // rules and ticks
	paper     = colour{255, 255, 255}
	mist      = colour{243, 246, 247} // fields behind text
	petrol    = colour{12, 74, 88}    // headings
	copper    = colour{158, 72, 20}   // the reader
	copperTwo = colour{246, 226, 211} // the reader's likely range
)

// groupTones are the five groups from low to high.
var groupTones = [...]colour{{229, 238, 240}, {186, 212, 218}, {131, 176, 186}, {66, 128, 143}, {15, 78, 93}}

// The type sizes, in points: two for reading, one for headings, and two for
// display; the finest is for sources where a page is short of room. Leading is
// the distance from line to line as a share of the size.
const (
	sizeFine    = 6.7
	sizeSmall   = 7.6
	sizeBody    = 9.2
	sizeHeading = 12.5
	sizeName    = 21.0
	sizeNumber  = 46.0
	leading     = 1.36

	denseLeading = 1.2
)

// The grid, in points.
const (
	marginSide   = 48.0
	marginTop    = 40.0
	marginBottom = 42.0 // above it nothing but the foot
	gutter       = 18.0
	blockGap     = 13.0 // between blocks at least
	blockGapMost = 27.0 // and at most, where a page has room
	closeGap     = 10.0 // where a little room is missing
	tightGap     = 7.0  // where there is too much to say
)
