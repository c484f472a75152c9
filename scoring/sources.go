package scoring

// Source is an entry of the bibliography.
type Source struct {
	Key      string
	Citation string
}

var sources = []Source{
	{"acsm", "American College of Sports Medicine. Guidelines for Exercise Testing and Prescription; running, walking, stepping and cycling equations as restated by Bushman BA, ACSM's Health Fit J 2020;24(3):6-10 and 24(4):5-8."},
	{"cooper1968", "Cooper KH. A means of assessing maximal oxygen intake. JAMA 1968;203(3):201-204."},
	{"cress2003", "Cress ME, Meyer M. Maximal voluntary and functional performance needed for independence in adults aged 65 to 97 years. Phys Ther 2003;83:37-48."},
	{"george1993", "George JD, Vehrs PR, Allsen PE, Fellingham GW, Fisher AG. VO2max estimation from a submaximal 1-mile track jog for fit college-age individuals. Med Sci Sports Exerc 1993;25(3):401-406."},
	{"kaminsky2015", "Kaminsky LA, Arena R, Myers J. Reference standards for cardiorespiratory fitness measured with cardiopulmonary exercise testing: data from the FRIEND registry. Mayo Clin Proc 2015;90:1515-1523."},
	{"kaminsky2017", "Kaminsky LA, Imboden MT, Arena R, Myers J. Reference standards for cardiorespiratory fitness measured using cycle ergometry: data from the FRIEND registry. Mayo Clin Proc 2017;92:228-233."},
	{"kaminsky2022", "Kaminsky LA, Arena R, Myers J, Peterman JE, et al. Updated reference standards for cardiorespiratory fitness measured with cardiopulmonary exercise testing. Mayo Clin Proc 2022;97:285-293."},
	{"kline1987", "Kline GM, Porcari JP, Hintermeister R, Freedson PS, Ward A, McCarron RF, Ross J, Rippe JM. Estimation of VO2max from a one-mile track walk, gender, age, and body weight. Med Sci Sports Exerc 1987;19(3):253-259."},
	{"kusumoto2018", "Kusumoto FM, et al. 2018 ACC/AHA/HRS guideline on the evaluation and management of patients with bradycardia and cardiac conduction delay."},
	{"larsen2002", "Larsen GE, George JD, Alexander JL, Fellingham GW, Aldana SG, Parcell AC. Prediction of maximum oxygen consumption from walking, jogging, or running. Res Q Exerc Sport 2002;73(1):66-72."},
	{"latin2001", "Latin RW, et al. 2001: validation of the stepping equation (PMID 11581567)."},
	{"leger1988", "Leger LA, Mercier D, Gadoury C, Lambert J. The multistage 20 metre shuttle run test for aerobic fitness. J Sports Sci 1988;6(2):93-101."},
	{"leger1989", "Leger L, Gadoury C. Validity of the 20 m shuttle run test with 1 min stages to predict VO2max in adults. Can J Sport Sci 1989;14(1):21-26."},
	{"mandsager2018", "Mandsager K, Harb S, Cremer P, Phelan D, Nissen SE, Jaber W. Association of cardiorespiratory fitness with long-term mortality among adults undergoing exercise treadmill testing. JAMA Netw Open 2018;1(6):e183605. doi:10.1001/jamanetworkopen.2018.3605."},
	{"mcardle1972", "McArdle WD, Katch FI, Pechar GS, Jacobson L, Ruck S. Reliability and interrelationships between maximal oxygen intake, physical work capacity and step-test scores in college women. Med Sci Sports 1972;4(4):182-186."},
	{"mcardle-textbook", "McArdle WD, Katch FI, Katch VL. Exercise Physiology (textbook): the men's form, without a printed error."},
	{"nhanes0104", "National Center for Health Statistics. National Health and Nutrition Examination Survey 2001-2004, public-use data; percentiles computed for this project."},
	{"ostchega2011", "Ostchega Y, Porter KS, Hughes J, Dillon CF, Nwankwo T. Resting pulse rate reference data for children, adolescents, and adults: United States, 1999-2008. Natl Health Stat Report 2011;(41)."},
	{"ruiz2016", "Ruiz JR, Cavero-Redondo I, Ortega FB, et al. Cardiorespiratory fitness cut points to avoid cardiovascular disease risk in children and adolescents. Br J Sports Med 2016;50:1451-1458."},
	{"sarzynski2013", "Sarzynski MA, et al. Measured maximal heart rates compared to commonly used age-based prediction equations in the HERITAGE Family Study. Am J Hum Biol 2013 (PMC3935487)."},
	{"shephard2009", "Shephard RJ. Maximal oxygen intake and independence in old age. Br J Sports Med 2009;43:342-346."},
	{"swain1997", "Swain DP, Leutholtz BC. Heart rate reserve is equivalent to %VO2 reserve, not to %VO2max. Med Sci Sports Exerc 1997;29(3):410-414."},
	{"tanaka2001", "Tanaka H, Monahan KD, Seals DR. Age-predicted maximal heart rate revisited. J Am Coll Cardiol 2001;37:153-156."},
}

// Sources is the bibliography, by key.
func Sources() []Source { return sources }

// Cite gives the full citation of a key; the key itself if it is unknown,
// which a test excludes for every key in use.
func Cite(key string) string {
	for _, s := range sources {
		if s.Key == key {
			return s.Citation
		}
	}
	return key
}
