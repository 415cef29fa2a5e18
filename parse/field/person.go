package field

import (
	"strings"

	"jobday/trade"
)

// sayer reads a person at token i who may allow work, also a name in lower case: "per ruth".
func (r *reader) sayer(i int) (end int, ok bool) {
	if end, ok := r.personAt(i); ok {
		switch r.low(end - 1) {
		case "inspector", "ahj":
			return 0, false
		}
		return end, true
	}
	if r.low(i) == "the" && r.isWord(i+1) && !notAPerson(r.low(i+1)) && len(r.low(i+1)) > 3 && r.endsClause(i+2) {
		if _, known := trade.FindWord(r.low(i + 1)); !known {
			return i + 2, true // "approved by the school"
		}
	}
	if !r.isWord(i) || r.capital(i) || len(r.low(i)) < 3 || len(r.low(i)) > 14 || notAPerson(r.low(i)) {
		return 0, false
	}
	if _, known := trade.FindWord(r.low(i)); known || r.isNumber(i-2) {
		return 0, false
	}
	return i + 1, r.endsClause(i+1) || r.low(i+1) == "on" || r.low(i+1) == "via" || r.low(i+1) == "by" || r.isNumber(i+1) || r.low(i+1) == "at"
}

// perUnit reports whether a word after "per" makes a rate.
func perUnit(low string) bool {
	switch low {
	case "man", "guy", "men":
		return true
	}
	return false
}

// notAPerson reports whether a word in lower case after "per" or "by" is no person.
func notAPerson(low string) bool {
	switch low {
	case "code", "codes", "plan", "plans", "print", "prints", "spec", "specs", "specification", "specifications", "drawing",
		"drawings", "nec", "the", "manufacturer", "mfr", "mfg", "instructions", "diagram", "schedule", "detail", "details",
		"box", "foot", "feet", "hour", "day", "week", "month", "year", "unit", "man", "head", "request", "usual",
		"inspector", "side", "fixture", "circuit", "panel", "room", "floor", "phase", "each", "piece", "roll", "run",
		"everything", "this", "that", "door", "hand", "mistake", "noon", "phone", "text", "email", "mail", "now", "then",
		"permit", "contract", "scope", "quote", "estimate", "ticket", "order", "layout", "hours", "minute", "pole", "sheet",
		"today", "tomorrow", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "itself", "others",
		"one", "two", "three", "four", "hers", "his", "them", "her", "him", "us", "me", "our", "yesterday", "site", "rfi",
		"ahj", "standard", "and", "for", "above", "below", "per", "listing", "label", "table", "conversation", "discussion", "directions", "wiring":
		return true
	}
	return false
}

// personAt reads a person at token i as people write one: "Ruth Amsel", "Mr. Fenn", "J. Fenn",
// "the owner", "the shop manager", "GC super", "Ruth's".
func (r *reader) personAt(i int) (end int, ok bool) {
	if !r.isWord(i) {
		return 0, false
	}
	j := i
	switch r.low(j) {
	case "the", "our", "their", "her", "his", "a":
		j++
		if !r.isWord(j) {
			return 0, false
		}
	}
	if j == i && roleModifier(r.low(j)) && roleWord(plainOwner(r.low(j+1))) && !r.close(j+1) {
		return r.roleAt(j+1, false)
	}
	if j > i || roleWord(plainOwner(r.low(j))) && !r.honorific(j) {
		return r.roleAt(j, j > i)
	}
	if low := r.low(j); (low == "pastor" || low == "coach") && r.honorific(j) {
		return r.surnameEnd(j + 1), true
	}
	if title(r.low(j)) && (r.capital(j) || r.low(j+1) == ".") {
		k := j + 1
		if r.low(k) == "." && r.close(k) {
			k++
		}
		if r.capital(k) {
			return r.surnameEnd(k), true
		}
		return j + 1, r.low(j) == "dr"
	}
	if !r.capital(j) || !r.personName(j) {
		return 0, false
	}
	return r.surnameEnd(j), true
}

