package billing_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/billing"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/record"
)

const company = `name: Reed and Marl Electric
people: {Ines Marrow: journeyman}
classes: {journeyman: {cost: 46.00, rate: 98.00}}
markup: [{percent: 30}]
taxes: {mixed: {taxed: [material, scope], per: invoice, rates: {state: 6.25, city: 1.5}}}
`

const prices = `code,item,unit,cost,price,kind,words
GF20,20A GFCI receptacle,ea,17.40,28.15,material,GFCI
MC102,10/2 MC cable,ft,1.13,,material,
`

const folder = "jobs/7-quay/"

// life is a job whose notes and records a sequence of steps writes.
type life struct {
	t     *rapid.T
	scope string
	day   map[int][]string // lines of each day's note
	files map[string][]byte
	now   notes.Date
	last  *compile.JobResult
	owner *notes.Company
}

func newLife(t *rapid.T) *life {
	head := "---\njob: 7\ntitle: Counter\ncustomer: Quay Lane Bakery\n"
	head += rapid.SampledFrom([]string{"", "billing: percent\n"}).Draw(t, "billing")
	head += rapid.SampledFrom([]string{"", "deposit: 333.33\n"}).Draw(t, "deposit")
	head += rapid.SampledFrom([]string{"", "retainage: 7.5\n"}).Draw(t, "retainage")
	l := &life{t: t, day: map[int][]string{}, files: map[string][]byte{}, now: notes.MustDate("2026-03-20")}
	l.scope = head + `---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Replace hood lights | 3 | ea | 640.01 | 3 |
| C | GFCI receptacles at prep counter | 9 | ea | 118.37 each | 2 |
`
	l.write()
	return l
}

// write compiles the book as it is and holds it against every invariant.
func (l *life) write() {
	files := []*finding.File{
		finding.NewFile("company.yaml", []byte(company)), finding.NewFile("prices.csv", []byte(prices)),
		finding.NewFile(folder+"scope.md", []byte(l.scope)),
	}
	for d, lines := range l.day {
		text := "## Done\n"
		for _, s := range lines {
			text += s + "\n"
		}
		files = append(files, finding.NewFile(fmt.Sprintf("%s2026-03-%02d.md", folder, d), []byte(text)))
	}
	for name, text := range l.files {
		files = append(files, finding.NewFile(folder+name, text))
	}
	r := compile.Book(files, compile.Options{Offering: true})
	require.Len(l.t, r.Jobs, 1)
	l.last, l.owner = &r.Jobs[0], r.Company
	require.NoError(l.t, notes.CheckJob(l.last.Days))
	require.Empty(l.t, l.last.Records.Broken)
	for _, f := range r.Findings {
		if f.Severity == finding.Error {
			l.t.Fatal(f.Rule, f.Message)
		}
	}
}

func (l *life) in() billing.Input { return l.last.Billing(l.owner) }

// note adds or edits a day, early or late.
func (l *life) note() {
	d := rapid.IntRange(1, 19).Draw(l.t, "day")
	l.day[d] = nil
	for range rapid.IntRange(0, 3).Draw(l.t, "lines") {
		n := rapid.IntRange(1, 4).Draw(l.t, "n")
		l.day[d] = append(l.day[d], rapid.SampledFrom([]string{
			fmt.Sprintf("- C: %d GFCI receptacles in", n), fmt.Sprintf("- A: %d hood lights up", n), "- [x] A: all hood lights up",
			fmt.Sprintf("- extra: disconnect for the mixer\n  - %d min, Ines\n  - %d ft 10/2 MC\n  - ok'd by Ruth Amsel, text message", 15*n, n),
			fmt.Sprintf("- extra: outlet behind the register, quoted %d\n  - ok'd by Ruth Amsel, signed", 50+n),
			fmt.Sprintf("- C: Ruth Amsel dropped %d of the GFCI receptacles, signed", n), "- A: deleted by the customer, Ruth Amsel, e-mail",
			fmt.Sprintf("- extra: rack in the cellar\n  - %d min, Ines\n  - 1 GFCI", 20*n),
		}).Draw(l.t, "line"))
	}
	l.write()
}

