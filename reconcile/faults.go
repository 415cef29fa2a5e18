package reconcile

import (
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// openFault is a deficiency as it stands over days.
type openFault struct {
	record notes.DeficiencyRecord
	query  query
	closed bool // it was corrected on an earlier day
}

// recordFaults enters today's deficiencies, lets later words close earlier ones, and lists what
// stands.
func (d *day) recordFaults() {
	for _, r := range d.reads {
		switch r.result.Outcome {
		case notes.Deficiency:
			d.recordFault(r)
		case notes.InScope, notes.Extra:
			if r.fault {
				reading := r.result.Reading
				d.recordFault(r)
				r.result.Reading = reading
			}
			d.closeFault(r)
		}
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
}

func (d *day) recordFault(r *read) {
	rec := notes.DeficiencyRecord{
		ID: r.result.ID, Text: r.result.Text, Title: r.entry.Text, Where: r.query.places(), Hazard: "to be judged",
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
	if k, _, ok := d.in.Kinds.FindKind(r.result.Text); ok {
		rec.Kind, rec.Title, rec.Hazard = k.Slug, k.Title, k.Hazard
		rec.Caution = k.Caution
		rec.Rules = k.RulesFor(d.in.Company.NEC)
		if rec.Severity == "" {
			rec.Severity = k.Severity
		}
	}
	if rec.Severity == "" {
		rec.Severity = notes.Hazard
	}
	if f := d.knownFault(r.query, rec.Kind); f != nil {
		f.again(rec)
		rec = f.record
	} else {
		d.standing.faults = append(d.standing.faults, &openFault{record: rec, query: r.query})
	}
	r.result.Reading = notes.FaultReading{Kind: rec.Kind, Severity: rec.Severity, State: rec.State}
	if rec.State == notes.FaultCorrected && len(r.lines) == 0 && (len(r.facts.Time) > 0 || len(detailItems(r)) > 0) {
		d.correction(r)
	}
}

// followUp returns what a deficiency still wants: put right while it stands, and what comes after.
func (d *day) followUp(rec notes.DeficiencyRecord) string {
	k, ok := d.in.Kinds.KindOf(rec.Kind)
	switch {
	case ok && rec.State == notes.FaultCorrected:
		return k.FollowUp
	case ok:
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
	x.work.Outcome = notes.ExtraDone
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
func (d *day) knownFault(q query, kind string) *openFault {
	for _, f := range d.faults {
		if f.closed || f.record.Found == d.out.Date && q.overlap(f.query) < 0.9 {
			continue
		}
		o := q.overlap(f.query)
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
		f.record.State = rec.State
	}
	if rec.Told != "" {
		f.record.Told = rec.Told
	}
	f.record.Photo = append(f.record.Photo, rec.Photo...)
}

// closeFault lets work that speaks of an open deficiency close it: "fitted a cover on the cooler
// disconnect" closes "cooler disconnect has no cover".
func (d *day) closeFault(r *read) {
	p := r.facts.Progress
	if p.NotDone || p.Complete == notes.No || p.Blocked {
		return
	}
	for _, f := range d.faults {
		if f.closed || f.record.State == notes.FaultCorrected || f.record.Found == d.out.Date && r.facts.Fault.State != notes.FaultCorrected {
			continue
		}
		if r.query.overlap(f.query) < 0.75 || !mends(r) {
			continue
		}
		f.record.State = notes.FaultCorrected
		f.record.From = append(f.record.From, r.result.Source)
		r.why += "; closes the deficiency of " + f.record.Found.String() + ": " + strings.TrimSpace(f.record.Title)
		r.result.Why = r.why
	}
}

// mends reports whether the words say that something was put right.
func mends(r *read) bool {
	if r.facts.Fault.State == notes.FaultCorrected {
		return true
	}
	for _, v := range r.query.verbs() {
		switch v {
		case "install", "replace", "repair", "connect", "land", "seal", "secure", "makeup":
			return pastVerb(r.query)
		}
	}
	return false
}

// detailItems returns what the details of an entry count.
func detailItems(r *read) []notes.Item {
	var items []notes.Item
	for _, det := range r.entry.Details {
		items = append(items, det.Facts.Items...)
	}
	return items
}
