// Package change tells whether a person, or a group, got fitter between two
// dates, or whether the tests say nothing about it.
//
// A change smaller than the error of the tests is no news. So every difference
// comes with its own standard error, from which follow the chance that it is
// real, the smallest change that counts, and the words: they go by the chance
// and never by the sign alone.
//
// # The error of a difference
//
// An equation is off about a person in two ways. Part of its error is the
// person's own: someone runs with little effort for their uptake, and the
// equation reads them too high, this season and the next. That part cancels in
// a difference. The rest belongs to the day: sleep, wind, pace, the will to go
// to the end. That part is there twice.
//
//   - Same test and same equation, and a study tells how far two tests of one
//     person come apart ([scoring.Retest]): that figure.
//   - Same test and same equation, and no study tells: the day's part of the
//     standard error of estimate, of both dates. The day's part is taken as a
//     quarter of the squared error ([DayShare]): an assumption. Its reason: where
//     both figures are published it is 0.17 (shuttle run, young), 0.18 (steady
//     1.5 miles), 0.27 (shuttle run, adults) and 0.28 (41 cm step, women) of the
//     squared error of estimate; a test holds that against the declarations.
//     Those repeats were days or weeks apart; over a season a course, a season's
//     weather and a scale differ more, so the range is a little wide for what
//     was measured and may still be narrow for what happens.
//   - Another test or another equation: the whole standard errors of both, for
//     nothing cancels that is known to be alike.
//
// What a maximum heart rate predicted from age is off by is the person's own and
// cancels too, as far as it moves both results alike; so does the penalty for
// being outside the ages of a study. The error of a line through several stages
// does not cancel.
//
// # The chance
//
// The difference is taken as normal around the true change, and nothing is
// presumed about that. The chance that the person really improved is then the
// normal distribution's share above nothing. A change is called real from
// [RealFrom] on, which is the two-sided 5 %: of a hundred people who did not
// change at all, five are told that they did.
//
// # What is not compared
//
// Maximum heart rate says nothing about fitness, so a change of it is not read.
// An estimate without an exercise test moves with body mass and age alone, so it
// is no evidence of a change. Readings of people who take a medicine that slows
// the heart are not compared by pulse.
package change
