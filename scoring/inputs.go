package scoring

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
	MeasuredVO2
	MeasuredVO2Abs
	InputCount // how many there are
)

// Effort is stored as a number: all-out or a steady pace below maximum.
const (
	EffortSteady = 0
	EffortAllOut = 1
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
}

var inputs = [InputCount]InputInfo{
	SexInput: {"sex", "sex", MaleOne, 0, 1,
		"Female or male as the published tables use the words. May be left empty: then both tables are shown and equations that need it are not used.", true},
	Age: {"age", "age", Years, 5, 110,
		"Age on the day of the test. A date of birth is better: the age is then worked out.", true},
	BodyMass: {"body-mass", "body mass", Kilograms, 12, 300,
		"Body mass without shoes.", true},
	Stature: {"stature", "stature", Centimetres, 80, 230,
		"Standing height without shoes.", true},
	RestingHR: {"resting-hr", "resting heart rate", BeatsPerMinute, 25, 150,
		"Beats in a minute after five quiet minutes seated, best in the morning.", true},
	MaxHR: {"max-hr", "measured maximum heart rate", BeatsPerMinute, 100, 230,
		"The highest heart rate really seen in an all-out effort. Leave empty if unknown; it is then predicted from age.", true},

	Time: {"time", "time", Seconds, 1, 6 * 3600,
		"Minutes and seconds, such as 11:30.", false},
	Distance: {"distance", "distance", Metres, 50, 50000,
		"Distance covered.", false},
	ShuttleLevel: {"shuttle-level", "shuttle level", Levels, 1, 21,
		"Last level finished, or level and shuttle with a dot, such as 7.10.", false},
	ShuttleInLevel: {"shuttle-in-level", "shuttles done in the level", Laps, 0, 16,
		"Shuttles done in the last level.", false},
	ShuttleLaps: {"shuttle-laps", "20 m laps", Laps, 1, 250,
		"All 20 m laps finished.", false},
	ShuttleSpeed: {"shuttle-speed", "last shuttle speed", KmPerHour, 8, 18.5,
		"Speed of the last level finished.", false},
	ShuttleStart: {"shuttle-start", "shuttle start speed", KmPerHour, 8, 8.5,
		"Speed of level 1 on your recording: 8.0 or 8.5 km/h.", false},
	ExerciseHR: {"exercise-hr", "heart rate at the end of the exercise", BeatsPerMinute, 60, 230,
		"Heart rate in the last seconds of the exercise, by monitor or by a pulse count in the first ten seconds after.", false},
	RecoveryHR: {"recovery-hr", "recovery heart rate", BeatsPerMinute, 50, 230,
		"Standing, beats counted from second 5 to second 20 after stopping, times 4.", false},
	Effort: {"effort", "effort", NoUnit, EffortSteady, EffortAllOut,
		"Write all-out, or steady for an even pace that could be kept up.", false},
	BenchHeight: {"bench-height", "bench height", Centimetres, 10, 60,
		"Height of the step or bench.", false},
	StepRate: {"step-rate", "step cycles a minute", CyclesPerMinute, 8, 40,
		"Full cycles (up, up, down, down) a minute: a metronome at 96 gives 24.", false},
	StageTime: {"stage-time", "minutes of stepping", Minutes, 1, 15,
		"How long the stage lasted.", false},
	MeasuredVO2: {"measured-vo2max", "measured VO2max", MLPerKgMin, 8, 97,
		"From a laboratory test with gas analysis.", false},
	MeasuredVO2Abs: {"measured-vo2max-abs", "measured VO2max", LPerMin, 0.4, 8,
		"From a laboratory test with gas analysis, not divided by body mass.", false},
}

// Info describes the input.
func (in Input) Info() InputInfo { return inputs[in] }

func (in Input) String() string { return inputs[in].ID }

// Values holds what is known, each in its input's own unit, and where it was
// read. The zero Values knows nothing. A copy shares what the original knows:
// use one or the other.
type Values struct{ known []known }

type known struct {
	input  Input
	amount float64
	cell   string
}

// Set stores a quantity, converted to the input's unit, and its cell address.
func (v *Values) Set(in Input, q Quantity, cell string) {
	k := known{in, q.In(inputs[in].Unit), cell}
	for i := range v.known {
		if v.known[i].input == in {
			v.known[i] = k
			return
		}
	}
	v.known = append(v.known, k)
}

// Get returns the quantity; ok is false where it is not known.
func (v *Values) Get(in Input) (q Quantity, ok bool) {
	for i := range v.known {
		if v.known[i].input == in {
			return Quantity{v.known[i].amount, inputs[in].Unit}, true
		}
	}
	return Quantity{}, false
}

// Has tells whether the input is known.
func (v *Values) Has(in Input) bool {
	_, ok := v.Get(in)
	return ok
}

// Cell is the address that the value was read from; empty if not known.
func (v *Values) Cell(in Input) string {
	for i := range v.known {
		if v.known[i].input == in {
			return v.known[i].cell
		}
	}
	return ""
}

// CheckRange tells whether a quantity is within the input's bounds, and if
// not, says so in a sentence.
func (in Input) CheckRange(q Quantity) (problem string) {
	info := inputs[in]
	x := q.In(info.Unit)
	if x >= info.Min && x <= info.Max {
		return ""
	}
	return q.String() + " is outside " + Q(info.Min, info.Unit).String() + " to " + Q(info.Max, info.Unit).String()
}
