package parse

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// Company reads company.yaml: who works, at what rates, and by which rules work is billed. It is
// never nil; a nil file gives the defaults.
//
// Only name is required. Defaults: currency USD, clock time rounded to 1 minute, billed time to 15,
// overtime after 40 hours a week and never by the day, no markup, no minimum, no tax, code edition
// 2020, payment within 30 days. What is wrong falls back to its default, with a finding.
func Company(f *finding.File) (*notes.Company, finding.List) {
	weekly := notes.Minutes(40 * 60)
	c := &notes.Company{
		File: f, Currency: "USD", Locale: notes.Locales[0], NEC: "2020",
		Rounding: notes.TimeRounding{Clock: 1, Billed: 15},
		Overtime: notes.Overtime{WeeklyOver: weekly}, Workweek: time.Monday,
		Terms: notes.PaymentTerms{Days: 30},
	}
	if f == nil {
		return c, nil
	}
	var found finding.List
	r := companyReader{c: c, m: loadYAML(f, f.Span(0, len(f.Text)), "company.yaml", &found)}
	r.identity()
	r.classes()
	r.people()
	r.hours()
	r.markup()
	r.minimum()
	r.extraCosts()
	r.pricing()
	r.taxes()
	r.terms()
	r.notice()
	r.offer()
	r.usualTests()
	c.EInvoice = partyKeys(r.m, false)
	r.m.done()
	return c, found
}

// A companyReader reads one company.yaml.
type companyReader struct {
	c *notes.Company
	m *mapping
}

func (r *companyReader) add(f finding.Finding) { r.m.found.Add(f) }

func (r *companyReader) identity() {
	c, m := r.c, r.m
	if c.Name = m.text("name"); c.Name == "" {
		r.add(finding.Finding{
			Severity: finding.Error, Rule: "company/no-name", Span: m.at("name"),
			Message: "the company has no name; reports would not say who they are from",
			Hint:    "write name: and the name",
		})
	}
	for _, l := range m.texts("address") {
		for part := range strings.Lines(l) {
			if part = strings.TrimSpace(part); part != "" {
				c.Address = append(c.Address, part)
			}
		}
	}
	c.Contact = m.text("contact")
	c.TaxNumbers = m.texts("tax_numbers")
	r.currency()
	r.locale()
	r.paper()
	r.edition()
}

// currency reads the currency of all amounts. Where it is none that can be billed in, nothing is
// billed, and reports do not pass its amounts off as those of another.
func (r *companyReader) currency() {
	s := r.m.text("currency")
	if s == "" {
		return
	}
	code := strings.ToUpper(s)
	if len(code) != 3 || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		r.c.Currency = notes.NoCurrency
		r.m.bad("currency", quote(s)+" is not a currency code; expected three letters", "write it like USD")
		return
	}
	r.c.Currency = code
	if n := notes.MinorUnits(code); n != 2 {
		r.m.bad("currency", quote(s)+" is counted with "+strconv.Itoa(n)+" decimals; only currencies with two can be billed in",
			"use a currency with two decimals, like USD")
	}
}

// editions are the code editions the built-in knowledge points into.
var editions = []string{"2017", "2020", "2023"}

func (r *companyReader) edition() {
	s := r.m.text("nec")
	switch {
	case s == "":
	case slices.Contains(editions, s):
		r.c.NEC = s
	default:
		r.m.bad("nec", quote(s)+" is not a code edition known here", "known: "+strings.Join(editions, ", "))
	}
}

// A namedPart is one entry of a list whose entries have names, or of a mapping by name.
type namedPart struct {
	name string
	at   finding.Span
	val  value    // of "name: value"; its node is nil when the entry has keys of its own
	keys *mapping // of "name: {keys}" or "- name: ...", else nil
}

// named returns the entries below a key. They may be written "name: value", "name: {keys}", as a
// list of entries with a key "name", or as a list of names. A name twice gives a finding, and the
// first stands.
func (r *companyReader) named(m *mapping, key, what string) []namedPart {
	v, ok := m.get(key)
	if !ok {
		return nil
	}
	switch v.node.Kind {
	case yaml.MappingNode:
		return namedKeys(m.nested(v, what))
	case yaml.SequenceNode:
		var parts []namedPart
		for _, n := range v.node.Content {
			p, ok := r.listPart(m, value{n, v.in}, what)
			if !ok {
				continue
			}
			if i := slices.IndexFunc(parts, func(q namedPart) bool { return q.name == p.name }); i >= 0 {
				r.add(finding.Finding{
					Severity: finding.Error, Rule: "key/duplicate", Span: p.at,
					Message: quote(p.name) + " is written twice; the first one is used", Hint: "remove one of the two",
					Related: []finding.Related{{Message: "first written here", Span: parts[i].at}},
				})
				continue
			}
			parts = append(parts, p)
		}
		return parts
	}
	m.wrong(v, key, "names below it, one a line, each with a colon")
	return nil
}

