package report

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/sheet"
	"jobday/trade"
)

// Notice is the page that tells a customer in plain words what was found and is open, for one job
// as it stands on a day, with room for what they decide and a signature.
type Notice struct {
	Company *notes.Company
	Job     *notes.Job
	Date    notes.Date
	Rows    []FaultRow // open, gravest first
	Closed  []FaultRow // corrected on that day

	photos Pictures
}

var errNoJob = errors.New("report: no job given")

// NewNotice collects what the notice of a job says on a date.
func NewNotice(company *notes.Company, j FaultJob, date notes.Date) (Notice, error) {
	if j.Job == nil {
		return Notice{}, errNoJob
	}
	n := Notice{Company: company, Job: j.Job, Date: date, photos: j.Photos}
	if n.Company == nil {
		n.Company = &notes.Company{}
	}
	for _, r := range Deficiencies([]FaultJob{j}, date, true).Rows {
		switch {
		case r.State != notes.FaultCorrected:
			n.Rows = append(n.Rows, r)
		case r.At == date:
			n.Closed = append(n.Closed, r)
		}
	}
	slices.SortStableFunc(n.Rows, func(a, b FaultRow) int { return cmp.Compare(rank(a.Severity), rank(b.Severity)) })
	return n, nil
}

// Recommend is what the company recommends for a deficiency, in plain words.
func (r FaultRow) Recommend() string {
	if r.Correction != "" {
		return r.Correction
	}
	return "Have a licensed electrician look at it and say what it needs."
}

// Meaning is why a deficiency matters, in plain words.
func (r FaultRow) Meaning() string {
	if r.Why != "" {
		return r.Why
	}
	if r.Kind != "" {
		return "The shop's own list of deficiencies gives no reason; until somebody qualified has judged it, it counts as a hazard."
	}
	return "It is of no kind the catalogue knows; until somebody qualified has judged it, it counts as a hazard."
}

// Decided is what the customer decided so far, or "" when nothing is written.
func (r FaultRow) Decided() string {
	at := ""
	if r.At.Known() {
		at = " on " + r.At.String()
	}
	switch {
	case r.State == notes.FaultDeclined && r.By != "":
		return "Correction declined by " + r.By + at + "."
	case r.State == notes.FaultDeclined:
		return "Correction declined" + at + "; the note does not say by whom."
	}
	return ""
}

// Lost lists the photographs the notice cannot show, each with why: `photo "x.jpg": there is no such
// file`.
func (n Notice) Lost() []string {
	var lost []string
	for _, r := range n.Rows {
		for _, path := range r.Photo {
			if p := n.photos.picture(path); p.Why != "" {
				lost = append(lost, "photo "+strconv.Quote(path)+" not shown: "+p.Why)
			}
		}
	}
	return lost
}

