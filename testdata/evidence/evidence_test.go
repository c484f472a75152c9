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
	columns := []string{"id", "inputs", "number", "status"}
	for _, c := range []struct{ name, line, want string }{
		{"number", "a,x=1,many,V", `test.csv, line 2: column number: "many" is not a number`},
		{"status", "a,x=1,1,Z", `test.csv, line 2: column status: unknown status "Z"`},
		{"input", "a,x,1,V", `test.csv, line 2: column inputs: "x" is not name=value`},
		{"empty", ",x=1,1,V", "test.csv, line 2: column id: empty"},
		{"first fault of several", ",x,many,Z", "column id: empty"},
		{"short line", "a,x=1", "wrong number of fields"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := readFrom(strings.NewReader("id,inputs,number,status\n"+c.line+"\n"), "test.csv", columns, func(r record) {
				r.text(0)
				r.inputs(1)
				r.number(2)
				r.status(3)
			})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q in it", err, c.want)
			}
		})
	}
	err := readFrom(strings.NewReader("id,other\n"), "test.csv", columns, func(record) {})
	if err == nil || !strings.Contains(err.Error(), "line 1: the columns are") {
		t.Errorf("wrong columns: %v", err)
	}
}