func namedKeys(m *mapping) []namedPart {
	var parts []namedPart
	m.each(func(name string, at finding.Span) {
		v, ok := m.get(name)
		p := namedPart{name: strings.TrimSpace(name), at: at}
		if ok {
			p.val = v
			if v.node.Kind == yaml.MappingNode {
				p.keys = m.nested(v, quote(name))
			}
		}
		parts = append(parts, p)
	})
	return parts
}

// listPart reads one entry of a list: "- Ines", "- Ines: journeyman" or "- name: Ines" with keys.
func (r *companyReader) listPart(m *mapping, v value, what string) (namedPart, bool) {
	if !m.plain(v) || v.node.Tag == "!!null" {
		return namedPart{}, false
	}
	if v.node.Kind == yaml.ScalarNode {
		return namedPart{name: strings.TrimSpace(v.node.Value), at: v.span()}, true
	}
	if v.node.Kind != yaml.MappingNode {
		m.wrong(v, what, "a name")
		return namedPart{}, false
	}
	keys := m.nested(v, what)
	if keys.has("name") {
		return namedPart{name: keys.text("name"), at: keys.at("name"), keys: keys}, true
	}
	if parts := namedKeys(keys); len(parts) == 1 {
		return parts[0], true
	}
	m.wrong(v, what, `a key "name"`)
	return namedPart{}, false
}

// text returns the single value of "name: value", or "".
func (p namedPart) text() string {
	if p.val.node == nil || p.val.node.Kind != yaml.ScalarNode {
		return ""
	}
	return strings.TrimSpace(p.val.node.Value)
}

func (r *companyReader) classes() {
	for _, p := range r.named(r.m, "classes", "the labor class") {
		c := notes.LaborClass{Name: p.name, Span: p.at}
		before := len(*r.m.found)
		rate := p.rates(r, &c)
		if rate == nil && len(*r.m.found) > before {
			continue // it has one that cannot be read, which was said
		}
		if rate == nil {
			r.add(finding.Finding{
				Severity: finding.Error, Rule: "company/no-rate", Span: p.at,
				Message: "the labor class " + quote(p.name) + " has no rate; its time cannot be billed",
				Hint:    "write " + p.name + ": {cost: 46.00, rate: 98.00}", Holds: "all time of class " + p.name,
			})
			continue
		}
		if rate.IsZero() {
			r.add(finding.Finding{
				Severity: finding.Error, Rule: "company/no-rate", Span: p.at,
				Message: "the labor class " + quote(p.name) + " has the rate 0.00; its time would be billed at nothing",
				Hint:    "write what an hour is charged at, like 98.00", Holds: "all time of class " + p.name,
			})
			continue
		}
		c.Rate = *rate
		r.c.Classes = append(r.c.Classes, c)
	}
}

// rates reads the rates of a class and returns the one it is billed at, nil when there is none.
// A bare amount is that rate.
func (p namedPart) rates(r *companyReader, c *notes.LaborClass) *notes.Money {
	if p.keys == nil {
		if p.text() == "" {
			return nil
		}
		m, err := parseAmount(p.text())
		if err != nil {
			r.badValue(p.val, err.Error(), "write it like 98.00")
			return nil
		}
		return &m
	}
	set := func(key string, to *notes.Money) {
		if m := p.keys.money(key); m != nil {
			*to = *m
		}
	}
	rate := p.keys.money("rate")
	set("cost", &c.Cost)
	set("overtime", &c.OvertimeRate)
	set("travel", &c.TravelRate)
	p.keys.done()
	return rate
}

// badValue reports a value that has no key of its own.
func (r *companyReader) badValue(v value, message, hint string) {
	r.add(finding.Finding{
		Severity: finding.Error, Rule: "value/bad", Span: v.span(), Message: message, Hint: hint,
	})
}

func (r *companyReader) people() {
	for _, p := range r.named(r.m, "people", "the person") {
		class, at := p.text(), p.at
		if p.val.node != nil {
			at = p.val.span()
		}
		if p.keys != nil {
			class = p.keys.text("class")
			at = p.keys.at("class")
			p.keys.done()
		}
		r.c.People = append(r.c.People, notes.Person{Name: p.name, Class: class, Span: p.at})
		if _, known := r.c.ClassNamed(class); !known {
			r.classless(p, class, at)
		}
	}
}

// classless reports a person whose class has no rates.
func (r *companyReader) classless(p namedPart, class string, at finding.Span) {
	var names []string
	for _, c := range r.c.Classes {
		names = append(names, c.Name)
	}
	f := finding.Finding{
		Severity: finding.Error, Rule: "company/no-class", Span: at, Holds: "all time of " + p.name,
		Message: quote(p.name) + " is in the labor class " + quote(class) + ", which has no rates",
		Hint:    "known classes: " + strings.Join(names, ", "),
	}
	if class == "" {
		f.Span, f.Message = p.at, quote(p.name)+" is in no labor class"
	}
	if near := nearest(class, names); near != "" && class != "" {
		f.Hint = "did you mean " + quote(near) + "?"
	} else if len(names) == 0 {
		f.Hint = `write the class and its rate under "classes"`
	}
	r.add(f)
}

