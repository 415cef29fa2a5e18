package field

import (
	"strings"

	"jobday/notes"
)

var faultCues = cueTable{
	sayFault: "will not close|wont close|doesnt close|does not close|wont latch|will not latch|doesnt latch|wont shut|wont trip|doesnt trip|wouldnt trip|will not trip|neutral not landed|ground not landed|ground not connected|grounds not connected|neutral not connected|not gfci|not gfi|not gfci protected|isnt gfci|no in - use cover|no in use cover|no bubble cover|no wp cover|no weatherproof cover|no cover|no covers|no cover plate|no plate|no ground|no grounds|no grounding|no equipment ground|no bond|no bonding|no bushing|no bushings|no connector|no connectors|no clamp|" +
		"no gfci|no gfi|no afci|no strain relief|no disconnect|no blank|no blanks|no filler|no fillers|no box|no locknut|no nail plate|no nail plates|no directory|no labels on panel|no power|no neutral|no surge protector|no support|no straps|no staples|no working space|no barrier|" +
		"without a cover|without cover|without a box|without a ground|without ground|without a connector|without gfci|without a bushing|" +
		"not bonded|not grounded|not secured|not supported|not strapped|not stapled|not protected|not tied down|not labeled|not to code|not in a box|not listed for|not rated for|not working|isnt grounded|isnt bonded|isnt secured|isnt working|arent grounded|arent bonded|" +
		"doesnt work|does not work|wont reset|wont turn on|wont turn off|wont stay on|wont hold|not linked",
	sayFaultIf: "missing|loose|burnt|burned|burnt up|burned up|scorched|charred|melted|overheated|overheating|arcing|arced|sparking|fried|" +
		"open knockout|open knockouts|open ko|open kos|open splice|open splices|open neutral|open ground|open hot|open box|open boxes|open j box|open jbox|open live bus|open slot|open slots|open space in the cover|open wiring|open junction box|" +
		"reversed|reverse polarity|polarity wrong|hot neutral swapped|swapped polarity|polarity swapped|unsupported|overfused|over fused|oversized breaker|breaker too big|double tapped|double tap|double taps|double lugged|doubled up neutrals|two neutrals under|two wires under|2 wires under|two wires on one|2 wires on one|" +
		"cracked|corroded|corrosion|rusted|rusty|rust|rotted|broken|busted|damaged|damage|frayed|nicked|chafed|chewed|pinched|skinned|bare wire|bare wires|bare conductor|bare conductors|cord cut|cut cord|live splice|live splices|live wire|live wires|hanging out of|lost neutral|lost a neutral|lost ground|screw thru|screw through|nail thru|nail through|staple through|pennies behind|arc mark|arc marks|arc flash marks|burn mark|burn marks|scorch marks|overlamped|over lamped|cut wire|wire cut|cut cable|ground cut|grounds cut|ground wire cut|exposed|open|cover off|covers off|lid off|live parts|" +
		"pitted|hot to touch|extension cords|overfull|too many wires|box fill way over|box fill over|same phase|same leg|hanging off|laying on the grid|laying on grid|laying on the ceiling|tied to the grid|aluminum wire on|water dripping|dripping|leaking|panel is blocked|panel door is blocked|disconnect is blocked|disconnect blocked|wet|water in|water inside|full of water|leaking into|undersized|unbonded|ungrounded|bootleg|painted over|backstabbed|back stabbed|backstab|tripping|nuisance trip|dead|dead short|shorted|short to ground|ground fault on|bad|faulty|defective|failed breaker|" +
		"splice outside a box|splice outside box|splices outside|splice outside the box|flying splice|buried box|buried splice|box buried|box over the ceiling|hidden box|overfilled|overloaded|overstuffed|unprotected|unsealed|unlabeled|mislabeled|mislabelled|" +
		"neutral bonded in|neutrals bonded in|neutral and ground together|wrong breaker|wrong size breaker|extension cord|cord as wiring|run as fixed wiring|as permanent wiring|taped splice|hanging by the wires|hanging by wires|hanging loose|falling off|falling down|dangling|" +
		"flickering|flickers|buzzing|shocked|got shocked|shocks|code violation|violation|violations|illegal|hazard|hazardous|unsafe|dangerous|shock hazard|fire hazard|strands cut|cut strands|missing strands|too shallow|blocked panel|panel blocked|" +
		"energized with no|abandoned live|still live|still hot|keeps tripping|kept tripping|hot to the touch|smells burnt|burning smell|smoking|cloth wiring|knob and tube|live wire hanging|aluminum on",
	sayFaultNo: "dead front|dead fronts|deadfront|dead end|dead ends|dead ended|dead man|verified dead|tested dead|checked dead|proved dead|proven dead|bad weather|bad road|bad roads|bad rain|bad battery phone|" +
		"wet location|wet locations|wet rated|wet listed|wet wall|wet niche|damp or wet|loose ends|loose parts|loose wire nuts|loose wirenuts|loose hardware|loose items|loose bag|cut loose|" +
		"exposed conduit|exposed emt|exposed ceiling|exposed pipe|exposed work|exposed beam|exposed beams|exposed raceway|exposed run|exposed duct|ran exposed|run exposed|hazardous location|hazardous locations|broken down|broken out|broken up|short run|" +
		"rust proof|rust proofing|danger tag|danger tags|danger sign|danger tape|no power tools|no box needed|nothing missing|missing from delivery|missing from the delivery|missing from order|no ground fault|no ground faults|damaged in shipping|dead bolt|deadbolt|shocks to",
	sayFixed: "put on its own breaker|put on its own|put it on its own|moved to its own|gave it its own|snugged|snugged up|snugged it up|fixed|fixed it|corrected|repaired|retightened|retorqued|re-torqued|re - torqued|re - tightened|reterminated|re - terminated|relanded|re - landed|remade|made right|took care of it|resolved|rewired|now ok|ok now|works now|made good",
	sayFixedIf: "tightened|torqued|tightened up|replaced|closed|closed up|plugged|filled|sealed|swapped|swapped it|changed|changed out|secured|strapped|supported|bonded|grounded|covered|moved|labeled|labelled|cleaned|pigtailed|separated|" +
		"flipped|flipped it|flipped them|rehung|rehung it|re - hung|re - hung it|nailed one|nailed one on|slipped a|slipped one|used ours|used one of ours|used two of ours|new lug|new one in|new one on|screwed it back|screwed back|clamped|retaped|re - taped|refed|re - fed it|wire brushed|put back|put it back|put a|put in|put on|put one on|put it in|put it|put new|put cover|put covers|installed|added|cut back|remade it|reconnected|spliced|boxed|insulated|re - fed|cleared|reattached|remounted|stapled|has a cover now|has one now|landed",
	saySafe:       "made safe|made it safe|made them safe|made that safe|locked out|lock out|locked it out|locked and tagged|tagged out|tagged it out|taped and tagged|taped off|taped and capped|red tagged|barricaded|roped off|caution taped|de - energized|deenergized|deenergised|safed off|made safe for now",
	saySafeIf:     "taped|taped it|taped up|taped over|tagged|tagged it|capped|capped off|capped the|wire nutted|turned off|turned it off|shut off|shut it off|switched off|breaker off|left off|left it off|isolated|isolated it|disconnected|disconnected it|killed|killed it|killed the breaker|unplugged|unplugged it|temp cover|temporary cover|blocked off|pulled the fuse|pulled the fuses",
	sayLeft:       "left as is|left as found|left it as is|left alone|left it alone|did not touch|didnt touch|not touched|havent touched|not ours|not our job|not our scope|not fixed|not corrected|not repaired|not replaced|leave for later|left for later|let it be|didnt fix|did not fix|no action|nothing done about it|leave as is|leave it|left in place|left it",
	sayLeftIf:     "ordered|ordered new|on order|will order|ordering|left|still|needs|need|needs to be|should be|should|recommend|recommended|recommends|to be replaced|to be fixed|will need|will fix|will replace|must be|ought to|for another day|not yet|will come back|next visit|wants us to quote|needs a price|not addressed",
	sayFound:      "found|noticed|saw|spotted|discovered|came across|ran into",
	sayTold:       "told|let|informed|notified|advised|showed|reported to|reported it to|pointed out to|pointed it out to|made|warned|mentioned to|mentioned it to|spoke to|spoke with|talked to|brought up with|alerted",
	sayToldAfter:  "notified|informed|aware|is aware|was told|told|knows|has been told|was notified|was informed|advised",
	sayDanger:     "danger|dangerous|immediate|immediately|shock hazard|electrocution|fire hazard|life safety|live parts exposed|exposed live parts|live wires exposed|exposed live wires|could kill|someone could get shocked|live bare",
	sayHazard:     "hazard|hazardous|unsafe|live parts|not safe|unsafe condition",
	sayMinor:      "minor|maintenance|cosmetic|housekeeping|not urgent|low priority",
	sayNoSeverity: "danger tag|danger tags|danger sign|danger tape|maintenance guy|maintenance man|maintenance dept|maintenance department|maintenance room|maintenance staff|maintenance crew|maintenance let|maintenance shop|hazardous location|hazardous locations|maintenance will|maintenance supervisor|maintenance office",
}

