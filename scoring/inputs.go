package scoring

import (
	"strconv"
	"strings"
)

// Input names one thing that can be known of a person or of a test done.
// Every roster column that feeds a score is one of these.
type Input uint8

// The inputs. Those from Time on belong to a test, the others to the person.
const (
	SexInput Input = iota
	Age
	BodyMass
	Stature
	RestingHR
	MaxHR
	HeartRateDrug
	KnownDisease
	Symptoms
	Pregnant
	Cleared
	Consent
	Inactive
	Asthma
	Insulin
	RecentIllness
	FamilySuddenDeath
	SickleCellTrait
	RecentOperation
	SystolicBP
	DiastolicBP
	Checked
	ActivityRating
	ActivityLevel
	ActivityIndex
	BodyFat
	Waist
	PaceSpeed
	PaceHR

	Time
	Distance
	ShuttleLevel
	ShuttleInLevel
	ShuttleLaps
	ShuttleSpeed
	ShuttleStart
	ExerciseHR
	RecoveryHR
	Effort
	BenchHeight
	StepRate
	StageTime
	Power
	BeltSpeed
	Grade
	Gait
	StageHR2
	StageHR3
	StageHR4
	StepRate2
	StepRate3
	StepRate4
	Power2
	Power3
	Power4
	BeltSpeed2
	BeltSpeed3
	BeltSpeed4
	Grade2
	Grade3
	Grade4
	StepsInPlace
	MeasuredVO2
	MeasuredVO2Abs
	Threshold1HR
	Threshold2HR
	MaxVentilation
	ExchangeRatio
	StrokeVolume
	CardiacOutput
	OxygenDifference
	InputCount // how many there are
)

// Codes of effort (all-out, or steady below maximum), gait and answers.
const (
	EffortSteady = 0
	EffortAllOut = 1
	GaitWalk     = 0
	GaitRun      = 1
	No           = 0
	Yes          = 1
	// Unclear is an answer that is neither; see [Entry.Says]. It lies between the two,
	// and so within the bounds of the input.
	Unclear = 0.5
)

// InputInfo describes an input: what it is, how it is stored, and the bounds
// outside which a value must be a slip of the hand.
type InputInfo struct {
	ID       string // stable short name
	Name     string // for people, lower case
	Unit     Unit   // the unit stored
	Min, Max float64
	Meaning  string // one sentence for a cell comment or a guide
	Personal bool   // known of the person, whatever the test
	YesNo    bool   // answered with yes or no
}

