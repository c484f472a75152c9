package reference

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"
)

// ledger holds a check sum for every row of every table: each cell times the
// number of its column, times written as m:ss in seconds, women as 1 and men
// as 2, other words as 0. A number changed, two numbers swapped, a row shifted
// or left out breaks it. The sums were computed by an independent script from
// the copies that the tables were taken from.
var ledger = map[string][]float64{
	"run_shuttle_usaf.csv": {
		1707, 2676.5, 2688, 2702.5, 2715, 2733.5, 2751, 2769.5, 2790, 2813.5,
		2838, 2866.5, 2897, 2929.5, 2960, 2996.5, 3037, 3073.5, 3114, 3157,
		3204, 3256,
	},
	"resting_rate_means.csv": {
		645, 515, 390, 900, 528, 510, 912, 899, 484, 468.5,
	},
	"adult_groups_mandsager2018.csv": {
		372.5, 379.1, 417.1, 458.1, 497.5, 515.7, 540, 662.7, 401.3, 422.3,
		458, 501.1, 528.2, 550.5, 569.5, 687.7,
	},
	"friend_percentiles.csv": {
		6607.8, 5508.1, 5080.1, 4538.2, 4022.1, 3697.1, 8174.3, 7470, 6901.4, 6185.2,
		5514.8, 5033.8, 6170.6, 5289.4, 4908, 4475.8, 3942.2, 3571.4, 3289.7, 7698.9,
		6940.7, 6401.7, 5627.7, 4907, 4317.6, 3813.5, 5434.7, 4007.6, 3735.6, 3448.5,
		3288.3, 3115.9, 7265, 5464.3, 5103.4, 4825.1, 4385.2, 4169, 5689.1, 4128.6,
		3738.1, 3439.2, 3255.1, 3079.1, 2600.4, 7739.7, 5694.4, 5250.9, 4915.2, 4383.6,
		3953.3, 3108.6,
	},
	"resting_rate_nhanes0104.csv": {
		9757, 9442, 11594, 10702, 12048, 11986, 11220, 8109, 9416, 9245,
		11187, 11015, 12275, 11969, 10655, 7590,
	},
	"adult_fifths_almeida2019.csv": {
		2751.05, 4362.35, 3886.76, 3049.42, 2123.13, 1328.26, 1023.7, 3268.06, 4994.43, 4508.89,
		2830.16, 1928.35, 1262.8, 1125.11,
	},
	"vo2max_nhanes0104.csv": {
		7843.5, 7520.5, 7402.4, 7191.8, 8159.2, 8888.6, 9161.8, 8781.6, 7397.3, 7218.1,
		6663.4, 8781.3, 8212.4, 7993.7,
	},
	"means_loe2013.csv": {
		338.5, 372, 416.1, 444.1, 477.9, 550.2, 388.6, 413.9, 456.3, 486.4,
		519.3, 585.7,
	},
	"run_12_minute_classes.csv": {
		51529, 48379, 44429, 47228, 43778, 40028,
	},
	"run_1p5_mile_nysp.csv": {
		3919, 4104, 4384, 4563, 4748, 5048, 3704, 3869, 4099, 4273,
		4473, 4698,
	},
	"youth_mile_us1985.csv": {
		3331, 2988, 3269, 2814, 3167, 2680, 3017, 2554, 2899, 2512,
		2881, 2446, 2835, 2292, 2669, 2254, 2200, 2238, 2300, 2673,
		2270, 3188, 2729, 2966, 2519, 2828, 2385, 2690, 2319, 2524,
		2185, 2414, 2087, 2256, 2005, 2122, 1923, 1829, 1807, 1761,
		1882, 1755,
	},
	"youth_health_lines.csv": {
		313, 275, 320.5, 329.5, 278, 303.5, 257, 247.5, 326, 271,
		273, 275, 298,
	},
	"paraplegia_simmons2014.csv": {
		265, 236.2,
	},
	"resting_rate_risk.csv": {
		3.51, 3.45, 3.21, 3.54, 3.18, 3.42, 3.27, 2.91, 3.27, 3.24,
		3.36, 4.35, 3.99, 270, 9.18, 48, 0, 0,
	},
}

func TestLedger(t *testing.T) {
	entries, err := files.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(ledger) {
		t.Errorf("%d tables, the ledger knows %d", len(entries), len(ledger))
	}
	for _, entry := range entries {
		want, known := ledger[entry.Name()]
		if !known {
			t.Errorf("%s is not in the ledger", entry.Name())
			continue
		}
		data, err := files.ReadFile("data/" + entry.Name())
		if err != nil {
			t.Fatal(err)
		}
		reader := csv.NewReader(strings.NewReader(string(data)))
		reader.Comment = '#'
		rows, err := reader.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if rows = rows[1:]; len(rows) != len(want) {
			t.Errorf("%s has %d rows, want %d", entry.Name(), len(rows), len(want))
			continue
		}
		for i, row := range rows {
			sum := 0.0
			for j, cell := range row {
				sum += float64(j+1) * amount(cell)
			}
			if math.Abs(sum-want[i]) > 0.001 {
				t.Errorf("%s: row %d (%s) adds up to %.3f, want %.3f", entry.Name(), i+1, strings.Join(row, ","), sum, want[i])
			}
		}
	}
}

// amount is what a cell counts for in the ledger.
func amount(cell string) float64 {
	if i := strings.Index("FM", cell); len(cell) == 1 && i >= 0 {
		return float64(i + 1)
	}
	if x, err := strconv.ParseFloat(cell, 64); err == nil {
		return x
	}
	m, s, _ := strings.Cut(cell, ":")
	minutes, err1 := strconv.Atoi(m)
	seconds, err2 := strconv.Atoi(s)
	if err1 != nil || err2 != nil {
		return 0
	}
	return float64(60*minutes + seconds)
}
