package parse

import (
	"cmp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
	"jobday/notes"
)

// markup reads the percentages put on material cost: one for all, or brackets by unit cost.
func (r *companyReader) markup() {
	v, ok := r.m.get("markup")
	if !ok {
		return
	}
	if v.node.Kind == yaml.ScalarNode {
		if p, ok := r.percent(v, mostMarkup); ok {
			r.c.Markup = []notes.MarkupBracket{{Percent: p}}
		}
		return
	}
	if v.node.Kind != yaml.SequenceNode {
		r.m.wrong(v, "markup", "a percentage, or a list like - {up_to: 100.00, percent: 35}")
		return
	}
	for _, n := range v.node.Content {
		item := value{n, v.in}
		if !r.m.plain(item) {
			continue
		}
		if n.Kind != yaml.MappingNode {
			r.m.wrong(item, "markup", "a bracket like {up_to: 100.00, percent: 35}")
			continue
		}
		m := r.m.nested(item, "the markup bracket")
		pv, ok := m.get("percent")
		upTo := m.money("up_to")
		m.done()
		if !ok {
			r.add(finding.Finding{
				Severity: finding.Error, Rule: "value/bad", Span: m.span,
				Message: "the markup bracket has no percentage", Hint: "write {up_to: 100.00, percent: 35}",
			})
			continue
		}
		if p, ok := r.percent(pv, mostMarkup); ok {
			r.c.Markup = append(r.c.Markup, notes.MarkupBracket{UpTo: upTo, Percent: p})
		}
	}
	r.orderMarkup(v.span())
}

// orderMarkup puts the brackets in ascending order and reports a gap or an overlap between them.
func (r *companyReader) orderMarkup(at finding.Span) {
	b := r.c.Markup
	if len(b) == 0 {
		return
	}
	slices.SortStableFunc(b, func(x, y notes.MarkupBracket) int {
		switch {
		case x.UpTo == nil || y.UpTo == nil:
			return cmp.Compare(boolOrder(x.UpTo == nil), boolOrder(y.UpTo == nil))
		}
		return x.UpTo.Cmp(*y.UpTo)
	})
	for i := 1; i < len(b); i++ {
		x, y := b[i-1].UpTo, b[i].UpTo
		if x != nil && (y == nil || x.Cmp(*y) != 0) {
			continue
		}
		which := "without up_to"
		if x != nil {
			which = "up to " + x.String()
		}
		r.add(finding.Finding{
			Severity: finding.Error, Rule: "company/markup", Span: at,
			Message: "two markup brackets are " + which + "; the first one is used", Hint: "remove one of the two",
		})
	}
	if last := b[len(b)-1].UpTo; last != nil {
		r.add(finding.Finding{
			Severity: finding.Warning, Rule: "company/markup", Span: at,
			Message: "material that costs more than " + last.String() + " apiece has no markup",
			Hint:    "add a last bracket without up_to: - {percent: 20}",
		})
	}
}

func boolOrder(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (r *companyReader) minimum() {
	m := r.m.sub("minimum", `"minimum"`)
	if m == nil {
		return
	}
	if least := m.money("extra"); least != nil {
		r.c.MinExtra = *least
	}
	r.minutes(m, "minutes", &r.c.MinMinutes)
	m.done()
}

// taxable are the kinds of line a treatment may name.
var taxable = []string{"scope", "extra", "labor", "material", "equipment", "subcontract"}

func (r *companyReader) taxes() {
	for _, p := range r.named(r.m, "taxes", "the tax treatment") {
		t := notes.TaxTreatment{Name: p.name, Per: "invoice", Span: p.at}
		if p.keys == nil {
			if p.val.node != nil {
				r.m.wrong(p.val, p.name, "keys below it: taxed, per, rates")
			}
			r.c.Treatments = append(r.c.Treatments, t)
			continue
		}
		for _, kind := range p.keys.texts("taxed") {
			if slices.Contains(taxable, strings.ToLower(kind)) {
				t.Taxed = append(t.Taxed, strings.ToLower(kind))
				continue
			}
			hint := "known: " + strings.Join(taxable, ", ")
			if near := nearest(kind, taxable); near != "" {
				hint = "did you mean " + quote(near) + "?"
			}
			p.keys.bad("taxed", quote(kind)+" is not a kind of line", hint)
		}
		switch per := strings.ToLower(p.keys.text("per")); per {
		case "":
		case "line", "invoice":
			t.Per = per
		default:
			p.keys.bad("per", quote(per)+" is neither line nor invoice", "write line or invoice")
		}
		t.Together = p.keys.flag("together")
		t.Rates = r.taxRates(p)
		p.keys.done()
		r.c.Treatments = append(r.c.Treatments, t)
	}
}

// taxRates reads the rates of a treatment: one percentage, or percentages by name.
func (r *companyReader) taxRates(p namedPart) []notes.TaxRate {
	m := p.keys
	if i := slices.IndexFunc(m.fields, func(f keyed) bool { return f.key == "rates" }); i >= 0 {
		if v := m.fields[i].val; v.node.Kind == yaml.ScalarNode && v.node.Tag != "!!null" {
			m.get("rates")
			percent, ok := r.percent(v, mostTax)
			if !ok {
				return nil
			}
			return []notes.TaxRate{{Name: "tax", Percent: percent}}
		}
	}
	var rates []notes.TaxRate
	for _, part := range r.named(m, "rates", "the tax rate") {
		v := part.val
		if part.keys != nil {
			var ok bool
			if v, ok = part.keys.get("percent"); !ok {
				v = value{}
			}
			part.keys.done()
		}
		if v.node == nil {
			r.add(finding.Finding{
				Severity: finding.Error, Rule: "value/bad", Span: part.at,
				Message: "the tax " + quote(part.name) + " has no percentage", Hint: "write " + part.name + ": 7.25",
			})
			continue
		}
		if percent, ok := r.percent(v, mostTax); ok {
			rates = append(rates, notes.TaxRate{Name: part.name, Percent: percent})
		}
	}
	return rates
}

// terms reads when an invoice is due: a number of days, or days and text.
func (r *companyReader) terms() {
	v, ok := r.m.get("terms")
	if !ok {
		return
	}
	switch v.node.Kind {
	case yaml.ScalarNode:
		r.days(r.m, "terms", strings.TrimSpace(v.node.Value))
	case yaml.MappingNode:
		m := r.m.nested(v, `"terms"`)
		r.days(m, "days", m.text("days"))
		r.c.Terms.Text = m.text("text")
		m.done()
	default:
		r.m.wrong(v, "terms", "a number of days, or keys: days, text")
	}
}

func (r *companyReader) days(m *mapping, key, s string) {
	if s == "" {
		return
	}
	d, err := notes.ParseDecimal(s)
	n, fits := d.Int()
	if err != nil || !fits || !d.IsWhole() || n < 0 || n > 366 {
		m.bad(key, quote(s)+" is not a number of days from 0 to 366", "write it like 30")
		return
	}
	r.c.Terms.Days = n
}
