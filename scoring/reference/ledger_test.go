package reference

import (
	"math"
	"testing"
)

// Sums over every column and every row of the tables, as in a ledger: a number
// changed, two numbers swapped or two rows exchanged break one of them. They
// were computed by an independent script from the transcriptions that the
// tables were copied from.
var (
	metColumns    = []string{"met_p25", "met_p50", "met_p75", "met_p97_7"}
	friendColumns = []string{"p5", "p10", "p20", "p25", "p30", "p40", "p50", "p60", "p70", "p75", "p80", "p90", "p95"}
	restColumns   = []string{"p2_5", "p5", "p10", "p25", "p50", "p75", "p90", "p95", "p97_5"}
)

var sums = []struct {
	table, part string
	columns     []string
	byColumn    []float64
	byRow       []float64
}{
	{"adult-groups", "F", metColumns,
		[]float64{55.5, 66.1, 77.6, 98.8},
		[]float64{49.1, 43.8, 41.7, 40.1, 38.1, 32.6, 28, 24.6}},
	{"adult-groups", "M", metColumns,
		[]float64{67.2, 79, 90.4, 110.2},
		[]float64{54.1, 51.7, 49.2, 48, 43.6, 38.5, 33, 28.7}},
	{"friend-percentiles", "Kaminsky2015 treadmill F", friendColumns,
		[]float64{100.2, 109.1, 124.7, 130.6, 136.1, 145.4, 156.2, 167.3, 179.3, 185.4, 192.5, 213.2, 232.9},
		[]float64{491.2, 401.7, 360.4, 314.2, 267.6, 237.8}},
	{"friend-percentiles", "Kaminsky2015 treadmill M", friendColumns,
		[]float64{135, 148.8, 170.4, 179.1, 186.8, 200.3, 213.4, 228.2, 245.1, 254, 264.1, 292.9, 315.1},
		[]float64{618.4, 557.1, 503.8, 439.1, 380, 334.8}},
	{"friend-percentiles", "Kaminsky2022_RER1.10 treadmill F", friendColumns,
		[]float64{99.7, 112.6, 129.4, 136.5, 142.4, 153.7, 164.5, 175.6, 188.7, 195.2, 204.2, 227.7, 246.2},
		[]float64{457.8, 381.3, 345.7, 308.3, 259.3, 226, 198}},
	{"friend-percentiles", "Kaminsky2022_RER1.10 treadmill M", friendColumns,
		[]float64{119.2, 138.8, 163.7, 173.3, 181.5, 196.8, 210.9, 226.7, 243.1, 252.2, 264.1, 293.9, 321},
		[]float64{578.9, 508, 460.2, 392.6, 329.5, 277.8, 238.2}},
	{"friend-percentiles", "Kaminsky2017 cycle F", friendColumns,
		[]float64{81.3, 87.8, 96.1, 100.5, 105.5, 112.8, 120.1, 127.1, 135, 139.7, 144.6, 159.9, 173.9},
		[]float64{398.8, 286, 259.5, 232.2, 213.8, 194}},
	{"friend-percentiles", "Kaminsky2017 cycle M", friendColumns,
		[]float64{111.5, 125.4, 138, 142.7, 147.4, 155.3, 165.8, 174.1, 186.8, 193.6, 203.7, 226.3, 248.9},
		[]float64{546.6, 400.4, 365.1, 339, 297.5, 270.9}},
	{"friend-percentiles", "Kaminsky2022_RER1.10 cycle F", friendColumns,
		[]float64{84.6, 93.4, 105.1, 109.2, 114.2, 122.3, 130.6, 139.2, 149.3, 155, 160.4, 178.5, 198.8},
		[]float64{415.9, 293, 257.8, 231.1, 210.5, 189.8, 142.5}},
	{"friend-percentiles", "Kaminsky2022_RER1.10 cycle M", friendColumns,
		[]float64{104.8, 122.9, 143.2, 150.2, 156.8, 168.4, 180.1, 192.6, 209.3, 217.5, 227.2, 259.3, 290.6},
		[]float64{577.6, 408.6, 373.2, 340, 292.6, 251.5, 179.4}},
	{"resting-rate", "F", restColumns,
		[]float64{458, 482, 514, 560, 616, 682, 744, 786, 822},
		[]float64{790, 772, 726, 706, 692, 674, 660, 644}},
	{"resting-rate", "M", restColumns,
		[]float64{426, 446, 474, 520, 584, 654, 724, 774, 816},
		[]float64{772, 744, 704, 658, 648, 648, 628, 616}},
}

func TestLedger(t *testing.T) {
	for _, want := range sums {
		var table Table
		for _, known := range Tables() {
			if known.ID == want.table {
				table = known
			}
		}
		records, _ := load(table.file)
		byColumn, byRow := make([]float64, len(want.columns)), []float64{}
		for _, r := range records {
			part := r.text("sex")
			if edition, ok := r.fields["edition"]; ok {
				part = edition + " " + r.text("mode") + " " + part
			}
			if part != want.part {
				continue
			}
			sum := 0.0
			for i, column := range want.columns {
				x := r.number(column)
				byColumn[i] += x
				sum += x
			}
			byRow = append(byRow, sum)
		}
		same := func(what string, got, want []float64) {
			if len(got) != len(want) {
				t.Errorf("%s: %d, want %d", what, len(got), len(want))
				return
			}
			for i := range got {
				if math.Abs(got[i]-want[i]) > 0.01 {
					t.Errorf("%s %d adds up to %.1f, want %.1f", what, i+1, got[i], want[i])
				}
			}
		}
		same(want.table+" "+want.part+", column", byColumn, want.byColumn)
		same(want.table+" "+want.part+", row", byRow, want.byRow)
	}
}
