package price_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/price"
)

var update = flag.Bool("update", false, "rewrite the expected money of testdata/cases")

// A case is company.yaml, prices.csv, scope.md, one file a day and the money to expect. A day says
// what reconcile would have found, one thing a line:
//
//	line A today 2 finished        progress on a line; also: unclear, dropped 1 NAME, blocked WHAT
//	labor Ines D 45                minutes of somebody on a line, an extra or -; "travel" behind it
//	used 52 ft 10/2 MC on B        material on a line, an extra or -
//	extra mixer | authorized Ruth | labor Ines 45 | used 2 ea connector | ...
//
// The arithmetic of each figure stands in the comment at the top of the case.
func TestCases(t *testing.T) {
	files, err := filepath.Glob("testdata/cases/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(name)
			require.NoError(t, err)
			c := readCase(t, a)
			c.in.Overtime = price.OvertimeOf([][]*notes.JobDay{c.days}, c.in.Company)
			found := price.Days(c.days, c.in)
			require.NoError(t, notes.CheckJob(c.days))
			got := c.show(found)
			if *update {
				setMoney(a, got)
				require.NoError(t, os.WriteFile(name, txtar.Format(a), 0o644))
			}
			assert.Equal(t, money(a), got)
			price.Days(c.days, c.in)
			assert.Equal(t, got, c.show(found), "pricing again changes nothing")
		})
	}
}

func money(a *txtar.Archive) string {
	for _, f := range a.Files {
		if f.Name == "money" {
			return string(f.Data)
		}
	}
	return ""
}

func setMoney(a *txtar.Archive, text string) {
	for i := range a.Files {
		if a.Files[i].Name == "money" {
			a.Files[i].Data = []byte(text)
			return
		}
	}
	a.Files = append(a.Files, txtar.File{Name: "money", Data: []byte(text)})
}

// testCase is a job with days as reconcile leaves them.
type testCase struct {
	t    testing.TB
	in   price.Input
	days []*notes.JobDay
}

func readCase(t testing.TB, a *txtar.Archive) *testCase {
	c := &testCase{t: t, in: price.Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: &notes.Job{}}}
	for _, f := range a.Files {
		file := finding.NewFile(f.Name, f.Data)
		var found finding.List
		switch f.Name {
		case "company.yaml":
			c.in.Company, found = parse.Company(file)
		case "prices.csv":
			c.in.Prices, found = parse.Prices(file)
		case "scope.md":
			c.in.Job, found = parse.Scope(file)
		case "money":
		default:
			c.day(file)
		}
		for _, x := range found {
			require.NotEqual(t, finding.Error, x.Severity, x.Message)
		}
	}
	return c
}

func (c *testCase) day(f *finding.File) {
	d := &notes.JobDay{Date: notes.MustDate(strings.TrimSuffix(f.Name, ".md"))}
	d.Notes = []notes.NoteRef{{File: f.Name, Source: f, Covered: []finding.Span{f.Span(0, len(f.Text))}}}
	for i, l := range c.in.Job.Lines {
		s := notes.LineStanding{Line: l.Label, Work: l.Work, Booked: notes.BookedQty{Qty: l.Qty.Value, Unit: l.Qty.Unit}, State: notes.NotReported}
		if len(c.days) > 0 {
			before := c.days[len(c.days)-1].Scope[i]
			s.ToDate, s.Over, s.Dropped, s.State = before.ToDate, before.Over, before.Dropped, before.State
		}
		s.Left = s.Booked.Qty.Add(s.Over).Sub(s.ToDate)
		d.Scope = append(d.Scope, s)
	}
	for n := 1; n <= f.Lines(); n++ {
		from := notes.SourceOf(f.LineSpan(n))
		word, rest, _ := strings.Cut(f.LineSpan(n).Text(), " ")
		switch word {
		case "line":
			c.line(d, strings.Fields(rest), from)
		case "labor":
			c.labor(d, strings.Fields(rest), from)
		case "used":
			d.Materials = append(d.Materials, c.used(rest, from))
		case "extra":
			d.Extras = append(d.Extras, c.extra(d, rest, from))
		case "":
		default:
			c.t.Fatalf("%s:%d: %q", f.Name, n, word)
		}
	}
	for i := range d.Extras {
		d.Materials = append(d.Materials, d.Extras[i].Materials...)
	}
	c.days = append(c.days, d)
}

