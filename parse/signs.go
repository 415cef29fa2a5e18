package parse

import (
	"strings"

	"jobday/trade"
)

// A sign is what a word or phrase hints at. Signs are bits, so that a stretch of words has the sum
// of its signs.
type sign uint64

// The signs.
const (
	workVerb    sign = 1 << iota // pulled, hung, replaced
	progressed                   // done, half, 2 of 3
	somebody                     // somebody with a say: the owner, the general contractor
	asked                        // wants, asked for
	saidYes                      // approved, go ahead
	saidNo                       // declined, don't bother
	priceTold                    // quoted 180, told her 250
	notBooked                    // not on the ticket, not quoted
	faulty                       // loose, missing, burnt
	faultPhrase                  // no cover, open knockout: a fault whatever stands around it
	foundIt                      // found, noticed
	leftOver                     // tomorrow, still needs
	needs                        // need, needs: left over, unless it is a fault or a price
	questioned                   // ask the office, should we
	delivered                    // received, dropped off
	heldUp                       // waited, in our way
	weathered                    // rain, muddy
	secured                      // lockout, toolbox talk
	otherTrade                   // plumber, drywall crew
	machine                      // scissor lift, rental
	instructed                   // told us to, per the architect
	tested                       // tested, measured
	instrument                   // 121.4 V, 18 ohms, L1-N
	clockSpan                    // 7-3:30, 8am-noon
	looseSpan                    // 8-6: clock times if a name or "hrs" stands by
	duration                     // 45 min, 8 hrs
	named                        // one of the crew
	counted                      // a number or number word that may count something
	measured                     // a number with a unit of material: 52 ft, 2 rolls
	thing                        // a thing or material of the trade
	pronoun                      // it, that, she: speaks of what was said before
	byOthers                     // by others, not ours
	negated                      // no, not, without
	soft                         // added, extra: beyond the booking, or only more
	circuitry                    // circuit 4, ckt 12
	travelled                    // drove, travel
	spoken                       // said, told
	verbal                       // is, has: a sentence, not a list
	vague                        // a, some: counts one thing, or nothing
	outOf                        // 2 of 3
	whole                        // a thing of the trade that is booked and counted, not only a part
	mealBreak                    // lunch
	clockIn                      // started at 7
	clockOut                     // left at 4
	allWell                      // nothing found, no issues
	toPrice                      // get a price from the office
	brokeDown                    // down, dead, late: said of a machine it stops the work
)

// has reports whether any of the signs asked for is there.
func (s sign) has(any sign) bool { return s&any != 0 }

// all reports whether all of the signs asked for are there.
func (s sign) all(want sign) bool { return s&want == want }

