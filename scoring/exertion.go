package scoring

// Exertion is how hard a test is by design.
type Exertion uint8

// The exertions, easy to hard.
const (
	AtRest     Exertion = iota // no exercise on the day, or none of ours
	OwnPace                    // a walk or a march that may slow down or pause
	Submaximal                 // an even load below the maximum
	AllOut
)

// exertions holds the stable name of each and what it asks of the organiser. Common
// practice, no single source; 120 and 180/100: ats2002; 85 % and 70 %: acsm, from memory.
var exertions = [...]struct{ id, caution string }{
	AtRest:     {id: "at-rest"},
	OwnPace:    {"own-pace", "A walk or march at one's own pace: slowing down and pausing are allowed at any time. Have a chair near. No test with a resting heart rate above 120 or a blood pressure above 180/100."},
	Submaximal: {"submaximal", "A test below the maximum ends early when talking is no longer possible, or when a monitor shows 85% of the maximum heart rate predicted from age, or 70% of the way to it from rest."},
	AllOut:     {"all-out", "An all-out test is for people who are used to hard exercise. Others take a walking or step test."},
}

// Exertions lists those that ask something of the organiser.
func Exertions() []Exertion { return []Exertion{OwnPace, Submaximal, AllOut} }

// ID is the exertion's stable short name.
func (e Exertion) ID() string { return exertions[e].id }

// Caution returns what holds for tests of the exertion; empty for [AtRest].
func (e Exertion) Caution() string { return exertions[e].caution }
