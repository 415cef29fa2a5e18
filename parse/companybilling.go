package parse

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// notice reads how many days a company may wait with its notice and its claim.
func (r *companyReader) notice() {
	r.c.Notice = notes.NoticePeriods{NoticeDays: 20, ClaimDays: 30}
	m := r.m.sub("notice", `"notice"`)
	if m == nil {
		return
	}
	dayCount(m, "notice_days", &r.c.Notice.NoticeDays)
	dayCount(m, "claim_days", &r.c.Notice.ClaimDays)
	m.done()
}

// dayCount reads a number of days, up to ten years.
func dayCount(m *mapping, key string, into *int) {
	s := m.text(key)
	if s == "" {
		return
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || n > 3660 {
		m.bad(key, quote(s)+" is not a number of days", "write it like 20; 0 switches it off")
		return
	}
	*into = n
}

// offer reads what every change order says.
func (r *companyReader) offer() {
	r.c.Offer = notes.OfferRules{Detail: notes.OfferParts, ValidDays: 30}
	m := r.m.sub("offer", `"offer"`)
	if m == nil {
		return
	}
	switch s := notes.OfferDetail(m.text("detail")); s {
	case "":
	case notes.OfferTotal, notes.OfferParts, notes.OfferFull:
		r.c.Offer.Detail = s
	default:
		m.bad("detail", quote(string(s))+" is no detail of an offer", "write total, parts or full")
	}
	dayCount(m, "valid_days", &r.c.Offer.ValidDays)
	r.c.Offer.Excluded = m.texts("excluded")
	r.c.Offer.Statement = m.text("statement")
	m.done()
}

// billing reads how the job is billed: billing, deposit and retainage of the scope's front matter.
func (s *scopeReader) billing(keys *mapping) {
	b := &s.job.Billing
	b.Mode = notes.OnCompletion
	switch mode := strings.ToLower(keys.text("billing")); mode {
	case "", string(notes.OnCompletion), "on completion":
	case string(notes.ByPercent), "percent complete", "by percent":
		b.Mode = notes.ByPercent
	default:
		keys.bad("billing", quote(mode)+" is no way to bill a job", "write completion, or percent")
	}
	if d := keys.money("deposit"); d != nil {
		if b.Deposit = *d; d.Sign() < 0 {
			b.Deposit = notes.Money{}
			keys.bad("deposit", "a deposit of "+d.String()+" is less than nothing", "write what the customer paid, like 500.00")
		}
	}
	if at := keys.text("retainage"); at != "" {
		p, err := notes.ParseDecimal(strings.TrimSpace(strings.TrimSuffix(at, "%")))
		if err != nil || p.Sign() < 0 || p.Cmp(notes.Int(50)) > 0 || !p.Equal(p.Round(4)) {
			keys.bad("retainage", quote(at)+" is not a percentage from 0 to 50", "write it like 10")
			return
		}
		b.Retainage = p
	}
}
