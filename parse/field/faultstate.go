package field

import "jobday/notes"

// FaultState reads what became of a fault in a text that is known to tell of one, though none of its words names it:
// "lamp smells of smoke, shut off and tagged". It is "" where nothing is said of that.
func FaultState(text string, lex *Lexicon) notes.FaultState {
	w := begin(text)
	defer w.end()
	w.lex = lex
	r := &w.reader
	r.look()
	r.consent()
	d := damage{r: r}
	d.f.Named = true
	d.weigh()
	state := d.decide().State
	if state == notes.FaultLeft {
		return "" // "not sealed at the meter" may be the fault itself
	}
	return state
}
