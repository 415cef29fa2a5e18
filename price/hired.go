package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// hired is equipment or a subcontractor's work that notes tell of, with its price.
type hired struct {
	key     string // label of the line or id of the extra, "" when nobody can tell
	kind    kind
	what    string
	step    notes.PricingStep
	missing string // what a person must supply before it has a price, or ""
	detail  bool   // told below the work, and not in a section of its own
}

// findHired prices the equipment and the subcontractors of today's notes: entries of those sections,
// and details of work. It keeps those of extras for later days.
func (b *bill) findHired() {
	b.hiredToday = b.hiredToday[:0]
	for i := range b.day.Entries {
		e := &b.day.Entries[i]
		if e.Entry == nil {
			continue
		}
		switch e.Outcome {
		case notes.EquipmentUse:
			b.hire(b.machine(e.Text, []notes.Source{e.Source}, e.Entry.Facts.Time), b.hiredFor(e))
		case notes.Subcontractor:
			b.hire(b.subcontract(e.Text, []notes.Source{e.Source}), b.hiredFor(e))
		default:
			b.hiredDetails(e)
		}
	}
	for _, h := range b.hiredToday {
		if h.key != "" && b.line(h.key) == nil {
			b.hired[h.key] = append(b.hired[h.key], h)
		}
	}
}

func (b *bill) hiredDetails(e *notes.EntryResult) {
	for _, d := range e.Entry.Details {
		if !b.Company.HiredDetail(d) {
			continue
		}
		from := []notes.Source{notes.SourceOf(d.Span)}
		if notes.SubcontractDetail(d.Text) {
			h := b.subcontract(d.Text, from)
			if h == nil {
				h = &hired{kind: ofSubcontract, what: d.Text, missing: "what " + quote(d.Text) + " was charged at", step: notes.PricingStep{From: from}}
			}
			h.detail = true
			b.hire(h, thingOf(b.day, e))
			continue
		}
		if h := b.machine(d.Text, from, d.Facts.Time); h != nil {
			h.detail = true
			b.hire(h, thingOf(b.day, e))
		}
	}
}

// hire enters something hired, unless the day tells the same below the work and in its own section.
func (b *bill) hire(h *hired, key string) {
	if h == nil {
		return
	}
	h.key = key
	for _, o := range b.hiredToday {
		same := o.key == key && o.kind == h.kind && (o.kind == ofSubcontract || o.what == h.what)
		if key == "" || !same || o.detail == h.detail || h.missing != "" || o.missing != "" || !o.step.Amount.Equal(h.step.Amount) {
			continue
		}
		b.tell(finding.Finding{
			Severity: finding.Warning, Rule: "price/hire-twice",
			Message: quote(h.what) + ", " + h.step.Amount.String() + ", is told twice for the same work; it is counted once",
			Hint:    "if both were meant, write them in one place, one below the other",
			Holds:   h.step.Amount.String(),
		}, h.step.From)
		return
	}
	b.hiredToday = append(b.hiredToday, *h)
}

// machine prices equipment by the hour; nil when the text names none the company charges for.
func (b *bill) machine(text string, from []notes.Source, rows []notes.TimeRow) *hired {
	m, ok := b.Company.EquipmentNamed(text)
	if !ok {
		return nil
	}
	h := &hired{kind: ofEquipment, what: m.Name, step: notes.PricingStep{From: from}}
	if len(rows) != 1 || rows[0].Clock() <= 0 {
		h.missing = "how long the " + m.Name + " was used"
		return h
	}
	if m.Rate.IsZero() {
		h.missing = "a rate for the " + m.Name + " in company.yaml"
		return h
	}
	used := rows[0].Clock()
	h.step = notes.PricingStep{
		What: "equipment " + m.Name, Basis: used.String() + ", company.yaml: " + m.Rate.String() + " per h",
		Qty: used.Hours(), Unit: notes.Hour, Rate: m.Rate.Decimal(), Amount: hourly(m.Rate, used), From: from,
	}
	return h
}

// subcontract prices a subcontractor's work by the one amount its words tell; nil when they tell
// none: then it is only a remark.
func (b *bill) subcontract(text string, from []notes.Source) *hired {
	amounts := amountsIn(text)
	if len(amounts) == 0 {
		return nil
	}
	h := &hired{kind: ofSubcontract, what: text, step: notes.PricingStep{From: from}}
	if len(amounts) > 1 {
		h.missing = "which amount of " + quote(text) + " was charged"
		return h
	}
	h.step = single("subcontractor", "as charged: "+quote(text), amounts[0], from)
	return h
}