// signWords are single words by what they hint at. Verbs of work and things of the trade come from
// the trade vocabulary. Common practice, no source.
var signWords = buildSignWords(map[sign]string{
	verbal:     "is are was were has have had be been",
	vague:      "a an another some few several",
	progressed: "now done complete completed finished half halfway all started partial roughed trimmed mostly",
	somebody: "mgr director principal pastor prof professor supt president buyer grower builder developer treasurer secretary steward warden " +
		"owner owners customer client manager tenant gc homeowner landlord landlady super superintendent architect " +
		"engineer inspector foreman boss pm lady owner's customer's",
	asked: "asked asks want wants wanted requested requests requesting asking wishes please pls",
	saidYes: "ok'd okd okay'd okayed oked ok'ed approved approves authorized authorised agreed agrees signed okays " +
		"confirmed accepted",
	saidNo:    "declined declines refused refuses",
	priceTold: "quoted bucks dollars nte quote",
	faulty: "soaked burn missing loose burnt burned scorched melted corroded rusted rusty cracked broken damaged exposed reversed " +
		"unsupported overheated overloaded undersized oversized ungrounded frayed chewed arcing sparking leaking charred " +
		"discolored unsafe hazard hazardous dangerous miswired mislabeled mislabelled unlabeled buried illegal faulty " +
		"defective rotted rotten seized swollen moldy uncovered crumbling brittle pinched nicked dangling unprotected fried noisy noise unmarked untagged unfused bootleg backwards cooked toasted smoked",
	foundIt:    "find found noticed discovered spotted observed noted",
	leftOver:   "tomorrow tmrw tmw tmr tomorow remaining todo outstanding unfinished punchlist",
	needs:      "need needs needed",
	questioned: "wondering unsure",
	delivered:  "delivered received delivery backordered shipped deliveries",
	heldUp:     "waited waiting delayed delay standby delays waits",
	brokeDown:  "blocked down dead died flat late lost stuck broke overheated",
	weathered: "slippery slick wind rain rained raining rainy snow snowing snowed windy sunny cloudy overcast humid muddy mud storm stormy " +
		"drizzle foggy freezing icy weather sleet hail thunderstorm cloudburst",
	secured: "loto lockout tagout ppe tailgate jsa jha harness injury injured incident locked-out safety barricaded barricade",
	otherTrade: "rigger riggers excavators welder welders plumber plumbers plumber's drywallers drywaller painter painters hvac tiler tilers framer framers roofer roofers " +
		"mason masons glazier glaziers carpenter carpenters sheetrockers insulators fitters floorers movers landscapers rockers tapers " +
		"sprinkler masons' cleaners",
	machine: "lift scissor excavator trencher backhoe rental rented jackhammer scaffold scaffolding forklift " +
		"boom telehandler compressor",
	instructed: "directed instructed instructions",
	tested:     "tested measured megged metered torqued retested checked reads verified",
	duration:   "",
	mealBreak:  "lunch lunches lunchbreak dinner",
	pronoun:    "it that this she he they them those these took also same which",
	negated:    "no not without never don't didn't doesn't won't isn't wasn't aren't cannot can't couldn't dont didnt wont cant nothing none nobody noone",
	soft:       "added extra additional add",
	circuitry:  "circuit ckt ckts circuits breaker",
	travelled:  "travel drove drive driving travelled traveled",
	spoken:     "said says told texted emailed called",
	named:      "me myself helper",
	counted: "one two three four five six seven eight nine ten eleven twelve dozen doz couple few some several a an another " +
		"both",
})

