package report

import (
	"fmt"
	"io"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/restock"
)

// RestockText writes the list for a terminal. The company, whose readers' figures it has, may be nil.
func RestockText(w io.Writer, l *restock.List, c *notes.Company) error {
	f := figuresOf(c)
	s := summary{width: 100}
	s.out.WriteString(shown(restockTitle(l)) + "\n")
	if len(l.Rows) > 0 {
		g := grid{grow: 1, right: []int{2, 3, 4, 5}}
		s.out.WriteString("\n")
		g.add(restockHead(l.Currency)...)
		for _, r := range l.Rows {
			g.add(f.restockCells(r)...)
		}
		g.write(&s)
		s.out.WriteString("\n  " + f.restockSum(l) + "\n")
	}
	for _, part := range f.restockParts(l) {
		s.out.WriteString("\n" + part.title + "\n")
		for _, line := range part.lines {
			for i, text := range wrap(shown(line), s.width-4) {
				s.out.WriteString([]string{"  - ", "    "}[min(i, 1)] + text + "\n")
			}
		}
	}
	_, err := w.Write(clean(s.out.Bytes()))
	return err
}

func restockTitle(l *restock.List) string {
	used := "nothing of the price list was used"
	if n := len(l.Rows); n > 0 {
		used = plural(n, "thing") + " of the price list used"
	}
	return l.Company + ": restock, " + period(l.Since, l.Until) + ", " + plural(l.Days, "day") + " with notes: " + used
}

func restockHead(currency string) []string {
	return []string{"code", "item", "used", "buy", "in packages", "cost " + currency, "jobs"}
}

func (f figures) restockCells(r restock.Row) []string {
	packs, cost := "", "no cost"
	if r.Pack.Sign() > 0 {
		packs = f.number(r.Packs) + " of " + f.number(r.Pack) + " " + string(r.Unit)
	}
	if r.Cost != nil {
		cost = f.money(*r.Cost)
	}
	return []string{
		r.Code, r.Item, f.quantity(notes.Quantity{Value: r.Used, Unit: r.Unit}),
		f.quantity(notes.Quantity{Value: r.Buy, Unit: r.Unit}), packs, cost, strings.Join(r.Jobs, ", "),
	}
}

func (f figures) restockSum(l *restock.List) string {
	sum := "Cost of what is listed: " + f.money(l.Cost.Amount) + " " + l.Currency
	if n := l.Cost.Costless; n > 0 {
		sum += ", without " + plural(n, "row") + " whose cost the price list does not give"
	}
	return sum + "."
}

// restockParts is what the rows do not hold.
func (f figures) restockParts(l *restock.List) []remarks {
	var out []remarks
	add := func(title string, lines []string) {
		if len(lines) > 0 {
			out = append(out, remarks{title, lines})
		}
	}
	var unnamed, unclear, came []string
	for _, u := range l.Unnamed {
		unnamed = append(unnamed, fmt.Sprintf("%s (%s): %s; job %s, %s: %s", f.shownQty(u.Use), u.Why, u.Text, u.Job, u.Date, Where([]notes.Source{u.Source})))
	}
	for _, u := range l.Unclear {
		unclear = append(unclear, fmt.Sprintf("%s (%s); job %s, %s: %s", u.Text, u.Why, u.Job, u.Date, Where([]notes.Source{u.Source})))
	}
	for _, c := range l.Came {
		came = append(came, fmt.Sprintf("%s; job %s, %s: %s", c.Text, c.Job, c.Date, Where([]notes.Source{c.Source})))
	}
	add("Used, but not in the list above", unnamed)
	add("Unclear: may have been used", unclear)
	add("Delivered, not taken off", came)
	return out
}

// shownQty is what was used as far as it could be read.
func (f figures) shownQty(u restock.Use) string {
	if !u.Qty.Written() {
		return u.Item
	}
	return strings.TrimSpace(f.quantity(u.Qty) + " " + u.Item)
}

// restockHeader is the first record of RestockCSV.
var restockHeader = []string{
	"kind", "code", "item", "used", "unit", "pack", "packs", "buy", "cost", "currency", "jobs", "date", "why", "text", "from",
}

// RestockCSV writes RFC 4180 records, one a row of the list (kind "row"), and one for each line of
// "unnamed", "unclear" and "delivered". A cost nobody gave is empty, not zero. Texts that a
// spreadsheet would run are made safe.
func RestockCSV(w io.Writer, l *restock.List) error {
	records := [][]string{restockHeader}
	for _, r := range l.Rows {
		pack, packs, cost := "", "", ""
		if r.Pack.Sign() > 0 {
			pack, packs = r.Pack.String(), r.Packs.String()
		}
		if r.Cost != nil {
			cost = r.Cost.String()
		}
		var from []notes.Source
		for _, u := range r.From {
			from = append(from, u.Source)
		}
		records = append(records, []string{
			"row", csvText(r.Code), csvText(r.Item), r.Used.String(), csvText(string(r.Unit)), pack, packs, r.Buy.String(),
			cost, csvText(l.Currency), csvText(strings.Join(r.Jobs, " ")), "", "", "", csvText(Where(from)),
		})
	}
	other := func(kind string, u restock.Use, why, text string) {
		used := ""
		if u.Qty.Written() {
			used = u.Qty.Value.String()
		}
		records = append(records, []string{
			kind, "", csvText(u.Item), used, csvText(string(u.Qty.Unit)), "", "", "", "", csvText(l.Currency), csvText(u.Job),
			u.Date.String(), csvText(why), csvText(text), csvText(Where([]notes.Source{u.Source})),
		})
	}
	for _, u := range l.Unnamed {
		other("unnamed", u.Use, u.Why, u.Text)
	}
	for _, u := range l.Unclear {
		other("unclear", restock.Use{Job: u.Job, Date: u.Date, Source: u.Source}, u.Why, u.Text)
	}
	for _, c := range l.Came {
		other("delivered", restock.Use{Job: c.Job, Date: c.Date, Source: c.Source}, "", c.Text)
	}
	return writeCSV(w, records)
}

// RestockJSON writes the list as it is.
func RestockJSON(w io.Writer, l *restock.List) error { return finding.WriteIndented(w, l) }
