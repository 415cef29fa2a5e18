package field

// placedAt reports whether the "in", "up" or "on" at token i says that what stands before it is in
// its place: it ends the clause and belongs to no verb, "fan in, vented", not "come in".
func (r *reader) placedAt(i int) bool {
	if !r.endsPlaced(i + 1) {
		return false
	}
	if r.low(i) == "hot" && (r.clauseStart(i) != 0 || warms(r.low(i-1))) {
		return false
	}
	switch before := r.low(i - 1); before {
	case "come", "came", "comes", "coming", "plug", "plugged", "turn", "turned", "turns", "not", "aint", "ain't", "showed", "show", "shows", "get", "got", "held", "hold", "set", "sign", "signed",
		"clean", "cleaned", "picked", "pick", "hang", "rained", "tied", "locked", "shut", "cut", "went", "goes", "going", "back", "wall", "power", "lights", "ran", "burnt", "burned", "blown", "worn", "find", "found", "figure", "call", "called", "time", "add", "adds", "put", "work", "working", "later", "early":
		return false
	default:
		if r.low(i) == "out" && r.low(r.clauseStart(i)) == "old" {
			return false // what was there is out, nothing new is in
		}
		if r.low(i) == "out" && (before == "is" || before == "are" || before == "was") {
			return false
		}
		return (r.isWord(i-1) || r.isNumber(i-1)) && !r.negatedWithin(i, 2) && !r.future(i) && !r.conditional(i)
	}
}

// warms reports whether "hot" behind a word is said of its warmth, not of what is energized.
func warms(low string) bool {
	switch low {
	case "is", "are", "was", "runs", "running", "too", "very", "getting", "still", "feels", "breaker", "lug", "lugs", "neutral", "wire", "splice",
		"connection", "box", "plate", "switch", "cord", "plug", "dimmer", "ballast", "bus", "screw", "terminal", "not", "so", "really", "pretty", "the", "a", "it":
		return true
	}
	return false
}

// endsPlaced reports whether nothing that "in" could stand before follows at token i.
func (r *reader) endsPlaced(i int) bool {
	if r.endsClause(i) || !r.isWord(i) && !r.isNumber(i) && r.low(i) != "#" {
		return true
	}
	switch r.low(i) {
	case "n", "w", "with", "but", "then", "plus", "both", "all":
		return true
	}
	return false
}
