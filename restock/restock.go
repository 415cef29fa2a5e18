// Package restock lists what the notes of a stretch of days say was used, so that the shop can buy it
// again: in the order of the price list, in whole packages where the list says what comes in one;
// and apart from that what no row of the list fits, what could not be read for sure, and what was
// delivered. Nothing used is left out: each use stands in exactly one of the parts. What an extra
// would take that nobody did was not used.
//
// It is a function of its input: no clock, no disk, the same list for the same days.
package restock

import (
	"cmp"
	"slices"
	"strings"

	"jobday/notes"
)

// Input is what a list is made from.
type Input struct {
	Company *notes.Company
	Prices  *notes.PriceList // nil when the book has none
	Jobs    []Job
	// Since and Until are the first and last day that count.
	Since, Until notes.Date
}

// Job is one job with its days, earliest first.
type Job struct {
	Job  *notes.Job
	Days []*notes.JobDay
}

// List is what was used in a stretch of days. Lists are never nil.
type List struct {
	Company  string     `json:"company"`
	Currency string     `json:"currency"`
	Since    notes.Date `json:"since"`
	Until    notes.Date `json:"until"`
	Days     int        `json:"days"`    // job-days with a note
	Rows     []Row      `json:"rows"`    // in the order of the price list
	Unnamed  []Unnamed  `json:"unnamed"` // what no row of the list fits, by job and date
	Unclear  []Unclear  `json:"unclear"` // what may have been used, by job and date
	Came     []Came     `json:"delivered"`
	Cost     CostSum    `json:"cost"`
}

// CostSum is what the rows cost to buy again. Rows whose cost the list does not give are counted.
type CostSum struct {
	Amount   notes.Money `json:"amount"`
	Costless int         `json:"costless_rows"`
}

// Row is one thing of the price list that was used. Used is in Unit, the list's own.
type Row struct {
	Code string        `json:"code"`
	Item string        `json:"item"`
	Unit notes.Unit    `json:"unit"`
	Used notes.Decimal `json:"used"`
	// Pack is how much the list says comes in one package, 0 for none; Packs is how many whole
	// packages cover Used, and Buy what they hold. Without packages Buy is Used.
	Pack  notes.Decimal `json:"pack"`
	Packs notes.Decimal `json:"packs"`
	Buy   notes.Decimal `json:"buy"`
	Cost  *notes.Money  `json:"cost"` // of Buy, null when the list gives no cost
	Jobs  []string      `json:"jobs"`
	From  []Use         `json:"from"`
}

// Use is one note line that says so.
type Use struct {
	Job    string         `json:"job"`
	Date   notes.Date     `json:"date"`
	Qty    notes.Quantity `json:"qty"`
	Item   string         `json:"item"` // as written
	Source notes.Source   `json:"source"`
}

// Unnamed is material that no row of the list fits, or that is counted in a unit the row does not have.
type Unnamed struct {
	Use
	Why  string `json:"why"`
	Text string `json:"text"` // the line of the note
}

// Unclear is a line that may be about material used and could not be read for sure.
type Unclear struct {
	Job    string       `json:"job"`
	Date   notes.Date   `json:"date"`
	Text   string       `json:"text"`
	Why    string       `json:"why"`
	Source notes.Source `json:"source"`
}

// Came is a delivery, as written. Nothing is taken off for it: whether it went into the job or onto
// the shelf the notes do not say.
type Came struct {
	Job    string       `json:"job"`
	Date   notes.Date   `json:"date"`
	Text   string       `json:"text"`
	Source notes.Source `json:"source"`
}

// Make makes the list.
func Make(in Input) *List {
	l := &List{
		Company: in.Company.Name, Currency: in.Company.Currency, Since: in.Since, Until: in.Until,
		Rows: []Row{}, Unnamed: []Unnamed{}, Unclear: []Unclear{}, Came: []Came{},
	}
	t := tally{used: map[int]*Row{}}
	if in.Prices != nil {
		t.rows = in.Prices.Rows
	}
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			if d.Date.Compare(in.Since) < 0 || d.Date.Compare(in.Until) > 0 {
				continue
			}
			l.Days++
			t.day(l, j.Job, d)
		}
	}
	l.close(t)
	return l
}

// tally is the rows used so far, by their place in the price list.
type tally struct {
	rows []notes.PriceRow
	used map[int]*Row
}

