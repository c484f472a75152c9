package manifest

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"tenback/pdfreport"
	"tenback/scoring"
	"tenback/scoring/reference"
	"tenback/templates"
)

func of(t *testing.T, values ...any) Digest {
	t.Helper()
	d, err := Of(values...)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

var english = sync.OnceValues(func() (*templates.Set, error) { return templates.Load("en", "") })

// words are the English ones, with those of one file in place of some.
func words(t *testing.T, override string) *templates.Set {
	t.Helper()
	load := english
	if override != "" {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "own.tmpl"), []byte(override), 0o600); err != nil {
			t.Fatal(err)
		}
		load = func() (*templates.Set, error) { return templates.Load("en", dir) }
	}
	set, err := load()
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// entry is a woman of 45 who walked a mile; cells stand in the row given.
func entry(row string) *scoring.Entry {
	e := &scoring.Entry{Tested: time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC)}
	e.SetSex(scoring.Female, "B"+row)
	e.Set(scoring.Age, scoring.Q(45, scoring.Years), "C"+row)
	e.Set(scoring.BodyMass, scoring.Q(66, scoring.Kilograms), "D"+row)
	e.Set(scoring.RestingHR, scoring.Q(64, scoring.BeatsPerMinute), "E"+row)
	test, _ := scoring.TestByID("walk-1-mile")
	trial := scoring.Trial{Test: test}
	trial.Set(scoring.Time, scoring.Q(14, scoring.Minutes), "F"+row)
	trial.Set(scoring.ExerciseHR, scoring.Q(130, scoring.BeatsPerMinute), "G"+row)
	e.Trials = []scoring.Trial{trial}
	return e
}

func person(t *testing.T, e *scoring.Entry, o scoring.Options) pdfreport.Person {
	score := o.Assess(e)
	return pdfreport.Person{Name: "Ida Calloway", Group: "8B", Score: &score, Tested: e.Tested, Words: words(t, ""), Program: "tenback 1"}
}

