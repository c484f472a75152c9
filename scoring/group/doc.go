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
// and cut in two as near to the middle as there is a place with five people or
// more on both sides, then each side likewise, and so on. Where there is no such
// place the rows stay together as one: "High, Elite: 7", "50 and over: 9",
// "3a, 3b: 26". All rows add up to the total, and there is nothing left to
// subtract. Where a row is there only because someone is in it (a class, a
// decade, a test), one person more is asked for each further row that is taken
// together with it, so that none of them has to be small.
//
// 3. So in tables of two things, such as class and sex. Here both counts of
// every row have to be five or more, and a cut is made in the middle or not at
// all. Only two things are counted against each other, the second of them in two
// halves only, and the things are joined in one chain: age with sex, sex with
// class, class with fitness. There is no table of fitness by sex, nor by age.
// With one, the tables would close to a ring, and three tables of a ring can
// tell together what none of them tells alone.
//
// 4. Shares are printed only beside their counts and the total they are shares
// of. They tell nothing more, however they are rounded.
//
// 5. Medians and quartiles. A median needs five people. Quartiles need ten
// (twice the smallest count, and never fewer than eight): among five people the
// quartiles are the values of the second and the fourth person, and the quarter
// below is one person. All are rounded to whole units, so that nobody finds
// their own 37.4 in them. And a figure is left out if the tables say less than
// it would: the lines between the groups are published, and where a whole class
// has the same line, a median above it says that at most half are below. So each
// figure is held against every line of every person it is of. It is not printed
// if it would bring the count of rows taken together down to fewer than five or
// a small one up from nobody; nor, for a class, an age or a sex, if it would
// tell anything new about a line that parts two printed rows, for such news can
// be added up. That is strict for a class, in which all are of one age, and
// rarely in the way of a department. How many people a figure is of is printed
// only where that does not tell how many are missing.
//
// 6. Where all rows of a table would have to be taken together the table is
// withheld. That happens to a class of 30 in which two are below the line: that
// nearly all are above it can't be said without saying that very few are not.
//
// 7. Change since the last round of testing. Only people who were tested in both
// are compared, each with themselves. Whose VO2max really rose or fell is a table
// like the others, by one thing. The mean change needs as many people as
// quartiles do, and changes that are not all alike; it has a tenth, for it is the
// mean of eight people or more and nobody's own. How many people have left is
// told if they are as many as a count must be; they are in no other number.
//
// No name goes in, so none can come out, but for the names of classes or
// departments, which are printed as the roster has them. If someone takes the
// column with people's names for the one with their class, each "class" has one
// person, all are taken together and the table is withheld.
//
// # Why it holds
//
// Take rows that were taken together and move people from one to another: to
// just one of them, say, so that it has all and the others nobody (or the one
// that a named class must have). Nothing that is printed changes. So a reader
// can't tell whether any of them has nobody or five and more. In a table of two
// things whose rows have known totals, people change places in pairs instead,
// a woman of one class with a man of another, and there are at least five steps
// from the fewest to the most. Because the tables make a chain, every such move
// in one of them goes with every such move in the others.
//
// A reader who also knows the rule knows that one of two sides that were not
// parted is small, but not how small. Where a cut is made depends on what may be
// shown, and never on which of several counts is the larger. The usual rule,
// which hides the smallest of the large counts beside a small one, can be
// reckoned back; the comment at cut in variable.go has an example.
//
// The tests take both sides. One reader puts all printed tables and figures into
// one system of equations and works out the range of every count that is not
// printed; for each it has to reach up to five and span at least as many values
// as a small count can have. The other knows the rule, goes through every table
// of a few rows there could be, and keeps those that would have been printed in
// the same way. The first of them does find hidden counts if only the small ones
// are blank, and if figures are printed without care: that is tested too.
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