// honorific reports whether the role at token i stands before a name: "Dr. Fenn", "Pastor Wynn".
func (r *reader) honorific(i int) bool {
	switch r.low(i) {
	case "dr":
		return r.capital(i+1) || r.low(i+1) == "."
	case "pastor", "coach":
		return r.capital(i) && r.capital(i+1)
	}
	return false
}

// surnameEnd returns the token after a name that starts at token i: capitalized words, single
// letters with a point, and doubled surnames.
func (r *reader) surnameEnd(i int) int {
	j := i + 1
	if len(r.low(i)) == 1 && r.low(j) == "." && r.close(j) {
		j++
	}
	if r.possessive(i) {
		return r.ownedRole(j)
	}
	for n := 0; n < 3; n++ {
		switch {
		case r.low(j) == "-" && r.close(j) && r.close(j+1) && r.capital(j+1):
			j += 2
		case r.capital(j) && r.toks[j].spaced && r.personName(j) && !r.breaks(j-1):
			j++
			if r.possessive(j - 1) {
				return r.ownedRole(j)
			}
		default:
			return j
		}
	}
	return j
}

// ownedRole passes the role at token i that belongs to the one named before it: "Nora's husband".
func (r *reader) ownedRole(i int) int {
	switch r.low(i) {
	case "wife", "husband", "manager", "foreman", "super", "assistant", "boss", "son", "daughter", "mother", "father":
		return i + 1
	}
	return i
}

func (r *reader) possessive(i int) bool { return strings.HasSuffix(r.low(i), "'s") }

// plainOwner takes the 's from a word.
func plainOwner(low string) string { return strings.TrimSuffix(low, "'s") }

// roleAt reads a role at token i, with up to two words before it when an article stood there:
// "the bakery owner", "GC super", "site super".
func (r *reader) roleAt(i int, article bool) (end int, ok bool) {
	reach := 1
	if article {
		reach = 3
	}
	for n := 0; n < reach; n++ {
		if !r.isWord(i+n) || r.low(i+n) == "of" {
			return 0, false
		}
		if roleWord(plainOwner(r.low(i + n))) {
			end = i + n + 1
			for (roleWord(plainOwner(r.low(end))) || r.low(end) == "board") && r.toks[end].spaced {
				end++ // "GC super", "owner's wife"
			}
			if r.possessive(end - 1) {
				return end, true
			}
			switch r.low(end) {
			case "man", "guy", "lady", "person", "gal":
				end++ // "maintenance man"
			}
			return r.nameBehind(end), true
		}
	}
	return 0, false
}

// nameBehind returns the token after the name that follows a role which ends before token i: "manager
// Wynn", "supt. Hale", "lady of the house".
func (r *reader) nameBehind(i int) int {
	if r.low(i) == "of" && r.low(i+1) == "the" && r.low(i+2) == "house" {
		return i + 3
	}
	j := i
	if r.low(j) == "." && r.close(j) && len(r.low(j-1)) <= 5 {
		j++
	}
	if title(r.low(j)) && r.capital(j) {
		if end, ok := r.personAt(j); ok {
			return end
		}
	}
	if !r.capital(j) || !r.toks[j].spaced || r.shouting(j) && r.shouting(i-1) || !r.personName(j) {
		return i
	}
	return r.surnameEnd(j)
}

// roleWord reports whether a word names somebody by what they are to the job.
func roleWord(low string) bool {
	switch low {
	case "owner", "owners", "customer", "client", "tenant", "landlord", "landlady", "manager", "mgr", "super", "superintendent",
		"gc", "contractor", "foreman", "boss", "homeowner", "architect", "engineer", "chef", "baker",
		"dentist", "doctor", "farmer", "pm", "supervisor", "wife", "husband", "inspector", "ahj", "facilities", "principal",
		"rep", "supt", "coach", "pastor", "marshal", "teacher", "nurse", "director", "plant", "harbormaster", "dockmaster", "operator", "steward", "maintenance", "staff", "receptionist", "caretaker", "janitor", "dr", "lady", "buyer", "realtor",
		"cust", "custy", "mgmt", "management", "president", "treasurer", "secretary", "warden", "deacon", "priest", "librarian", "dean", "prof",
		"professor", "neighbor", "resident", "occupant", "grower", "rancher", "cook", "developer", "designer", "decorator", "agent",
		"bookkeeper", "assistant", "gm", "hoa", "corporate", "ownership", "proprietor", "guard":
		return true
	}
	return false
}