// Whatever changes in what a page is made from changes the digest, and no two
// changes come to the same.
func TestEveryIngredientCounts(t *testing.T) {
	ownTable := func(elite string) *reference.GroupTable {
		table, err := reference.ReadGroupTable("own.csv", strings.NewReader("sex,age_min,age_max,unit,weak,fair,sound,strong,superb\nF,18,99,mL/kg/min,,20,30,40,"+elite+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		return table
	}
	base := func() pdfreport.Person { return person(t, entry("2"), scoring.Options{}) }
	changed := map[string]func(p *pdfreport.Person){"nothing": func(*pdfreport.Person) {}}
	input := func(name string, change func(e *scoring.Entry)) {
		changed[name] = func(p *pdfreport.Person) {
			e := entry("2")
			change(e)
			*p = person(t, e, scoring.Options{})
		}
	}
	for in := range scoring.InputCount {
		unit := in.Info().Unit
		input("one's "+in.Info().Name, func(e *scoring.Entry) { e.Set(in, scoring.Q(1, unit), "") })
		input("the trial's "+in.Info().Name, func(e *scoring.Entry) { e.Trials[0].Set(in, scoring.Q(1, unit), "") })
	}
	input("a hair of mass", func(e *scoring.Entry) { e.Set(scoring.BodyMass, scoring.Q(66.0000001, scoring.Kilograms), "") })
	input("the date of birth", func(e *scoring.Entry) { e.Born = time.Date(1981, 3, 4, 0, 0, 0, 0, time.UTC) })
	input("the test date", func(e *scoring.Entry) { e.Tested = e.Tested.AddDate(0, 0, 1) })
	input("another test", func(e *scoring.Entry) { e.Trials[0].Test, _ = scoring.TestByID("jog-1-mile") })
	input("no test", func(e *scoring.Entry) { e.Trials = nil })
	input("one test more", func(e *scoring.Entry) { e.Trials = append(e.Trials, e.Trials[0]) })
	for name, o := range map[string]scoring.Options{
		"another adult table": {Adults: reference.AdultTables[1]},
		"an own table":        {Adults: ownTable("50")},
		"the own table again": {Adults: ownTable("51")},
		"another equation":    {Equations: []string{secondEquation(t)}},
	} {
		changed[name] = func(p *pdfreport.Person) { *p = person(t, entry("2"), o) }
	}
	young := func(o scoring.Options) func(p *pdfreport.Person) {
		return func(p *pdfreport.Person) {
			e := entry("2")
			e.Set(scoring.Age, scoring.Q(15, scoring.Years), "")
			*p = person(t, e, o)
		}
	}
	changed["a youth"], changed["another youth table"] = young(scoring.Options{}), young(scoring.Options{Youth: reference.YouthTables[1]})
	untested := func(o scoring.Options) func(p *pdfreport.Person) {
		return func(p *pdfreport.Person) {
			e := entry("2")
			e.Trials = nil
			e.Set(scoring.Stature, scoring.Q(170, scoring.Centimetres), "")
			e.Set(scoring.ActivityLevel, scoring.Q(2, scoring.ActivityLevel.Info().Unit), "")
			*p = person(t, e, o)
		}
	}
	changed["not tested"], changed["fallback"] = untested(scoring.Options{}), untested(scoring.Options{Fallback: true})
	accent, err := pdfreport.ParseAccent("#6A2C5B")
	if err != nil {
		t.Fatal(err)
	}
	changed["name"] = func(p *pdfreport.Person) { p.Name += "x" }
	changed["group"] = func(p *pdfreport.Person) { p.Group += "x" }
	changed["name and group, parted elsewhere"] = func(p *pdfreport.Person) { p.Name, p.Group = "Ida Calloway8", "B" }
	changed["key"] = func(p *pdfreport.Person) { p.Key = "00" }
	changed["tested"] = func(p *pdfreport.Person) { p.Tested = p.Tested.AddDate(1, 0, 0) }
	changed["paper"] = func(p *pdfreport.Person) { p.Paper = pdfreport.Letter }
	changed["words"] = func(p *pdfreport.Person) { p.Words = words(t, `{{define "title"}}Another title{{end}}`) }
	changed["words again"] = func(p *pdfreport.Person) { p.Words = words(t, `{{define "title"}}Another title.{{end}}`) }
	changed["words for an audience"] = func(p *pdfreport.Person) { p.Words = p.Words.For(templates.Squad) }
	changed["program"] = func(p *pdfreport.Person) { p.Program = "tenback 2" }
	changed["problems"] = func(p *pdfreport.Person) {
		p.Problems = []pdfreport.Problem{{What: scoring.Verbatim("a")}, {What: scoring.Verbatim("b")}}
	}
	changed["problems, parted elsewhere"] = func(p *pdfreport.Person) { p.Problems = []pdfreport.Problem{{What: scoring.Verbatim("ab")}, {}} }
	changed["what was read"] = func(p *pdfreport.Person) {
		p.Problems = []pdfreport.Problem{{Read: "a"}, {What: scoring.Verbatim("b")}}
	}
	changed["a phrase"] = func(p *pdfreport.Person) { p.Problems = []pdfreport.Problem{{What: scoring.FillIn(scoring.Age)}} }
	changed["a phrase of other slots"] = func(p *pdfreport.Person) { p.Problems = []pdfreport.Problem{{What: scoring.FillIn(scoring.Stature)}} }
	changed["audience"] = func(p *pdfreport.Person) { p.Audience = templates.Squad }
	changed["organisation"] = func(p *pdfreport.Person) { p.Brand = &pdfreport.Brand{Organisation: "x"} }
	changed["contact"] = func(p *pdfreport.Person) { p.Brand = &pdfreport.Brand{Contact: "x"} }
	changed["accent"] = func(p *pdfreport.Person) { p.Brand = &pdfreport.Brand{Accent: accent} }
	changed["no accent"] = func(p *pdfreport.Person) { p.Brand = &pdfreport.Brand{} }
	changed["logo"] = func(p *pdfreport.Person) { p.Brand = &pdfreport.Brand{Logo: logo(t)} }
	seen := map[Digest]string{}
	for name, change := range changed {
		p := base()
		change(&p)
		d := of(t, "build", p)
		if seen[d] != "" {
			t.Errorf("%q and %q give the same digest", name, seen[d])
		}
		seen[d] = name
	}
	if of(t, "another build", base()) == of(t, "build", base()) {
		t.Error("the program's build does not count")
	}
	if again := of(t, "build", base()); seen[again] != "nothing" {
		t.Error("the same page has two digests")
	}
}

// secondEquation is one that reads the one-mile walk only when it is named.
func secondEquation(t *testing.T) string {
	test, _ := scoring.TestByID("walk-1-mile")
	for _, e := range test.Equations {
		score := scoring.Options{Equations: []string{e.ID}}.Assess(entry("2"))
		if first := scoring.Assess(entry("2")); score.Best() != nil && score.Best().Equation != first.Best().Equation {
			return e.ID
		}
	}
	t.Fatal("the walk has a single equation")
	return ""
}

func logo(t *testing.T) *pdfreport.Logo {
	data, err := os.ReadFile("../../../testdata/readme/pages.png")
	if err != nil {
		t.Fatal(err)
	}
	l, err := pdfreport.NewLogo(data)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Every field of a page's input is in the digest, one that is added tomorrow
// too: a field of a kind that this test does not know makes it fail.
func TestEveryFieldCounts(t *testing.T) {
	base := person(t, entry("2"), scoring.Options{})
	base.Brand = &pdfreport.Brand{}
	before := of(t, base)
	typ := reflect.TypeFor[pdfreport.Person]()
	for i := range typ.NumField() {
		p := base
		field := reflect.ValueOf(&p).Elem().Field(i)
		switch field.Kind() {
		case reflect.String:
			field.SetString(field.String() + "x")
		case reflect.Bool:
			field.SetBool(!field.Bool())
		case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
			field.SetInt(field.Int() + 1)
		case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
			field.SetUint(field.Uint() + 1)
		case reflect.Float32, reflect.Float64:
			field.SetFloat(field.Float() + 1)
		case reflect.Slice:
			field.Set(reflect.MakeSlice(field.Type(), 3, 3))
		case reflect.Pointer:
			field.Set(reflect.Zero(field.Type()))
			if reflect.DeepEqual(p, base) {
				field.Set(reflect.New(field.Type().Elem()))
			}
		case reflect.Struct:
			if field.Type() != reflect.TypeFor[time.Time]() {
				t.Fatalf("the test does not know how to change %s", typ.Field(i).Name)
			}
			field.Set(reflect.ValueOf(time.Unix(1, 0)))
		default:
			t.Fatalf("the test does not know how to change %s", typ.Field(i).Name)
		}
		if of(t, p) == before {
			t.Errorf("the field %s does not count", typ.Field(i).Name)
		}
	}
}

// A page that moves to another row is the same page, to the byte: this is why
// addresses need not count.
func TestAddressesDoNotCount(t *testing.T) {
	pages := map[string][]byte{}
	digests := map[string]Digest{}
	for _, row := range []string{"2", "99"} {
		e := entry(row)
		// A second test that is refused, with the cell at fault.
		shuttle, _ := scoring.TestByID("shuttle-20-m")
		e.Trials = append(e.Trials, scoring.Trial{Test: shuttle})
		p := person(t, e, scoring.Options{})
		var page bytes.Buffer
		if _, err := pdfreport.WritePerson(&page, p); err != nil {
			t.Fatal(err)
		}
		pages[row], digests[row] = page.Bytes(), of(t, p)
	}
	if digests["2"] != digests["99"] {
		t.Error("the digest hangs on the row")
	}
	if !bytes.Equal(pages["2"], pages["99"]) {
		t.Error("the page hangs on the row")
	}
}

type loop struct {
	Next *loop
	Name string
}

func TestKindsOfValues(t *testing.T) {
	there, back := &loop{Name: "a"}, &loop{Name: "b"}
	there.Next, back.Next = back, there
	if of(t, there) == of(t, back) {
		t.Error("two ends of a circle are the same")
	}
	if of(t, map[string]int{"a": 1, "b": 2}) != of(t, map[string]int{"b": 2, "a": 1}) {
		t.Error("the order of a map counts")
	}
	if of(t, map[string]int{"a": 1, "b": 2}) == of(t, map[string]int{"a": 2, "b": 1}) {
		t.Error("the values of a map do not count")
	}
	if of(t, []any{int8(1)}) == of(t, []any{int16(1)}) {
		t.Error("the type behind an interface does not count")
	}
	type hidden struct {
		any any
		set map[string]any
	}
	if of(t, hidden{any: 1, set: map[string]any{"a": 1, "b": nil}}) == of(t, hidden{any: 1, set: map[string]any{"a": 2, "b": nil}}) {
		t.Error("what lies in a map in a field that is not exported does not count")
	}
	for _, without := range []any{func() {}, make(chan int), struct{ f func() }{}, []any{func() {}}, map[string]any{"a": func() {}}} {
		if _, err := Of(without); err == nil {
			t.Errorf("%T was summed up", without)
		}
	}
	if _, err := Of(nil); err == nil {
		t.Error("nothing was summed up")
	}
}