func (t tally) day(l *List, j *notes.Job, d *notes.JobDay) {
	idle := map[string]bool{} // extras nobody did: what they would take was not used
	for _, x := range d.Extras {
		idle[x.ID] = x.Outcome != notes.ExtraDone
	}
	for _, m := range d.Materials {
		if idle[m.Line] {
			continue
		}
		use := Use{Job: j.Number, Date: d.Date, Qty: m.Qty, Item: m.Item}
		if len(m.From) > 0 {
			use.Source = m.From[0]
		}
		if why := t.add(m, use); why != "" {
			l.Unnamed = append(l.Unnamed, Unnamed{Use: use, Why: why, Text: lineOf(d, use.Source)})
		}
	}
	for _, e := range d.Entries {
		switch {
		case e.Outcome == notes.Unclear && aboutMaterial(e):
			l.Unclear = append(l.Unclear, Unclear{Job: j.Number, Date: d.Date, Text: e.Text, Why: e.Why, Source: e.Source})
		case e.Outcome == notes.Delivery:
			l.Came = append(l.Came, Came{Job: j.Number, Date: d.Date, Text: e.Text, Source: e.Source})
		}
	}
	for _, x := range d.Extras {
		if x.Unclear != "" && len(x.From) > 0 && ofDay(d, x.From[0]) {
			l.Unclear = append(l.Unclear, Unclear{Job: j.Number, Date: d.Date, Text: x.Work, Why: x.Unclear, Source: x.From[0]})
		}
	}
}

func ofDay(d *notes.JobDay, s notes.Source) bool {
	return slices.ContainsFunc(d.Notes, func(n notes.NoteRef) bool { return n.File == s.File })
}

// add counts a use, or says why it cannot.
func (t tally) add(m notes.MaterialUse, use Use) string {
	if !m.Qty.Written() {
		return "no quantity is written"
	}
	if m.Qty.Value.Sign() <= 0 {
		return "the quantity is not above zero"
	}
	if m.Item == "" {
		return "the words do not say what it is"
	}
	at := t.place(m)
	if at < 0 {
		return "no row of the price list fits"
	}
	row := t.rows[at]
	q, ok := m.Qty.In(row.Unit)
	if !ok {
		return "the price list counts " + row.Item + " in " + string(row.Unit)
	}
	r := t.used[at]
	if r == nil {
		r = &Row{Code: row.Code, Item: row.Item, Unit: row.Unit}
		t.used[at] = r
	}
	r.Used = r.Used.Add(q.Value)
	r.From = append(r.From, use)
	if !slices.Contains(r.Jobs, use.Job) {
		r.Jobs = append(r.Jobs, use.Job)
	}
	return ""
}

// place returns the place of the row a use was priced by: that with its code or, where the row has
// none, its name; -1 for none.
func (t tally) place(m notes.MaterialUse) int {
	return slices.IndexFunc(t.rows, func(r notes.PriceRow) bool {
		switch {
		case r.Kind == "task":
			return false
		case m.Code != "":
			return r.Code == m.Code
		}
		return m.Priced && r.Code == "" && (r.Name == m.Item || slices.Contains(r.Words, m.Item))
	})
}

// close puts the rows in the order of the list and works out what to buy.
func (l *List) close(t tally) {
	for at, p := range t.rows {
		r := t.used[at]
		if r == nil {
			continue
		}
		r.buy(p)
		if r.Cost == nil {
			l.Cost.Costless++
		} else {
			l.Cost.Amount = l.Cost.Amount.Add(*r.Cost)
		}
		l.Rows = append(l.Rows, *r)
	}
	slices.SortStableFunc(l.Unnamed, func(a, b Unnamed) int { return inOrder(a.Job, b.Job, a.Date, b.Date) })
	slices.SortStableFunc(l.Unclear, func(a, b Unclear) int { return inOrder(a.Job, b.Job, a.Date, b.Date) })
	slices.SortStableFunc(l.Came, func(a, b Came) int { return inOrder(a.Job, b.Job, a.Date, b.Date) })
}

func inOrder(a, b string, at, bt notes.Date) int {
	return cmp.Or(strings.Compare(a, b), at.Compare(bt))
}

// buy rounds what was used up to whole packages. The cost is that of one unit times what is bought,
// rounded half away from zero to the cent.
func (r *Row) buy(p notes.PriceRow) {
	r.Buy = r.Used
	if p.Pack.Sign() > 0 && r.Used.Sign() > 0 {
		r.Pack = p.Pack
		r.Packs = r.Used.Quo(p.Pack, 12).Floor()
		for r.Packs.Mul(p.Pack).Cmp(r.Used) < 0 {
			r.Packs = r.Packs.Add(notes.Int(1))
		}
		r.Buy = r.Packs.Mul(p.Pack)
	}
	if p.Cost != nil {
		cost := p.Cost.Times(r.Buy)
		r.Cost = &cost
	}
}

// aboutMaterial reports whether an unclear entry may be about material: it stands in such a
// section, may be of that kind, or counts things.
func aboutMaterial(e notes.EntryResult) bool {
	if e.Section == notes.Materials {
		return true
	}
	return e.Entry != nil && (slices.Contains(e.Entry.MayBe, notes.Material) || e.Entry.Kind == notes.Material)
}

// lineOf returns the line of a note that a source points at, as written, without its bullet.
func lineOf(d *notes.JobDay, s notes.Source) string {
	for _, n := range d.Notes {
		if n.File == s.File && n.Source != nil && s.Line >= 1 && s.Line <= n.Source.Lines() {
			return strings.TrimLeft(strings.TrimSpace(n.Source.LineSpan(s.Line).Text()), "-*+ ")
		}
	}
	return ""
}
