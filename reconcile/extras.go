package reconcile

import (
	"fmt"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// sameExtra is the overlap of words from which two entries are taken to be about one extra. It is
// high: joining two extras loses money, showing one twice is seen by whoever sends the change order.
const sameExtra = 0.75

// openExtra is an extra as it stands over days.
type openExtra struct {
	work    notes.ExtraWork
	query   query
	touched bool // an entry of today speaks of it
	settled bool // it needed nothing more at the end of an earlier day
}

// recordExtra makes an extra of an entry, or adds the entry to the extra it speaks of again.
func (d *day) recordExtra(r *read) {
	x := d.knownExtra(&r.query)
	if x == nil {
		x = d.answeredExtra(r)
	}
	if x == nil {
		x = d.newExtra(r)
	} else {
		r.addWhy("the same as " + x.work.ID)
		if doneWords(r) && x.work.Outcome == notes.ExtraNotDone {
			x.work.Outcome = notes.ExtraDone
		}
	}
	r.extra, x.touched = x, true
	x.work.From = append(x.work.From, r.result.Source)
	x.takeConsent(r)
	x.takePrice(r.facts.Price)
	x.decide(r.decided)
	r.result.Reading = d.workReading(r, nil, notes.Unsaid)
	d.extraMaterials(r, x)
	if r.facts.Consent.State == notes.NoConsent && !x.work.Price.NoCharge && x.work.Authorization.State == "none" && x.work.Outcome == notes.ExtraDone {
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "extra/no-authorization",
			Message: "does not say who authorized this work beyond scope",
			Hint:    "add who said yes, how and when: ok'd by NAME on site 10:40",
			Span:    r.entry.Span, Holds: "the price of this extra",
		})
	}
}

// knownExtra returns the open extra the words are about, or nil: also where two are meant as well.
func (d *day) knownExtra(q *query) *openExtra {
	var best *openExtra
	most, tied := 0.0, false
	for _, x := range d.extras {
		if x.work.Outcome == notes.ExtraCredit {
			continue
		}
		switch o := q.overlap(&x.query); {
		case o < sameExtra:
		case o > most:
			best, most, tied = x, o, false
		case o == most:
			tied = true
		}
	}
	if tied {
		return nil
	}
	return best
}

// answeredExtra returns the one extra still waiting for a word that an entry with a yes or no speaks of as known:
// "husband said ok do the switch" answers who wanted the disposal switch moved. It is nil where none or several do.
func (d *day) answeredExtra(r *read) *openExtra {
	if r.facts.Consent.State < notes.Authorized {
		return nil
	}
	var known *openExtra
	for _, x := range d.extras {
		if x.work.Authorization.State != "asked" || x.work.Outcome == notes.ExtraCredit || !r.query.pointsAt(&x.query) {
			continue
		}
		if known != nil {
			return nil
		}
		known = x
	}
	return known
}

// pointsAt reports whether words speak of a thing as known that o names too: "the switch", "her dimmer".
func (q *query) pointsAt(o *query) bool {
	for i := range q.terms {
		t := &q.terms[i]
		if t.Class != field.ThingTerm || !o.has(t.Text) {
			continue
		}
		before := strings.Fields(strings.ToLower(q.text[:t.Start]))
		for _, w := range before[max(0, len(before)-2):] {
			switch w {
			case "the", "that", "those", "his", "her", "their":
				return true
			}
		}
	}
	return false
}

func (d *day) newExtra(r *read) *openExtra {
	x := &openExtra{query: r.query, work: notes.ExtraWork{
		ID: r.result.ID, Work: r.result.Text, Found: d.out.Date, TaskWork: r.entry.Text, Thing: r.query.thing(),
		Authorization: notes.Authorization{State: "none"}, Outcome: notes.ExtraDone,
	}}
	if !doneWords(r) {
		x.work.Outcome = notes.ExtraNotDone
	}
	if !r.query.tradeVerb() {
		x.work.TaskWork = "add " + r.entry.Text // "asked for a receptacle": what is extra is added
	}
	for _, it := range r.entry.Facts.Items {
		x.work.Facts = append(x.work.Facts, it)
		if !x.work.Qty.Written() && it.Qty.Written() && len(it.Other) == 0 {
			x.work.Qty = it.Qty
		}
	}
	if !x.work.Qty.Written() && len(x.work.Facts) <= 1 && singular(&r.query) {
		x.work.Qty = notes.Quantity{Value: notes.Int(1), Unit: notes.Each} // "added receptacle" is one
	}
	d.standing.extras = append(d.standing.extras, x)
	return x
}