// signPhrases are phrases by what they hint at.
var signPhrases = buildSignPhrases(map[sign]string{
	progressed: "made up|up and working|up working|roughed in|in and working|all set|wrapped up",
	somebody:   "general contractor|property manager|building manager|site manager|store manager|office manager|project manager",
	asked: "would love|would want|would like|wants us|asked for|asked if|asked us|had us|had me|wants a|wants an|like us to|asking for|begged for|" +
		"requested a|could we also|while we were there|while you're here|while we're here|while we are there",
	saidYes: "go ahead|said yes|said ok|said okay|said sure|says yes|says ok|gave ok|gave the ok|gave an ok|gave the go|" +
		"do it|verbal ok|texted yes|texted ok|texted back yes|green light|said fine|fine with it|ok with it|ok by|ok from|per owner|" +
		"per the owner|per customer|per the customer|per gc|per the gc|per manager|per the manager|per tenant|per the tenant|" +
		"said to go|said do|say yes|say ok|say do|says do|bill it|will pay|she'll pay|he'll pay|they'll pay|she initialed|he initialed|wrote yes|emailed yes|signed off|signed for|gave us the ok|ok on site|okay by|okay from",
	saidNo: "no money for|has no money|no money this|no money in|no budget|not in the budget|not this year|can't afford|cant afford|said no|don't bother|dont bother|doesn't want|didn't want|does not want|did not want|not interested|turned down|" +
		"passed on it|said not to|no thanks|too expensive|told no|told her no|told him no|told them no|decided not|decided against|won't pay|would not pay",
	priceTold: "told her the price|told him the price|gave her a price|gave him a price|gave them a price|price of|quoted her|" +
		"quoted him|quoted them|time and material",
	notBooked: "not on our sheet|not on the sheet|not on sheet|not on our order|not quoted|not on the ticket|not on ticket|not in scope|not in the scope|not on the scope|out of scope|beyond scope|" +
		"beyond the scope|outside scope|outside the scope|not booked|not in the bid|not in bid|not on the list|not in contract|" +
		"not in the contract|not part of the job|not in the quote|not in quote|wasn't quoted|not on the quote|not on the order|" +
		"not on the work order|not on work order|add on|extra work|change order|wasn't on the ticket|wasnt on the ticket|" +
		"not in the price|isn't on the ticket|not on our ticket|not on our list|not part of the bid|off the ticket|never quoted",
	faultPhrase: "found water|water in the|water in it|won't open|wont open|won't close|wont close|won't reset|wont reset|won't turn|wont turn|won't start|wont start|will not open|will not close|will not reset|no cover|no covers|no ground|no gfci|no gfi|no connector|no connectors|no clamp|no blank|no blanks|no box|" +
		"open knockout|open knockouts|open ko|open kos|open ground|open neutral|open splice|open splices|live parts|bare wire|" +
		"bare wires|exposed wire|exposed wires|exposed wiring|live wires|flying splice|flying splices|not grounded|not bonded|" +
		"no bond|not supported|no support|no supports|not strapped|under one screw|same screw|under one lug|double tap|double tapped|" +
		"double taps|double lugged|reverse polarity|reversed polarity|hot and neutral swapped|bootleg ground|extension cord|" +
		"wires hanging|hanging by|falling off|falling out|no bushing|no bushings|wrong breaker|wrong size breaker|not gfci|cover missing|" +
		"covers missing|missing cover|missing covers|missing ground|open box|open boxes|open j box|no plate|no lid|neutral and ground|" +
		"ate the|ate through|ate thru|chewed through|backstabbed|knob and tube|aluminum branch|wide open|tripping hazard|shock hazard|fire hazard",
	foundIt: "traced it to|traced to|came across|turned out|has a|have a|there is|there's|there are|is missing|was missing|are missing|has no|have no|had no",
	leftOver: "still need|still needs|left to do|next trip|next visit|next time|to finish|to do|needs to be|need to be|will need|" +
		"have to come back|come back|coming back|return trip|go back|going back|still to|yet to|not done|not landed|not started|" +
		"didn't get to|did not get to|didnt get to|not finished|left for|still open|to be done|next week|on monday|on tuesday|" +
		"on wednesday|on thursday|on friday|didn't finish|did not finish|didnt finish|haven't|not yet|for next|left is|" +
		"what's left|whats left|didn't come in|didnt come in|did not come in|never came|hasn't come|hasnt come|not come in|didn't show up|" +
		"didnt show up|not touched|never got to|no time for|didn't touch|didnt touch|did not show up|didn't come|didnt come|still not here|will do|will finish|didn't make it to|ran out of time|not trimmed|not terminated|not installed|not hooked|" +
		"not hung|not pulled|not wired|not made up|to hang|to land|to trim|left off|come monday|first thing|need to|needs to",
	allWell: "nothing found|none found|found nothing|no issues|no issue|no problems|no problem|nothing wrong|all good|looks good|" +
		"looked good|all ok|no faults|no defects|no hazards|nothing to report|nothing loose|nothing burnt|all tight|everything ok|" +
		"everything good|everything fine|looks fine|all fine",
	toPrice: "send price|send a price|send her a price|send him a price|send them a price|will quote|to quote|call the builder|call the office|call office|ask boss|ask the boss|" +
		"no price yet|write it up|wrote it up|email the office|to confirm|a price|price it|for pricing|a quote|price that|to price|will price|gets a price",
	questioned: "asked about|asking about|asked whether|ask the office|ask office|need to know|who pays|should we|should i|do we|can we|is it ok|anyone know|" +
		"please advise|pls advise|let me know|not sure if|not sure whether|does anyone|who is|whose is|want us to",
	delivered: "showed up with|came in|dropped off|back ordered|packing slip|on backorder|got delivered|picked up",
	heldUp: "could not work|couldn't work|couldnt work|held us up|kept us waiting|slowed us|held me up|so stopped|had to stop|so we stopped|so I stopped|sent us home|sent home|held up|in our way|in the way|stood by|stood around|couldn't start|could not start|lost an hour|lost half|lost 1|lost 2|hours late|hrs late|hour late|hr late|hours lost|hrs lost|hour lost|" +
		"could not run|couldn't run|could not use|" +
		"no access|couldn't get in|could not get in|sat around|late start|started late|couldn't get to|had to wait|waiting on|" +
		"waiting for|wait for|locked gate|nobody on site|no one on site|pushed us back|kept us from|shut us down",
	weathered: "too cold|cold out|hot out|high winds|very hot|very cold",
	secured: "locked out|tagged out|toolbox talk|tool box talk|hot work|fire watch|arc flash|hard hat|hard hats|safety glasses|" +
		"safety meeting|safety talk|fall protection|verified dead|absence of voltage|near miss|first aid|lock out|tag out|test dead",
	otherTrade: "other trades|tile guy|tile guys|drywall crew|drywall guys|data guys|low voltage guys|cabinet guys|tin knockers|" +
		"oven fitters|floor guys|other trade|concrete guys|hvac guys|sprinkler guys|alarm guys|paint crew|roofing crew|framing crew",
	machine: "scissor lift|boom lift|man lift|skid steer|mini ex|mini excavator|core drill|bucket truck|genie lift|concrete saw",
	instructed: "wants us out|wants us gone|wants us off|wants us done|want us out|told us to|told us not|said to|was told|were told|told to|told me to|per the super|per super|per the architect|" +
		"per architect|per the engineer|per engineer|per the inspector|per inspector|per drawings|per plans|per the plans|wants us to|" +
		"said not|instructions from|hold off",
	byOthers: "not us|not our work|not ours to|somebody else's|someone else's|by others|by other|not our job|not ours|already done|already in|was done|someone else|somebody else|others did|" +
		"by the gc|by the owner|not our scope",
	tested:    "tests ok|tested ok|tests good|tested good|trips ok|tripped at|tripped in|no continuity|continuity ok|reset ok|did not trip|didn't trip|won't trip",
	clockSpan: "all day",
	travelled: "drive time|travel time|on the road",
})

