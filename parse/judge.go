package parse

import "jobday/notes"

// A verdict is what words say they are.
type verdict struct {
	kind  notes.Kind
	score int // 0 to 9: how much speaks for it
	why   string
	next  notes.Kind // the runner-up, "" for none
	lead  int        // how far ahead of it

	chance float64 // that it is right, where all clues were weighed; 0 where only the judges were asked
}

// Scores from which a verdict counts as strong: it wins over the section the line stands in, or
// starts an entry of its own.
const (
	weakScore   = 4
	clearScore  = 6
	strongScore = 7
)

// evidence is what one stretch of words offers to the judge.
type evidence struct {
	signs  sign
	first  mark // the first word
	asks   bool // ends with a question mark
	placed bool // begins with a numbered place: "unit 5: 3 heads"
	mended bool // tells of a fault and, behind a comma, of work: "neutral burnt, cut back"
	used   bool // begins with "used", "we used"
	head   bool // names a thing that work is booked for and says what became of it
	others bool // somebody who is not us did it: "Mr. Fenn moved them"
	words  int  // how many marks there are
	onSite bool // ends with "on site"
	told   bool // ends with who was told: ", told Ruth"
	// tells of work only behind a comma
	thenWork bool
	headed   bool // says before a colon what it is about: "vestibule: 5 fixtures"
	facts    *notes.Facts
}

// evidenceOf sums up marks; facts may be nil.
func evidenceOf(marks []mark, facts *notes.Facts) evidence {
	e := evidence{signs: signsOf(marks), facts: facts, words: len(marks)}
	if len(marks) == 0 {
		return e
	}
	e.first = marks[0]
	e.used = e.first.low == "used" || len(marks) > 1 && marks[1].low == "used"
	e.asks = marks[len(marks)-1].low == "?"
	e.others = doneByOthers(marks)
	e.head = reports(marks)
	e.headed = headed(marks)
	if n := len(marks); n > 2 {
		e.onSite = marks[n-1].low == "site" && marks[n-2].low == "on"
	}
	for i := 2; i < len(marks)-1; i++ {
		e.thenWork = e.thenWork || marks[i].low == "," && signsOf(marks[i:]).has(workVerb) && signsOf(marks[:i]).has(verbal|foundIt)
		e.told = e.told || marks[i].low == "told" && marks[i-1].low == ","
	}
	e.mended = e.signs.has(faulty|faultPhrase) && e.signs.has(workVerb) && mended(marks)
	if len(marks) > 1 && numberedPlaces[e.first.low] {
		n := marks[1]
		e.placed = (len(marks) < 3 || marks[2].low != "has" && marks[2].low != "had") && (n.kind == numberMark || n.low == "#" || n.kind == wordMark && n.end-n.start == 1)
	}
	return e
}

// headed reports whether up to three words and a colon stand before what is said of them.
func headed(marks []mark) bool {
	for i := 0; i < len(marks)-1 && i < 4; i++ {
		switch {
		case i == 0 && marks[0].kind == numberMark && marks[1].low == ":" && len(marks) > 2 && marks[2].spaced: // "207: 15 plugs"
		case marks[i].low == ":":
			return i > 0 && marks[i+1].spaced
		case i > 0 && marks[i].kind == numberMark && marks[i-1].kind == wordMark && i+1 < len(marks) && marks[i+1].low == ":": // "lathe 1:"
		case marks[i].kind != wordMark || marks[i].sign.has(counted|negated|asked|spoken|somebody):
			return false
		}
	}
	return false
}

// jotted reports whether words that say nothing counted may still be shorthand for booked work: few
// of them, no sentence, with a number, a place or how far something got.
func (e evidence) jotted() bool {
	const most = 14 // marks; a longer stretch without a verb is talk
	if e.words > most || e.asks || e.facts == nil {
		return false
	}
	p := e.facts.Progress
	if p.Blocked || p.NotDone || p.ByOthers || p.Dropped || p.Complete != notes.Unsaid || p.Placed {
		return true
	}
	return !e.signs.has(verbal|spoken|asked|pronoun|allWell) && !(e.signs.has(negated) && e.signs.has(faulty|faultPhrase)) && e.signs.has(thing|counted|progressed)
}

