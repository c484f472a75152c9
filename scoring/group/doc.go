// Package group makes the organiser's summary of a roster: how many people are in
// which class or department, of which sex and age, how fit they are and what their
// resting heart rates are, in numbers that expose no one.
//
// [Summarise] decides what may be printed and returns tables and figures. A number
// that may not be printed is not in them.
//
// # The rule
//
// No count of fewer than five people is printed, nor a number from which one could
// be worked out. Five is a setting of at least three. Zero is such a count too: a
// class with no one below the health line says something about every pupil in it.
//
// Leaving small counts blank is not enough: of 30 people, 27 of them men, three are
// women. So this is done instead.
//
// 1. Three sets of people are reported separately and never added up: adults with a
// place in the tables, people under 18 with a side of the health line, and those
// without a place. A set of fewer than five, perhaps empty, is only called too
// small. The total of all three is printed only where it does not give away the size
// of such a set.
//
// 2. Small rows are joined. A table's rows keep their order (classes as in the
// roster, ages from young to old, groups from low to elite). They are cut in two as
// near to the middle as both sides have five people, then each side likewise. Where
// no cut is possible the rows stay joined: "High, Elite: 7", "3a, 3b: 26". All rows
// add up to the total, so there is nothing to subtract. Where a row exists only
// because it has people (a class, a decade, a test), each further row in a joined
// one needs one person more, so that none of them has to be small.
//
// 3. So do tables of two variables, such as class and sex. Both counts of every row
// must be five or more, and a cut is made in the middle or not at all. The second
// variable has two halves only, and the variables form one chain: age with sex, sex
// with class, class with fitness. There is no table of fitness by sex or by age,
// because it would close a ring, and three tables of a ring can give away together
// what none does alone.
//
// 4. Shares are printed only beside their counts and the total. They add nothing.
//
// 5. A median needs five people. Quartiles need twice the smallest count, at least
// eight: among five people a quartile is one person's value. All are rounded to
// whole units, so that no one finds their own 37.4. A figure is left out if it says
// more than the tables: the lines between groups are published, and where a whole
// class has the same line, a median above it says that at most half are below. So
// each figure is tested against every line of every person in it. It must not bring
// the count of joined rows under five or a small one above zero. For a class, an age
// or a sex it must not say anything new about a line between two printed rows
// either, because such news can be added up. The number of people in a figure is
// printed only where it does not give away how many are missing.
//
// 6. A table whose rows would all be joined is withheld, such as that of a class of
// 30 with two below the line: to say that nearly all are above is to say that few
// are not.
//
// 7. Change since the last round of testing compares people tested in both rounds,
// each with themselves. Real rises and falls are a table like the others, by one
// variable. The mean change needs as many people as quartiles, with changes that
// differ, and has one decimal. The number of people who left is printed under the
// same rule; they are in no other number.
//
// The only names printed are those of classes or departments, as in the roster. If a
// column of people's names is read as the class, each class has one person, all are
// joined and the table is withheld.
//
// # Why it holds
//
// Take joined rows and move people from one to another, even all of them into one.
// Nothing printed changes, so a reader cannot know whether any row is empty or has
// five. In a table of two variables with known row totals, people change places in
// pairs instead, a woman of one class with a man of another, with at least five
// steps from the fewest to the most. Because the tables form a chain, every such
// move in one goes with every such move in the others.
//
// A reader who knows the rule knows that one of two joined sides is small, but not
// how small. A cut depends on what may be shown and never on which count is larger.
// The usual rule, hiding the smallest of the large counts beside a small one, can be
// reversed; see cut in variable.go.
//
// The tests attack it twice. One reader solves all printed tables and figures as one
// system of equations; the range of every hidden count must reach five and span as
// many values as a small count has. The other knows the rule and enumerates every
// small table that would print the same. The first does find hidden counts where
// only small ones are blank, and where figures are printed without care.
//
// # Limits
//
// Summaries of nearly the same people, such as a day before and after someone joined,
// can be subtracted. A [Release] holds the counts that a summary printed, and the next
// one of the round is refused where a sum or difference of them would break the rule.
// Quartiles are not held against each other. The rule does not cover what readers know
// already: who knows
// a department's size can count who is missing from the summary, and who knows all
// values of a class but one can find the last. A row of exactly five says a little
// to each of them about the other four. Where a whole class is far below or above a
// line, the median says so on purpose.
package group
