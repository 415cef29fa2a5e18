package field

import (
	"unicode"
	"unicode/utf8"

	"jobday/notes"
)

// A sense is what a phrase means to one of the grammars. The zero value is invalid.
type sense uint8

// The senses of phrases, by topic. The tables beside the grammars say which phrases have them.
const (
	// time
	timeWord   sense = iota + 1 // there may be time in this text
	crewWord                    // "guys", "men": what a head count counts
	clockIn                     // "on site", "started": a clock time after it begins a span
	clockOut                    // "off site", "finished": a clock time after it ends the span
	travelWord                  // "travel", "drove"
	noBreak                     // "no lunch"

	// progress
	sayDone      // "done", "up and working"
	sayPartial   // "roughed", "started": something happened, it is not complete
	sayUntouched // "did not get to", "skipped"
	sayUntouchedIf
	// sayUntouchedIf is "not installed": untouched unless other work is reported beside it.
	sayBlocked   // "waiting on": what it waits for follows
	sayNoWay     // "could not", "no access": nothing follows that it waits for
	sayDropped   // "deleted"
	sayDropIf    // "took it out": dropped when the customer did it
	sayByOthers  // "by others"
	sayAlready   // "already did": by others when somebody else did it
	sayAll       // "all", "every"
	sayBoth      // "both"
	sayRest      // "rest of", "last", "the other"
	sayHalf      // "half"
	workDone     // "pulled", "set": work in the past tense
	futureWord   // "needs to be", "will": what follows has not happened
	othersWord   // "plumber": somebody who is not us
	sayNoBlocker // "could not find any": no obstacle
	sayBeyond    // "not on our sheet"

	// consent
	sayAsked
	sayYes
	sayYesBy  // "per": a yes when a person follows
	sayYesIf  // "fine with": a yes when a person stands before it
	saySigned // "signed"
	sayNo
	sayNoIf
	sayPending
	sayDropBy // "cancelled": booked work taken out, by whoever stands before it
	sayBare   // "yes" and "no": an answer where they stand alone
	sayTheirs // "signature", "approval": had or awaited, with whose before it
	saySaid   // "said": an answer when one follows
	howVerbal // "verbal": in words only
	howOnSite
	howPhone
	howText
	howMail

	// price
	sayQuoted
	sayQuotedIf // "for": a price when money follows
	sayNotOver
	sayNotOverIf // "max": a ceiling when money follows
	sayFree
	sayFreeWhy // "warranty": free of charge, and why
	sayTM
	sayCost // "paid": money that is no quote

	// fault
	sayFault
	sayFaultIf // an adjective that "no" takes back
	sayFaultNo // looks like a fault and is none: "dead front"
	sayFixed
	sayFixedIf // fixed when a fault is named or "it" follows
	saySafe
	saySafeIf
	sayLeft
	sayLeftIf
	sayFound
	sayTold
	sayToldAfter // "owner notified"
	sayDanger
	sayHazard
	sayMinor
	sayNoSeverity // "danger tag"

	// readings
	readWord    // an instrument was used: "measured", "tripped"
	readSubject // what is tested by yes or no: "GFCI", "polarity"
	readOK
	readFail
	readOpen
	readTrip
	readReset
	readContinuity
	readNoContinuity
	readTemp
	readMegger
	readNone

	lastSense
)

// A topic is one grammar's share of the senses, as a bit.
type topic uint8

const (
	aboutTime topic = 1 << iota
	aboutProgress
	aboutConsent
	aboutPrice
	aboutFault
	aboutReading
)

func (s sense) topic() topic {
	switch {
	case s < sayDone:
		return aboutTime
	case s < sayAsked:
		return aboutProgress
	case s < sayQuoted:
		return aboutConsent
	case s < sayFault:
		return aboutPrice
	case s < readWord:
		return aboutFault
	}
	return aboutReading
}

// quiet reports whether a phrase alone gives its grammar nothing to read: it only helps others.
func (s sense) quiet() bool {
	switch s {
	case timeWord, crewWord, clockIn, clockOut, travelWord, noBreak, workDone, futureWord, othersWord, sayQuotedIf,
		readTemp, howText, howPhone, howMail, howOnSite, sayCost, sayFaultNo, sayNoSeverity:
		return true
	}
	return false
}

// A cue is a phrase after its first word.
type cue struct {
	rest  []string
	sense sense
}

// cueTable lists phrases by what they mean, parted by "|". Apostrophes are left out on both
// sides, so "didnt" stands for "didn't" too.
type cueTable map[sense]string

// cues is the index of all phrases by first word, longest first. It is read-only.
var cues = indexCues(timeCues, progressCues, consentCues, priceCues, faultCues, readingCues)

func indexCues(tables ...cueTable) map[string][]cue {
	index := map[string][]cue{}
	for _, table := range tables {
		for s := sense(1); s < lastSense; s++ {
			addCues(index, s, table[s])
		}
	}
	for _, list := range index {
		sortCues(list)
	}
	return index
}