// amountsIn returns the amounts a text tells: figures with a currency sign or with cents.
func amountsIn(text string) []notes.Money {
	var found []notes.Money
	for _, w := range strings.Fields(text) {
		w = strings.Trim(w, ",;:.()")
		figure := strings.TrimLeft(w, "$€£")
		cents := len(figure) > 3 && figure[len(figure)-3] == '.'
		if figure == w && !cents {
			continue
		}
		if m, err := notes.ParseMoney(strings.ReplaceAll(figure, ",", "")); err == nil && m.Sign() > 0 {
			found = append(found, m)
		}
	}
	return found
}

// hiredFor returns the line or extra an entry of the equipment or subcontractors is for: the line
// its label or its first words name, or the one extra all words after "for" or "on" are about.
func (b *bill) hiredFor(e *notes.EntryResult) string {
	label := e.Entry.Label
	if before, _, ok := strings.Cut(e.Text, ":"); label == "" && ok {
		label = before
	}
	if l := b.line(strings.TrimSpace(label)); l != nil {
		return l.Label
	}
	if len(e.Lines) == 1 {
		return e.Lines[0]
	}
	things := thingsAfter(e.Text)
	if len(things) == 0 {
		return ""
	}
	key := ""
	for _, x := range b.extrasAtHand() {
		if !b.speakOf(things, x.Work) {
			continue
		}
		if key != "" && key != x.ID {
			return ""
		}
		key = x.ID
	}
	return key
}

// extrasAtHand returns the extras of the day and those still open from before.
func (b *bill) extrasAtHand() []*notes.ExtraWork {
	var all []*notes.ExtraWork
	for i := range b.day.Extras {
		if b.day.Extras[i].Outcome != notes.ExtraCredit {
			all = append(all, &b.day.Extras[i])
		}
	}
	for _, m := range b.open {
		all = append(all, &m.work)
	}
	return all
}

// thingsAfter returns the words a text has after "for" and those after "on".
func thingsAfter(text string) [][]string {
	var things [][]string
	low := strings.ToLower(text)
	for _, word := range []string{" for ", " on "} {
		_, thing, ok := strings.Cut(low, word)
		if !ok {
			continue
		}
		thing, _, _ = strings.Cut(thing, ",")
		if words := wordsOf(thing); len(words) > 0 {
			things = append(things, words)
		}
	}
	return things
}

// speakOf reports whether all words of one of the things are among those of a work. The words of a
// work are read once, however many days it stands open.
func (b *bill) speakOf(things [][]string, work string) bool {
	words, known := b.workWords[work]
	if !known {
		words = wordsOf(work)
		b.workWords[work] = words
	}
	return slices.ContainsFunc(things, func(thing []string) bool { return holds(words, thing) })
}

// unplacedHired accounts for equipment and subcontractors on no line and no extra: held where a line
// billed by the hour was worked on, else not billed, and said either way.
func (b *bill) unplacedHired() {
	for _, h := range b.hiredToday {
		l := b.line(h.key)
		switch {
		case h.key == "":
		case l != nil && l.Price.Kind != notes.TimeAndMaterial: // in the price of the line
			b.value(h.what, h.step.Amount)
			b.notBilled(notes.MoneyNote{
				What: h.what, Amount: h.step.Amount, Why: "in the price of line " + l.Label, From: h.step.From, Ref: l.Label,
			})
			continue
		default:
			continue
		}
		n := notes.MoneyNote{
			What: h.what, Amount: h.step.Amount, Why: nowhere, From: h.step.From, Frees: "the line or extra it was for",
		}
		if h.missing != "" {
			n.Why += "; missing: " + h.missing
		}
		b.tell(finding.Finding{
			Severity: finding.Warning, Rule: "price/hire-unplaced",
			Message: quote(h.what) + " is on no line and no extra",
			Hint:    "write the line in front of it, like A: " + shortened(h.what) + ", or put it below the extra it was for",
			Holds:   h.step.Amount.String(),
		}, h.step.From)
		b.value(n.What, n.Amount)
		if len(b.hourly) > 0 {
			b.holdOn(n, materialNowhere, nil)
			continue
		}
		b.notBilled(n)
	}
}

// holdHired holds equipment or a subcontractor on a line billed by the hour that has no price.
func (b *bill) holdHired(l *lineMoney, h hired) {
	b.value(h.what, notes.Money{})
	b.holdOn(notes.MoneyNote{
		What: h.what, Why: "no amount is known; missing: " + h.missing, From: slices.Clone(h.step.From), Ref: l.Label, Frees: h.missing,
	}, hiredUnpriced, l)
}
