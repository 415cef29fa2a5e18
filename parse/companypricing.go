package parse

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
	"jobday/notes"
)

// extraCosts reads what is charged besides labor and material: equipment by the hour, and
// percentages for small tools and on what a subcontractor charged.
func (r *companyReader) extraCosts() {
	r.percentKey("small_tools", &r.c.SmallTools)
	r.percentKey("subcontract", &r.c.Subcontract)
	r.c.CreditUnused = r.m.flag("credit_unused")
	for _, p := range r.named(r.m, "equipment", "the equipment") {
		rate := p.equipmentRate(r)
		if rate == nil { // it is known all the same, so that its hours are nobody's time
			rate = &notes.Money{}
		} else if rate.IsZero() {
			r.add(finding.Finding{
				Severity: finding.Error, Rule: "company/no-rate", Span: p.at,
				Message: "the equipment " + quote(p.name) + " costs nothing; its hours would be billed at 0.00",
				Hint:    "write " + p.name + ": 22.00, or leave it out", Holds: "all hours of " + p.name,
			})
		}
		r.c.Equipment = append(r.c.Equipment, notes.Machine{Name: p.name, Rate: *rate, Span: p.at})
	}
}

// percentKey reads a percentage of the company into to, which keeps its default when there is none.
func (r *companyReader) percentKey(key string, to *notes.Decimal) {
	if v, ok := r.m.get(key); ok {
		if p, ok := r.percent(v, mostMarkup); ok {
			*to = p
		}
	}
}

// equipmentRate reads "name: 22.00" or "name: {rate: 22.00}"; nil, with a finding, where there is
// none.
func (p namedPart) equipmentRate(r *companyReader) *notes.Money {
	if p.keys != nil {
		rate := p.keys.money("rate")
		p.keys.done()
		if rate != nil || p.keys.has("rate") {
			return rate
		}
	} else if text := p.text(); text != "" {
		m, err := parseAmount(text)
		if err != nil {
			r.badValue(p.val, err.Error(), "write it like 22.00")
			return nil
		}
		return &m
	}
	r.add(finding.Finding{
		Severity: finding.Error, Rule: "company/no-rate", Span: p.at,
		Message: "the equipment " + quote(p.name) + " has no rate; its hours cannot be billed",
		Hint:    "write " + p.name + ": 22.00", Holds: "all hours of " + p.name,
	})
	return nil
}

// pricing reads the sets of rules for time and material that a scope may name.
func (r *companyReader) pricing() {
	for _, p := range r.named(r.m, "pricing", "the pricing rules") {
		if p.keys == nil {
			if p.val.node != nil {
				r.m.wrong(p.val, p.name, "keys below it: at, labor, material, equipment, subcontract, then, ceiling")
			}
			continue
		}
		set := notes.PricingRules{Name: p.name, AtCost: true, Span: p.at}
		m, before := p.keys, len(*r.m.found)
		switch at := strings.ToLower(m.text("at")); at {
		case "", "cost":
		case "price":
			set.AtCost = false
		default:
			m.bad("at", quote(at)+" is neither cost nor price", "write cost or price")
		}
		for _, kind := range notes.CostKinds {
			r.kindMarkup(m, kind, &set)
		}
		for _, then := range m.maps("then", "the markup") {
			r.then(then, &set)
		}
		set.Ceiling = m.money("ceiling")
		m.done()
		set.Broken = len(*r.m.found) > before
		r.c.Pricing = append(r.c.Pricing, set)
	}
}

// kindMarkup reads the percentage on one kind of cost.
func (r *companyReader) kindMarkup(m *mapping, kind string, set *notes.PricingRules) {
	v, ok := m.get(kind)
	if !ok {
		return
	}
	if percent, ok := r.percent(v, mostMarkup); ok {
		set.Markups = append(set.Markups, notes.Markup{Name: "markup on " + kind, Percent: percent, On: []string{kind}})
	}
}

// then reads a further markup: {name: bond, percent: 1, on: [labor, profit]}. What it is on must be a
// kind of cost or the name of a markup before it.
func (r *companyReader) then(m *mapping, set *notes.PricingRules) {
	x := notes.Markup{Name: m.text("name"), On: m.texts("on")}
	v, ok := m.get("percent")
	m.done()
	if !ok || x.Name == "" {
		r.add(finding.Finding{
			Severity: finding.Error, Rule: "value/bad", Span: m.span,
			Message: "a markup needs a name and a percentage", Hint: "write {name: profit, percent: 10, on: [labor, material]}",
		})
		return
	}
	if v.node.Kind == yaml.ScalarNode && len(x.On) == 0 && m.has("on") {
		r.m.bad("pricing", quote(x.Name)+" is on nothing", "leave out on: for everything before it")
		return
	}
	percent, ok := r.percent(v, mostMarkup)
	if !ok {
		return
	}
	x.Percent = percent
	known := slices.Clone(notes.CostKinds)
	for _, before := range set.Markups {
		known = append(known, before.Name)
	}
	for _, on := range x.On {
		if slices.Contains(known, on) {
			continue
		}
		hint := "known here: " + strings.Join(known, ", ")
		if near := nearest(on, known); near != "" {
			hint = "did you mean " + quote(near) + "?"
		}
		m.bad("on", quote(on)+" is neither a kind of cost nor a markup before "+quote(x.Name), hint)
		return
	}
	set.Markups = append(set.Markups, x)
}