func (c *testCase) line(d *notes.JobDay, words []string, from notes.Source) {
	for i := range d.Scope {
		s := &d.Scope[i]
		if s.Line != words[0] {
			continue
		}
		s.From, s.State = append(s.From, from), notes.UnderWay
		for w := 1; w < len(words); w++ {
			switch words[w] {
			case "today":
				w++
				s.Today = notes.MustDecimal(words[w])
				s.ToDate = s.ToDate.Add(s.Today)
			case "finished":
				s.Finished, s.State = true, notes.Complete
			case "unclear":
				s.Unclear = true
			case "dropped":
				s.Dropped, s.DroppedBy = notes.MustDecimal(words[w+1]), words[w+2]
				w += 2
			case "blocked":
				w++
				s.State, s.BlockedBy = notes.Blocked, words[w]
			default:
				c.t.Fatalf("line: %q", words[w])
			}
		}
		s.Over = notes.Max(notes.Decimal{}, s.ToDate.Sub(s.Booked.Qty))
		s.Left = s.Booked.Qty.Add(s.Over).Sub(s.ToDate)
		return
	}
	c.t.Fatalf("no line %q", words[0])
}

func (c *testCase) labor(d *notes.JobDay, words []string, from notes.Source) {
	m, err := strconv.Atoi(words[2])
	require.NoError(c.t, err)
	name := strings.Trim(words[0], "?")
	key := words[1]
	if key == "-" {
		key = notes.Unassigned
	}
	i := 0
	for i < len(d.Labor) && d.Labor[i].Name != name {
		i++
	}
	if i == len(d.Labor) {
		d.Labor = append(d.Labor, notes.LaborRow{Name: name, On: map[string]notes.Minutes{}})
	}
	r := &d.Labor[i]
	r.Minutes += notes.Minutes(m)
	r.On[key] += notes.Minutes(m)
	r.From = append(r.From, from)
	if len(words) > 3 && words[3] == "travel" {
		r.Travel += notes.Minutes(m)
	}
}

func (c *testCase) used(text string, from notes.Source) notes.MaterialUse {
	item, line, _ := strings.Cut(text, " on ")
	words := strings.SplitN(item, " ", 3)
	u := notes.MaterialUse{Item: words[2], Line: strings.Trim(line, "-"), From: []notes.Source{from}}
	u.Qty = notes.Quantity{Value: notes.MustDecimal(words[0]), Unit: notes.Unit(words[1])}
	return u
}

