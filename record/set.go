package record

import (
	"cmp"
	"path"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// Set is all records of one job. What could not be read whole is in neither list.
type Set struct {
	Changes  []notes.ChangeOrder // by number, each with its answers in order
	Invoices []notes.Invoice     // by number
	// Broken are the records that could not be read whole or contradict each other. As long as there
	// is one nobody can tell what was billed, and nothing may be.
	Broken []*finding.File
}

// Names of the folders of records in a job's folder.
const (
	ChangesFolder  = "changes"
	InvoicesFolder = "invoices"
)

// ChangeName returns the file of an offer, below the job's folder.
func ChangeName(number string) string { return ChangesFolder + "/" + number + ".md" }

// AnswerName returns the file of an answer, below the job's folder.
func AnswerName(number string, answer int) string {
	return ChangesFolder + "/" + number + "-answer-" + strconv.Itoa(answer) + ".md"
}

// InvoiceName returns the file of an invoice, below the job's folder.
func InvoiceName(number string) string { return InvoicesFolder + "/" + number + ".md" }

// Read reads the records of one job from its folders changes and invoices; days are its notes as
// they are now. It raises the rules under "record/".
func Read(files, days []*finding.File) (Set, finding.List) {
	var c collector
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b *finding.File) int { return compareNames(a.Name, b.Name) })
	for _, f := range files {
		if path.Base(path.Dir(f.Name)) == InvoicesFolder {
			c.invoice(f)
		} else if kindOf(f) == answerForm(&notes.ChangeAnswer{}).kind {
			c.answer(f)
		} else {
			c.change(f)
		}
	}
	c.join()
	c.gaps()
	for i := range c.Changes {
		x := &c.Changes[i]
		c.found.Add(compareNotes(evidence{x.File, x.Number, x.Notes, x.Sources}, days)...)
	}
	for i := range c.Invoices {
		if v := &c.Invoices[i]; v.Kind == notes.InvoiceBill && !c.Voided(v.Number) {
			c.found.Add(compareNotes(evidence{v.File, v.Number, v.Notes, v.Sources}, days)...)
		}
	}
	return c.Set, c.found.Sort()
}

// Voided reports whether a later record takes the invoice back.
func (s *Set) Voided(number string) bool {
	return slices.ContainsFunc(s.Invoices, func(v notes.Invoice) bool { return v.Kind == notes.InvoiceVoid && v.Voids == number })
}

// Change returns the change order with the number, or nil.
func (s *Set) Change(number string) *notes.ChangeOrder {
	for i := range s.Changes {
		if strings.EqualFold(s.Changes[i].Number, number) {
			return &s.Changes[i]
		}
	}
	return nil
}

// Invoice returns the invoice with the number, or nil.
func (s *Set) Invoice(number string) *notes.Invoice {
	for i := range s.Invoices {
		if s.Invoices[i].Number == number {
			return &s.Invoices[i]
		}
	}
	return nil
}

// A collector reads one job's records.
type collector struct {
	Set
	found   finding.List
	answers []notes.ChangeAnswer
}

// keep takes what a reader found, and reports whether the record may be used: read whole, and under
// the name it has to have.
func (c *collector) keep(r *reader, name string) bool {
	if r.whole && !strings.HasSuffix(r.file.Name, "/"+name) {
		r.wrong("record/name", r.keys["number"], "the file is called "+quote(path.Base(r.file.Name))+", but the record in it belongs into "+quote(name),
			"give the file its name back; a second record with one number is not used")
	}
	c.found.Add(r.found...)
	if !r.whole {
		c.Broken = append(c.Broken, r.file)
	}
	return r.whole
}

func (c *collector) change(f *finding.File) {
	x := notes.ChangeOrder{File: f}
	r := read(f, changeForm(&x))
	if r.whole {
		r.checkChange(&x)
	}
	if c.keep(r, ChangeName(x.Number)) {
		c.Changes = append(c.Changes, x)
	}
}

func (c *collector) answer(f *finding.File) {
	x := notes.ChangeAnswer{File: f}
	r := read(f, answerForm(&x))
	if r.whole && x.Kind != notes.AnswerAuthorized && x.Kind != notes.AnswerDeclined && x.Kind != notes.AnswerWithdrawn {
		r.wrong("record/value", r.keys["kind"], quote(string(x.Kind))+" is no answer", "write authorized, declined or withdrawn")
	}
	if c.keep(r, AnswerName(x.Number, x.Answer)) {
		c.answers = append(c.answers, x)
	}
}

func (c *collector) invoice(f *finding.File) {
	x := notes.Invoice{File: f}
	r := read(f, invoiceForm(&x))
	if r.whole {
		r.checkInvoice(&x)
	}
	if c.keep(r, InvoiceName(x.Number)) {
		c.Invoices = append(c.Invoices, x)
	}
}