func (l *life) offer() {
	var open []string
	for _, r := range billing.Changes(l.in(), l.now) {
		if r.Number == "" {
			open = append(open, r.Extra)
		}
	}
	if len(open) == 0 {
		return
	}
	c, err := billing.Offer(l.in(), billing.OfferRequest{Extras: rapid.Permutation(open).Draw(l.t, "extras")[:1], Date: l.now, By: "Hanna"})
	if err != nil {
		return // billed, without a price or unclear: refused with a reason
	}
	l.files[record.ChangeName(c.Number)] = record.Change(&c)
	l.write()
	got := l.last.Records.Change(c.Number)
	require.True(l.t, got.Total.Equal(c.Total))
}

func (l *life) answer() {
	if len(l.last.Records.Changes) == 0 {
		return
	}
	c := rapid.SampledFrom(l.last.Records.Changes).Draw(l.t, "change")
	r := billing.AnswerRequest{Number: c.Number, Who: "Ruth Amsel", How: "signed", At: l.now, By: "Hanna"}
	r.Kind = rapid.SampledFrom([]notes.AnswerKind{notes.AnswerAuthorized, notes.AnswerAuthorized, notes.AnswerDeclined, notes.AnswerWithdrawn}).Draw(l.t, "kind")
	switch rapid.IntRange(0, 2).Draw(l.t, "part") {
	case 1:
		r.Rows = []int{rapid.IntRange(1, 3).Draw(l.t, "row")}
	case 2:
		part := notes.Cents(c.Subtotal.Decimal().Mul(notes.Ratio(rapid.IntRange(1, 9).Draw(l.t, "tenths"), 10)))
		r.Amount = &part
	}
	a, err := billing.Answer(l.in(), r)
	if err != nil {
		return
	}
	l.files[record.AnswerName(a.Number, a.Answer)] = record.Answer(&a)
	l.write()
	if r.Kind == notes.AnswerWithdrawn {
		require.True(l.t, billing.Authorized(l.last.Records.Change(c.Number)).IsZero(), "nothing is authorized after a withdrawal")
	}
	open := c.Subtotal.Sub(billing.Authorized(l.last.Records.Change(c.Number)))
	require.True(l.t, open.IsZero() || open.Sign() == c.Subtotal.Sign(), "no more is authorized than was offered")
}

// earned is what the days' ready money comes to, computed without the code under test. With billing
// by percent what is under way comes on top.
func (l *life) earned() notes.Money {
	var sum notes.Money
	for _, d := range l.last.Days {
		sum = sum.Add(d.Money.Ready.Subtotal)
	}
	return sum
}

func (l *life) billed() (lines, paid notes.Money) {
	for _, v := range l.last.Records.Invoices {
		lines, paid = lines.Add(v.Totals.Lines), paid.Add(v.Totals.Paid)
	}
	return lines, paid
}

func (l *life) invoice() {
	release := rapid.Bool().Draw(l.t, "release")
	v, err := billing.Invoice(l.in(), billing.Request{Date: l.now, By: "Hanna", Release: release})
	in := l.in()
	if errors.Is(err, billing.ErrNothing) {
		require.True(l.t, in.Unbilled().IsZero())
		return
	}
	require.NoError(l.t, err)
	l.totals(&v)
	l.files[record.InvoiceName(v.Number)] = record.Invoice(&v)
	l.write()
	in = l.in()
	require.True(l.t, in.Unbilled().IsZero(), "an invoice bills all there is")
	lines, paid := l.billed()
	if l.last.Job.Billing.Mode == notes.OnCompletion {
		require.True(l.t, lines.Equal(l.earned()), "billed %s, earned %s", lines, l.earned())
	} else {
		require.GreaterOrEqual(l.t, lines.Cmp(l.earned()), 0)
	}
	require.LessOrEqual(l.t, paid.Cmp(l.last.Job.Billing.Deposit), 0, "no more than the deposit is used up")
	require.GreaterOrEqual(l.t, paid.Sign(), 0)
	if release {
		require.LessOrEqual(l.t, in.Withheld(true).Add(in.Withheld(false)).Sign(), 0)
	}
	_, err = billing.Invoice(in, billing.Request{Date: l.now})
	require.ErrorIs(l.t, err, billing.ErrNothing, "a second run bills nothing")
}