// Verbs of work the vocabulary does not know as such, and words it does that say no work.
var (
	moreWorkVerbs = wordSet("did worked ran bent strapped energized energised buttoned tied finished completed wrapped spliced " +
		"mtd instd termd lnded rplcd reloc'd " +
		"tore torn ripped yanked addressed programmed commissioned cleaned swept closed capped taped tightened opened dug drove patched grounded bonded fed built " +
		"assembled started hooked demoed demo'd swapped put driven wound got got'em brought")
	noWorkVerbs = wordSet("test tests tested testing measure measured check checked checks land found use used uses is are was " +
		"read reads reading need needs wait waited switch switches label labels meter meters box boxes connect drop drops feed feeds plug plugs " +
		"mount strap straps splice splices rough trim pull hang cut tag tags light lights fixture fixtures panel panels fan fans cap caps " +
		"plate plates clamp clamps core ground grounds bond trip trips service")
)

func buildSignWords(lists map[sign]string) map[string]sign {
	m := map[string]sign{}
	for s, words := range lists {
		for _, w := range strings.Fields(words) {
			m[w] |= s
		}
	}
	for w := range moreWorkVerbs {
		m[w] |= workVerb
	}
	return m
}

// A signPhrase is a phrase without its first word.
type signPhrase struct {
	rest []string
	sign sign
}

func buildSignPhrases(lists map[sign]string) map[string][]signPhrase {
	m := map[string][]signPhrase{}
	for s, phrases := range lists {
		for _, p := range strings.Split(phrases, "|") {
			words := strings.Fields(p)
			m[words[0]] = append(m[words[0]], signPhrase{words[1:], s})
		}
	}
	return m // the order within one first word does not show: every phrase that fits adds its sign
}

// vocabularySign says what the trade vocabulary knows of a word.
func vocabularySign(low string) sign {
	w, ok := trade.FindWord(low)
	if !ok {
		return 0
	}
	var s sign
	switch w.Class {
	case trade.ThingWord:
		s |= thing | whole
	case trade.PartWord, trade.MaterialWord, trade.GenericWord:
		s |= thing
	case trade.VerbWord:
		if pastTense(low) {
			s |= workVerb
		}
	}
	if w.Verb != "" && pastTense(low) {
		s |= workVerb
	}
	return s
}

// pastTense reports whether a verb as written tells of work that happened, rather than of work to
// do: "pulled", "hung", "pulling", not "pull".
func pastTense(low string) bool {
	if noWorkVerbs[low] {
		return false
	}
	switch low {
	case "hung", "ran", "cut", "put", "bent", "made", "took", "fed", "dug", "built", "set", "strung":
		return true
	}
	return strings.HasSuffix(low, "ed") || strings.HasSuffix(low, "ing") && low != "ceiling" && low != "wiring" || strings.HasSuffix(low, "'d")
}
