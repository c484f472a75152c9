package health

import (
	"strings"
	"testing"

	"tenback/scoring"
	"tenback/workbook/cell"
)

// answers lists what people write, by question and meaning, separated by " | ".
var answers = []struct {
	in              scoring.Input
	no, unclear, is string
}{
	{scoring.HeartRateDrug,
		"no | No | n | N | NO. | none | nil | none known | no meds | No medication | no tablets | not taking any | never | no, never | nope | 0 | FALSE | n/a | no beta blocker | no beta-blockers | not on any | no, only paracetamol | paracetamol | vitamin D | contraceptive pill | ramipril 5 mg | amlodipine | no - stopped 2019 | no (dad does) | neg | nothing | ☐ | no, none at present",
		"? | yes? | no? | unsure | not sure | don't know | dont know | dk | maybe | stopped in 2024 | used to | not now | no longer | not any more | mother takes atenolol | in family only | no, but takes ivabradine | no beta blocker but digoxin | tbc | ask GP | see notes | sometimes | methylphenidate | tablets | 5 mg | 2 | inhaler | ok | bisoprolol until 2023 | unknown | no idea | no change | same as last year | stanozolol | thyroxine | \" | ✗ | ??? | #N/A | ‽",
		"yes | y | Y | YES! | x | X | ✓ | ✔ | 1 | TRUE | true | yes (atenolol) | bisoprolol | Bisoprolol 2.5mg od | atenolol 50 | metoprolol | nebivolol | bisoprolo | atenalol | propanolol | BB | b-blocker | beta blocker | Betablocker | on beta blockers | β-blocker | digoxin | amiodarone | ivabradine | verapamil SR | diltiazem | flecainide | clonidine | CCB | bp tablets | timolol eye drops | yes, for migraine | yes - low dose | sotalol | carvedilol 6.25 bd"},
	{scoring.HeartRateDrug,
		"nein | Nein. | nie | keine | keine Medikamente | kein Betablocker | nichts | nein, nur Vitamin D | Nein, nie | entfällt | non | aucun | aucun traitement | jamais | pas de bêtabloquant | rien | néant | no | ninguno | ninguna medicación | nunca | nada | no, nunca | no toma nada | sin medicación | nessuno | nessun farmaco | mai | niente | no, solo vitamina D | nee | geen | geen medicijnen | nooit | nvt | não | nenhum | nunca | não toma | sem medicação | nej | nej, aldrig | inga | inga mediciner | ingen medicin | nie | nie, nigdy | brak | żadnych leków | nie bierze | bez leków",
		"weiß nicht | vielleicht | unklar | abgesetzt | früher | nicht mehr | manchmal | bei Bedarf | keine Ahnung | keine Angabe | k.A. | Mutter nimmt Betablocker | peut-être | ne sait pas | arrêté en 2023 | parfois | plus maintenant | quizás | no sé | no lo sé | dejó en 2022 | a veces | ya no | pendiente | forse | non so | non lo so | smesso | a volte | non più | misschien | weet niet | gestopt | soms | niet meer | talvez | não sei | parou em 2023 | às vezes | já não | kanske | vet ej | vet inte | slutat 2023 | ibland | może | nie wiem | odstawione | czasami | już nie",
		"ja | Ja, Bisoprolol | j | Bisoprolol | Betablocker | Metoprolol 47,5 mg morgens | oui | o | oui (aténolol) | bêtabloquant | bisoprolol 2,5 mg matin | sí | si | sí (atenolol) | betabloqueante | bisoprolol 5 mg al día | ivabradina | sì | betabloccante | bisoprololo | sim | betabloqueador | carvedilol | ja, metoprolol | bètablokker | betablockerare | metoprolol | tak | tak, bisoprolol | beta-bloker"},
	{scoring.KnownDisease,
		"no | none | nil known | healthy | fit and well | hay fever | no known disease | no heart problems | none known | no, hay fever only | eczema | gesund | keine | keine Vorerkrankungen | keine bekannt | Heuschnupfen | aucune | aucune maladie connue | en bonne santé | rhume des foins | ninguna | ninguna conocida | sano | sana | nessuna | nessuna patologia | sano | geen | gezond | hooikoorts | nenhuma | saudável | inga kända sjukdomar | frisk | zdrowy | brak | brak chorób",
		"asthma | ? | epilepsy | in family only | family history | heart? | father had a heart attack | AF | had a murmur as a child | being investigated | borderline | stopped treatment | metformin? | heart | tired | Verdacht auf Bluthochdruck | soupçon d'hypertension | sospecha de arritmia | dolor de rodilla",
		"yes | heart attack 2019 | hypertension | high BP | diabetes | type 2 diabetes | Diabetes Typ 2 | kidney disease | CKD 3 | stent | pacemaker | thyroid | Bluthochdruck | Herzinfarkt 2018 | Herzrhythmusstörungen | hypertension artérielle | infarctus | diabète | hipertensión | infarto | soplo | diabetes | ipertensione | diabete | soffio al cuore | hoge bloeddruk | hartfalen | suikerziekte | hipertensão | diabetes | högt blodtryck | hjärtsvikt | nadciśnienie | cukrzyca | zawał serca"},
	{scoring.Symptoms,
		"no | none | no chest pain | no chest pain, dizziness or fainting | denies chest pain | fine | keine | keine Beschwerden | beschwerdefrei | keine Brustschmerzen | aucun | aucun symptôme | pas de douleur thoracique | ninguno | sin síntomas | ningún dolor en el pecho | nessuno | nessun sintomo | geen klachten | geen | sem sintomas | nenhum | inga symtom | inga besvär | brak objawów | bez objawów",
		"? | sometimes | tired | dizzy last year | no chest pain but dizzy | a bit puffed | stitch | manchmal Schwindel | parfois | a veces mareos | ibland yrsel | czasami",
		"yes | chest pain | dizzy | palpitations | short of breath | Schwindel | Brustschmerzen | Herzrasen beim Sport | vertiges | douleur thoracique | mareos | dolor en el pecho | capogiri | dolore al petto | duizelig | pijn op de borst | tonturas | yrsel | bröstsmärta | zawroty głowy | ból w klatce piersiowej"},
	{scoring.Pregnant,
		"no | n/a | male | not pregnant | nein | nicht schwanger | non | no | nee | não | nej | nie | m",
		"? | maybe | 12 weeks | 24 | not sure | 2026-03-01 | possibly | vielleicht | peut-être | quizá | forse",
		"yes | pregnant | pregnant 7 months | had a baby in May | schwanger | schwanger, 12. SSW | enceinte | embarazada | embarazada de 3 meses | incinta | zwanger | grávida | gravid | w ciąży"},
	{scoring.Cleared,
		"no | not cleared | nein | non | no | nie | not fit",
		"waiting for letter | ? | pending | letter | yes, walking only | ok if walking | yes but no running | not yet | expired | tbc | wird geklärt | en attente | pendiente | in attesa | yes until June | 12/03/2026 | maybe | told to rest",
		"yes | ok | OK per GP | cleared | x | ✓ | yes - Dr Smith | GP ok | fit | ja | freigegeben | ärztlich freigegeben | oui | apte | apto | idoneo | tak | signed off by cardiologist"},
	{scoring.Consent,
		"no | nein | non | not signed",
		"? | photo no, test yes | verbal | pending | yes, but no page | only test | not yet | waiting",
		"yes | signed | Y | form returned | yes (mum) | ja | unterschrieben | oui | signé | firmado | sì | tak"},
}