// totals holds an invoice against EN 16931, rules BR-CO-10 to BR-CO-17 and the pattern of BR-S-08,
// figured anew from its rows.
func (l *life) totals(v *notes.Invoice) {
	var lines, off, on, tax, base notes.Money
	for _, x := range v.Lines {
		lines = lines.Add(x.Amount)
		require.True(l.t, notes.Cents(x.Qty.Mul(x.Rate)).Equal(x.Amount))
		require.GreaterOrEqual(l.t, x.Rate.Sign(), 0, "BR-27")
		if x.Taxed {
			base = base.Add(x.Amount)
		}
	}
	for _, a := range v.Allowances {
		off = off.Add(a.Amount)
		require.Positive(l.t, a.Amount.Sign())
		if a.Taxed {
			base = base.Sub(a.Amount)
		}
	}
	for _, a := range v.Charges {
		on = on.Add(a.Amount)
		require.Positive(l.t, a.Amount.Sign())
		if a.Taxed {
			base = base.Add(a.Amount)
		}
	}
	for _, x := range v.Tax {
		tax = tax.Add(x.Amount)
		require.True(l.t, x.Base.Equal(base), "BR-S-08: %s %s", x.Base, base)
		require.True(l.t, x.Amount.Equal(notes.Cents(base.Decimal().Mul(x.Rate).Quo(notes.Int(100), 2))), "BR-CO-17")
	}
	t := v.Totals
	want := []notes.Money{lines, off, on, lines.Sub(off).Add(on), tax, lines.Sub(off).Add(on).Add(tax), lines.Sub(off).Add(on).Add(tax).Sub(t.Paid)}
	for i, got := range []notes.Money{t.Lines, t.Allowances, t.Charges, t.WithoutTax, t.Tax, t.WithTax, t.Due} {
		require.True(l.t, got.Equal(want[i]), "BR-CO-1%d: %s is not %s", i, got, want[i])
	}
}

func (l *life) void() {
	if len(l.last.Records.Invoices) == 0 {
		return
	}
	v := rapid.SampledFrom(l.last.Records.Invoices).Draw(l.t, "invoice")
	x, err := billing.Void(l.in(), v.Number, "wrong", billing.Request{Date: l.now, By: "Hanna"})
	if err != nil {
		require.True(l.t, v.Kind == notes.InvoiceVoid || l.last.Records.Voided(v.Number), "%v", err)
		return
	}
	in := l.in()
	before := in.Unbilled()
	l.files[record.InvoiceName(x.Number)] = record.Invoice(&x)
	l.write()
	in = l.in()
	require.True(l.t, in.Unbilled().Equal(before.Add(v.Totals.Lines)), "what was billed is unbilled again")
	require.True(l.t, x.Totals.Due.Equal(v.Totals.Due.Neg()))
}

// Any sequence of notes, late ones and edits, offers, answers, invoices and voids keeps the money
// and bills nothing twice.
func TestNothingIsBilledTwiceInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := newLife(t)
		t.Repeat(map[string]func(*rapid.T){
			"note": func(*rapid.T) { l.note() }, "offer": func(*rapid.T) { l.offer() }, "answer": func(*rapid.T) { l.answer() },
			"invoice": func(*rapid.T) { l.invoice() }, "void": func(*rapid.T) { l.void() },
		})
		l.invoice()
	})
}