var inputs = [InputCount]InputInfo{
	SexInput:  {"sex", "sex", MaleOne, 0, 1, "Female or male as the published tables use the words. May be left empty: then both tables are shown and equations that need it are not used.", true, false},
	Age:       {"age", "age", Years, 5, 110, "Age on the day of the test. A date of birth is better: the age is then worked out.", true, false},
	BodyMass:  {"body-mass", "body mass", Kilograms, 12, 300, "Body mass without shoes.", true, false},
	Stature:   {"stature", "stature", Centimetres, 80, 230, "Standing height without shoes.", true, false},
	RestingHR: {"resting-hr", "resting heart rate", BeatsPerMinute, 25, 150, "Beats in a minute after five quiet minutes seated, best in the morning.", true, false},
	MaxHR:     {"max-hr", "measured maximum heart rate", BeatsPerMinute, 100, 230, "The highest heart rate really seen in an all-out effort. Leave empty if unknown; it is then predicted from age.", true, false},

	HeartRateDrug: {"heart-rate-drug", "medicine that slows the heart", NoUnit, No, Yes, "Yes for a beta-blocker or another medicine that changes the heart rate.", true, true},
	KnownDisease:  {"known-disease", "known heart, metabolic or kidney disease", NoUnit, No, Yes, "Yes if a doctor has said so.", true, true},
	Symptoms:      {"symptoms", "symptoms", NoUnit, No, Yes, "Yes for chest pain, fainting, unusual breathlessness or palpitations.", true, true},
	Pregnant:      {"pregnant", "pregnancy", NoUnit, No, Yes, "Yes if pregnant.", true, true},
	Cleared:       {"cleared", "cleared by a clinician", NoUnit, No, Yes, "Yes if a clinician has agreed to this test.", true, true},
	Consent:       {"consent", "consent", NoUnit, No, Yes, "Yes if the person, or a parent of a minor, has agreed to be tested and to get a page.", true, true},
	Inactive:      {"inactive", "physically inactive", NoUnit, No, Yes, "Yes for less than 30 minutes of moderate exercise on three days a week in the last three months.", true, true},
	Asthma:        {"asthma", "asthma", NoUnit, No, Yes, "Yes for asthma or an inhaler, also one used only before sport.", true, true},
	Insulin:       {"insulin", "diabetes treated with insulin", NoUnit, No, Yes, "Yes if insulin is injected or pumped.", true, true},
	RecentIllness: {"recent-illness", "recent chest or viral illness", NoUnit, No, Yes, "Yes for fever, flu or a chest infection in the last two weeks.", true, true},

	FamilySuddenDeath: {"family-sudden-death", "sudden death in the family", NoUnit, No, Yes, "Yes if a close relative died suddenly, or of the heart, before 50.", true, true},
	SickleCellTrait:   {"sickle-cell-trait", "sickle-cell trait", NoUnit, No, Yes, "Yes if a blood test showed it.", true, true},
	RecentOperation:   {"recent-operation", "recent operation, concussion or seizure", NoUnit, No, Yes, "Yes for an operation, a blow to the head or a seizure in the last three months, or for an illness that is being treated.", true, true},
	SystolicBP:        {"systolic-bp", "systolic blood pressure", MillimetresOfMercury, 70, 260, "Upper value after five quiet minutes seated; both values may stand in one cell, such as 128/82.", true, false},
	DiastolicBP:       {"diastolic-bp", "diastolic blood pressure", MillimetresOfMercury, 35, 160, "Lower value after five quiet minutes seated.", true, false},

	Checked: {"checked", "values checked", NoUnit, No, Yes, "Yes if somebody checked the odd values of the row and they are right as they are.", true, true},

	ActivityRating: {"activity-rating", "activity rating", NoUnit, 0, 7, "Physical activity of the last month on the 0 to 7 rating of Jackson 1990: 0 avoids walking, 7 runs more than 10 miles a week.", true, false},
	ActivityLevel:  {"activity-level", "activity level", Levels, 1, 5, "Usual activity in five steps as in Jurca 2005: 1 inactive, 5 more than three hours of brisk exercise a week.", true, false},
	ActivityIndex:  {"activity-index", "activity index", NoUnit, 0, 15, "The index of Nes 2011 from how often, how long and how hard; printed versions differ, so take it from the study's own form.", true, false},

	BodyFat:   {"body-fat", "body fat", Percent, 3, 60, "Body fat in percent, from skinfolds or another method.", true, false},
	Waist:     {"waist", "waist", Centimetres, 40, 200, "Waist, measured halfway between the lowest rib and the hip bone.", true, false},
	PaceSpeed: {"pace-speed", "fixed pace", KmPerHour, 2, 25, "A speed that is held for a few minutes on every test day, to compare the heart rate at it.", true, false},
	PaceHR:    {"pace-hr", "heart rate at the fixed pace", BeatsPerMinute, 60, 220, "Heart rate in the last seconds at that speed.", true, false},

	Time:             {"time", "time", Seconds, 1, 8 * 3600, "Minutes and seconds, such as 11:30.", false, false},
	Distance:         {"distance", "distance", Metres, 50, 50000, "Distance covered.", false, false},
	ShuttleLevel:     {"shuttle-level", "shuttle level", Levels, 1, 21, "Last level finished, or level and shuttle with a dot, such as 7.10.", false, false},
	ShuttleInLevel:   {"shuttle-in-level", "shuttles done in the level", Laps, 0, 16, "Shuttles done in the last level.", false, false},
	ShuttleLaps:      {"shuttle-laps", "20 m laps", Laps, 1, 250, "All 20 m laps finished.", false, false},
	ShuttleSpeed:     {"shuttle-speed", "last shuttle speed", KmPerHour, 8, 18.5, "Speed of the last level finished.", false, false},
	ShuttleStart:     {"shuttle-start", "shuttle start speed", KmPerHour, 8, 8.5, "Speed of level 1 on your recording: 8.0 or 8.5 km/h.", false, false},
	ExerciseHR:       {"exercise-hr", "heart rate at the end of the exercise", BeatsPerMinute, 60, 230, "Heart rate in the last seconds of the exercise, by monitor or by a pulse count in the first ten seconds after.", false, false},
	RecoveryHR:       {"recovery-hr", "recovery heart rate", BeatsPerMinute, 50, 230, "Heart rate after the stepping, in beats a minute, counted when and how the test says.", false, false},
	Effort:           {"effort", "effort", NoUnit, EffortSteady, EffortAllOut, "Write all-out, or steady for an even pace that could be kept up.", false, false},
	BenchHeight:      {"bench-height", "bench height", Centimetres, 10, 60, "Height of the step or bench.", false, false},
	StepRate:         {"step-rate", "step cycles a minute", CyclesPerMinute, 8, 40, "Full cycles (up, up, down, down) a minute: a metronome at 96 gives 24.", false, false},
	StageTime:        {"stage-time", "minutes of the stage", Minutes, 1, 15, "How long the stage lasted.", false, false},
	Power:            {"power", "cycle power", Watts, 10, 600, "Watts held through the stage.", false, false},
	BeltSpeed:        {"belt-speed", "treadmill speed", KmPerHour, 2, 25, "Speed held through the stage.", false, false},
	Grade:            {"grade", "treadmill grade", Percent, 0, 25, "Slope in percent; 0 for level.", false, false},
	Gait:             {"gait", "walking or running", NoUnit, GaitWalk, GaitRun, "Write walk or run.", false, false},
	StageHR2:         {"stage-hr-2", "heart rate of stage 2", BeatsPerMinute, 60, 230, "Heart rate at the end of stage 2.", false, false},
	StageHR3:         {"stage-hr-3", "heart rate of stage 3", BeatsPerMinute, 60, 230, "Heart rate at the end of stage 3.", false, false},
	StageHR4:         {"stage-hr-4", "heart rate of stage 4", BeatsPerMinute, 60, 230, "Heart rate at the end of stage 4.", false, false},
	StepRate2:        {"step-rate-2", "step cycles a minute of stage 2", CyclesPerMinute, 8, 40, "Full cycles a minute in stage 2.", false, false},
	StepRate3:        {"step-rate-3", "step cycles a minute of stage 3", CyclesPerMinute, 8, 40, "Full cycles a minute in stage 3.", false, false},
	StepRate4:        {"step-rate-4", "step cycles a minute of stage 4", CyclesPerMinute, 8, 40, "Full cycles a minute in stage 4.", false, false},
	Power2:           {"power-2", "cycle power of stage 2", Watts, 10, 600, "Watts in stage 2.", false, false},
	Power3:           {"power-3", "cycle power of stage 3", Watts, 10, 600, "Watts in stage 3.", false, false},
	Power4:           {"power-4", "cycle power of stage 4", Watts, 10, 600, "Watts in stage 4.", false, false},
	BeltSpeed2:       {"belt-speed-2", "treadmill speed of stage 2", KmPerHour, 2, 25, "Speed in stage 2.", false, false},
	BeltSpeed3:       {"belt-speed-3", "treadmill speed of stage 3", KmPerHour, 2, 25, "Speed in stage 3.", false, false},
	BeltSpeed4:       {"belt-speed-4", "treadmill speed of stage 4", KmPerHour, 2, 25, "Speed in stage 4.", false, false},
	Grade2:           {"grade-2", "treadmill grade of stage 2", Percent, 0, 25, "Slope in stage 2.", false, false},
	Grade3:           {"grade-3", "treadmill grade of stage 3", Percent, 0, 25, "Slope in stage 3.", false, false},
	Grade4:           {"grade-4", "treadmill grade of stage 4", Percent, 0, 25, "Slope in stage 4.", false, false},
	StepsInPlace:     {"steps-in-place", "steps in place", Steps, 1, 250, "Times the right knee came up in two minutes.", false, false},
	MeasuredVO2:      {"measured-vo2max", "measured VO2max", MLPerKgMin, 8, 97, "From a laboratory test with gas analysis.", false, false},
	MeasuredVO2Abs:   {"measured-vo2max-abs", "measured VO2max", LPerMin, 0.4, 8, "From a laboratory test with gas analysis, not divided by body mass.", false, false},
	Threshold1HR:     {"threshold-1-hr", "heart rate at the first threshold", BeatsPerMinute, 60, 220, "First ventilatory or lactate threshold, from a laboratory test.", true, false},
	Threshold2HR:     {"threshold-2-hr", "heart rate at the second threshold", BeatsPerMinute, 70, 225, "Second ventilatory or lactate threshold, from a laboratory test.", true, false},
	MaxVentilation:   {"max-ventilation", "maximum ventilation", LitresOfAir, 20, 300, "Most air breathed in a minute, from a laboratory test.", true, false},
	ExchangeRatio:    {"respiratory-exchange-ratio", "respiratory exchange ratio", NoUnit, 0.6, 1.6, "Carbon dioxide given off over oxygen taken up, at the end of a laboratory test.", true, false},
	StrokeVolume:     {"stroke-volume", "stroke volume", Millilitres, 20, 250, "Blood pumped by one beat at maximum, from a laboratory or clinic.", true, false},
	CardiacOutput:    {"cardiac-output", "cardiac output", LitresOfBlood, 2, 45, "Blood pumped in a minute at maximum, from a laboratory or clinic.", true, false},
	OxygenDifference: {"oxygen-difference", "arteriovenous oxygen difference", MLPerLitre, 20, 220, "Oxygen that each litre of blood gives off, from a laboratory.", true, false},
}

