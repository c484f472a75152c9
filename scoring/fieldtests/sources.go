package fieldtests

import (
	"sync"

	"tenback/scoring"
)

// sources are those that several tests, or none, cite; see [Bibliography].
var sources = []scoring.Source{
	{Key: "acsm", Citation: "American College of Sports Medicine. Guidelines for Exercise Testing and Prescription; running, walking, stepping and cycling equations as restated by Bushman BA, ACSM's Health Fit J 2020;24(3):6-10 and 24(4):5-8."},
	{Key: "almeida2019", Citation: "Almeida AEM, et al. An equation for the prediction of oxygen consumption in a Brazilian population. Int J Cardiovasc Sci 2019;32(4):343-354 (title from memory)."},
	{Key: "ats2002", Citation: "ATS Committee on Proficiency Standards for Clinical Pulmonary Function Laboratories. ATS statement: guidelines for the six-minute walk test. Am J Respir Crit Care Med 2002;166(1):111-117."},
	{Key: "aune2017", Citation: "Aune D, et al. Resting heart rate and the risk of cardiovascular disease, total cancer, and all-cause mortality. Nutr Metab Cardiovasc Dis 2017;27:504-517."},
	{Key: "bouchard1999", Citation: "Bouchard C, et al. Familial aggregation of VO2max response to exercise training: results from the HERITAGE Family Study. J Appl Physiol 1999;87(3):1003-1008 (PMID 10484570)."},
	{Key: "bohannon1997", Citation: "Bohannon RW. Comfortable and maximum walking speed of adults aged 20-79 years: reference values and determinants. Age Ageing 1997;26(1):15-19 (from memory)."},
	{Key: "common", Citation: "common practice, no source"},
	{Key: "cress2003", Citation: "Cress ME, Meyer M. Maximal voluntary and functional performance needed for independence in adults aged 65 to 97 years. Phys Ther 2003;83:37-48."},
	{Key: "cureton1990", Citation: "Cureton KJ, Warren GL. Criterion-referenced standards for youth health-related fitness tests. Res Q Exerc Sport 1990 (details from memory); lines derived from public survey codes."},
	{Key: "desouza2018", Citation: "de Souza e Silva CG, Kaminsky LA, Arena R, et al. A reference equation for maximal aerobic power for treadmill and cycle ergometer exercise testing. Eur J Prev Cardiol 2018;25(7):742-750."},
	{Key: "fleg2005", Citation: "Fleg JL, et al. Accelerated longitudinal decline of aerobic capacity in healthy older adults. Circulation 2005;112:674-682."},
	{Key: "flynn2017", Citation: "Flynn JT, Kaelber DC, Baker-Smith CM, et al. Clinical practice guideline for screening and management of high blood pressure in children and adolescents. Pediatrics 2017;140(3):e20171904 (from memory)."},
	{Key: "garber2011", Citation: "Garber CE, Blissmer B, Deschenes MR, et al. Quantity and quality of exercise for developing and maintaining cardiorespiratory, musculoskeletal, and neuromotor fitness in apparently healthy adults. Med Sci Sports Exerc 2011;43(7):1334-1359."},
	{Key: "george1993", Citation: "George JD, Vehrs PR, Allsen PE, Fellingham GW, Fisher AG. VO2max estimation from a submaximal 1-mile track jog for fit college-age individuals. Med Sci Sports Exerc 1993;25(3):401-406."},
	{Key: "golding1989", Citation: "Golding LA, Myers CR, Sinning WE. Two-stage submaximal form, 1989, as given in a textbook chapter by Anning JH (Miller TA, ed., 2012)."},
	{Key: "kaminsky2015", Citation: "Kaminsky LA, Arena R, Myers J. Reference standards for cardiorespiratory fitness measured with cardiopulmonary exercise testing: data from the FRIEND registry. Mayo Clin Proc 2015;90:1515-1523."},
	{Key: "kaminsky2017", Citation: "Kaminsky LA, Imboden MT, Arena R, Myers J. Reference standards for cardiorespiratory fitness measured using cycle ergometry: data from the FRIEND registry. Mayo Clin Proc 2017;92:228-233."},
	{Key: "kaminsky2022", Citation: "Kaminsky LA, Arena R, Myers J, Peterman JE, et al. Updated reference standards for cardiorespiratory fitness measured with cardiopulmonary exercise testing. Mayo Clin Proc 2022;97:285-293."},
	{Key: "kline1987", Citation: "Kline GM, Porcari JP, Hintermeister R, Freedson PS, Ward A, McCarron RF, Ross J, Rippe JM. Estimation of VO2max from a one-mile track walk, gender, age, and body weight. Med Sci Sports Exerc 1987;19(3):253-259."},
	{Key: "kusumoto2018", Citation: "Kusumoto FM, et al. 2018 ACC/AHA/HRS guideline on the evaluation and management of patients with bradycardia and cardiac conduction delay."},
	{Key: "lamberts2004", Citation: "Lamberts RP, Lemmink KAPM, Durandt JJ, Lambert MI. Variation in heart rate during submaximal exercise: implications for monitoring training. J Strength Cond Res 2004;18(3):641-645."},
	{Key: "latin2001", Citation: "Latin RW, et al. 2001: validation of the stepping equation (PMID 11581567)."},
	{Key: "lobelo2009", Citation: "Lobelo F, et al. Validity of cardiorespiratory fitness criterion-referenced standards for adolescents. Med Sci Sports Exerc 2009;41:1222-1229."},
	{Key: "loe2013", Citation: "Loe H, Rognmo O, Saltin B, Wisloff U. Aerobic capacity reference data in 3816 healthy men and women 20-90 years. PLoS ONE 2013;8(5):e64319."},
	{Key: "mandsager2018", Citation: "Mandsager K, Harb S, Cremer P, Phelan D, Nissen SE, Jaber W. Association of cardiorespiratory fitness with long-term mortality among adults undergoing exercise treadmill testing. JAMA Netw Open 2018;1(6):e183605. doi:10.1001/jamanetworkopen.2018.3605."},
	{Key: "maron2014", Citation: "Maron BJ, Friedman RA, Kligfield P, et al. Assessment of the 12-lead ECG as a screening test for detection of cardiovascular disease in healthy general populations of young people. Circulation 2014;130:1303-1334 (from memory)."},
	{Key: "mayo2017", Citation: "Mayo Clin Proc 2017, doi:10.1016/j.mayocp.2017.09.003 (236 children; authors not seen)."},
	{Key: "men31", Citation: "31 men of 38 to 57, a widely used teaching data set on fitness; the original study is not identified."},
	{Key: "myers2017", Citation: "Myers J, Kaminsky LA, Lima R, Christle JW, Ashley E, Arena R. A reference equation for normal standards for VO2max. Prog Cardiovasc Dis 2017;60(1):21-29 (pages from memory)."},
	{Key: "nanchen2018", Citation: "Nanchen D. Resting heart rate: what is normal? Heart 2018;104(13):1048-1049 (pages from memory)."},
	{Key: "nata2007", Citation: "National Athletic Trainers' Association. Consensus statement: sickle cell trait and the athlete. 2007 (from memory)."},
	{Key: "nhanes0104", Citation: "National Center for Health Statistics. National Health and Nutrition Examination Survey 2001-2004, public-use data; percentiles computed for this project."},
	{Key: "nysp", Citation: "New York State Police, public web page with 1.5-mile run times."},
	{Key: "oja1991", Citation: "Oja P, Laukkanen R, Pasanen M, Tyry T, Vuori I. A 2-km walking test for assessing the cardiorespiratory fitness of healthy adults. Int J Sports Med 1991;12:356-362; Laukkanen R, et al. Int J Obes 1992;16:263-268 (details from memory)."},
	{Key: "ostchega2011", Citation: "Ostchega Y, Porter KS, Hughes J, Dillon CF, Nwankwo T. Resting pulse rate reference data for children, adolescents, and adults: United States, 1999-2008. Natl Health Stat Report 2011;(41)."},
	{Key: "paterson1999", Citation: "Paterson DH, Cunningham DA, Koval JJ, St Croix CM. Aerobic fitness in a population of independently living men and women aged 55-86 years. Med Sci Sports Exerc 1999;31:1813-1820 (title and pages from memory)."},
	{Key: "pcpfs1985", Citation: "President's Council on Physical Fitness and Sports. 1985 National School Population Fitness Survey (ERIC ED 291 714)."},
	{Key: "pelliccia2021", Citation: "Pelliccia A, Sharma S, Gati S, et al. 2020 ESC guidelines on sports cardiology and exercise in patients with cardiovascular disease. Eur Heart J 2021;42(1):17-96 (the line of 160 mmHg from memory)."},
	{Key: "riebe2015", Citation: "Riebe D, Franklin BA, Thompson PD, et al. Updating ACSM's recommendations for exercise preparticipation health screening. Med Sci Sports Exerc 2015;47(11):2473-2479 (details from later summaries)."},
	{Key: "rikli-jones", Citation: "Rikli RE, Jones CJ. Norms of the 2-minute step-in-place test, as reproduced on a public rehabilitation measures page."},
	{Key: "ruiz2016", Citation: "Ruiz JR, Cavero-Redondo I, Ortega FB, et al. Cardiorespiratory fitness cut points to avoid cardiovascular disease risk in children and adolescents. Br J Sports Med 2016;50:1451-1458."},
	{Key: "run12-web", Citation: "Two public web pages that agree; origin unclear."},
	{Key: "sarzynski2013", Citation: "Sarzynski MA, et al. Measured maximal heart rates compared to commonly used age-based prediction equations in the HERITAGE Family Study. Am J Hum Biol 2013 (PMC3935487)."},
	{Key: "shephard2009", Citation: "Shephard RJ. Maximal oxygen intake and independence in old age. Br J Sports Med 2009;43:342-346."},
	{Key: "simmons2014", Citation: "Simmons OL, et al. Physical fitness reference standards in persons with spinal cord injury. Arch Phys Med Rehabil 2014;95:2272-2278 (title from memory)."},
	{Key: "swain1997", Citation: "Swain DP, Leutholtz BC. Heart rate reserve is equivalent to %VO2 reserve, not to %VO2max. Med Sci Sports Exerc 1997;29(3):410-414."},
	{Key: "tanaka2001", Citation: "Tanaka H, Monahan KD, Seals DR. Age-predicted maximal heart rate revisited. J Am Coll Cardiol 2001;37:153-156."},
	{Key: "usaf", Citation: "United States Air Force, posted fitness scoring chart for men under 25 (public domain)."},
	{Key: "who2020", Citation: "World Health Organization. WHO guidelines on physical activity and sedentary behaviour. Geneva, 2020."},
}

// Bibliography returns the sources of all tests and of what else is printed.
var Bibliography = sync.OnceValue(func() []scoring.Source {
	for _, t := range all {
		sources = append(sources, t.Sources...)
	}
	return sources
})

// Cite returns the full citation of a key; the key itself if it is unknown.
func Cite(key string) string {
	for _, s := range Bibliography() {
		if s.Key == key {
			return s.Citation
		}
	}
	return key
}
