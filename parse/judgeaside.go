package parse

// The judges of what is told beside work and material: deliveries, delays, safety, orders, the site, others,
// machines and circuits.

func asDelivery(e evidence) (int, string) {
	if e.signs.has(outOf) {
		return 4, "tells of a delivery" // "pendants none, glass is on backorder" is how far they got
	}
	return unlessWork(e, delivered, 7, "tells of a delivery")
}

func asDelay(e evidence) (int, string) {
	if e.placed {
		return 0, "" // "unit 8 no access" is how far a place got
	}
	const why = "tells what held the crew up"
	clock := duration | clockSpan | looseSpan
	switch s := e.signs; {
	case e.first.sign.has(heldUp):
		return 8, why
	case s.has(machine) && s.has(brokeDown|heldUp|faulty) && !s.has(workVerb), s.has(otherTrade) && s.has(brokeDown) && s.has(clock) && !s.has(workVerb|asked):
		return 8, why
	case s.has(weathered) && s.has(clock|heldUp) && !s.has(workVerb|thing|named):
		return 7, why
	}
	if e.signs.has(heldUp) && e.signs.has(duration) && !e.signs.has(workVerb) {
		return 8, why
	}
	return unlessWork(e, heldUp, 7, why)
}

func asSafety(e evidence) (int, string) {
	switch {
	case e.first.sign.has(secured):
		return 8, "tells what was done for safety"
	case e.signs.has(secured):
		return 6, "tells what was done for safety"
	}
	return 0, ""
}

func asInstruction(e evidence) (int, string) {
	return unlessWork(e, instructed, 6, "tells an instruction")
}

func asCondition(e evidence) (int, string) {
	if e.onSite && e.first.low == "no" && !e.signs.has(workVerb|thing|faultPhrase) {
		return 6, "tells of the site" // "no permit card on site"
	}
	return unlessWork(e, weathered, 6, "tells of the weather or the site")
}

func asOtherTrade(e evidence) (int, string) {
	return unlessWork(e, otherTrade, 5, "tells of another trade")
}

func asMachine(e evidence) (int, string) {
	if e.signs.has(machine) && e.signs.has(duration|clockSpan|looseSpan) && !e.signs.has(workVerb) {
		return 6, "tells of a machine and its hours"
	}
	return unlessWork(e, machine, 4, "tells of a machine")
}

func asCircuit(e evidence) (int, string) {
	if e.first.sign.has(circuitry) && e.signs.has(counted) && !e.signs.has(workVerb|faulty) {
		return 6, "says what a circuit feeds"
	}
	return 0, ""
}

// unlessWork scores signs lower where the words also tell of work.
func unlessWork(e evidence, signs sign, score int, why string) (int, string) {
	switch {
	case !e.signs.has(signs):
		return 0, ""
	case (e.signs.has(workVerb) || e.signs.all(progressed|whole)) && !e.others:
		return score - 3, why
	}
	return score, why
}
