package report

import (
	"strconv"
	"strings"

	"jobday/locale"
	"jobday/notes"
	"jobday/sheet"
)

// ChangeOrderSheet is the offer as the customer reads and signs it: what, why, where, the price in
// the detail the company chose, what it does to the time, what is not in it, how long it stands. An
// answer that was given stands where it was asked for.
func ChangeOrderSheet(c *notes.ChangeOrder, company *notes.Company) sheet.Sheet {
	w := placeOf(company)
	s := sheet.Sheet{
		Kind: "Change order", Number: c.Number, Title: c.Title, Date: c.Offered, Letterhead: sheet.Letters(company),
		To: sheet.Addressee{Name: c.Customer, Site: c.Site},
		Facts: []sheet.Fact{
			{Label: "Job", Value: sheet.Words(c.Job)},
			{Label: "Offered", Value: sheet.Words(join2(w.Date(c.Offered), c.By))},
			{Label: "Effect on time", Value: sheet.Words(c.Effect)},
		},
	}
	if c.Valid.Known() {
		s.Facts = append(s.Facts, sheet.Fact{Label: "Offer stands until", Value: sheet.Words(w.Date(c.Valid))})
	}
	s.Blocks = append(s.Blocks, sheet.Para{Text: sheet.Words("A change to the work that was booked. It is billed beside the booked work, at the amounts below, once it is authorized and done.")})
	if c.Reason != "" {
		s.Blocks = append(s.Blocks, sheet.Heading{Text: sheet.Words("Why")}, sheet.Para{Text: sheet.Words(c.Reason)})
	}
	detail := notes.OfferParts
	if company != nil && company.Offer.Detail != "" {
		detail = company.Offer.Detail
	}
	for _, i := range c.Items {
		s.Blocks = append(s.Blocks, offerItem(i, detail, w)...)
	}
	s.Blocks = append(s.Blocks, offerSum(c, w))
	if len(c.Excluded) > 0 {
		list := sheet.List{}
		for _, x := range c.Excluded {
			list.Items = append(list.Items, sheet.Words(x))
		}
		s.Blocks = append(s.Blocks, sheet.Keep{Blocks: []sheet.Block{sheet.Heading{Text: sheet.Words("Not included")}, list}})
	}
	s.Blocks = append(s.Blocks, sheet.Keep{Blocks: offerAnswer(c, company)})
	s.Foot = []string{
		"The amounts were fixed when this was offered and do not move when a note is edited. Local code and the authority having jurisdiction decide how the work is done.",
	}
	return s
}

// placeOf is how a company's readers write dates and amounts.
func placeOf(company *notes.Company) locale.Locale {
	if company == nil {
		return locale.For("")
	}
	return locale.For(company.Locale)
}

func join2(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}

// offerItem is one piece of work with its price. On the total alone, no row of it is shown. What a
// row was worked out from is never shown: it names what things cost the company. Nor are the crew's
// own words beyond what names the work.
func offerItem(i notes.ChangeItem, detail notes.OfferDetail, w locale.Locale) []sheet.Block {
	standing := "not done yet"
	if i.Done {
		standing = "done"
	}
	facts := sheet.Facts{Rows: []sheet.Fact{
		{Label: "Found", Value: sheet.Words(w.Date(i.Found) + ", " + standing)},
	}}
	if i.Where != "" {
		facts.Rows = append(facts.Rows, sheet.Fact{Label: "Beyond", Value: sheet.Words(i.Where)})
	}
	blocks := []sheet.Block{sheet.Heading{Text: sheet.Words(i.Work), Right: w.Money(i.Amount)}, facts}
	if detail == notes.OfferTotal {
		return []sheet.Block{sheet.Keep{Blocks: blocks}}
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "Row"}, {Title: "What", Width: 8}, {Title: "Amount", Align: sheet.Right, Width: 2}}}
	if detail == notes.OfferFull {
		t.Columns = []sheet.Column{
			{Title: "Row"}, {Title: "What", Width: 8}, {Title: "Qty", Align: sheet.Right, Width: 2}, {Title: "Rate", Align: sheet.Right, Width: 2},
			{Title: "Amount", Align: sheet.Right, Width: 2},
		}
	}
	for _, r := range i.Rows {
		row := sheet.Cells(strconv.Itoa(r.Row), r.What, w.Money(r.Amount))
		if detail == notes.OfferFull {
			row = sheet.Cells(strconv.Itoa(r.Row), r.What, countOf(w, r.Qty, r.Unit), w.Rate(r.Rate), w.Money(r.Amount))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, i.Work, w.Money(i.Amount)))
	return []sheet.Block{sheet.Keep{Blocks: append(blocks, t)}}
}

func offerSum(c *notes.ChangeOrder, w locale.Locale) sheet.Block {
	t := sheet.Table{Columns: []sheet.Column{{Title: "Price, " + c.Currency, Width: 5}, {Title: "Amount", Align: sheet.Right, Width: 2}}}
	if len(c.Tax) > 0 {
		t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, "before tax", w.Money(c.Subtotal)))
	}
	for _, x := range c.Tax {
		t.Rows = append(t.Rows, sheet.Cells(x.Name+", "+w.Percent(x.Rate)+" of "+w.Money(x.Base), w.Money(x.Amount)))
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Total, "total", w.Money(c.Total)))
	return t
}

// offerAnswer is where the customer answers, or the answers given.
func offerAnswer(c *notes.ChangeOrder, company *notes.Company) []sheet.Block {
	w := placeOf(company)
	statement := "By signing, the customer authorizes the work marked above at the amounts stated, and the company agrees to do it for them."
	if company != nil && company.Offer.Statement != "" {
		statement = company.Offer.Statement
	}
	answer := sheet.Choice{Label: "The customer's answer", Options: []sheet.Option{
		{Text: "all of it is authorized"}, {Text: "a part is authorized, rows or amount: ____________"}, {Text: "declined"},
	}}
	customer := sheet.Party{Role: "For " + orWord(c.Customer, "the customer")}
	var said []sheet.Block
	for _, a := range c.Answers {
		words := string(a.Kind) + " by " + a.Who
		switch {
		case a.Kind == notes.AnswerDeclined:
			answer.Options[2].Chosen = true
		case a.Kind == notes.AnswerWithdrawn: // all before it is taken back
			answer.Options[0].Chosen, answer.Options[1].Chosen = false, false
		case a.Amount.Equal(c.Subtotal):
			answer.Options[0].Chosen = true
		default:
			answer.Options[1] = sheet.Option{Text: "a part is authorized: " + w.Money(a.Amount) + rowsText(a.Rows), Chosen: true}
		}
		if a.Evidence != "" {
			words += "; shown by " + a.Evidence
		}
		said = append(said, sheet.Para{Text: sheet.Aside(words)})
		customer.Name, customer.Date, customer.How = a.Who, w.Date(a.At), a.How
	}
	sign := sheet.Signature{
		Title: "Agreed", Statement: sheet.Words(statement),
		Parties: []sheet.Party{customer, {Role: "For " + orWord(c.Company, "the company"), Name: c.By, Date: w.Date(c.Offered)}},
	}
	return append(append([]sheet.Block{answer}, said...), sign)
}

func rowsText(rows []int) string {
	if len(rows) == 0 {
		return ""
	}
	words := make([]string, len(rows))
	for i, n := range rows {
		words[i] = strconv.Itoa(n)
	}
	return ", rows " + strings.Join(words, ", ")
}

func orWord(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}