// damage collects what the phrases about faults say.
type damage struct {
	r        *reader
	f        notes.FaultWords
	states   []hit
	found    bool
	declined bool
}

// fault reads what the words say about a fault in the installation.
func (r *reader) fault() notes.FaultWords {
	if r.look().topics&aboutFault == 0 {
		return notes.FaultWords{}
	}
	d := damage{r: r}
	d.name()
	d.weigh()
	return d.decide()
}

// name looks for words that describe a fault. A phrase that only looks like one ("dead front")
// hides the words in it.
func (d *damage) name() {
	r := d.r
	hidden := 0
	for _, h := range r.seen.hits {
		if h.from < hidden {
			continue
		}
		switch h.sense {
		case sayFaultNo:
			hidden = h.to
		case sayFault:
			d.named(h)
		case sayFaultIf:
			if !r.takenBack(h) && r.describesFault(h) {
				d.named(h)
			}
		}
	}
}

func (d *damage) named(h hit) {
	start, end := d.r.piece(h.from, h.to)
	if !d.f.Named {
		d.f.Named, d.f.Start, d.f.End = true, start, end
		return
	}
	d.f.Start, d.f.End = min(d.f.Start, start), max(d.f.End, end)
}

// takenBack reports whether a "no" stands before a fault: "no loose connections", "nothing burnt",
// "nothing loose or burnt".
func (r *reader) takenBack(h hit) bool {
	for i, n := h.from, 0; n < 6 && i > 0 && !r.breaks(i-1); n++ {
		i--
		low := r.low(i)
		if low == "with" || low == "has" || low == "and" && r.low(i+1) != r.low(h.from) && !negationBefore(r, i) {
			return false
		}
		if negation(low) {
			return !r.ownNegation(i)
		}
	}
	return false
}

