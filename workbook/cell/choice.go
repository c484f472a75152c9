package cell

import (
	"strings"

	"tenback/scoring"
)

// choice is a question with two answers and the words for each, folded.
type choice struct {
	fix     scoring.Said
	answers map[string]float64
}

func newChoice(fix scoring.Said, zero, one float64, forZero, forOne string) choice {
	c := choice{fix, map[string]float64{}}
	for _, w := range strings.Split(forZero, ",") {
		c.answers[Fold(w)] = zero
	}
	for _, w := range strings.Split(forOne, ",") {
		c.answers[Fold(w)] = one
	}
	return c
}

var (
	efforts = newChoice(fixEffort, scoring.EffortSteady, scoring.EffortAllOut,
		"steady,submax,submaximal,sub-max,sub-maximal,even,even pace,easy,jog,jogging,moderate,comfortable,locker,gleichmassig,ruhig,submaximale,submaximaal,constante,regulier,reguliere,allure reguliere,ровный,匀速",
		"all-out,all out,allout,max,maximal,maximum,race,full,full effort,ausbelastung,vollgas,a fond,maximale,maximaal,maximalt,maksymalny,maximo,massimo,максимум,максимальный,全力,전력")
	gaits = newChoice(fixGait, scoring.GaitWalk, scoring.GaitRun,
		"walk,walking,w,gehen,marche,caminar,andar,gang,chod,ходьба,走",
		"run,running,r,jog,jogging,laufen,course,correr,lop,bieg,бег,跑")
	answers = newChoice(fixYesNo, scoring.No, scoring.Yes,
		"no,n,none,never,false,nein,non,nee,nej,nie,não,nao,нет,否,无,いいえ,아니오,tidak,hayir,ei,ne,nem,όχι,ні,☐,0",
		"yes,y,true,ja,j,oui,o,si,s,sim,tak,t,да,是,有,はい,예,네,ya,evet,kyllä,joo,ano,igen,ναι,так,x,ok,+,✓,✔,√,☑,☒,✅,1")
)

func (c choice) read(r Raw) (float64, *Doubt) {
	if r.Kind != Bool {
		if d := r.unreadable(c.fix); d != nil {
			return 0, d
		}
	}
	if answer, ok := c.answers[Fold(r.Text)]; ok {
		return answer, nil
	}
	return 0, doubt(c.fix, noneOfWords)
}

// ParseEffort reads scoring.EffortAllOut or scoring.EffortSteady.
func ParseEffort(r Raw) (float64, *Doubt) { return efforts.read(r) }

// ParseGait reads scoring.GaitWalk or scoring.GaitRun.
func ParseGait(r Raw) (float64, *Doubt) { return gaits.read(r) }

// ParseYesNo reads scoring.Yes or scoring.No.
func ParseYesNo(r Raw) (float64, *Doubt) { return answers.read(r) }
