package evidence

import (
	"strings"
	"testing"
)

func TestFilesRead(t *testing.T) {
	if rows, err := Equations(); err != nil || len(rows) == 0 {
		t.Errorf("equations: %d rows, %v", len(rows), err)
	}
	if points, err := TablePoints(); err != nil || len(points) == 0 {
		t.Errorf("table points: %d, %v", len(points), err)
	}
	if men, err := Men31(); err != nil || len(men) != 31 {
		t.Errorf("31 men: %d, %v", len(men), err)
	}
}

func TestFaultsSayWhere(t *testing.T) {
	for _, c := range []struct{ name, line, want string }{
		{"number", "a,x=1,many,V", `test.csv, a: column number: "many" is not a number`},
		{"status", "a,x=1,1,Z", `test.csv, a: column status: unknown status "Z"`},
		{"input", "a,x,1,V", `test.csv, a: column inputs: "x" is not name=value`},
		{"empty", ",x=1,1,V", "test.csv, : column id: empty"},
		{"first fault of several", ",x,many,Z", "column inputs"},
		{"short line", "a,x=1", "wrong number of fields"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := readFrom(strings.NewReader("id,inputs,number,status\n"+c.line+"\n"), "test.csv", func(r *record) string {
				r.inputs("inputs")
				r.number("number")
				r.status("status")
				return r.text("id")
			})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q in it", err, c.want)
			}
		})
	}
}
