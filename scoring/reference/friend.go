package reference

const friendFile = "friend_percentiles.csv"

// friendTables are the FRIEND tables of measured uptake, in quarters with the top
// twentieth apart. The values of 2022 are the selection of tests with a respiratory
// exchange ratio of at least 1.10.
//
// Source: kaminsky2015, kaminsky2017, kaminsky2022.
var friendTables = []*GroupTable{
	friend("friend-2022-treadmill", "Kaminsky2022_RER1.10", "treadmill", "kaminsky2022"),
	friend("friend-2022-cycle", "Kaminsky2022_RER1.10", "cycle", "kaminsky2022"),
	friend("friend-2015-treadmill", "Kaminsky2015", "treadmill", "kaminsky2015"),
	friend("friend-2017-cycle", "Kaminsky2017", "cycle", "kaminsky2017"),
}

func friend(id, edition, mode, source string) *GroupTable {
	mine := func(r record) bool { return r.text("edition") == edition && r.text("mode") == mode }
	t := grouped(GroupTable{ID: id, Naming: quarters, Source: source, Cycle: mode == "cycle"}, friendFile,
		[groupCount]int{0, 25, 50, 75, 95}, mine)
	var own []record
	records, _ := load(friendFile)
	for _, r := range records {
		if mine(r) {
			own = append(own, r)
		}
	}
	for i, row := range percentileRows(own, 5, 10, 20, 25, 30, 40, 50, 60, 70, 75, 80, 90, 95) {
		t.rows[i].percentiles = row.points
	}
	return t
}