func negationBefore(r *reader, i int) bool { return r.negatedWithin(i, 3) }

// ownNegation reports whether the "no" at token i belongs to a fault of its own: "no cover".
func (r *reader) ownNegation(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense == sayFault {
			return true
		}
	}
	return false
}

// describesFault reports whether an adjective is about the installation here, not about ordinary
// work, weather or a thing's name.
func (r *reader) describesFault(h hit) bool {
	next, prev := r.low(h.to), r.low(h.from-1)
	switch r.low(h.from) {
	case "dead":
		switch prev {
		case "verified", "tested", "checked", "proved", "is", "made", "confirmed", "circuit":
			return false
		}
		return next != "-" && next != "front" && next != "ends" && next != "." && next != "test" && next != "check"
	case "exposed":
		switch next {
		case "conduit", "emt", "ceiling", "pipe", "work", "run", "runs", "raceway", "beam", "brick", "duct", "wiremold", "structure":
			return false
		}
		return prev != "ran" && prev != "run" && prev != "in"
	case "wet":
		switch next {
		case "location", "rated", "listed", "wall", "bar", "sink", "niche", ",", "ground", "day", "out", "concrete", "paint", "weather", "conditions":
			return next == "," && h.from > 0
		}
		return h.from > 0
	case "loose":
		switch next {
		case "parts", "ends", "hardware", "wirenuts", "items", "ones", "bag", "staples", "stuff":
			return false
		case "wire":
			return r.low(h.to+1) != "nut" && r.low(h.to+1) != "nuts"
		}
	case "bad":
		return next != "weather" && next != "road" && next != "roads" && next != "traffic" && next != "idea" && prev != "not" && prev != "too"
	case "missing":
		return next != "parts" && next != "from" && next != "material" && next != "materials" && next != "person"
	case "broken":
		return next != "down" && next != "out" && next != "up"
	case "tripping":
		return prev != "without" && next != "time"
	case "rust":
		return next != "-" && next != "proof" && next != "colored"
	case "damage", "damaged":
		return !(next == "in" && (r.low(h.to+1) == "shipping" || r.low(h.to+1) == "transit")) && next != "waiver"
	case "open":
		return h.to-h.from > 1 || r.boxBefore(h.from)
	case "same":
		return r.neutralNear(h.from)
	case "shorted":
		return next != "us" && next != "on"
	case "reversed":
		return next != "the" || r.low(h.to+1) == "polarity" || r.low(h.to+1) == "leads"
	case "hazard", "hazardous", "unsafe", "dangerous":
		return prev != "not" && next != "tape" && next != "pay"
	}
	return true
}

