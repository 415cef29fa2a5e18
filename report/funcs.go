package report

import (
	"reflect"
	"strconv"
	"strings"

	"jobday/locale"
	"jobday/notes"
	"jobday/trade"
)

// Packed hands a fragment of a template the view beside what it shows.
type Packed struct {
	V *View
	W any
}

// funcs are the words every template may use, beside the methods of View. Dates and amounts are
// written for the readers of a locale.
func funcs(tag string) map[string]any {
	f := figures{locale.For(tag)}
	return map[string]any{
		"money": f.money, "valued": f.valued, "number": f.number, "rate": f.rate, "quantity": f.quantity, "long": f.longDate,
		"spans": spans, "plural": plural, "short": shortID, "list": list, "join": list, "lines": list,
		"ints": ints, "inc": func(i int) int { return i + 1 }, "head": head, "more": more,
		"pack":    func(v *View, what any) Packed { return Packed{v, what} },
		"sources": func(s notes.Source) []notes.Source { return []notes.Source{s} },

		"shot": shot, "consent": Consent, "next": NextStep, "settle": Settle, "fault": faultWords,
		"severity": severityWords, "verdict": verdictWords, "rule": Rule, "reading": TestReading,
		"linestate": LineState, "linehours": LineHours, "progress": f.progress, "workby": workBy,
		"confidence": confidence,

		"footer": trade.Footer, "testcaution": trade.TestCaution, "why": whyItMatters, "standing": faultStanding, "since": changedLater, "codepointer": trade.CodePointer, "statement": statement, "apart": keptApart,
	}
}

// statement is what both sides put their names under. It approves no price: a price is agreed in a
// change order, not in a day's record.
func statement() string {
	return "This record shows the day as the crew wrote it, what is right and what is not. Except as listed " +
		"above, work and materials are as booked. A signature confirms that this record was handed over and " +
		"received; it approves no price that is not shown as authorized."
}

// keptApart names what specifications ask of a contractor's records that one day's record cannot
// answer, so that nobody looks for it here in vain.
func keptApart() string {
	var kept []string
	for _, item := range trade.RecordItems() {
		if item.Office != "" {
			kept = append(kept, item.Item+" ("+item.Office+")")
		}
	}
	return "Kept apart from this record: " + strings.Join(kept, "; ") + "."
}

// whyItMatters is the plain sentence on why a deficiency matters: what the record carries, which a
// shop's own catalogue may have given, else the built-in catalogue's, or "".
func whyItMatters(d notes.DeficiencyRecord) string {
	if d.Why != "" {
		return d.Why
	}
	k, _ := trade.KindOf(d.Kind)
	return k.Why
}

func list(words []string) string { return strings.Join(words, ", ") }

func ints(numbers []int) string {
	var words []string
	for _, n := range numbers {
		words = append(words, strconv.Itoa(n))
	}
	return strings.Join(words, ", ")
}

// head is the first n elements of a list; more is how many that leaves out.
func head(slice any, n int) any {
	v := reflect.ValueOf(slice)
	return v.Slice(0, min(n, v.Len())).Interface()
}

func more(slice any, n int) int { return max(0, reflect.ValueOf(slice).Len()-n) }

func confidence(c float64) string { return strconv.FormatFloat(c, 'f', 2, 64) }

// workBy says who did a piece of work and for how long, as far as its words say.
func workBy(e notes.EntryResult) string {
	r, ok := e.Reading.(notes.WorkReading)
	if !ok {
		return ""
	}
	said := strings.Join(r.People, ", ")
	if said != "" {
		said = "by " + said
	}
	if r.Minutes > 0 {
		said = strings.Join(filled(said, r.Minutes.String()), ", ")
	}
	return said
}