// Sheet lays the notice out: each deficiency with its photographs and room to answer on one page,
// then the place to sign.
func (n Notice) Sheet() sheet.Sheet {
	f := figuresOf(n.Company)
	customer := cmp.Or(n.Job.Customer, "the customer")
	s := sheet.Sheet{
		Kind: "Deficiency notice", Title: n.Job.Title, Date: n.Date, Paper: PaperOf(n.Company),
		Letterhead: sheet.Letters(n.Company), To: sheet.Addressee{Name: customer, Site: cmp.Or(n.Job.Site, "none named")},
		Facts: []sheet.Fact{
			{Label: "Date", Value: sheet.Words(f.longDate(n.Date))}, {Label: "Job", Value: sheet.Words(n.Job.Number)},
			{Label: "Open", Value: sheet.Strong(strconv.Itoa(len(n.Rows)))}, {Label: "Handed to", Value: sheet.Words("\u00a0")},
		},
		Ref:    strings.Join(filled(n.Company.Name, "job "+n.Job.Number, n.Date.String(), "deficiency notice"), " | "),
		Foot:   trade.Footer(),
		Blocks: []sheet.Block{sheet.Para{Text: sheet.Words("While working for you we saw the following. It was not made by our work unless it says so. We were not asked to inspect the rest of the installation and did not.")}},
	}
	for i, r := range n.Rows {
		s.Blocks = append(s.Blocks, n.fault(i+1, r))
		if r.Decided() == "" { // may go to the next page, so that the last one takes no photo there with the signatures
			s.Blocks = append(s.Blocks, sheet.Choice{Label: "You decided on number " + strconv.Itoa(i+1), Options: []sheet.Option{
				{Text: "put it right"}, {Text: "send a price first"}, {Text: "leave it as it is"},
			}})
		}
	}
	if len(n.Rows) == 0 {
		s.Blocks = append(s.Blocks, sheet.Para{Text: sheet.Words("Nothing is open on this day. That is no finding that there is nothing.")})
	}
	if len(n.Closed) > 0 {
		put := sheet.List{}
		for _, r := range n.Closed {
			put.Items = append(put.Items, sheet.Words(strings.Join(filled(cmp.Or(r.Title, r.Text), r.Where), ", ")+": "+r.Standing()))
		}
		s.Blocks = append(s.Blocks, sheet.Keep{Blocks: []sheet.Block{part("Put right on this day", "closed"), put}})
	}
	s.Blocks = append(s.Blocks, sheet.Signature{
		Title:     "Received",
		Statement: sheet.Words("A signature confirms that this notice was handed over and what is marked above. It orders no work and approves no price."),
		Parties:   []sheet.Party{{Role: "For " + customer}, {Role: "For " + cmp.Or(n.Company.Name, "the contractor")}},
	})
	return s
}

// fault is one deficiency, kept on one page.
func (n Notice) fault(i int, r FaultRow) sheet.Block {
	where := sheet.Words(cmp.Or(r.Where, "place not written"))
	if r.Text != "" {
		where = sheet.Join(": ", where, sheet.Quote(r.Text))
	}
	var rules []string
	for _, c := range r.Rules {
		rules = append(rules, Rule(c))
	}
	facts := sheet.Facts{}
	for _, row := range []sheet.Fact{
		{Label: "Where", Value: where}, {Label: "Why it matters", Value: sheet.Words(r.Meaning())}, {Label: "As it stands", Value: sheet.Words(r.Standing())},
		{Label: "We recommend", Value: sheet.Words(r.Recommend())}, {Label: "Until then", Value: sheet.Strong(r.Caution)},
		{Label: "Code pointers", Value: sheet.Words(strings.Join(rules, "; "))}, {Label: "You decided", Value: sheet.Words(r.Decided())},
	} {
		if !row.Value.Empty() {
			facts.Rows = append(facts.Rows, row)
		}
	}
	title := sheet.Join(" ", sheet.Words(strconv.Itoa(i)+". "+cmp.Or(r.Title, r.Text)), sheet.Label(string(r.Severity), toneOfSeverity(r.Severity)), sheet.Aside(severityWords(r.Severity)))
	blocks := []sheet.Block{sheet.Heading{Sub: true, ID: "def-" + strconv.Itoa(i), Text: title}, facts}
	if shown := n.photos.shown(r.DeficiencyRecord); len(shown.List) > 0 {
		blocks = append(blocks, shown)
	}
	return sheet.Keep{Blocks: blocks}
}

// shown is the photographs of a deficiency, or what kept one from being shown.
func (read Pictures) shown(d notes.DeficiencyRecord) sheet.Pictures {
	var shown sheet.Pictures
	for _, path := range d.Photo {
		p := sheet.Picture{Alt: strings.Join(filled(cmp.Or(d.Title, "deficiency"), d.Where), ", "), Caption: sheet.Aside(path), Missing: "not attached"}
		if read != nil {
			data, err := read(path)
			if p.Bytes, p.Missing = data, ""; err != nil {
				p.Missing = err.Error()
			} else if err := CheckPhoto(data); err != nil {
				p.Bytes, p.Missing = nil, err.Error()
			}
		}
		shown.List = append(shown.List, p)
	}
	return shown
}