func addCues(index map[string][]cue, s sense, phrases string) {
	var words []string
	flush := func() {
		if len(words) > 0 {
			index[words[0]] = append(index[words[0]], cue{words[1:], s})
		}
		words = nil
	}
	for _, t := range tokens(phrases) {
		if t.low == "|" {
			flush()
			continue
		}
		words = append(words, t.low)
	}
	flush()
}

// sortCues puts longer phrases first and keeps the order of the tables otherwise.
func sortCues(list []cue) {
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && len(list[j].rest) > len(list[j-1].rest); j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// A hit is a phrase found in the text: tokens from to to, end exclusive.
type hit struct {
	from, to int
	sense    sense
}

// piece returns the bytes from token from to before token to.
func (r *reader) piece(from, to int) (start, end int) {
	if from >= len(r.toks) || to <= from {
		return 0, 0
	}
	return r.toks[from].start, r.toks[min(to, len(r.toks))-1].end
}

// widen makes p cover tokens from to before to as well.
func (r *reader) widen(p *notes.Piece, from, to int) {
	start, end := r.piece(from, to)
	if !p.Found() {
		p.Start, p.End = start, end
		return
	}
	p.Start, p.End = min(p.Start, start), max(p.End, end)
}

// A numMemo is the number read last: several grammars ask for the same one in turn.
type numMemo struct {
	at int // token + 1; 0 for none
	n  num
	ok bool
}

// num reads the number that starts at token i.
func (r *reader) num(i int) (num, bool) {
	if i < 0 || i >= len(r.toks) {
		return num{}, false
	}
	if r.memo.at != i+1 {
		n, ok := readNum(r.toks, i)
		r.memo = numMemo{i + 1, n, ok}
	}
	return r.memo.n, r.memo.ok
}

// low returns the lower-case word at token i, or "" outside the text.
func (r *reader) low(i int) string {
	if i < 0 || i >= len(r.toks) {
		return ""
	}
	return r.toks[i].low
}

// isNumber reports whether token i is a run of digits.
func (r *reader) isNumber(i int) bool {
	return i >= 0 && i < len(r.toks) && r.toks[i].kind == number
}

// isWord reports whether token i is a word.
func (r *reader) isWord(i int) bool {
	return i >= 0 && i < len(r.toks) && r.toks[i].kind == word
}

// close reports whether token i exists and stands right after token i-1, without a space.
func (r *reader) close(i int) bool {
	return i > 0 && i < len(r.toks) && !r.toks[i].spaced
}

// capital reports whether token i is a word written with a capital.
func (r *reader) capital(i int) bool {
	if !r.isWord(i) {
		return false
	}
	first, _ := utf8.DecodeRuneInString(r.text[r.toks[i].start:])
	return unicode.IsUpper(first)
}

// clauseReach bounds how far a clause is followed in one direction, so that work stays linear.
const clauseReach = 24

// breaks reports whether a clause ends before token i, which is a mark or a joining word.
func (r *reader) breaks(i int) bool {
	switch t := &r.toks[i]; t.low {
	case ",", ";", "(", ")", "!", "?", ":", "but", "then":
		return !(t.low == ":" && r.close(i+1) && r.isNumber(i+1))
	case ".":
		return r.sentenceEnds(i)
	case "-", "–", "—":
		return t.spaced && (i+1 >= len(r.toks) || r.toks[i+1].spaced)
	}
	return false
}

// sentenceEnds reports whether the point at token i ends a sentence: not "Mr." and not "J.".
func (r *reader) sentenceEnds(i int) bool {
	if i+1 < len(r.toks) && !r.toks[i+1].spaced {
		return false
	}
	return i == 0 || i+1 >= len(r.toks) || !title(r.low(i-1)) && !(r.capital(i-1) && len(r.low(i-1)) == 1)
}

func title(low string) bool {
	switch low {
	case "mr", "mrs", "ms", "dr", "st", "supt", "rev", "capt", "sgt", "prof":
		return true
	}
	return false
}

// clauseStart returns the first token of the clause that holds token i.
func (r *reader) clauseStart(i int) int {
	for n := 0; i > 0 && n < clauseReach && !r.breaks(i-1); n++ {
		i--
	}
	return i
}

// clauseEnd returns the token after the clause that holds token i.
func (r *reader) clauseEnd(i int) int {
	for n := 0; i < len(r.toks) && n < clauseReach && !r.breaks(i); n++ {
		i++
	}
	return i
}

// negatedWithin reports whether a "no" or "not" within reach before token i takes back what starts
// there.
func (r *reader) negatedWithin(i, reach int) bool {
	for n := 0; n < reach && i > 0 && !r.breaks(i-1); n++ {
		i--
		if negation(r.low(i)) {
			return r.low(i+1) != "only"
		}
	}
	return false
}

// negation reports whether a word says no. Words in "n't" do, with or without the apostrophe.
func negation(low string) bool {
	switch low {
	case "no", "not", "never", "nothing", "none", "without", "nobody", "neither", "nor", "cannot",
		"isnt", "wasnt", "arent", "werent", "hasnt", "havent", "didnt", "doesnt", "dont", "wont",
		"aint", "cant", "couldnt", "hadnt", "wouldnt":
		return true
	}
	return len(low) > 3 && low[len(low)-3:] == "n't"
}
