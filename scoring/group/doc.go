// Package group makes the organiser's summary of a roster: how many people are
// in which class or department, of which sex and age, how fit they are and what
// their hearts do at rest, in numbers that expose nobody.
//
// It says what may be printed and draws nothing: [Summarise] gives a [Summary]
// with tables and figures, and pages and sheets print that. A number that may
// not be printed is not in there.
//
// # The rule
//
// No count of fewer than five people is printed, nor any other number from
// which one could be worked out. (Five is a setting; it can't be less than
// three.) "Nobody" is such a count too: a class in which nobody is below the
// health line, or nobody above it, would tell something about every pupil in it.
//
// Leaving the small counts blank is not enough. If a table says that a
// department has 30 people and that 27 of them are men, everyone knows that
// three are women. So this is done instead.
//
// 1. Three sets of people. Adults with a place in the tables, people under 18
// with a side of the health line, and those without a place (no result, no age,
// and so on) are told of apart, and no table adds them up. A set of fewer than
// five is only said to be too small, which may mean that there is nobody. How
// many people there are in all three is printed only where it does not tell the
// size of a set that is too small. Otherwise one pupil without a result could
// be found by subtraction.
//
// 2. Small ones are taken together. The rows of a table are kept in their order
// (classes as in the roster, ages from young to old, groups from low to elite)
// and cut in the middle, each half in the middle again, and so on. A cut is
// made only if both sides have five people or more. Where it is not, the rows
// stay together as one: "High, Elite: 7", "50 and over: 9", "3a, 3b: 26". All
// rows add up to the total, and there is nothing left to subtract. Where a row
// is there only because someone is in it (a class, a decade, a test), one
// person more is asked for each further row that is taken together with it, so
// that none of them has to be small.
//
// 3. So in tables of two things, such as class and sex. Both counts of a row
// have to be five or more; if one is not, the row stays together with its
// neighbour. Only two things are ever counted against each other, the second
// of them has two sides only, and each thing is joined to the others in one
// chain: age with sex, sex with class, class with fitness. There is no table of
// fitness by sex, nor by age. With one, the tables would close to a ring, and
// three tables of a ring can tell together what none of them tells alone.
//
// 4. Shares are printed only beside their counts and the total they are shares
// of. They tell nothing more, however they are rounded.
//
// 5. Medians and quartiles. A median needs five people. Quartiles need ten
// (twice the smallest count, and never fewer than eight): among five people the
// quartiles are the values of the second and the fourth person, and the quarter
// below is one person. All are rounded to whole units, so that nobody finds
// their own 37.4 in them. And a figure is printed only if it falls in a part of
// the fitness table that is printed: where "High" and "Elite" had to be taken
// together, an upper quartile between the two would tell how many are in which.
// The same holds for the resting heart rate and its bands, and for a class or
// an age whose row in the fitness table had to be taken together with another.
// For a quartile by sex or age that fitness table is made in the same way and
// not printed. How many people a figure is of is printed only where that does
// not tell how many are missing.
//
// 6. Where all rows of a table would have to be taken together the table is
// withheld. That happens to a class of 30 in which two are below the line: that
// nearly all are above it can't be said without saying that very few are not.
//
// No name goes in, so none can come out, but for the names of classes or
// departments, which are printed as the roster has them. If someone takes the
// column with people's names for the one with their class, each "class" has one
// person, all are taken together and the table is withheld.
//
// # Why it holds
//
// Take any row that is taken together with others, and move its people to the
// others, or theirs to it. Nothing that is printed changes. So a reader can't
// tell whether it has nobody (or the one that a named class must have) or five
// and more. Because the tables make a chain, every such move in one of them fits
// with every such move in the others.
//
// A reader who also knows the rule knows that one of the two sides of a cut not
// made is small, but not which, nor how small: whether a cut is made depends on
// its two sides only, where it would be made on nothing that is secret, and any
// number from the fewest to four fits as well. The usual rule, which hides the
// smallest of the large counts beside a small one, does not have this property;
// the comment at split has an example. The tests take both sides: one reader who solves all
// that is printed as a system of equations, one who knows the rule and tries
// every roster there could be.
//
// # What it can't do
//
// It knows of one roster. Two summaries of nearly the same people, such as the
// day before and the day after someone joined, can be subtracted from each
// other: print one, or let several people change in between. It does not know
// what readers know already: who knows how many are in a department can count
// how many of them are not in the summary, and who knows all values of a class
// but one can find the last. A row of exactly five people tells each of these
// five about the four others a little. And where a whole class is far below or
// above a line, the median says so; it is there to say so.
package group