// mended reports whether a fault is told before any work, and the work behind a comma.
func mended(marks []mark) bool {
	fault, parted := false, false
	for i, m := range marks {
		switch {
		case m.sign.has(faulty|faultPhrase) || i > 0 && marks[i-1].sign.has(faultPhrase):
			fault = true // and the second word of "not grounded" is no work
		case m.sign.has(workVerb):
			return parted
		case m.low == "," || m.low == "-":
			parted = fault
		}
	}
	return false
}

// doneByOthers reports whether a sentence begins with somebody who is none of ours and goes on with
// what they did: "the drywallers closed the wall", "Mr. Fenn moved them", "she cut it".
func doneByOthers(marks []mark) bool {
	i := 0
	if marks[0].low == "the" && len(marks) > 1 {
		i = 1
	}
	who := marks[i]
	title := false
	switch who.low {
	case "mr", "mrs", "ms", "dr":
		title = true
	case "she", "he", "they", "utility", "poco":
	default:
		if !who.sign.has(somebody|otherTrade) || who.sign.has(named) {
			return false
		}
	}
	return title || i+1 < len(marks) && marks[i+1].sign.has(workVerb|verbal)
}

// numberedPlaces are words that name a place with a number or letter behind them.
var numberedPlaces = wordSet("unit units apt apartment room rm suite ste bldg building floor flr bay stall lot house office bath bathroom " +
	"bed bedroom classroom wing level lvl zone area space shop store pen")

// A candidate is a kind with what speaks for it.
type candidate func(e evidence) (score int, why string)

// candidates are the kinds with their judges; where two are as likely, the earlier one leads.
var candidates = []struct {
	kind  notes.Kind
	judge candidate
}{
	{notes.Question, asQuestion},
	{notes.Extra, asExtra},
	{notes.Deficiency, asFault},
	{notes.TimeEntry, asTime},
	{notes.Test, asTest},
	{notes.LeftOpen, asLeft},
	{notes.Work, asWork},
	{notes.Material, asMaterial},
	{notes.Delivery, asDelivery},
	{notes.Delay, asDelay},
	{notes.SafetyCheck, asSafety},
	{notes.Instruction, asInstruction},
	{notes.Condition, asCondition},
	{notes.Subcontractor, asOtherTrade},
	{notes.EquipmentUse, asMachine},
	{notes.Circuit, asCircuit},
}

// judgeWords says what a stretch of words is, by its words alone.
func judgeWords(e evidence) verdict {
	v := verdict{kind: notes.Narrative, why: "says nothing that is counted"}
	runnerUp := 0
	for _, c := range candidates {
		score, why := c.judge(e)
		switch {
		case score > v.score:
			v.next, runnerUp = v.kind, v.score
			v.kind, v.score, v.why = c.kind, score, why
		case score > runnerUp:
			v.next, runnerUp = c.kind, score
		}
	}
	v.lead = v.score - runnerUp
	if runnerUp == 0 {
		v.next = ""
	}
	return v
}

// sure turns a verdict into a confidence from 0 to 1. Only kinds that move money differently make
// it doubtful.
//
// On the labelled notes (57 notes of dev, dev2 and dev3, November 2026), of the kinds that words alone
// decided, this share was right: a lead of 3 and more 168 of 178 (0.94), of 2 28 of 29 (0.97), of 1 17 of
// 19 (0.89). A lead of 1 so stays decided: asking there would take 17 right answers back to spare 2 wrong
// ones. What ties is asked where money hangs on it.
func (v verdict) sure() float64 {
	switch {
	case v.chance > 0:
		return min(v.chance, mostSure)
	case v.kind == notes.Narrative:
		return 1
	case v.lead >= 3:
		return 0.95
	case v.lead == 2:
		return 0.9
	case v.lead == 1:
		return 0.8
	case movesMoney(v.kind) || movesMoney(v.next):
		return 0.5
	}
	return 0.75
}

// mostSure is how sure words can make of a kind.
const mostSure = 0.99

func movesMoney(k notes.Kind) bool {
	switch k {
	case notes.Work, notes.Extra, notes.Material, notes.TimeEntry, notes.EquipmentUse:
		return true
	}
	return false
}

func asQuestion(e evidence) (int, string) {
	switch {
	case e.asks:
		return 9, "asks a question"
	case e.signs.has(questioned) && e.signs.all(asked|somebody):
		return 5, "tells what somebody asked"
	case e.signs.has(questioned):
		return 7, "asks somebody to decide"
	}
	return 0, ""
}