// Info describes the input.
func (in Input) Info() InputInfo { return inputs[in] }

// Permits reports whether a yes to the question allows something, rather than being a
// danger: caution takes an unclear answer for a no.
func (in Input) Permits() bool { return in == Cleared || in == Consent || in == Checked }

func (in Input) String() string { return inputs[in].ID }

// stagesMost is the number of stages of a test that are known.
const stagesMost = 4

// Stage returns the input's stage in a test of several, by the end of its ID: 1 for
// the first and for what has no stage.
func (in Input) Stage() int {
	for stage := 2; stage <= stagesMost; stage++ {
		if strings.HasSuffix(inputs[in].ID, "-"+strconv.Itoa(stage)) {
			return stage
		}
	}
	return 1
}

// Values holds quantities, each in its input's own unit, and where they were read. A
// copy shares its values with the original: use only one of them.
type Values struct{ known []known }

type known struct {
	input     Input
	confirmed bool
	amount    float64
	cell      string
	text      string // as read; empty if it was not kept
}

// find returns what is known of an input; nil if nothing is.
func (v *Values) find(in Input) *known {
	for i := range v.known {
		if v.known[i].input == in {
			return &v.known[i]
		}
	}
	return nil
}

// Set stores a quantity, converted to the input's unit, and its cell address.
func (v *Values) Set(in Input, q Quantity, cell string) {
	k := known{input: in, amount: q.In(inputs[in].Unit), cell: cell}
	if had := v.find(in); had != nil {
		*had = k
		return
	}
	v.known = append(v.known, k)
}

func (v *Values) clip() { v.known = append([]known(nil), v.known...) }

// Get returns the quantity; ok is false where it is not known.
func (v *Values) Get(in Input) (q Quantity, ok bool) {
	if k := v.find(in); k != nil {
		return Quantity{k.amount, inputs[in].Unit}, true
	}
	return Quantity{}, false
}

// Has reports whether the input is known.
func (v *Values) Has(in Input) bool {
	_, ok := v.Get(in)
	return ok
}

// Cell returns the address that the value was read from; empty if not known.
func (v *Values) Cell(in Input) string {
	if k := v.find(in); k != nil {
		return k.cell
	}
	return ""
}

// CheckRange returns the problem of a quantity outside the input's bounds.
func (in Input) CheckRange(q Quantity) (problem Said) {
	info := inputs[in]
	x := q.In(info.Unit)
	if x >= info.Min && x <= info.Max {
		return Said{}
	}
	low := any(Q(info.Min, info.Unit))
	if info.Unit != Seconds {
		low = Trimmed(info.Min)
	}
	return sayOutsideBounds.With(q, low, Q(info.Max, info.Unit))
}