// singular reports whether the thing an entry is about is named as one.
func singular(q *query) bool {
	if q.head < 0 {
		return false
	}
	t := q.terms[q.head]
	noun := strings.ToLower(q.text[t.Start:t.End])
	return named(t) && (!strings.HasSuffix(noun, "s") || strings.HasSuffix(noun, "ss"))
}

// doneWords reports whether an entry says that the work happened: a verb in the past, time spent,
// or material used. "Customer wants", "asked for" and a refusal alone do not.
func doneWords(r *read) bool {
	p := r.facts.Progress
	switch {
	case p.NotDone:
		return false
	case p.Complete == notes.Yes || r.entry.Box == notes.CheckedBox || p.Count != nil:
		return true
	case len(r.facts.Time) > 0 && r.facts.Consent.State != notes.Asked:
		return true
	case pastVerb(&r.query):
		return true
	case r.facts.Consent.State == notes.Asked || r.facts.Consent.State == notes.Declined || p.Dropped:
		return false
	}
	return r.entry.Section == notes.Extras || r.entry.Section == notes.Done
}

// wished reports whether what stands right before, up to a comma or full stop, says that somebody wants what follows:
// "lady wants the switch" of "lady wants the switch moved".
func wished(before string) bool {
	if i := strings.LastIndexAny(before, ",.;!?"); i >= 0 {
		before = before[i+1:]
	}
	for w := range strings.FieldsSeq(strings.ToLower(before)) {
		switch w {
		case "want", "wants", "wanted", "wanting", "need", "needs", "needed", "wish", "wishes", "asked", "asks", "asking":
			return true
		}
	}
	return false
}

// pastVerb reports whether a work verb stands in the past in the words as written, and not as what somebody wants done.
func pastVerb(q *query) bool {
	for _, t := range q.terms {
		if t.Class != field.VerbTerm || wished(q.text[:t.Start]) {
			continue
		}
		w := strings.ToLower(q.text[t.Start:t.End])
		if strings.HasSuffix(w, "ed") {
			return true
		}
		switch w {
		case "ran", "hung", "put", "set", "cut", "dug", "built", "made", "fed", "wound", "bent", "drove", "took", "tore", "rebuilt", "rewired", "redid", "did", "got", "swapped":
			return true
		}
	}
	return false
}

// takeConsent enters who said yes or no. A later yes outranks an earlier asking, and the latest
// answer stands.
func (x *openExtra) takeConsent(r *read) {
	c := r.facts.Consent
	a := &x.work.Authorization
	switch c.State {
	case notes.Authorized:
		*a = notes.Authorization{State: "authorized", By: c.By, How: c.How, At: c.At}
	case notes.Declined:
		*a = notes.Authorization{State: "declined", By: c.By, How: c.How, At: c.At}
	case notes.Asked:
		if a.State == "none" {
			*a = notes.Authorization{State: "asked", By: c.By, How: c.How, At: c.At}
		}
	}
}

func (x *openExtra) takePrice(p notes.PriceWords) {
	if p.Quoted != nil {
		x.work.Price.Quoted, x.work.Price.Each = p.Quoted, p.Each
	}
	x.work.Price.TimeAndMaterial = x.work.Price.TimeAndMaterial || p.TimeAndMaterial
	if p.NotOver != nil {
		x.work.Price.NotOver = p.NotOver
	}
	if p.NoCharge {
		x.work.Price.NoCharge, x.work.Price.Why = true, p.Why
	}
}

// consents lets a yes or no that stands in another entry reach the extra it speaks of.
func (d *day) consents() {
	for _, r := range d.reads {
		if r.extra != nil || r.facts.Consent.State < notes.Authorized || r.result.Outcome == notes.InScope {
			continue
		}
		for _, x := range d.extras {
			if x.work.Outcome == notes.ExtraCredit || r.query.overlap(&x.query) < 0.5 {
				continue
			}
			x.takeConsent(r)
			x.takePrice(r.facts.Price)
			x.work.From = append(x.work.From, r.result.Source)
			x.touched = true
			r.addWhy("settles " + x.work.ID)
			break
		}
	}
}