// join gives every change order its answers. An answer to nothing, or one that authorizes another
// amount than its rows make, is broken.
func (c *collector) join() {
	slices.SortStableFunc(c.answers, func(a, b notes.ChangeAnswer) int { return cmp.Compare(a.Answer, b.Answer) })
	for _, a := range c.answers {
		x := c.Change(a.Number)
		message := "this answers " + a.Number + ", and there is no such record"
		if x != nil {
			message = misfit(x, &a)
		}
		if message != "" {
			c.found.Add(finding.Finding{
				Severity: finding.Error, Rule: "record/answer", Span: a.File.LineSpan(1), Message: message, Hint: written,
				Holds: "what " + a.Number + " agrees",
			})
			c.Broken = append(c.Broken, a.File)
			continue
		}
		x.Answers = append(x.Answers, a)
	}
}

// within reports whether a part is no more than the whole and of the same sign.
func within(part, whole notes.Money) bool {
	if whole.Sign() < 0 {
		part, whole = part.Neg(), whole.Neg()
	}
	return part.Sign() >= 0 && part.Cmp(whole) <= 0
}

// Authorized returns how much of a change order is authorized by its answers so far.
func Authorized(c *notes.ChangeOrder) notes.Money {
	var sum notes.Money
	for _, a := range c.Answers {
		sum = sum.Add(a.Amount)
	}
	return sum
}

// misfit says why an answer cannot be one to a change order after the answers it has, or nothing.
func misfit(x *notes.ChangeOrder, a *notes.ChangeAnswer) string {
	before := Authorized(x)
	switch open := x.Subtotal.Sub(before); {
	case len(a.Rows) > 0 && !RowsAmount(x, a.Rows).Equal(a.Amount):
		return "the rows authorized make " + RowsAmount(x, a.Rows).String() + ", but the amount is written as " + a.Amount.String()
	case a.Kind == notes.AnswerDeclined && !a.Amount.IsZero():
		return "declined, and yet " + a.Amount.String() + " is written as authorized"
	case a.Kind == notes.AnswerWithdrawn && !before.Add(a.Amount).IsZero():
		return "withdrawn are " + a.Amount.Neg().String() + ", but " + before.String() + " were authorized"
	case a.Kind == notes.AnswerAuthorized && len(a.Rows) == 0 && !within(a.Amount, open):
		return a.Amount.String() + " is written as authorized, and only " + open.String() + " of " + x.Number + " was open"
	case a.Kind == notes.AnswerAuthorized && authorizedBefore(x, a.Rows):
		return "a row is authorized that was authorized before, at least in part"
	}
	return ""
}

// authorizedBefore reports whether an answer since the last withdrawal has one of the rows.
func authorizedBefore(x *notes.ChangeOrder, rows []int) bool {
	had := false
	for _, said := range x.Answers {
		switch said.Kind {
		case notes.AnswerWithdrawn:
			had = false
		case notes.AnswerAuthorized:
			had = had || len(rows) > 0 && len(said.Rows) == 0 && !said.Amount.IsZero() ||
				slices.ContainsFunc(said.Rows, func(n int) bool { return slices.Contains(rows, n) })
		}
	}
	return had
}

// RowsAmount adds up some rows of a change order.
func RowsAmount(c *notes.ChangeOrder, rows []int) notes.Money {
	var sum notes.Money
	for _, i := range c.Items {
		for _, r := range i.Rows {
			if slices.Contains(rows, r.Row) {
				sum = sum.Add(r.Amount)
			}
		}
	}
	return sum
}

// gaps reports a number that is missing between two invoices or two change orders: a record was
// lost or taken away.
func (c *collector) gaps() {
	next := map[string]int{}
	check := func(number string, f *finding.File) {
		i := strings.LastIndexByte(number, '-')
		n, err := strconv.Atoi(number[i+1:])
		head := f.Name[:strings.LastIndexByte(f.Name, '/')+1] + number[:i+1]
		if want := next[head] + 1; err == nil && n > want && !c.broken(head+strconv.Itoa(n-1)+".md") {
			c.found.Add(finding.Finding{
				Severity: finding.Warning, Rule: "record/gap", Span: f.LineSpan(1),
				Message: "there is no record " + missing(number[:i+1], want, n-1) + " before this one: numbers have no gaps",
				Hint:    "get what is missing back from your version control or backup",
			})
		}
		next[head] = n
	}
	for _, x := range c.Changes {
		check(x.Number, x.File)
	}
	for _, v := range c.Invoices {
		check(v.Number, v.File)
	}
}

func missing(head string, from, to int) string {
	if from == to {
		return head + strconv.Itoa(to)
	}
	return head + strconv.Itoa(from) + " to " + head + strconv.Itoa(to)
}

func (c *collector) broken(name string) bool {
	return slices.ContainsFunc(c.Broken, func(f *finding.File) bool { return f.Name == name })
}

// compareNames orders records by their numbers: 2431-9 before 2431-10.
func compareNames(a, b string) int {
	ha, na := lastNumber(a)
	hb, nb := lastNumber(b)
	return cmp.Or(cmp.Compare(ha, hb), cmp.Compare(na, nb), cmp.Compare(a, b))
}

func lastNumber(name string) (head string, n int) {
	name = strings.TrimSuffix(name, ".md")
	i := strings.LastIndexByte(name, '-')
	n, err := strconv.Atoi(name[i+1:])
	if err != nil {
		return name, 0
	}
	return name[:i+1], n
}