func (c *testCase) extra(d *notes.JobDay, text string, from notes.Source) notes.ExtraWork {
	parts := strings.Split(text, " | ")
	e := notes.ExtraWork{
		ID: parts[0], Work: parts[0], Outcome: notes.ExtraDone, Found: d.Date, From: []notes.Source{from},
		Authorization: notes.Authorization{State: "none"},
	}
	for _, p := range parts[1:] {
		word, rest, _ := strings.Cut(p, " ")
		switch word {
		case "authorized", "declined", "asked":
			e.Authorization = notes.Authorization{State: word, By: rest}
		case "not-done", "credit":
			e.Outcome = notes.ExtraOutcome(strings.Replace(word, "-", " ", 1))
		case "labor":
			name, n, _ := strings.Cut(rest, " ")
			m, err := strconv.Atoi(strings.TrimSuffix(n, " travel"))
			require.NoError(c.t, err)
			e.Labor = append(e.Labor, notes.LaborUse{
				Person: strings.Trim(name, "?"), Minutes: notes.Minutes(m), Travel: strings.HasSuffix(n, " travel"), From: from,
			})
			e.Minutes += notes.Minutes(m)
		case "used":
			u := c.used(rest, from)
			u.Line = e.ID
			e.Materials = append(e.Materials, u)
		case "quoted":
			amount, each, _ := strings.Cut(rest, " ")
			m := notes.MustMoney(amount)
			e.Price.Quoted, e.Price.Each = &m, each == "each"
		case "T&M":
			e.Price.TimeAndMaterial = true
		case "nte":
			m := notes.MustMoney(rest)
			e.Price.NotOver = &m
		case "free":
			e.Price.NoCharge, e.Price.Why = true, rest
		case "on":
			e.Line = rest
		case "qty":
			value, unit, _ := strings.Cut(rest, " ")
			e.Qty = notes.Quantity{Value: notes.MustDecimal(value), Unit: notes.Unit(unit)}
		case "task":
			e.TaskWork = rest
		case "unclear":
			e.Unclear = rest
		default:
			c.t.Fatalf("extra: %q", word)
		}
	}
	return e
}

// show writes the money of all days, and what was found, as text.
func (c *testCase) show(found finding.List) string {
	var b strings.Builder
	for _, d := range c.days {
		fmt.Fprintf(&b, "%s\n", d.Date)
		for _, r := range d.Labor {
			fmt.Fprintf(&b, "  labor %s, %s: %s, cost %s\n", r.Name, r.Class, r.Minutes, r.Cost)
		}
		for _, m := range d.Materials {
			fmt.Fprintf(&b, "  material %s %s [%s] on %q: cost %s, price %s", m.Qty, m.Item, m.Code, m.Line, m.Cost, m.Price)
			if !m.Allowed.IsZero() {
				fmt.Fprintf(&b, ", allowed %s, over %s", m.Allowed, m.Over)
			}
			b.WriteString("\n")
		}
		for _, e := range d.Extras {
			fmt.Fprintf(&b, "  extra %s: %s, %s\n", e.ID, e.Amount, e.State)
			showSteps(&b, e.Pricing)
		}
		for _, l := range d.Money.Ready.Lines {
			taxed := ""
			if l.Taxed {
				taxed = ", taxed"
			}
			fmt.Fprintf(&b, "  READY %s: %s %s x %s = %s%s: %s\n", l.What, l.Qty, l.Unit, l.Rate, l.Amount, taxed, l.Why)
			if l.Ref == strings.SplitN(l.What, ":", 2)[0] {
				showSteps(&b, l.Working)
			}
		}
		for _, n := range d.Money.Held {
			fmt.Fprintf(&b, "  HELD %s: %s: %s (frees it: %s)\n", n.What, n.Amount, n.Why, n.Frees)
		}
		for _, n := range d.Money.NotBilled {
			fmt.Fprintf(&b, "  NOT BILLED %s: %s: %s\n", n.What, n.Amount, n.Why)
		}
		r := d.Money.Ready
		fmt.Fprintf(&b, "  subtotal %s", r.Subtotal)
		for _, x := range r.Tax {
			fmt.Fprintf(&b, ", %s %s %% of %s = %s", x.Name, x.Rate, x.Base, x.Amount)
		}
		fmt.Fprintf(&b, ", total %s\n", r.Total)
	}
	for _, f := range found {
		line, column := f.Span.Position()
		file := ""
		if f.Span.Known() {
			file = f.Span.File.Name
		}
		fmt.Fprintf(&b, "%s:%d:%d: %s: %s [%s]\n", file, line, column, f.Severity, f.Message, f.Rule)
	}
	return b.String()
}

func showSteps(b *strings.Builder, steps []notes.PricingStep) {
	for _, s := range steps {
		fmt.Fprintf(b, "    %s x %s = %s  %s (%s)\n", notes.Quantity{Value: s.Qty, Unit: s.Unit}, s.Rate, s.Amount, s.What, s.Basis)
	}
}