// boxBefore reports whether a box or the like stands shortly before "open" at token i, which ends
// its clause: "j box above ceiling open".
func (r *reader) boxBefore(i int) bool {
	if !r.endsClause(i + 1) {
		return false
	}
	for j := max(r.clauseStart(i), i-5); j < i; j++ {
		switch r.low(j) {
		case "box", "jbox", "boxes", "splice", "knockout", "knockouts", "ko", "kos", "can", "gutter", "trough":
			return true
		}
	}
	return false
}

// neutralNear reports whether a neutral is spoken of around token i.
func (r *reader) neutralNear(i int) bool {
	for j := max(0, i-6); j < min(len(r.toks), i+6); j++ {
		if low := r.low(j); low == "neutral" || low == "neutrals" || low == "mwbc" {
			return true
		}
	}
	return false
}

// weigh goes through the phrases about what became of it, who was told and how grave it is.
func (d *damage) weigh() {
	r := d.r
	hidden, state := 0, 0
	for _, h := range r.seen.hits {
		switch h.sense {
		case sayFixed, sayFixedIf, saySafe, saySafeIf, sayLeft, sayLeftIf:
			if h.from >= state && d.counts(h) {
				d.states = append(d.states, h)
				state = h.to
			}
		case sayFound:
			d.found = d.found || !r.negatedWithin(h.from, 2) && r.low(h.from-1) != "not" && r.low(h.from-1) != "as"
		case sayNo, sayNoIf:
			d.declined = d.declined || r.refused
		case sayTold, sayToldAfter:
			d.told(h)
		case sayNoSeverity:
			hidden = h.to
		case sayDanger:
			if h.from >= hidden && !r.negatedWithin(h.from, 2) {
				d.grave(notes.Danger)
			}
		case sayHazard:
			if h.from >= hidden && (!r.negatedWithin(h.from, 2) || r.low(h.from) == "not") {
				d.grave(notes.Hazard)
			}
		case sayMinor:
			if h.from >= hidden && r.low(h.to) != "receptacle" {
				d.grave(notes.Maintenance)
			}
		}
	}
}

