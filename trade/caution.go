package trade

// The standing words of caution. They remind, in our own words, of what qualified people already
// know; they never replace training or a written procedure. Behind them stand 29 CFR 1910.333(b)
// (general industry), 29 CFR 1926.417 (construction) and the electrical safety handbook named in
// SOURCES.md (checked); NFPA 70E is from memory.

// Footer returns what stands at the end of every report, one sentence or two a paragraph.
func Footer() []string {
	return []string{
		"Observations are limited to what was seen on the day; what is covered, locked or switched off was not judged.",
		CodePointer(),
		"Only qualified persons work on electrical equipment. Every conductor counts as live until it is tested dead by " +
			"somebody qualified, and nobody works on energized equipment as a matter of course.",
	}
}

// CodePointer returns how references to codes are meant.
func CodePointer() string {
	return "Local code, the authority having jurisdiction and licensed practice decide. Code references are pointers " +
		"to where to look, not advice, and the edition adopted locally governs."
}

// TestCaution returns what stands beside test results.
func TestCaution() string {
	return "A reading shows one moment at one place. Within limits means that this reading met the limit shown; it does " +
		"not clear the rest of the installation."
}

// GeneralCaution returns the caution for a deficiency of no known kind.
func GeneralCaution() string {
	return "Treat it as live and as a hazard until a qualified person has tested and judged it."
}

// DeadCaution returns what stands beside a reading taken to show that something is dead.
func DeadCaution() string {
	return "One reading does not show that a circuit is dead: a qualified person tests each conductor to the others and to " +
		"ground with a tester tried on a known source before and after, and looks for induced and back-fed voltage."
}

// LineSideCaution returns the reminder that the main does not switch everything off.
func LineSideCaution() string {
	return "The line side of a service stays live with the main off."
}

// SharedNeutralNote returns what is worth knowing of circuits that share a neutral.
// NEC 210.4(B) (checked): one motion opens all the circuits of a multiwire circuit.
func SharedNeutralNote() string {
	return "shares a neutral: both breakers switch off together by a two-pole breaker or a listed handle tie, on " +
		"different legs (NEC 210.4(B)); the neutral can carry current with one of them off"
}
