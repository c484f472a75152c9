package pdfreport_test

import (
	"io"
	"testing"

	"tenback/pdfreport/person"
)

// BenchmarkWritePerson draws whole pages, scored beforehand. "core" needs the
// core code page only, the others need more.
func BenchmarkWritePerson(b *testing.B) {
	for _, bench := range []struct{ name, person string }{
		{"core", "woman-45"}, {"youth", "boy-12-below"}, {"vietnamese", "vietnamese"}, {"cyrillic", "cyrillic"},
	} {
		p := cases[bench.person].person(b)
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := person.Write(io.Discard, p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
