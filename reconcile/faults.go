package reconcile

import (
	"cmp"
	"slices"
	"strconv"

	"jobday/notes"
	"jobday/trade"
)

// openFault is a deficiency as it stands over days.
type openFault struct {
	record notes.DeficiencyRecord
	query  query
	words  faultWords
	closed bool // it was corrected on an earlier day
}

// recordFaults enters today's deficiencies, lets later words close earlier ones, and lists what
// stands.
func (d *day) recordFaults() {
	var settling []*read // what speaks of no fault of an earlier day may speak of one of today
	var mended []*read   // tells of a fault and that it was put right
	for _, r := range d.reads {
		settled := true
		switch r.result.Outcome {
		case notes.Deficiency:
			if r.entry.Section != notes.Deficiencies && r.mends() > trade.MendPending {
				mended = append(mended, r)
				continue // it may tell of one that is found elsewhere in the note
			}
			d.recordFault(r)
		case notes.InScope, notes.Extra:
			if r.fault {
				reading := r.result.Reading
				d.recordFault(r)
				r.result.Reading = reading
			}
			settled = d.settleFault(r, false)
		case notes.Unclear, notes.Narrative, notes.Test, notes.SafetyCheck, notes.Instruction, notes.Question:
			settled = d.settleFault(r, false)
		}
		if !settled {
			settling = append(settling, r)
		}
	}
	// Done often stands above Deficiencies: only now is everything that was found today known.
	for _, r := range mended {
		if !d.settleFault(r, true) {
			d.recordFault(r)
		}
	}
	for _, r := range settling {
		d.settleFault(r, true)
	}
	for _, f := range d.faults {
		if f.closed {
			continue
		}
		rec := f.record
		rec.FollowUp = d.followUp(rec)
		rec.Rules, rec.From = list(rec.Rules), append([]notes.Source(nil), rec.From...)
		d.out.Deficiencies = append(d.out.Deficiencies, rec)
		f.closed = rec.State == notes.FaultCorrected
	}
	// What is closed is never spoken of again: a long job must not cost more each day for it.
	d.standing.faults = slices.DeleteFunc(d.standing.faults, func(f *openFault) bool { return f.closed })
}

// recordFault enters what an entry says of a deficiency: of one that stands already, or of new
// ones. Where its words name two faults of equal weight, each has a record.
func (d *day) recordFault(r *read) {
	kinds := d.faultKinds(r.result.Text)
	first := d.faultRecord(r, kinds[0])
	f := d.aboutFault(r, d.near(r, false), first.Kind)
	if f == nil {
		f = d.knownFault(&r.query, first.Kind)
	}
	if f != nil {
		f.again(first)
		if r.facts.Fault.State == "" {
			d.settleFault(r, false)
		}
		first = f.record
	} else {
		f = d.openFault(r, first, kinds[0])
		for n, k := range kinds[1:] {
			rec := d.faultRecord(r, k)
			rec.ID += "-" + strconv.Itoa(n+2)
			for d.used[rec.ID] > 0 {
				rec.ID += "-2"
			}
			d.used[rec.ID]++
			d.openFault(r, rec, k)
		}
	}
	r.result.Reading = notes.FaultReading{Kind: first.Kind, Severity: first.Severity, State: first.State}
	if first.State != notes.FaultCorrected {
		return
	}
	if len(r.lines) == 0 && (len(r.facts.Time) > 0 || len(detailItems(r)) > 0) {
		d.correction(r)
	}
	if how := r.howMended(); how != "" {
		f.record.How = how
	}
}

// openFault enters a new deficiency. Core are the words that announced its kind.
func (d *day) openFault(r *read, rec notes.DeficiencyRecord, k trade.Found) *openFault {
	text, core := rec.Text, rec.Text[k.Piece.Start:k.Piece.End]
	f := &openFault{record: rec, query: r.query, words: d.faultWordsOf(text, core)}
	d.standing.faults = append(d.standing.faults, f)
	return f
}

// faultKinds returns the kinds of fault a text names, at least one: that of the surest, or where
// none is sure all that share no word, for those are faults of their own. The zero Found stands
// for a fault of no known kind.
func (d *day) faultKinds(text string) []trade.Found {
	found := d.in.Kinds.FindKinds(text)
	if len(found) == 0 {
		return []trade.Found{{}}
	}
	if found[0].IsSure() {
		return found[:1]
	}
	for i := range found {
		for _, other := range found[:i] {
			if found[i].Shares(other) {
				return []trade.Found{{}} // two readings of one fault: nobody guesses
			}
		}
	}
	return found
}

