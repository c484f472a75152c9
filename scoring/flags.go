package scoring

// FlagCode names a remark on a score.
type FlagCode uint8

// The remarks.
const (
	noFlag FlagCode = iota
	FlagSeeClinician
	FlagRestingHigh
	FlagRestingLow
	FlagIndependence
	FlagOutsideLimits
	FlagErrorAssumed
	FlagEffortUnsaid
	FlagShuttleStart
	FlagMaxHRPredicted
	FlagNearTop
	FlagSexMissing
	FlagAgeMissing
	FlagNoTable
	FlagYoungestRow
	FlagLowerReading
	FlagTestsDiffer
	FlagStudiesDisagree
	FlagTrainedLow
	FlagHeartRateDrug
	FlagNoExercise
	FlagIndex
	FlagPatientsOnly
	FlagNotMaximal
	FlagThresholds
	FlagImpossibleLab
	FlagAttempt
	flagCount
)

// Severity orders remarks by what they ask of the reader.
type Severity uint8

// The severities.
const (
	Note      Severity = iota // good to know
	Caution                   // read the number with care
	Clinician                 // someone licensed should look first
)

// flagInfo declares each remark, with its short form for the sheet and the terminal.
// The page has fuller words in templates.
var flagInfo = [flagCount]struct {
	id       string
	severity Severity
	short    string
	source   string // key of the bibliography; empty where the equation's serves
}{
	FlagSeeClinician:    {"see-clinician", Clinician, "see a clinician before testing or hard exercise", ""},
	FlagRestingHigh:     {"resting-high", Clinician, "resting heart rate 100 or more: see a clinician before hard exercise", ""},
	FlagRestingLow:      {"resting-low", Caution, "resting heart rate below 50: common in trained people; with dizziness or fainting see a clinician", ""},
	FlagIndependence:    {"independence", Caution, "near or below the uptake that independent living asks for", ""},
	FlagOutsideLimits:   {"outside-limits", Caution, "outside the range of the test", ""},
	FlagErrorAssumed:    {"error-assumed", Note, "error not published: the likely range rests on an assumption", ""},
	FlagEffortUnsaid:    {"effort-unsaid", Note, "effort not given, so the run counts as all-out", ""},
	FlagShuttleStart:    {"shuttle-start", Note, "start speed of the shuttle recording assumed", ""},
	FlagMaxHRPredicted:  {"max-hr-predicted", Note, "maximum heart rate predicted from age", ""},
	FlagNearTop:         {"near-top", Note, "above 55 field tests run less true: a laboratory test tells more", ""},
	FlagSexMissing:      {"sex-missing", Note, "sex not given: both tables shown", ""},
	FlagAgeMissing:      {"age-missing", Caution, "age not given: no table can be used", ""},
	FlagNoTable:         {"no-table", Note, "no table for this age", ""},
	FlagYoungestRow:     {"youngest-row", Note, "read with ages 20 to 29, where the table begins", ""},
	FlagLowerReading:    {"lower-reading", Caution, "a result below its lower limit: the estimate may be too high", "italy2022"},
	FlagTestsDiffer:     {"tests-differ", Caution, "the tests of this person differ by more than their errors; a time may be misread, a pulse counted late or an effort not full", ""},
	FlagStudiesDisagree: {"studies-disagree", Caution, "studies disagree on this equation", ""},
	FlagTrainedLow:      {"trained-low", Note, "reads trained young people about 10 too low (one study)", "castropinero2009"},
	FlagHeartRateDrug:   {"heart-rate-drug", Caution, "a medicine that changes the heart rate: tests by pulse are not scored, and the resting heart rate tells little", ""},
	FlagNoExercise:      {"no-exercise", Caution, "no exercise test: a rough estimate from what else is known", ""},
	FlagIndex:           {"running-index", Note, "an index of running performance: an economical runner reads higher than a laboratory would measure", ""},
	FlagNotMaximal:      {"not-maximal", Caution, "the laboratory test may not have been a maximal one", ""},
	FlagThresholds:      {"thresholds", Caution, "the threshold heart rates do not fit together", ""},
	FlagImpossibleLab:   {"impossible-lab", Caution, "the laboratory values do not fit together", ""},
	FlagAttempt:         {"attempt", Note, "one of several attempts counts", ""},
	FlagPatientsOnly:    {"patients-only", Caution, "an equation made on patients with heart or lung disease", ""},
}

// ID is the remark's stable short name.
func (c FlagCode) ID() string { return flagInfo[c].id }

// Severity returns how grave the remark is.
func (c FlagCode) Severity() Severity { return flagInfo[c].severity }

// Source returns the key of what the remark rests on besides the equation; it may be
// empty.
func (c FlagCode) Source() string { return flagInfo[c].source }

// FlagCodes lists all remarks in the order of their declaration.
func FlagCodes() []FlagCode {
	var all []FlagCode
	for c := noFlag + 1; c < flagCount; c++ {
		all = append(all, c)
	}
	return all
}

// Flag is a remark on one score.
type Flag struct {
	Code   FlagCode
	Detail Said // what exactly, may be zero
}

// String is the short form for the sheet and the terminal.
func (f Flag) String() string {
	if f.Detail.IsZero() {
		return flagInfo[f.Code].short
	}
	return flagInfo[f.Code].short + " (" + f.Detail.String() + ")"
}
