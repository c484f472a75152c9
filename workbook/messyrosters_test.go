package workbook

// messyRoster is a roster made for one or two kinds of mess. All people are
// invented.
type messyRoster struct {
	name, about string
	book        rosterBook
}

func oneTab(name string, rows ...[]any) rosterBook {
	return rosterBook{tabs: []tab{{name: name, rows: rows}}}
}

// clock is a time of day as a spreadsheet stores it.
func clock(h, m, s int, format string) typed {
	return typed{float64(h*3600+m*60+s) / 86400, format}
}

func messyRosters() []messyRoster {
	return append(append(plainMess(), strangersMess()...), moreStrangersMess()...)
}

func plainMess() []messyRoster {
	const nbsp, thin = "\u00a0", "\u2009"
	return []messyRoster{
		{"title-rows", "Merged titles, empty rows and a day above the header, which stands in row 6.", rosterBook{tabs: []tab{{
			name: "Fitness", merged: []string{"A1:G1", "A2:G2"}, rows: [][]any{
				{"Harbour School fitness week, 11 May 2026"}, {"Name of the organiser: Ms Tarn"}, {}, {"All values by hand"}, {},
				{"Name", "Class", "Sex", "Date of birth", "Weight (kg)", "Resting HR", "20 m shuttle level"}, {},
				{"Ada Lind", "7c", "F", day(2012, 6, 1), 45.5, 72, "5.4"}, {"Ben Ohm", "7c", "M", day(2012, 9, 30), 51, 66, "7.10"},
			}}}}},
		{"two-row-headers", "Tests in one row, what was measured in them in the row below.", rosterBook{tabs: []tab{{
			name: "Squad", merged: []string{"D1:E1", "F1:G1", "H1:I1"}, rows: [][]any{
				{nil, nil, nil, "1.5 mile run", nil, "Beep test", nil, "1 mile walk", nil},
				{"Name", "Age", "Sex", "min", "sec", "Level", "Shuttle", "Time", "HR"},
				{"Ada Lind", 31, "F", 13, 5, nil, nil, nil, nil}, {"Ben Ohm", 44, "M", nil, nil, 7, 4, nil, nil}, {"Cyd Rue", 52, "F", nil, nil, nil, nil, "15:20", 131},
			}}}}},
		{"units-below", "The row below the header names the units.", oneTab("Wellness",
			[]any{"Name", "Sex", "Age", "Weight", "Height", "1 mile walk", "1 mile walk pulse"}, []any{nil, nil, "years", "lb", "in", "min:sec", "bpm"},
			[]any{"Ada Lind", "F", 44, 154, 66, "15:20", 131}, []any{"Ben Ohm", "M", 51, 190, 70, "14:05", 125})},
		{"german", "German headers, decimal commas, dates with dots as text.", oneTab("Klasse 9b",
			[]any{"Name", "Vorname", "Klasse", "m/w", "Geb.-Datum", "Testdatum", "Gewicht (kg)", "Ruhepuls", "12-Minuten-Lauf (m)", "Bemerkung"},
			[]any{"Lind", "Änne", "9b", "w", "04.03.2011", "11.05.2026", "52,5", "71/min", "2.150", nil}, []any{"Ohm", "Bernd", "9b", "m", "17.11.2010", "11.05.2026", "61,0 kg", 64, 2480, "gut"})},
		{"french", "French headers, H and F for the sexes; a distance with a blank among its digits.", oneTab("4e B",
			[]any{"Nom", "Prénom", "Classe", "H/F", "Né(e) le", "Date du test", "Poids", "FC repos", "Dernier palier", "Course de 12 minutes"},
			[]any{"Lind", "Adèle", "4e B", "F", day(2012, 3, 4), day(2026, 5, 11), "48,5", 74, "5.03", nil}, []any{"Ohm", "Benoît", "4e B", "H", day(2012, 8, 9), day(2026, 5, 11), "55", 68, nil, "2 310 m"}, []any{"Rue", "Cyr", "4e B", "H", day(2012, 2, 9), day(2026, 5, 11), "55", 68, "abs", "dispensé"})},
		{"polish", "Polish headers; K and M for the sexes.", oneTab("Klasa 2a",
			[]any{"L.p.", "Nazwisko i imię", "Płeć", "Data urodzenia", "Data badania", "Masa ciała", "Tętno spoczynkowe", "Bieg 12 minut"},
			[]any{1, "Lind Ada", "K", "2009-03-04", "2026-05-11", "55,5", 70, 2250}, []any{2, "Ohm Błażej", "M", "2009-07-14", "2026-05-11", "66", 62, "2650 m"}, []any{3, "Rue Cyd", "K", "2009-10-02", "2026-05-11", "60", 66, "zw."})},
		{"chinese", "Chinese headers; full-width digits; a run that is not scored.", oneTab("七年级",
			[]any{"学号", "姓名", "性别", "出生日期", "测试日期", "身高(厘米)", "体重(公斤)", "安静心率", "20米折返跑", "1000米跑"},
			[]any{"０１２", "林爱", "女", "20120304", "2026年5月11日", 158, "４８．５", "７２次/分", 35, nil}, []any{"013", "欧本", "男", 20120809, "2026年5月11日", 163, 53, 68, "48次", "4'10\""})},
		{"japanese", "Japanese headers; ages with their sign, laps with theirs.", oneTab("2年A組",
			[]any{"組", "番号", "氏名", "性別", "年齢", "測定日", "体重(kg)", "20mシャトルラン(回)"},
			[]any{"A", 1, "青木 愛", "女", "１３歳", "2026/05/11", "４５．０", "５２回"}, []any{"A", 2, "大谷 弁", "男", "14歳", "2026/05/11", 52, "見学"})},
		{"russian", "Russian headers; years of birth; metres with their unit.", oneTab("8А",
			[]any{"№ п/п", "ФИО", "Пол", "Год рождения", "Дата теста", "Масса тела, кг", "ЧСС в покое", "Бег 12 минут"},
			[]any{1, "Линд Ада", "ж", 2011, "11.05.2026", "52,5", "72 уд/мин", "2250 м"}, []any{2, "Ом Борис", "м", 2011, "11.05.2026", 60, 66, "2,65 км"}, []any{3, "Рю Сид", "м", 2012, "11.05.2026", 60, 66, "освобожден"})},
		{"korean", "Korean headers; a 20 m shuttle run counted in laps.", oneTab("1반",
			[]any{"학번", "이름", "성별", "생년월일", "측정일", "체중", "안정심박", "왕복오래달리기"},
			[]any{"10101", "린아", "여", "2012.03.04", "2026.05.11", "48kg", 74, "41회"}, []any{"10102", "오벤", "남", "2012.08.09", "2026.05.11", 55, 68, "결석"})},
		{"numbers-as-text", "Numbers stored as text, with units, no-break, thin and full-width signs.", oneTab("People",
			[]any{"Name", "ID", "Sex", "Age", "Weight", "Height (cm)", "Resting HR", "Max HR", "12 minute run"},
			[]any{"Ada Lind", "0417", "F", "31", "58,5 kg", "166", "72 bpm", "189" + nbsp + "bpm", "2" + nbsp + "150 m"},
			[]any{"Ben Ohm", typed{418, "0000"}, "M", "４４", "7２.5", "1,82 m", " 66 ", "176", "2" + thin + "480"},
			[]any{"Cyd Rue", "0419", "F", "29 yrs", "9 st 4", "5'6\"", "~ 70", "ca. 190", "1.3 miles"})},
		{"times-as-hours", "Runs typed as 11:30, which the spreadsheet took for half past eleven.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 31, 58, clock(13, 5, 0, "h:mm")}, []any{"Ben Ohm", "M", 44, 72, clock(11, 30, 0, "h:mm:ss")}, []any{"Cyd Rue", "F", 29, 60, clock(12, 40, 0, "[h]:mm")}, []any{"Dot Fell", "F", 33, 61, clock(11, 30, 20, "h:mm:ss")})},
		{"times-as-minutes", "Runs stored as minutes and seconds in several formats.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 31, 58, clock(0, 13, 5, "mm:ss")}, []any{"Ben Ohm", "M", 44, 72, clock(0, 11, 30, "h:mm:ss")}, []any{"Cyd Rue", "F", 29, 60, typed{760.5 / 86400, "mm:ss.0"}}, []any{"Dot Fell", "F", 33, 61, clock(0, 12, 20, "[mm]:ss")}, []any{"Eve Gill", "F", 33, 61, clock(0, 12, 20, "General")})},
		{"times-mixed", "Every way of typing a time in one column.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 31, 58, "13:05"}, []any{"Ben Ohm", "M", 44, 72, "11'30\""}, []any{"Cyd Rue", "F", 29, 60, "760 s"}, []any{"Dot Fell", "F", 33, 61, "12 min 20 s"},
			[]any{"Eve Gill", "F", 33, 61, "12.5 min"}, []any{"Fay Holm", "F", 33, 61, "0:12:20"}, []any{"Gil Ivey", "M", 33, 61, "12-20"}, []any{"Hal Jett", "M", 33, 61, "12：20"}, []any{"Ian Kerr", "M", 33, 61, "l2:20"}, []any{"Jan Lowe", "F", 33, 61, "12:7"})},
		{"times-decimal", "Minutes with decimals: 11.75 can be nothing else, which decides for 11.30.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 31, 58, 13.3}, []any{"Ben Ohm", "M", 44, 72, 11.75}, []any{"Cyd Rue", "F", 29, 60, "12,98"}, []any{"Dot Fell", "F", 33, 61, typed{12.3, "0.00"}})},
		{"times-ambiguous", "11.30 and its like, which nothing decides; one cause for a whole column.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 31, 58, 13.3}, []any{"Ben Ohm", "M", 44, 72, typed{11.3, "0.00"}}, []any{"Cyd Rue", "F", 29, 60, "12.40"}, []any{"Dot Fell", "F", 33, 61, 12.05}, []any{"Eve Gill", "F", 33, 61, "12:05"})},
		{"minutes-and-seconds", "Minutes and seconds in two cells, with slips.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run (min)", "1.5 mile run (sec)"},
			[]any{"Ada Lind", "F", 31, 58, 13, 5}, []any{"Ben Ohm", "M", 44, 72, "11", "30"}, []any{"Cyd Rue", "F", 29, 60, 12, nil}, []any{"Dot Fell", "F", 33, 61, 12, 75}, []any{"Eve Gill", "F", 33, 61, 12.5, 30})},
		{"dates-1904", "A workbook that counts days from 1904.", rosterBook{date1904: true, tabs: []tab{{name: "Run", rows: [][]any{
			{"Name", "Sex", "DOB", "Test date", "Weight", "1.5 mile run"},
			{"Ada Lind", "F", day(1995, 3, 4), day(2026, 5, 11), 58, "13:05"}, {"Ben Ohm", "M", day(1982, 12, 31), day(2026, 5, 11), 72, clock(11, 30, 0, "h:mm")}}}}}},
		{"dates-mixed-order", "Dates as text with the day in front in some cells and the month in others.", oneTab("Run",
			[]any{"Name", "Sex", "DOB", "Test date", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", "13/04/1995", "2026-05-11", 58, "13:05"}, []any{"Ben Ohm", "M", "04/31/1982", "2026-05-11", 72, "11:30"}, []any{"Cyd Rue", "F", "04/17/1990", "2026-05-11", 60, "12:40"}, []any{"Dot Fell", "F", "05/06/1993", "2026-05-11", 61, "12:20"}, []any{"Eve Gill", "F", "7 Aug 1993", "2026-05-11", 61, "12:20"})},
		{"dates-exchanged", "Dates that the spreadsheet read with the month in front where it could; the others stayed text.", oneTab("Run",
			[]any{"Name", "Sex", "DOB", "Test date", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", day(1995, 4, 3), "2026-05-11", 58, "13:05"}, []any{"Ben Ohm", "M", "31/12/1982", "2026-05-11", 72, "11:30"}, []any{"Cyd Rue", "F", day(1990, 2, 11), "2026-05-11", 60, "12:40"}, []any{"Dot Fell", "F", "25/06/1993", "2026-05-11", 61, "12:20"}, []any{"Eve Gill", "F", day(1993, 1, 9), "2026-05-11", 61, "12:20"})},
		{"birth-years", "Years of birth alone, dates without separators, a two-digit year, a date to come.", oneTab("Run",
			[]any{"Name", "Sex", "Born", "Test date", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", "F", 1995, "2026-05-11", 58, "13:05"}, []any{"Ben Ohm", "M", 19821231, "2026-05-11", 72, "11:30"}, []any{"Cyd Rue", "F", "20030501", "2026-05-11", 60, "12:40"}, []any{"Dot Fell", "F", "25.6.93", "2026-05-11", 61, "12:20"}, []any{"Eve Gill", "F", day(2027, 1, 9), "2026-05-11", 61, "12:20"})},
		{"sex-codes", "Numbers for the sexes without a legend.", oneTab("Run",
			[]any{"Name", "Sex", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", 2, 31, 58, "13:05"}, []any{"Ben Ohm", 1, 44, 72, "11:30"}, []any{"Cyd Rue", 2, 29, 60, "12:40"})},
		{"sex-legend", "Numbers for the sexes with a legend in the header; blank, other and a number that is not in it.", oneTab("Run",
			[]any{"Name", "Gender (1 = girl, 2 = boy)", "Age", "Weight", "1.5 mile run"},
			[]any{"Ada Lind", 1, 31, 58, "13:05"}, []any{"Ben Ohm", "2", 44, 72, "11:30"}, []any{"Cyd Rue", nil, 29, 60, "12:40"}, []any{"Dot Fell", "other", 33, 61, "12:20"}, []any{"Eve Gill", 3, 33, 61, "12:20"})},
		{"shuttle-zeros", "Level 11.10 as a number, as text and with two decimals shown.", oneTab("Beep",
			[]any{"Name", "Sex", "Age", "20 m shuttle level"},
			[]any{"Ada Lind", "F", 31, 11.1}, []any{"Ben Ohm", "M", 44, "11.10"}, []any{"Cyd Rue", "F", 29, typed{11.1, "0.00"}}, []any{"Dot Fell", "F", 33, "L7 S4"}, []any{"Eve Gill", "F", 33, 8}, []any{"Fay Holm", "F", 33, "9-3"}, []any{"Gil Ivey", "M", 33, clock(7, 10, 0, "h:mm")}, []any{"Hal Jett", "M", 33, day(2026, 10, 7)})},
		{"shuttle-laps", "Laps in a column of their own, and typed where the level belongs.", oneTab("Beep",
			[]any{"Name", "Sex", "Age", "20 m shuttle level", "Shuttle run laps"},
			[]any{"Ada Lind", "F", 31, nil, 52}, []any{"Ben Ohm", "M", 44, "61 laps", nil}, []any{"Cyd Rue", "F", 29, 48, nil}, []any{"Dot Fell", "F", 33, "6", "51"})},
		{"level-and-shuttle", "Level and shuttle as two plain columns side by side.", oneTab("Beep",
			[]any{"Name", "Sex", "Age", "Level", "Shuttle"},
			[]any{"Ada Lind", "F", 31, 6, 4}, []any{"Ben Ohm", "M", 44, "9", "11"}, []any{"Cyd Rue", "F", 29, 5, nil}, []any{"Dot Fell", "F", 33, 5, 40})},
		{"races", "Distances as headers: races, tests that have them for a name, and runs too short to be scored.", oneTab("Club",
			[]any{"Name", "Sex", "Age", "400 m", "1500m", "2.4 km", "3.000 m Lauf", "5k", "10 km run", "Half marathon"},
			[]any{"Ada Lind", "F", 31, 75.2, "6:02", nil, nil, nil, nil, nil}, []any{"Ben Ohm", "M", 44, nil, nil, "11:30", "14:20", nil, nil, nil},
			[]any{"Cyd Rue", "F", 29, nil, nil, nil, nil, "24:10", "51:00", nil}, []any{"Dot Fell", "F", 33, nil, nil, nil, nil, nil, nil, clock(1, 52, 30, "h:mm:ss")}, []any{"Eve Gill", "F", 16, nil, nil, nil, nil, "23:30", nil, nil})},
		{"sheet-per-class", "One sheet a class, the columns in another order on each; lists that are not rosters.", rosterBook{tabs: []tab{
			{name: "7a", rows: [][]any{{"Name", "Sex", "Age", "20 m shuttle level"}, {"Ada Lind", "F", 13, "5.4"}, {"Ben Ohm", "M", 13, "6.2"}}},
			{name: "7b", rows: [][]any{{"Class 7b"}, {}, {"20 m shuttle level", "Age", "Gender", "Student name"}, {"4.7", 12, "girl", "Cyd Rue"}, {"7.1", 13, "boy", "Dan Fell"}}},
			{name: "Teachers", rows: [][]any{{"Name", "Email"}, {"Tarn", "tarn@example.org"}}},
			{name: "2025", hidden: true, rows: [][]any{{"Name", "20 m shuttle level"}, {"Ada Lind", "4.1"}}}}}},
		{"last-year", "The result columns of last year are still there, in the middle.", oneTab("Staff",
			[]any{"Name", "Sex", "Age", "Weight", "1 mile walk", "1 mile walk pulse", "VO2max (mL/kg/min)", "Likely low", "Likely high", "Estimated from", "Group", "Percentile", "Department"},
			[]any{"Ada Lind", "F", 44, 70, "15:20", 131, 33.1, 28.1, 38.1, "1-mile walk: Kline 1987", "Average", 40, "Stores"}, []any{"Ben Ohm", "M", 51, 86, "14:05", 125, 35.2, 30.2, 40.2, "1-mile walk: Kline 1987", "Average", 40, "Office"})},
		{"hidden-and-filtered", "A hidden column, a filter that hides a row.", rosterBook{tabs: []tab{{name: "Staff", hiddenCols: []int{4, 7}, hiddenRows: []int{3}, filter: "A1:G4", rows: [][]any{
			{"Name", "Sex", "Age", "Weight", "1 mile walk", "1 mile walk pulse", "Remark"},
			{"Ada Lind", "F", 44, 70, "15:20", 131, nil}, {"Ben Ohm", "M", 51, 86, "14:05", 125, "left"}, {"Cyd Rue", "F", 39, 64, "14:45", 128, nil}}}}}},
		{"subtotals-and-notes", "Class headings, subtotals, the header again, and notes under the table.", oneTab("School",
			[]any{"Name", "Class", "Sex", "Age", "20 m shuttle level"}, []any{"Class 7a"},
			[]any{"Ada Lind", "7a", "F", 13, "5.4"}, []any{"Ben Ohm", "7a", "M", 13, "6.2"}, []any{"Average", nil, nil, 13, cached{"AVERAGE(5.4,6.2)", 5.8}}, []any{},
			[]any{"Class 7b"}, []any{"Name", "Class", "Sex", "Age", "20 m shuttle level"}, []any{"Cyd Rue", "7b", "F", 12, "4.7"}, []any{"Subtotal", nil, nil, nil, 1}, []any{"Total", nil, nil, nil, 3}, []any{},
			[]any{"* tested in the hall, shoes on"}, []any{"Note: Ben ran with a cold."})},
		{"formulas", "Formulas with stored results, with errors and without a result.", oneTab("Staff",
			[]any{"Name", "Sex", "Age", "Weight", "1 mile walk", "1 mile walk pulse"},
			[]any{cached{`"Ada"&" Lind"`, "Ada Lind"}, "F", cached{"2026-1982", 44.0}, cached{"154*0.4536", 69.8544}, cached{`"15:"&20`, "15:20"}, cached{"22*6", 132.0}},
			[]any{"Ben Ohm", "M", 51, cached{"VLOOKUP(A3,x,2)", errorValue("#N/A")}, "14:05", 125}, []any{"Cyd Rue", "F", 39, cached{"B9", nil}, "14:45", 128},
			[]any{"Dot Fell", "F", errorValue("#REF!"), 64, "14:45", cached{"D5/0", errorValue("#DIV/0!")}}, []any{"Eve Gill", "F", 33, 61, "14:20", true})},
		{"no-results", "Did not finish, absent, exempt, a dash: no result is not a mistake.", oneTab("Klass 8",
			[]any{"Namn", "Kön", "Ålder", "1.5 mile run", "20 m shuttle level"},
			[]any{"Ada Lind", "K", 14, "DNF", "5.4"}, []any{"Ben Ohm", "M", 14, "abs.", "-"}, []any{"Cyd Rue", "K", 14, "sjuk", "n/a"}, []any{"Dan Fell", "M", 14, nil, nil}, []any{"Eve Gill", "K", 14, "12:40", "x"})},
		{"same-people", "One person on several rows and sheets, namesakes, IDs that are nearly alike.", rosterBook{tabs: []tab{
			{name: "Run", rows: [][]any{{"ID", "Name", "Sex", "DOB", "Test date", "Weight", "1.5 mile run"},
				{"0417", "Ada Lind", "F", day(1995, 3, 4), day(2026, 5, 11), 58, "13:05"}, {"0418", "Ben Ohm", "M", day(1982, 12, 31), day(2026, 5, 11), 72, "11:30"},
				{"0419", "Cyd Rue", "F", day(1990, 2, 11), day(2026, 5, 11), 60, "12:40"}, {"0419", "Dot Fell", "F", day(1993, 6, 25), day(2026, 5, 11), 61, "12:20"}}},
			{name: "Walk", rows: [][]any{{"ID", "Name", "Sex", "DOB", "Test date", "Weight", "1 mile walk", "1 mile walk pulse"},
				{"0417", "LIND, Ada", "F", day(1995, 3, 4), day(2026, 5, 11), 59, "14:20", 128}, {"418", "Ben Ohm", "M", nil, day(2026, 5, 11), 72, "13:30", 121},
				{nil, "Cyd Rue", "F", day(1990, 2, 12), day(2026, 5, 11), 60, "14:40", 130}, {"0417", "Ada Lind", "F", day(1995, 3, 4), day(2026, 5, 18), 58, "14:10", 126}}}}}},
		{"mapping-sheet", "Headers of the house, explained on a sheet of the workbook.", rosterBook{tabs: []tab{
			{name: "Mätning", rows: [][]any{{"Vem", "K/M", "År", "Tyngd", "Prov A", "Slag efteråt"}, {"Ada Lind", "K", 44, 70, "15:20", 131}, {"Ben Ohm", "M", 51, 86, "14:05", 125}}},
			{name: "tenback columns", rows: [][]any{{"Header", "Meaning"}, {"Vem", "Name"}, {"K/M", "Sex"}, {"År", "Age"}, {"Tyngd", "Body mass (kg)"}, {"Prov A", "1 mile walk"}, {"Slag efteråt", "1 mile walk pulse"}}}}}},
	}
}

// strangersMess are rosters as other people keep them, made without a look at
// what the reader can do.
func strangersMess() []messyRoster {
	return []messyRoster{
		{"station-sheets", "A list of pupils, and a sheet for each station with nothing but names or numbers and results; the sheet's name says the test.", rosterBook{tabs: []tab{
			{name: "Pupils", rows: [][]any{{"No.", "Pupil", "Form", "Boy/Girl", "DOB", "Weight kg"},
				{"P01", "Ada Lind", "9K", "G", day(2011, 10, 3), 52}, {"P02", "Ben Ohm", "9K", "B", day(2012, 1, 20), 60}, {"P03", "Cyd Rue", "9K", "G", day(2011, 12, 9), 55}, {"P04", "Dan Fell", "9K", "B", day(2011, 9, 30), 58}}},
			{name: "Bleep test 12.05.26", rows: [][]any{{"No.", "Pupil", "Level", "Shuttle"}, {"P01", "Ada Lind", 5, 4}, {"P03", "Cyd Rue", 4, 7}}},
			{name: "12 min run", rows: [][]any{{"Date:", day(2026, 5, 13)}, {"Pupil", "Distance"}, {"Ben Ohm", 2350}, {"Dan Fell", "2.1 km"}, {"Eve Gill", 2000}}}}}},
		{"two-lists-abreast", "Boys on the left, girls on the right of one sheet.", oneTab("Beep test Yr 8",
			[]any{"BOYS", nil, nil, nil, "GIRLS"}, []any{"Name", "Age", "Beep test", nil, "Name", "Age", "Beep test"},
			[]any{"Ben Ohm", 13, "6.2", nil, "Ada Lind", 13, "5.4"}, []any{"Dan Fell", 13, nil, nil, "Cyd Rue", 12, "4.7"}, []any{nil, nil, nil, nil, "Eve Gill", 13, "5.1"})},
		{"people-across", "One column a person, the values one below the other.", oneTab("Wellness day",
			[]any{"Wellness day 22 April 2026"}, []any{"Name", "Ada Lind", "Ben Ohm", "Cyd Rue"}, []any{"Sex", "F", "M", "F"}, []any{"Age", 44, 51, 39}, []any{"Weight (kg)", 70, 86, 64}, []any{"1 mile walk", "15:20", "14:05", "14:45"}, []any{"1 mile walk pulse", 131, 125, 128})},
		{"bilingual", "Headers in two languages, one above or beside the other.", oneTab("5C",
			[]any{"班別 Class", "學號 No.", "姓名\nName", "性別 / Sex", "出生日期 (DOB)", "測試日期 Test date", "體重 Weight (kg)", "靜止心率 Resting HR", "二十米穿梭跑 20 m shuttle run laps"},
			[]any{"5C", 1, "林愛 LIND Oi", "女 F", "2012/3/4", "2026/5/11", 48.5, 72, 35}, []any{"5C", 2, "歐本 OHM Pun", "男 M", "2012/8/9", "2026/5/11", 53, 68, 48})},
		{"nurse", "An occupational nurse: personal numbers, yes and no for medicines, a walk and its pulse.", oneTab("Hälsokoll",
			[]any{"Hälsokoll den 22 april 2026", nil, "Ansvarig: syster Tarn"}, []any{},
			[]any{"Förnamn", "Efternamn", "Personnummer", "Kön", "Längd cm", "Vikt kg", "Vilopuls", "Betablockerare", "2 km gång", "Puls efter gång", "Anm."},
			[]any{"Ada", "Lind", "850304-1234", "Kvinna", 166, "62,5", "68 slag/min", "nej", "17.40", 132, nil}, []any{"Ben", "Ohm", "19781231-5678", "Man", 181, 84, 61, "ja", "16:55", 118, "metoprolol"}, []any{"Cyd", "Rue", "900211-4321", "Kvinna", 171, "70", 64, "", "ej gjort", "-", "ont i knät"})},
		{"coach", "A coach: the test in the title alone, ages and sexes in one column, the best of two attempts.", oneTab("Pretemporada",
			[]any{"TEST DE 12 MINUTOS — 3 de septiembre de 2025"}, []any{"Dorsal", "Jugador/a", "Edad/Sexo", "F. nac.", "Peso", "FC reposo", "Metros 1er intento", "Metros 2º intento"},
			[]any{"07", "Ada Lind", "24/F", "04/03/2001", "58,5", 54, 2650, 2700}, []any{"10", "Ben Ohm", "27/M", "31/12/1997", "74", 50, "3.050", nil}, []any{"11", "Cyd Rue", "19/F", "11/02/2006", "61", "52 ppm", "lesionada", nil})},
		{"paper-copy", "Copied from paper: ticks, question marks, ditto signs, ranges, remarks in the cells.", oneTab("Gym",
			[]any{"Mr Tarn's class, period 3"}, []any{"#", "Last, First", "Gr.", "Sex (B/G)", "Age", "Mile run", "Laps", "Rest pulse (10 s)"},
			[]any{1, "Lind, Ada", 8, "G", 13, "9:02", 41, 12}, []any{2, "Ohm, Ben", "\"", "B", 14, "8.45", "52 (stopped early)", 11}, []any{3, "Rue, Cyd", 8, "G", "13?", "10:30 walked", "30-32", "11 x 6"}, []any{4, "Fell, Dan", 8, "B", 14, "√", "absent 5/12", 13})},
		{"survey-export", "An export: long question texts, time stamps, both sexes spelled out, metric and imperial.", oneTab("Form Responses 1",
			[]any{"Timestamp", "Email Address", "What is your full name?", "What is your gender?", "What is your date of birth?", "How tall are you? (feet and inches)", "What is your weight in pounds?", "Resting heart rate (bpm)", "Time for the 1 mile walk (mm:ss)", "Heart rate at the end of the 1 mile walk (bpm)"},
			[]any{typed{46154.75, "m/d/yyyy h:mm:ss"}, "a@example.org", "Ada Lind", "Female", day(1982, 3, 4), "5'6\"", 154, 68, clock(15, 20, 0, "h:mm:ss"), 131}, []any{typed{46154.8, "m/d/yyyy h:mm:ss"}, "b@example.org", "Ben Ohm", "Male", day(1975, 12, 31), "5 ft 11 in", "190 lbs", 61, "14:05", 125}, []any{typed{46154.9, "m/d/yyyy h:mm:ss"}, "c@example.org", "Cyd Rue", "Prefer not to say", day(1987, 2, 11), "5.5", 141, 64, "14m45s", 128})},
		{"club-history", "Every season a column of the same test, the newest on the right.", oneTab("Verein",
			[]any{"Vereinsmitglieder", nil, nil, "12-Minuten-Lauf", nil, nil}, []any{"Name", "Geb.", "m/w", "2024", "2025", "2026"},
			[]any{"Lind, Änne", 1985, "w", 2150, 2210, 2280}, []any{"Ohm, Bernd", 1979, "m", 2500, 2480, "-"})},
		{"dutch-steps", "Steps of the shuttle run with halves; a column of medicine that is left empty.", oneTab("Klas 2B",
			[]any{"Leerling", "Geslacht (m/v)", "Leeftijd", "Gewicht", "Rusthartslag", "Shuttle run test (trap)", "Opmerking"},
			[]any{"Ada Lind", "v", 13, "48,5", 74, "6,5", nil}, []any{"Ben Ohm", "m", 14, 55, 70, "8", nil}, []any{"Cyd Rue", "v", 13, 50, 71, "7½", "goed"})},
	}
}

// moreStrangersMess are further rosters of that kind.
func moreStrangersMess() []messyRoster {
	return []messyRoster{
		{"age-and-sex", "Age and sex in one cell, in every order, with slips.", oneTab("Lunch run club",
			[]any{"Runner", "Age/Sex", "Wt (kg)", "RHR", "1.5 mile run"},
			[]any{"Ada Lind", "31/F", 58, 60, "13:05"}, []any{"Ben Ohm", "M44", 72, 64, "11:30"}, []any{"Cyd Rue", "29 F", 60, 58, "12:40"}, []any{"Dot Fell", "(33, f)", 61, 66, "12:20"},
			[]any{"Eve Gill", "female 52 yrs", 61, 66, "14:20"}, []any{"Fay Holm", 33, 61, 70, "13:20"}, []any{"Gil Ivey", "M", 70, 61, "12:01"}, []any{"Hal Jett", "M ??", 70, 61, "12:01"}, []any{"Ian Kerr", nil, 70, 61, "12:01"}, []any{"Jan Lowe", "34-F", 70, 61, "12:59"})},
		{"sheet-per-sex", "A sheet for the girls and one for the boys, and no column for the sex.", rosterBook{tabs: []tab{
			{name: "Girls", rows: [][]any{{"Year 9 girls - beep test, 12 May 2026"}, {"Surname", "Forename", "Form", "DOB", "Level"}, {"Lind", "Ada", "9K", day(2011, 10, 3), "5.4"}, {"Rue", "Cyd", "9T", day(2011, 12, 9), "4.7"}}},
			{name: "Boys", rows: [][]any{{"Year 9 boys - beep test, 12 May 2026"}, {"Surname", "Forename", "Form", "DOB", "Level"}, {"Ohm", "Ben", "9K", day(2012, 1, 20), "6.2"}, {"Fell", "Dan", "9T", day(2011, 9, 30), "7.10"}}}}}},
		{"before-and-after", "The same test in autumn and in spring, side by side.", oneTab("8th grade",
			[]any{"Student", "Gr", "M/F", "Age", "Mile run (Fall)", "Mile run (Spring)", "Beep test - Sept", "Beep test - May"},
			[]any{"Lind, Ada", 8, "F", 13, "9:02", "8:47", "4.6", "5.4"}, []any{"Ohm, Ben", 8, "M", 14, "8:15", nil, "6.1", "6.8"}, []any{"Rue, Cyd", 8, "F", 13, nil, "10:30", nil, "3.9"})},
		{"template-with-example", "A form that was sent out: an example in the first line, stars for what must be filled in, line breaks in the headers.", rosterBook{tabs: []tab{{name: "Please fill in", merged: []string{"A1:H1"}, rows: [][]any{
			{"PLEASE FILL IN AND RETURN BY FRIDAY. Fields with * are needed."},
			{"Name *\n(first and last)", "Team", "Sex *\n(m / f)", "Date of birth *\n(dd/mm/yyyy)", "Date of test *", "Body weight *\nin kg", "Pulse at rest\n(beats per min)", "Time for 1 mile walk *\n(mm:ss)", "Pulse at end of 1 mile walk *"},
			{"Example: Max Example", "Stores", "m", "01/02/1980", "22/04/2026", 80, 65, "14:30", 120},
			{"Ada Lind", "Stores", "f", "13/04/1982", "22/04/2026", 70, 64, "15:20", 131}, {"Ben Ohm", "Office", "M", "31/12/1975", "22/04/2026", "86kg", "61bpm", "14:05", "125"}}}}}},
		{"imperial-pairs", "Feet and inches in two columns, stones and pounds in two.", oneTab("Wellbeing day",
			[]any{"Full name", "Dept", "Sex", "Age", "Height (ft)", "Height (in)", "Weight (st)", "Weight (lb)", "Resting pulse", "1 mile walk (min)", "1 mile walk (sec)", "Finish pulse"},
			[]any{"Ada Lind", "Stores", "F", 44, 5, 6, 11, 0, 68, 15, 20, 131}, []any{"Ben Ohm", "Office", "M", 51, 5, 11.5, 13, 8, 61, 14, 5, 125})},
		{"start-and-finish", "The clock at the start and at the finish of a 2.4 km run.", oneTab("Recruits",
			[]any{"No.", "Name", "Sex", "Age", "Weight", "Start", "Finish", "Pulse at finish"},
			[]any{"101", "Ada Lind", "F", 31, 58, clock(9, 0, 0, "h:mm:ss"), clock(9, 13, 5, "h:mm:ss"), 182}, []any{"102", "Ben Ohm", "M", 24, 72, clock(9, 1, 0, "h:mm:ss"), clock(9, 12, 30, "h:mm:ss"), 176})},
		{"dates-in-headers", "The day of the test in the header of its result.", oneTab("U15",
			[]any{"Player", "Born", "M/F", "Weight", "Beep test 12.05.2026", "12 min run (19.05.2026)"},
			[]any{"Ada Lind", day(2011, 10, 3), "F", 52, "5.4", 2150}, []any{"Ben Ohm", day(2012, 1, 20), "M", 60, "6.2", nil}, []any{"Cyd Rue", day(2011, 12, 9), "F", 55, nil, 1980})},
		{"notes-in-results", "Remarks typed into the results.", oneTab("9C",
			[]any{"Pupil", "Sex", "Age", "Beep test", "1.5 mile run"},
			[]any{"Ada Lind", "F", 14, "5.4 (asthma)", "13:05*"}, []any{"Ben Ohm", "M", 14, "7.2 PB", "DNS"}, []any{"Cyd Rue", "F", 14, "inj", "12:40 (wind)"}, []any{"Dan Fell", "M", 15, "6.3!", "11.58 pb"}, []any{"Eve Gill", "F", 14, "no kit", "walked"}, []any{"Fay Holm", "F", 14, "L5 S4", "13m 40"}, []any{"Gil Ivey", "M", 14, "lvl 8", "12:5"})},
		{"finnish", "Finnish headers, girls and boys by T and P, the day as text.", oneTab("7B",
			[]any{"Oppilas", "Luokka", "Sukupuoli", "Syntymäaika", "Testipäivä", "Paino (kg)", "Leposyke", "Cooperin testi", "Huom."},
			[]any{"Lind Ada", "7B", "T", "4.3.2012", "11.5.2026", "48,5", 74, 2150, nil}, []any{"Ohm Ben", "7B", "P", "9.8.2012", "11.5.2026", "55", 68, "2,3 km", nil}, []any{"Rue Cyd", "7B", "tyttö", "9.2.2012", "11.5.2026", 50, "-", "sairas", "flunssa"})},
		{"norwegian", "Norwegian headers, girls and boys by J and G, a race.", oneTab("10A",
			[]any{"Fornavn", "Etternavn", "Kjønn", "Født", "Dato", "Vekt", "Hvilepuls", "3000 m", "Merknad"},
			[]any{"Ada", "Lind", "J", "04.03.10", "11.05.2026", "52,5", 70, "14:40", nil}, []any{"Ben", "Ohm", "G", "17.11.09", "11.05.2026", 61, 64, "12.35", "bra"}, []any{"Cyd", "Rue", "jente", "09.02.10", "11.05.2026", 55, 72, "syk", nil})},
		{"turkish", "Turkish headers; girls and boys by K and E; distances with a dot for thousands.", oneTab("6-B",
			[]any{"Sıra No", "Adı", "Soyadı", "Sınıf", "Cinsiyet", "Yaş", "Boy (cm)", "Kilo", "Dinlenik nabız", "12 dakika koşusu"},
			[]any{1, "Ada", "Lind", "6-B", "K", 12, 151, "42,5", 78, "1.850"}, []any{2, "Ben", "Ohm", "6-B", "E", 12, 155, 47, 72, "2.100 m"}, []any{3, "Cyd", "Rue", "6-B", "Kız", 12, 149, 44, 80, "raporlu"})},
	}
}