func asExtra(e evidence) (int, string) {
	s := e.signs
	yes := s.has(saidYes) || e.consent(notes.Authorized)
	someone := s.has(somebody) || e.consent(notes.Authorized) && e.facts.Consent.By != ""
	no := s.has(saidNo) || e.consent(notes.Declined)
	did := s.has(workVerb | soft)
	switch {
	case s.has(notBooked):
		return 8, "says it is not part of the booking"
	case s.has(toPrice) && s.has(somebody) && s.has(asked|questioned) && !e.asks:
		return 8, "says somebody asked for it, and that it has no price yet"
	case s.has(asked) && yes:
		return 8, "says somebody asked and agreed"
	case no && s.has(asked|priceTold):
		return 8, "says somebody asked and declined"
	case yes && did && (someone || s.has(soft|priceTold)):
		return 8, "says somebody agreed to work that was added"
	case s.has(priceTold) && s.has(somebody|asked|spoken|soft) && !s.has(foundIt):
		return 7, "tells a price that was named"
	case s.all(asked | somebody):
		return 6, "says somebody asked for it"
	case e.first.low == "asked" && e.first.sign.has(asked) && !s.has(questioned):
		return 6, "says somebody asked for it"
	case no && (s.has(somebody) || e.consent(notes.Declined) && e.facts.Consent.By != "") && !s.has(workVerb):
		return 7, "says somebody declined"
	case no && s.has(somebody|soft|thing):
		return 6, "says somebody declined"
	case s.all(saidYes|duration) && e.words > 12 && !e.first.sign.has(pronoun) && !s.has(workVerb|clockSpan|faulty|faultPhrase):
		return 7, "says what somebody agreed to, and how long it took"
	case yes && did && !s.has(progressed|tested):
		return 6, "says somebody agreed to it"
	case s.has(priceTold):
		return 4, "names a price"
	case s.all(soft|workVerb) && s.has(thing):
		return 3, "says something was added"
	}
	return 0, ""
}

func (e evidence) consent(state notes.ConsentState) bool {
	return e.facts != nil && e.facts.Consent.State == state
}

func asFault(e evidence) (int, string) {
	s := e.signs
	named := e.facts != nil && e.facts.Fault.Named
	const why = "describes a fault"
	switch {
	case s.has(foundIt) && s.has(faulty|faultPhrase):
		return 8, "says a fault was found"
	case e.first.sign.has(foundIt) && e.told && !s.has(asked|progressed):
		return 7, "says what was found and who was told"
	case e.first.sign.has(foundIt) && e.thenWork && s.has(thing) && !s.has(asked|progressed|outOf):
		return 7, "says what was found and what was done about it"
	case e.mended:
		return 7, "tells of a fault and what was done about it"
	case s.has(faultPhrase) && !s.has(workVerb):
		return 7, why
	case s.has(faulty) && !s.has(workVerb) && s.has(thing):
		return 7, why
	case s.has(faulty) && !s.has(workVerb):
		return 5, why
	case s.has(faultPhrase):
		return 4, why
	case named && !s.has(workVerb):
		return 5, why
	case s.has(faulty) || named:
		return 3, why
	}
	return 0, ""
}

func asTime(e evidence) (int, string) {
	s := e.signs
	hours := e.first.low == "hrs" || e.first.low == "hours"
	switch {
	case s.has(clockSpan|looseSpan) && s.has(named):
		return 9, "names a person with clock times"
	case s.all(clockIn | clockOut), s.has(looseSpan) && s.has(mealBreak) && !s.has(workVerb|thing):
		return 8, "gives clock times"
	case s.has(clockSpan) && !s.has(workVerb|thing), s.has(looseSpan) && hours:
		return 7, "gives clock times"
	case s.has(travelled) && s.has(duration):
		return 7, "tells of time on the road"
	case s.has(named) && s.has(duration) && !s.has(workVerb|thing), e.peopleWithHours() && !s.has(workVerb|thing|heldUp|machine|asked|foundIt|otherTrade):
		return 7, "names a person with hours"
	case s.has(looseSpan) && s.has(duration) && !s.has(workVerb|thing):
		return 6, "gives clock times and hours"
	case s.has(clockSpan):
		return 4, "gives clock times"
	case s.has(duration) && !s.has(workVerb|thing|heldUp|machine) && (e.words <= 6 || s.has(named)):
		return 4, "gives hours"
	}
	return 0, ""
}