// grave keeps the gravest severity said.
func (d *damage) grave(s notes.Severity) {
	if d.f.Severity == "" || s == notes.Danger || s == notes.Hazard && d.f.Severity == notes.Maintenance {
		d.f.Severity = s
	}
}

// counts reports whether a phrase about the state of a fault is one here. Words of everyday work
// ("replaced", "tagged") count when a fault is named, or when they open a line and point back
// with "it" or "them".
func (d *damage) counts(h hit) bool {
	r := d.r
	if h.sense == sayFixed && r.low(h.from) == "fixed" {
		switch r.low(h.to) {
		case "wiring", "wire", "wires", "appliance", "appliances", "equipment", "load", "loads", "conduit", "seating", "price":
			return false // a trait, no deed: "run as fixed wiring"
		}
	}
	switch h.sense {
	case saySafe:
		// "locked out of room 3" and "locked out to land the feeder" made nothing safe.
		next := r.low(h.to)
		return d.f.Named || next != "of" && next != "to" && next != "before" && next != "while"
	case sayFixed, sayLeft:
		return true
	case sayLeftIf:
		return (d.f.Named || h.from == 0 && r.low(h.from) == "left" && h.to == 1 && r.endsClause(1)) && !r.leftThing(h)
	}
	if r.insideFault(h) {
		return false
	}
	if d.f.Named {
		return !(r.low(h.from) == "covered" && r.low(h.to) == "by")
	}
	if r.pointsBack(h) {
		return true
	}
	switch r.low(h.from) {
	case "turned", "shut", "tagged", "killed", "taped", "locked":
		return h.sense == saySafeIf && r.safeTogether(h.from) && !r.forWork(h.to)
	}
	return false
}

// insideFault reports whether the phrase is part of one that names a fault: "not bonded".
func (r *reader) insideFault(h hit) bool {
	for _, k := range r.near(h.from-6, h.from) {
		if (k.sense == sayFault || k.sense == sayFaultIf) && k.from < h.from && h.to <= k.to {
			return true
		}
	}
	return false
}

// forWork reports whether something was shut off only to work on it: "tagged and locked out to
// land the feeder".
func (r *reader) forWork(i int) bool {
	for j := i; j < min(len(r.toks), i+5) && !r.breaks(j); j++ {
		switch r.low(j) {
		case "to", "before", "while", "during":
			return true
		}
	}
	return false
}

// safeTogether reports whether two acts of making safe stand together: "turned off and tagged".
func (r *reader) safeTogether(i int) bool {
	n := 0
	for _, h := range r.near(i-clauseReach, i+clauseReach) {
		if h.sense == saySafeIf || h.sense == saySafe {
			n++
		}
	}
	return n >= 2
}

// leftThing reports whether "left" is a side or a departure.
func (r *reader) leftThing(h hit) bool {
	switch r.low(h.from) {
	case "left":
		next := r.low(h.to)
		switch r.low(h.from - 1) {
		case "bottom", "top", "upper", "lower", "front", "rear", "back", "far", "to":
			return true
		}
		if next == "side" || next == "at" || next == "hand" || next == "of" || r.low(h.from-1) == "the" || r.low(h.from-1) == "counter" {
			return true
		}
		return r.isNumber(h.to)
	case "still":
		return r.low(h.to) == "working" || r.low(h.to) == "ok"
	}
	return false
}

// pointsBack reports whether a phrase is followed by "it", "them" or the end of its clause and
// opens its clause: "closed them", "taped".
func (r *reader) pointsBack(h hit) bool {
	if r.clauseStart(h.from) != h.from {
		return false
	}
	switch r.low(h.to) {
	case "it", "them", "both", "that", "those":
		return true
	}
	last := r.low(h.to - 1)
	return last == "it" && r.low(h.from) != "put" || h.from == 0 && r.endsClause(h.to) && h.to == len(r.toks)
}

