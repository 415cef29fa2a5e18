package billing

import (
	"strings"

	"jobday/notes"
)

// ChangeState is how far a change is in its life.
type ChangeState string

// The states of a change, in the order of its life.
const (
	ChangeFound      ChangeState = "found"      // a note reports it
	ChangeOffered    ChangeState = "offered"    // the customer has it, with its price
	ChangeAuthorized ChangeState = "authorized" // all or a part of it
	ChangeDeclined   ChangeState = "declined"
	ChangeBilled     ChangeState = "billed"
	ChangeGiven      ChangeState = "no charge"
)

// ChangeRow is how one extra of a job stands as a change.
type ChangeRow struct {
	Extra  string      `json:"extra"`
	Work   string      `json:"work"`
	Number string      `json:"number"` // of the change order, "" until it is offered
	State  ChangeState `json:"state"`
	Found  notes.Date  `json:"found"`
	Age    int         `json:"age"` // days since it was found
	Done   bool        `json:"done"`
	Amount notes.Money `json:"amount"` // agreed or, until it is offered, by the notes
	// Authorized is what the customer said yes to; Billed what stands on invoices.
	Authorized notes.Money `json:"authorized"`
	Billed     notes.Money `json:"billed"`
	By         string      `json:"by"` // whose word it rests on
	How        string      `json:"how"`
	At         string      `json:"at"`
	// Exposed: the work is done and nothing in writing says that it will be paid.
	Exposed    bool           `json:"exposed"`
	Missing    []string       `json:"missing,omitempty"` // what a price lacks
	ByNotes    *notes.Money   `json:"by_notes,omitempty"`
	NoticeDue  notes.Date     `json:"notice_due"` // last day for notice in writing, "" when none is due
	ClaimDue   notes.Date     `json:"claim_due"`  // last day to state the amount, "" when none is due
	NoticeLeft int            `json:"-"`          // days left, less than 0 when it ran out
	ClaimLeft  int            `json:"-"`
	From       []notes.Source `json:"from"`
}

// Changes lists the changes of the job as they stand on a day, in the order they were found.
func Changes(in Input, today notes.Date) []ChangeRow {
	agreed := Agreements(in.Days, in.Records.Changes)
	sent := in.billed()
	var list []ChangeRow
	for _, e := range notes.LatestExtras(in.Days) {
		r := ChangeRow{
			Extra: e.ID, Work: e.Work, State: ChangeFound, Found: e.Found, Done: e.Outcome == notes.ExtraDone, Amount: e.Amount,
			By: e.Authorization.By, How: e.Authorization.How, At: e.Authorization.At, Missing: e.Missing, From: append([]notes.Source{}, e.From...),
		}
		if e.Found.Known() && today.Known() {
			r.Age = today.DaysSince(e.Found)
		}
		for _, taxed := range []bool{true, false} {
			if t := sent[key{e.ID, taxed}]; t != nil {
				r.Billed = r.Billed.Add(t.amount)
			}
		}
		r.stand(e, agreed[e.ID] != nil)
		if a := agreed[e.ID]; a != nil {
			r.Number, r.Authorized = a.Number, a.Taxed.Add(a.Free)
			if e.Figured != nil && !e.Figured.Equal(a.Item.Amount) {
				r.ByNotes = e.Figured
			}
		}
		r.expose(e, in.Company.Notice, today)
		list = append(list, r)
	}
	return list
}

func (r *ChangeRow) stand(e *notes.ExtraWork, offered bool) {
	switch e.State {
	case notes.ExtraNoCharge:
		r.State = ChangeGiven
	case notes.ExtraDeclined:
		r.State = ChangeDeclined
	case notes.ExtraAuthorized, notes.ExtraBilled:
		r.State = ChangeAuthorized
		r.Authorized = e.Amount
	default:
		if offered {
			r.State = ChangeOffered
		}
	}
	if !r.Billed.IsZero() {
		r.State = ChangeBilled
	}
}

// inWriting reports whether a word can be shown to somebody: a signature, a message, a record.
func inWriting(how string) bool {
	low := strings.ToLower(how)
	for _, w := range []string{"sign", "message", "mail", "text", "letter", "writing", "written", "order"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// expose says whether the work rests on nothing in writing, and until when notice and claim are due.
// Both count from the day the extra was first written. An offer is notice and claim at once.
func (r *ChangeRow) expose(e *notes.ExtraWork, n notes.NoticePeriods, today notes.Date) {
	settled := r.State == ChangeBilled || r.State == ChangeDeclined || r.State == ChangeGiven
	confirmed := r.State == ChangeAuthorized && (r.Number != "" && !r.Authorized.IsZero() || inWriting(r.How))
	r.Exposed = r.Done && !settled && !confirmed && e.Outcome != notes.ExtraCredit
	if settled || confirmed || r.Number != "" || e.Outcome == notes.ExtraCredit || !e.Found.Known() || !today.Known() {
		return
	}
	if n.NoticeDays > 0 {
		r.NoticeDue = e.Found.AddDays(n.NoticeDays)
		r.NoticeLeft = r.NoticeDue.DaysSince(today)
	}
	if n.ClaimDays > 0 {
		r.ClaimDue = e.Found.AddDays(n.ClaimDays)
		r.ClaimLeft = r.ClaimDue.DaysSince(today)
	}
}