func TestAnswers(t *testing.T) {
	for _, a := range answers {
		for want, list := range map[float64]string{scoring.No: a.no, scoring.Unclear: a.unclear, scoring.Yes: a.is} {
			for _, text := range strings.Split(list, " | ") {
				got, ok := Answer(a.in, cell.Raw{Kind: cell.Text, Text: text})
				if !ok || got != want {
					t.Errorf("%s %q: %v %v, want %v", a.in, text, got, ok, want)
				}
			}
		}
	}
}

// A dash is no answer, and a number no yes.
func TestNoAnswer(t *testing.T) {
	for _, text := range []string{"", " ", "-", "--", "–", "/", "...", "_"} {
		if got, ok := Answer(scoring.Symptoms, cell.Raw{Kind: cell.Text, Text: text}); ok {
			t.Errorf("%q is %v", text, got)
		}
	}
	for text, want := range map[string]float64{"0": scoring.No, "1": scoring.Yes, "2": scoring.Unclear, "0.5": scoring.Unclear, "-1": scoring.Unclear} {
		if got, _ := Answer(scoring.Pregnant, cell.Raw{Kind: cell.Number, Text: text}); got != want {
			t.Errorf("the number %s is %v", text, got)
		}
	}
}

func TestDangers(t *testing.T) {
	const symptoms, during = "symptoms", "symptoms!"
	for text, want := range map[string]string{
		"felt chest pain, stopped": during, "stopped, dizzy": during, "dizzy": during, "Fainted at the end": during, "palpatations on lap 3": during,
		"dizzy last year": symptoms, "history of fainting": symptoms, "sometimes breathless": symptoms,
		"pregnant 7 months": "pregnant", "asthma attack on lap 4, inhaler": "asthma!", "carries inhaler": "asthma", "had knee surgery in May": "recent-operation", "surgery in May": "recent-operation",
		"heart condition": "known-disease", "heart": "known-disease", "weak heart": "known-disease", "stroke 2015": "known-disease", "had a stroke": "known-disease", "seizure last month": "recent-operation",
		"concussion in March": "recent-operation", "diabetes low": "insulin", "hypo at lap 5": "insulin!", "good stroke": "", "stroke technique poor": "", "Chest felt tight": during, "used inhaler": "asthma!", "bon cœur": "", "on bisoprolol": "heart-rate-drug", "on beta blocker": "heart-rate-drug", "takes atenalol": "heart-rate-drug",
		"mum says she felt dizzy": during, "Dad phoned: chest pain on Sunday": during, "No chest pain but dizzy": during, "did not finish dizzy": during, "no energy, dizzy": during,
		"chest pain: yes": during, "our son has asthma": "asthma", "just recovered from flu": "recent-illness", "sickle cell trait": "sickle-cell-trait", "uncle died suddenly": "family-sudden-death", "brother died young of heart": "family-sudden-death", "very pale afterwards": during, "told by doctor not to run": "recent-operation", "darf nicht laufen": "recent-operation",
		"no chest pain": "", "denies chest pain": "", "no chest pain, dizziness or fainting": "", "never fainted": "", "chest pain: no": "", "Asthma: none": "",
		"mum is a cardiologist": "", "heart of a lion": "", "mum is pregnant": "", "dad had a heart attack": "", "good heart rate": "", "heart rate strap slipped": "", "great effort": "",
		"cardio session before": "", "hart gelaufen": "", "op tijd": "", "Yr 7": "", "stroked home": "", "operating well": "", "run on a cold day": "", "forgot kit": "", "painting": "",
		"Schwindel, abgebrochen": during, "keine Brustschmerzen": "", "schwanger": "pregnant", "hat Asthma": "asthma", "Gehirnerschütterung im Mai": "recent-operation", "Mai: Schwindel": during, "Brustschmerzen im Mai": during, "nimmt Betablocker": "heart-rate-drug", "Mutter hat Asthma": "",
		"a eu un malaise": during, "pas de douleur thoracique": "", "enceinte de 5 mois": "pregnant", "asthmatique": "asthma", "sa mère est enceinte": "",
		"se mareó en la última vuelta": during, "dolor en el pecho": during, "sin dolor en el pecho": "", "embarazada": "pregnant", "toma bisoprolol": "heart-rate-drug",
		"dolore al petto, fermato": during, "senza dolore al petto": "", "incinta": "pregnant", "duizelig na de loop": during, "geen pijn op de borst": "", "zwanger": "pregnant",
		"sentiu tonturas": during, "sem dor no peito": "", "grávida": "pregnant", "fick yrsel": during, "ingen bröstsmärta": "", "gravid": "pregnant", "zawroty głowy po biegu": during, "bez bólu w klatce": "", "w ciąży": "pregnant",
		"胸痛": during, "怀孕": "pregnant", "めまい": during, "어지러움": during, "": "", "???": "",
	} {
		var got []string
		for _, d := range Dangers(text, false) {
			kind := d.Kind.String()
			if d.DuringTest {
				kind += "!"
			}
			got = append(got, kind)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %v, want %q", text, got, want)
		}
	}
	if d := Dangers("dizzy spells since May", true); len(d) != 1 || !d[0].DuringTest {
		t.Errorf("in a result's cell: %v", d)
	}
}

// FuzzHealth holds reading to never fail, whatever is typed.
func FuzzHealth(f *testing.F) {
	f.Add("no, chest pain? (β-blocker) 胸痛; n/a -")
	f.Fuzz(func(t *testing.T, text string) {
		Dangers(text, true)
		for _, in := range []scoring.Input{scoring.HeartRateDrug, scoring.Cleared} {
			if x, ok := Answer(in, cell.Raw{Kind: cell.Text, Text: text}); ok && x != scoring.No && x != scoring.Yes && x != scoring.Unclear {
				t.Errorf("%q is %v", text, x)
			}
		}
	})
}