// personName reports whether the capitalized word at token i can be a person's name: it is no
// word of the trade or of these grammars that merely starts a sentence.
func (r *reader) personName(i int) bool {
	low := plainOwner(r.low(i))
	if len(low) < 2 && !(r.low(i+1) == "." && r.close(i+1)) && !(r.capital(i+1) && len(r.low(i+1)) > 2) || commonWord(low) || notAPerson(low) || thingWord(low) {
		return false
	}
	if len(low) > 1 && r.shouting(i) && len(low) <= 4 && i+1 < len(r.toks) && (len(low) < 3 || r.low(i+1) != "ok'd") && !(len(low) > 2 && (r.low(i-1) == "by" || r.low(i-1) == "per")) {
		return false
	}
	return !r.cueWord(i) || alsoWord(low) && r.capital(i+1) && !r.shouting(i) && r.toks[i+1].spaced && len(r.low(i+1)) > 2 && !r.cueWord(i+1) && !commonWord(r.low(i+1))
}

// roleModifier reports whether a word before a role belongs to it: "home owner", "site super".
func roleModifier(low string) bool {
	switch low {
	case "home", "property", "building", "site", "store", "general", "project", "office", "plant", "facility", "shop", "floor", "night",
		"restaurant", "hotel", "school", "church", "duty", "kitchen", "bar", "lot", "job":
		return true
	}
	return false
}

// thingWord reports whether a capitalized word begins a sentence about a thing.
func thingWord(low string) bool {
	switch low {
	case "extra", "change", "disconnect", "feeder", "cable", "conduit", "fixture", "fixtures", "outlet", "outlets", "receptacle",
		"recept", "receptacles", "switch", "dimmer", "charger", "price", "quote", "ticket", "it", "that", "this", "they", "she",
		"he", "you", "is", "are", "was", "there", "when", "if", "after", "per", "not", "gfci", "gfi", "afci", "emt", "mc", "led",
		"main", "service", "meter", "sign", "lighting", "heater", "oven", "mixer", "cooler", "freezer", "job", "everything",
		"nothing", "someone", "somebody", "nobody", "verbal", "verbally", "and", "but", "so", "also", "then", "with", "for",
		"plan", "approval", "authorization", "signature", "co", "po", "rfi", "ok", "yes", "told", "offered", "quoted", "got",
		"new", "old", "two", "three", "four", "one", "to", "at", "as", "by", "of", "an", "temp", "demo", "trench", "note",
		"warranty", "tm", "nte", "an'", "kitchen", "bath", "garage", "hall", "hallway", "attic", "basement", "roof", "barn":
		return true
	}
	return false
}

// personBefore returns the person that stands last before token i in its clause, or 0, 0.
func (r *reader) personBefore(i int) (from, to int) {
	for j := r.clauseStart(i); j < i; j++ {
		if end, ok := r.personAt(j); ok && end <= i {
			if (r.low(j-1) != "told" && !r.crewMember(j) || to == 0) && !(to > 0 && r.whoseMan(to, j)) {
				from, to = j, end
			}
			j = end - 1
		}
	}
	return from, to
}

// whoseMan reports whether only "from the", "with" or the like stands between two people, so that the
// second says whom the first works for: "Ray from the GC".
func (r *reader) whoseMan(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "from", "with", "w", "/", "the", "at", "of":
		default:
			return false
		}
	}
	return to > from
}

// crewMember reports whether token i names one of ours.
func (r *reader) crewMember(i int) bool {
	if r.lex == nil {
		return false
	}
	full, known := r.lex.names[plainOwner(r.low(i))]
	if known && full != "" && r.capital(i+1) && r.toks[i+1].spaced && r.otherSurname(i+1) {
		return false // "Ana Quill" is not our Ana
	}
	return known
}