// peopleWithHours reports whether a time of somebody could be read: "Ines 7.5", "3 men, 8 to 4".
func (e evidence) peopleWithHours() bool {
	if e.facts == nil || len(e.facts.Time) == 0 {
		return false
	}
	row := e.facts.Time[0]
	return len(row.People) > 0 || row.Crew > 1
}

func asTest(e evidence) (int, string) {
	s := e.signs
	read := s.has(instrument) || e.facts != nil && len(e.facts.Readings) > 0 && (s.has(tested) || hasFigure(e.facts.Readings) || !s.has(thing))
	const why = "gives instrument readings"
	switch {
	case measures[e.first.low] && s.has(instrument):
		return 8, why
	case s.has(tested) && read && (s.has(instrument) || !s.has(workVerb)):
		return 8, why
	case read && !s.has(workVerb), measures[e.first.low] && s.has(counted|tested) && !s.has(workVerb|measured):
		return 7, why
	case s.has(tested) && !s.has(workVerb):
		return 5, "says something was tested"
	case read && s.has(instrument):
		return 4, why
	case s.has(tested):
		return 3, "says something was tested"
	}
	return 0, ""
}

// hasFigure reports whether any reading has a figure: "tripped, reset" alone is no test of a thing.
func hasFigure(rs []notes.Measured) bool {
	for i := range rs {
		if rs[i].HasVal {
			return true
		}
	}
	return false
}

// measures are words that open a line of readings: "amps 28.1 / 27.9", "rotation checked ok".
var measures = wordSet("amps volts voc vmp isc voltage amperage current rotation continuity megger meg resistance torque impedance")

func asLeft(e evidence) (int, string) {
	s := e.signs
	const why = "says it is still to be done"
	switch {
	case e.first.low == "left" && !s.has(workVerb|clockOut), (e.first.low == "need" || e.first.low == "needs") && !s.has(workVerb|faulty|faultPhrase|asked|toPrice):
		return 7, why
	case s.has(leftOver) && !s.has(workVerb|progressed):
		return 8, why
	case s.has(leftOver):
		return 4, why
	case s.has(needs) && !s.has(workVerb|faulty|faultPhrase):
		return 5, why
	}
	return 0, ""
}

func asWork(e evidence) (int, string) {
	s := e.signs
	const why = "tells of work"
	progress := s.has(progressed) || e.facts != nil && (e.facts.Progress.Complete != notes.Unsaid || e.facts.Progress.Of != nil || e.facts.Progress.ByOthers)
	switch {
	case e.placed && !s.has(faulty|faultPhrase|instrument|clockSpan):
		return 7, "lists work by place"
	case e.others:
		return 0, ""
	case e.headed && s.has(workVerb|progressed) && !s.has(faulty|faultPhrase|clockSpan|tested):
		return 8, why
	case e.headed && s.has(counted|workVerb|progressed) && !s.has(faulty|faultPhrase|clockSpan|looseSpan|measured|duration):
		return 7, why
	case s.has(workVerb) && s.has(thing|counted):
		return 6, why
	case s.has(workVerb):
		return 5, why
	case progress && s.has(thing|counted):
		return 6, "says how far something got"
	case progress:
		return 4, "says how far something got"
	}
	return 0, ""
}

func asMaterial(e evidence) (int, string) {
	s := e.signs
	const why = "counts material and tells of no work"
	items := false
	if e.facts != nil {
		for i := range e.facts.Items {
			items = items || e.facts.Items[i].Qty.Written() && e.facts.Items[i].Name != ""
		}
	}
	switch {
	case e.used && s.has(counted|measured):
		return 8, "says what was used"
	case s.has(workVerb|verbal|mealBreak) || e.placed:
		return 0, ""
	case s.has(vague) && !e.first.sign.has(vague):
		return 0, ""
	case s.has(measured) && s.has(thing) && !s.has(progressed):
		return 6, why
	case s.has(counted|measured) && s.has(thing), items:
		return 5, why
	case s.has(measured):
		return 4, why
	}
	return 0, ""
}
