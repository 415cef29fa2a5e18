package field

import "jobday/notes"

// Circuit reads a line of the circuits section, such as "2,4: proofing cabinet, 30A 2P, 10 AWG".
func Circuit(text string, lex *Lexicon) notes.CircuitWords {
	return notes.CircuitWords{}
}
