// Package change decides whether a person, or a group, got fitter between two dates,
// or whether the tests cannot say.
//
// Every difference has its own standard error. From it follow the chance that the
// change is real, the smallest change that counts, and the words, which go by the
// chance and never by the sign alone.
//
// # The error of a difference
//
// Part of an equation's error is the person's own: who runs with little effort for
// their uptake is read too high this season and the next, so that part cancels in a
// difference. The rest belongs to the day (sleep, wind, pace, will) and counts twice.
//
//   - Same test and equation, with a study of repeated tests ([scoring.Retest]):
//     its figure.
//   - Same test and equation, without a study: the day's part of the standard error
//     of estimate, of both dates. It is assumed to be a quarter of the squared error
//     ([DayShare]). Where both figures are known it is 0.11 (shuttle run, young),
//     0.14 (shuttle run, adults), 0.18 (steady 1.5 miles) and 0.27 (41 cm step,
//     women); a test compares them with the declarations. Those repeats were days or
//     weeks apart; a season brings more, such as another course or scale.
//   - Another test or equation: the whole standard errors of both.
//
// The error of a maximum heart rate predicted from age is the person's own and
// cancels as far as it moves both results alike. So does what is added outside a
// limit. The error of a line through stages does not cancel.
//
// # The chance
//
// The difference is normal around the true change, with no prior. The chance of a
// real rise is the normal distribution's share above zero. A change is real from
// [RealFrom] on, the two-sided 5 %: of a hundred unchanged people five are called
// changed.
//
// # What is not compared
//
// Maximum heart rates, because they say nothing about fitness. Estimates without
// exercise, because they move with body mass and age alone. Pulses of people who
// take a medicine that slows the heart.
package change