// told notes who was told.
func (d *damage) told(h hit) {
	r := d.r
	if d.f.Told != "" {
		return
	}
	first, last := r.low(h.from), r.low(h.to-1)
	if end, ok := r.listener(h.to, last == "told"); ok {
		switch first {
		case "let":
			if r.low(end) != "know" {
				return
			}
		case "made":
			if r.low(end) != "aware" {
				return
			}
		}
		d.f.Told = r.words(h.to, end)
		d.widen(h.from, end)
		return
	}
	switch last {
	case "notified", "informed", "aware", "told", "advised", "knows":
		if from, to := r.personBefore(h.from); to > 0 && to >= h.from-2 && r.endsClause(h.to) {
			d.f.Told = r.words(from, to)
			d.widen(from, h.to)
		}
	}
}

func (d *damage) widen(from, to int) {
	if d.f.Named {
		return
	}
	start, end := d.r.piece(from, to)
	if !d.f.Found() {
		d.f.Start, d.f.End = start, end
	}
	d.f.End = max(d.f.End, end)
}

// listener reads who was told at token i: a person, or "her", "him", "them" after "told".
func (r *reader) listener(i int, pronouns bool) (end int, ok bool) {
	switch low := r.low(i); low {
	case "her", "him", "them":
		return i + 1, pronouns || r.low(i+1) == "know"
	case "us", "me", "you":
		return 0, false
	}
	if end, ok := r.personAt(i); ok {
		if r.low(end) == "to" && r.low(i-1) == "told" {
			return 0, false
		}
		return end, true
	}
	return 0, false
}

// decide settles the state: the last word counts, but what was made safe stays made safe when
// more is still needed, and a customer's no counts only where nothing was done.
func (d *damage) decide() notes.FaultWords {
	f := &d.f
	safe := false
	for _, h := range d.states {
		s := d.stateOf(h)
		if s == "" {
			continue
		}
		safe = safe && s != notes.FaultCorrected || s == notes.FaultMadeSafe
		f.State = s
		if !f.Found() {
			f.Start, f.End = d.r.piece(h.from, h.to)
		}
	}
	if safe {
		f.State = notes.FaultMadeSafe
	}
	switch {
	case !f.Named:
		if f.State == notes.FaultLeft && f.Told == "" && !d.strongLeft() {
			f.State = ""
		}
	case d.declined && (f.State == "" || f.State == notes.FaultLeft):
		f.State = notes.FaultDeclined
	case f.State == "" && d.found:
		f.State = notes.FaultFound
	}
	if !f.Named && f.State == "" && f.Told == "" {
		f.Severity = onlyGrave(f.Severity)
	}
	return *f
}

// onlyGrave drops "maintenance" where nothing else is about a fault.
func onlyGrave(s notes.Severity) notes.Severity {
	if s == notes.Maintenance {
		return ""
	}
	return s
}

// strongLeft reports whether one of the phrases can only mean that a fault was left.
func (d *damage) strongLeft() bool {
	for _, h := range d.states {
		if h.sense == sayLeft || h.from == 0 && h.to == 1 || h.sense == sayFixed || h.sense == sayFixedIf {
			return true
		}
	}
	return false
}

// stateOf returns what a phrase says, "not fixed" and "needs to be fixed" being left.
func (d *damage) stateOf(h hit) notes.FaultState {
	r := d.r
	switch h.sense {
	case sayFixed, sayFixedIf:
		if r.negatedWithin(h.from, 3) || r.future(h.from) || r.needed(h.from) || strings.HasPrefix(r.low(h.to), "later") {
			return notes.FaultLeft
		}
		return notes.FaultCorrected
	case saySafe, saySafeIf:
		if r.negatedWithin(h.from, 3) || r.future(h.from) || r.needed(h.from) {
			return notes.FaultLeft
		}
		return notes.FaultMadeSafe
	}
	return notes.FaultLeft
}

// needed reports whether the words before token i ask for what follows.
func (r *reader) needed(i int) bool {
	for n := 0; n < 3 && i > 0 && !r.breaks(i-1); n++ {
		i--
		switch r.low(i) {
		case "needs", "need", "recommend", "wants", "want", "to":
			return true
		}
	}
	return false
}