// faultRecord writes a deficiency as an entry tells of it.
func (d *day) faultRecord(r *read, found trade.Found) notes.DeficiencyRecord {
	rec := notes.DeficiencyRecord{
		ID: r.result.ID, Text: r.result.Text, Title: r.entry.Text, Where: r.query.places(), Hazard: trade.ToBeJudged,
		Severity: r.facts.Fault.Severity, State: r.facts.Fault.State, Told: r.facts.Fault.Told, Found: d.out.Date,
		Photo: r.result.Photos, From: []notes.Source{r.result.Source},
		Caution: trade.GeneralCaution(),
	}
	if rec.State == "" {
		rec.State = notes.FaultFound
		if r.facts.Consent.State == notes.Declined {
			rec.State = notes.FaultDeclined
		}
	}
	if rec.State != notes.FaultFound {
		rec.At = d.out.Date
	}
	if rec.State == notes.FaultDeclined {
		rec.By = who(r)
	}
	if k := found.Kind; k.Slug != "" {
		rec.Kind, rec.Title, rec.Hazard = k.Slug, k.Title, k.Hazard
		rec.Caution, rec.Why, rec.Correction = k.Caution, k.Why, k.Correction
		rec.Rules = k.RulesFor(d.in.Company.NEC)
		rec.Severity = graver(rec.Severity, k.Severity)
	}
	if rec.Severity == "" {
		rec.Severity = notes.Hazard
	}
	return rec
}

// followUp returns what a deficiency still wants: put right while it stands, and what comes after.
func (d *day) followUp(rec notes.DeficiencyRecord) string {
	k, ok := d.in.Kinds.KindOf(rec.Kind)
	switch {
	case ok && rec.State == notes.FaultCorrected:
		return cmp.Or(k.FollowUp, "none")
	case ok && k.Correction != "":
		return k.Correction
	case rec.State == notes.FaultCorrected:
		return "none"
	}
	return "a licensed electrician judges it and says what it needs"
}

// correction makes an extra of mending a fault that took time or material: it was not booked.
func (d *day) correction(r *read) {
	x := d.newExtra(r)
	x.work.Work = "Corrected: " + r.entry.Text
	x.work.Outcome, x.work.Mends = notes.ExtraDone, true
	x.touched, r.extra = true, x
	x.work.From = append(x.work.From, r.result.Source)
	x.takeConsent(r)
	x.takePrice(r.facts.Price)
	x.decide(r.decided)
	if len(detailItems(r)) > 0 {
		d.extraMaterials(r, x) // what its own words count is the fault, not material
	}
}

// knownFault returns the open deficiency the words are about: the same kind with nothing that
// contradicts, or nearly the same words.
func (d *day) knownFault(q *query, kind string) *openFault {
	for _, f := range d.faults {
		if f.closed || f.record.Found == d.out.Date && q.overlap(&f.query) < 0.9 {
			continue
		}
		o := q.overlap(&f.query)
		if o >= 0.6 || kind != "" && kind == f.record.Kind && o >= 0.3 {
			return f
		}
	}
	return nil
}

// again takes what a later entry says of a deficiency.
func (f *openFault) again(rec notes.DeficiencyRecord) {
	f.record.From = append(f.record.From, rec.From...)
	if rec.State != notes.FaultFound {
		f.record.State, f.record.At, f.record.By = rec.State, rec.At, rec.By
	}
	if rec.Told != "" {
		f.record.Told = rec.Told
	}
	f.record.Photo = append(f.record.Photo, rec.Photo...)
}

// detailItems returns what the details of an entry count.
func detailItems(r *read) []notes.Item {
	var items []notes.Item
	for _, det := range r.entry.Details {
		items = append(items, det.Facts.Items...)
	}
	return items
}

// graver returns the graver of what the note says and what the catalogue says of a kind: a note may
// warn more than usual, and never talks a hazard down.
func graver(said, usual notes.Severity) notes.Severity {
	rank := map[notes.Severity]int{notes.Danger: 3, notes.Hazard: 2, notes.Maintenance: 1}
	if rank[said] > rank[usual] {
		return said
	}
	return usual
}