func (r *companyReader) hours() {
	if m := r.m.sub("rounding", `"rounding"`); m != nil {
		r.clockStep(m)
		r.minutes(m, "billed", &r.c.Rounding.Billed)
		m.done()
	}
	if m := r.m.sub("overtime", `"overtime"`); m != nil {
		r.minutes(m, "weekly_over", &r.c.Overtime.WeeklyOver)
		r.minutes(m, "daily_over", &r.c.Overtime.DailyOver)
		r.workweek(m)
		r.c.Overtime.Bill = m.flag("bill")
		m.done()
		r.overtimeRates()
	}
}

// overtimeRates reports classes that have no rate for the overtime that is to be billed.
func (r *companyReader) overtimeRates() {
	for _, c := range r.c.Classes {
		if r.c.Overtime.Bill && c.OvertimeRate.IsZero() {
			r.add(finding.Finding{
				Severity: finding.Warning, Rule: "company/no-overtime-rate", Span: c.Span,
				Message: "overtime is billed and the labor class " + quote(c.Name) + " has no overtime rate; its overtime is billed at " + c.Rate.String(),
				Hint:    "add overtime: and a rate per hour to the class",
			})
		}
	}
}

// workweek reads the day a workweek begins.
func (r *companyReader) workweek(m *mapping) {
	s := m.text("workweek")
	if s == "" {
		return
	}
	for day := time.Sunday; day <= time.Saturday; day++ {
		if name := day.String(); strings.EqualFold(s, name) || strings.EqualFold(s, name[:3]) {
			r.c.Workweek = day
			return
		}
	}
	m.bad("workweek", quote(s)+" is not a day of the week", "write it like Monday")
}

// minutes reads a stretch of time into to, which keeps its default when there is none.
func (r *companyReader) minutes(m *mapping, key string, to *notes.Minutes) {
	s := m.text(key)
	if s == "" {
		return
	}
	n, ok := parseMinutes(s)
	if !ok {
		m.bad(key, quote(s)+" is not a length of time", `write it like "15 min" or "40 h"`)
		return
	}
	*to = n
}

// parseMinutes reads "15 min", "40 h", "1.5 h", "1 h 30" or a bare number of minutes, up to a week.
func parseMinutes(s string) (notes.Minutes, bool) {
	const week = 7 * 24 * 60
	number, rest := splitNumber(strings.ToLower(s))
	d, err := notes.ParseDecimal(number)
	if err != nil || d.Sign() < 0 || d.Cmp(notes.Int(week)) > 0 {
		return 0, false
	}
	unit, more, _ := strings.Cut(strings.TrimSpace(rest), " ")
	switch strings.TrimSuffix(unit, ".") {
	case "", "m", "min", "mins", "minute", "minutes":
		if more != "" {
			return 0, false
		}
	case "h", "hr", "hrs", "hour", "hours":
		d = d.Mul(notes.Int(60))
		if more = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(more), "min")); more != "" {
			extra, err := notes.ParseDecimal(more)
			if err != nil || extra.Sign() < 0 || extra.Cmp(notes.Int(59)) > 0 {
				return 0, false
			}
			d = d.Add(extra)
		}
	default:
		return 0, false
	}
	n, ok := d.Int()
	return notes.Minutes(n), ok && d.IsWhole() && n <= week
}

// usualTests reads which of the usual tests after an installation are not asked for:
// "usual_tests: {gfci: false}". All are asked for by default.
func (r *companyReader) usualTests() {
	m := r.m.sub("usual_tests", `"usual_tests"`)
	if m == nil {
		return
	}
	for _, name := range trade.UsualTests() {
		before := len(*m.found)
		if on := m.flag(name); m.has(name) && !on && len(*m.found) == before { // a slip switches nothing off
			r.c.TestsOff = append(r.c.TestsOff, name)
		}
	}
	m.done()
}

// percent reads a percentage from 0 to most, with or without the sign.
func (r *companyReader) percent(v value, most int) (notes.Decimal, bool) {
	s := strings.TrimSpace(v.node.Value)
	d, err := notes.ParseDecimal(strings.TrimSpace(strings.TrimSuffix(s, "%")))
	if v.node.Kind != yaml.ScalarNode || err != nil || d.Sign() < 0 || d.Cmp(notes.Int(most)) > 0 || !d.Equal(d.Round(6)) {
		r.badValue(v, v.kind()+" is not a percentage from 0 to "+strconv.Itoa(most), "write it like 7.25")
		return notes.Decimal{}, false
	}
	return d, true
}

const (
	mostMarkup = 1000 // percent; more is a slip of the keyboard
	mostTax    = 100  // percent
)