// credit makes the deductive change of a dropped line.
func (d *day) credit(r *read, i int, qty notes.Decimal) {
	line := d.in.Job.Lines[i]
	if qty.IsZero() {
		return
	}
	c := r.facts.Consent
	auth := notes.Authorization{State: "authorized", By: c.By, How: c.How, At: c.At}
	x := &openExtra{query: r.query, touched: true, work: notes.ExtraWork{
		ID: d.out.Date.String() + "/credit-" + slugOf(line.Label), Found: d.out.Date,
		Work:    fmt.Sprintf("Credit: %s of line %s, %s, dropped by the customer", notes.Quantity{Value: qty, Unit: line.Qty.Unit}, line.Label, line.Work),
		Outcome: notes.ExtraCredit, Authorization: auth, Line: line.Label, Thing: d.index.lines[i].about,
		Qty:  notes.Quantity{Value: qty, Unit: line.Qty.Unit},
		From: []notes.Source{r.result.Source},
	}}
	d.standing.extras = append(d.standing.extras, x)
}

// beyond makes an extra of what was done over a line's booked quantity today.
func (d *day) beyond(i int, over notes.Decimal) {
	line, lt := d.in.Job.Lines[i], d.lines[i]
	qty := notes.Quantity{Value: over, Unit: line.Qty.Unit}
	x := &openExtra{touched: true, work: notes.ExtraWork{
		ID: d.out.Date.String() + "/over-" + slugOf(line.Label), Found: d.out.Date,
		Work:    fmt.Sprintf("%s beyond the %s booked on line %s: %s", qty, line.Qty, line.Label, line.Work),
		Outcome: notes.ExtraDone, Authorization: notes.Authorization{State: "none"},
		Line: line.Label, Qty: qty, TaskWork: line.Work, Thing: d.index.lines[i].about, From: lt.from,
	}}
	for _, r := range d.reads {
		if r.result.Outcome == notes.InScope && len(r.lines) == 1 && r.lines[0] == i {
			x.takeConsent(r)
			x.takePrice(r.facts.Price)
		}
	}
	if len(d.in.Decisions) > 0 {
		x.decide(d.decisionsAbout(x.work.ID, line.Span, x.work.Work))
	}
	d.standing.extras = append(d.standing.extras, x)
}

// writeExtras lists what is open, and what was settled today.
func (d *day) writeExtras() {
	d.idle()
	d.out.Extras = make([]notes.ExtraWork, 0, len(d.extras))
	for _, x := range d.extras {
		w := x.work
		w.Minutes = 0
		for _, l := range w.Labor {
			w.Minutes += l.Minutes
		}
		w.State = extraState(w)
		w.Materials, w.Pricing = list(w.Materials), []notes.PricingStep{}
		w.From = append([]notes.Source(nil), w.From...)
		d.out.Extras = append(d.out.Extras, w)
		x.settled = w.State != notes.NeedsAuthorization && w.Outcome != notes.ExtraNotDone && priceable(w) ||
			w.State == notes.ExtraDeclined || w.Outcome == notes.ExtraCredit
		x.touched = false
	}
	d.standing.extras = slices.DeleteFunc(d.standing.extras, func(x *openExtra) bool { return x.settled })
}

// priceable reports whether an extra says enough to have a price: an amount, time, or how many. One
// that does not is spoken of again when somebody supplies it.
func priceable(w notes.ExtraWork) bool {
	return w.Price.Quoted != nil || w.Price.NoCharge || len(w.Labor) > 0 || w.Line != "" || w.Qty.Written()
}

// extraState is how an extra stands before it has a price.
func extraState(w notes.ExtraWork) notes.ExtraState {
	switch {
	case w.Price.NoCharge:
		return notes.ExtraNoCharge
	case w.Authorization.State == "authorized":
		return notes.ExtraAuthorized
	case w.Authorization.State == "declined":
		return notes.ExtraDeclined
	}
	return notes.NeedsAuthorization
}
