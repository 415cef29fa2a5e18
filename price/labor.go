package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// laborCosts fills in the class and the cost of everybody's day. Cost is figured from the minutes
// on the clock as they are, at the cost rate of the class; what overtime adds depends on the whole
// week and is no part of a day.
func (b *bill) laborCosts() {
	for i := range b.day.Labor {
		r := &b.day.Labor[i]
		class, _, ok := b.classFor(personTime{person: r.Name, day: b.day, from: r.From})
		if !ok {
			continue
		}
		r.Class = class.Name
		r.Cost = hourly(class.Cost, r.Minutes)
	}
}

// class returns the labor class of a person, with one finding a job when there is none.
func (b *bill) class(person string, from []notes.Source) (notes.LaborClass, bool) {
	class, ok := b.Company.Class(person)
	if !ok && person != "" && !b.classless[person] {
		b.classless[person] = true
		b.tell(finding.Finding{
			Severity: finding.Warning, Rule: "price/no-class",
			Message: quote(person) + " is in no labor class; time cannot be priced",
			Hint:    "write " + quote(person+": "+firstClass(b.Company)) + ` under "people" in company.yaml`,
			Holds:   "time of " + person,
		}, from)
	}
	return class, ok
}

func firstClass(c *notes.Company) string {
	if len(c.Classes) == 0 {
		return "journeyman"
	}
	return c.Classes[0].Name
}

// hourly returns rate * minutes / 60, rounded half away from zero to the cent. It multiplies
// first: a third of an hour has no exact decimal.
func hourly(rate notes.Money, m notes.Minutes) notes.Money {
	return notes.Cents(rate.Decimal().Mul(notes.Int(int(m))).Quo(notes.Int(60), 2))
}

// billedMinutes rounds m up to the next step.
func billedMinutes(m, step notes.Minutes) notes.Minutes {
	if step <= 1 || m <= 0 {
		return m
	}
	return (m + step - 1) / step * step
}

// labor is the priced time on one line or extra.
type labor struct {
	steps   []notes.PricingStep
	amount  notes.Money
	minutes notes.Minutes // as written, priced or not
	missing []string      // what a person must supply before all of it has a price
	from    []notes.Source
}

// addMissing enters what is missing, once.
func (l *labor) addMissing(what string) {
	if !slices.Contains(l.missing, what) {
		l.missing = append(l.missing, what)
	}
}

// priceLabor prices the time of each person on a line or extra, his travel apart, rounded up to the
// billing step once for each person and day.
func (b *bill) priceLabor(uses []notes.LaborUse, key string) labor {
	var l labor
	for _, u := range b.byPerson(uses) {
		l.minutes += u.minutes
		l.from = append(l.from, u.from...)
		class, how, ok := b.classFor(u)
		if !ok {
			l.addMissing(how)
			continue
		}
		if b.rateFor(u, class).IsZero() {
			l.addMissing("what an hour of class " + class.Name + " costs")
			continue
		}
		for _, s := range b.laborSteps(u, key, class, how) {
			l.steps = append(l.steps, s)
			l.amount = l.amount.Add(s.Amount)
		}
	}
	return l
}

// laborWorth is what time on nothing in particular is worth that nothing is billed for.
func (b *bill) laborWorth(uses []notes.LaborUse) (amount notes.Money, minutes notes.Minutes, from []notes.Source) {
	for _, u := range b.byPerson(uses) {
		minutes += u.minutes
		from = append(from, u.from...)
		if class, how, ok := b.classFor(u); ok {
			for _, s := range b.laborSteps(u, notes.Unassigned, class, how) {
				amount = amount.Add(s.Amount)
			}
		}
	}
	return amount, minutes, from
}

// rateFor returns what an hour of the time is billed at. A class without a rate of its own for
// travel travels at its rate for labor.
func (j *job) rateFor(u personTime, class notes.LaborClass) notes.Money {
	if j.atCost() {
		return class.Cost
	}
	if u.travel && !class.TravelRate.IsZero() {
		return class.TravelRate
	}
	return class.Rate
}

// personTime is the time of one person on one day, at work or on the road.
type personTime struct {
	person  string
	day     *notes.JobDay
	travel  bool
	minutes notes.Minutes
	from    []notes.Source
}

// byPerson adds up the uses of each person and day, in the order in which they are named.
func (b *bill) byPerson(uses []notes.LaborUse) []personTime {
	var out []personTime
	for _, u := range uses {
		if u.Minutes <= 0 {
			continue
		}
		day := b.notes[u.From.File].day
		if day == nil {
			day = b.day
		}
		i := slices.IndexFunc(out, func(p personTime) bool {
			return p.person == u.Person && p.travel == u.Travel && p.day == day
		})
		if i < 0 {
			out = append(out, personTime{person: u.Person, travel: u.Travel, day: day})
			i = len(out) - 1
		}
		out[i].minutes += u.Minutes
		if u.From.Line > 0 && !slices.Contains(out[i].from, u.From) {
			out[i].from = append(out[i].from, u.From)
		}
	}
	return out
}

// classFor returns the class that time is billed at and, where it had to be reasoned, how. When
// there is none it returns what is missing.
func (b *bill) classFor(u personTime) (class notes.LaborClass, how string, ok bool) {
	if u.person != "" {
		if class, ok = b.class(u.person, u.from); !ok {
			return class, "the labor class of " + u.person, false
		}
		return class, "", true
	}
	if class, ok = b.commonClass(crew(u.day)); ok {
		return class, "nobody is named, everybody there that day is " + class.Name, true
	}
	var all []string
	for _, p := range b.Company.People {
		all = append(all, p.Name)
	}
	if class, ok = b.commonClass(all); ok {
		return class, "nobody is named, everybody of the company is " + class.Name, true
	}
	return class, someone, false
}

// crew returns who was there, of those with a name.
func crew(d *notes.JobDay) []string {
	all := slices.Clone(d.Crew)
	for _, r := range d.Labor {
		if r.Name != "" {
			all = append(all, r.Name)
		}
	}
	return all
}

// someone is missing where time has nobody's name.
const someone = "who worked on it"

// commonClass returns the one class all the people are in, and false when there is none.
func (b *bill) commonClass(people []string) (notes.LaborClass, bool) {
	var common notes.LaborClass
	for i, p := range people {
		class, ok := b.Company.Class(p)
		if !ok || i > 0 && class.Name != common.Name {
			return notes.LaborClass{}, false
		}
		common = class
	}
	return common, len(people) > 0
}

// laborSteps prices the time of one person: at the rate for labor or for travel and, where overtime
// is billed, what of it was overtime at the rate for that. Rounding up adds to the regular time.
func (b *bill) laborSteps(u personTime, key string, class notes.LaborClass, how string) []notes.PricingStep {
	rate, what, basis := b.rateFor(u, class), "labor", ""
	if b.atCost() {
		basis = ", at cost"
	}
	if u.travel {
		what = "travel"
		if class.TravelRate.IsZero() && !b.atCost() {
			basis = ", no travel rate: the labor rate"
		}
	}
	if u.person != "" {
		what += " " + u.person
	}
	step := b.Company.Rounding.Billed
	if b.atCost() {
		step = 1
	}
	billed := billedMinutes(u.minutes, step)
	over, why := notes.Minutes(0), ""
	if !u.travel {
		over, why = b.overtimeOn(u.day, u.person, key)
		over = min(over, u.minutes)
	}
	basis = u.minutes.String() + stepText(step) + basis
	if over > 0 {
		basis += ", " + over.String() + " of them at the overtime rate"
	}
	if how != "" {
		basis += "; " + how
	}
	entry := func(what, basis string, m notes.Minutes, rate notes.Money) notes.PricingStep {
		return notes.PricingStep{
			What: what + ", " + class.Name, Basis: basis,
			Qty: m.Hours(), Unit: notes.Hour, Rate: rate.Decimal(), Amount: hourly(rate, m), From: sources(u.from),
		}
	}
	var out []notes.PricingStep
	if billed > over {
		out = append(out, entry(what, basis, billed-over, rate))
	}
	if over > 0 {
		if b.atCost() {
			why += "; at cost, what overtime adds to it is not known here"
		} else if class.OvertimeRate.IsZero() {
			why += "; no overtime rate: the labor rate"
		} else {
			rate = class.OvertimeRate
		}
		out = append(out, entry("overtime"+strings.TrimPrefix(what, "labor"), why, over, rate))
	}
	return out
}

func stepText(step notes.Minutes) string {
	if step <= 1 {
		return ", billed as written"
	}
	return ", rounded up to steps of " + step.String() + " for each person and day"
}

// usesOn returns who worked on a line or extra today, out of the rows of time.
func (b *bill) usesOn(key string) []notes.LaborUse {
	var uses []notes.LaborUse
	for i := range b.day.Labor {
		r := &b.day.Labor[i]
		m := minutesOn(r, key)
		if m <= 0 {
			continue
		}
		var from notes.Source
		if len(r.From) > 0 {
			from = r.From[0]
		}
		travel := travelOn(r, key, m)
		if m > travel {
			uses = append(uses, notes.LaborUse{Person: r.Name, Minutes: m - travel, From: from})
		}
		if travel > 0 {
			uses = append(uses, notes.LaborUse{Person: r.Name, Minutes: travel, Travel: true, From: from})
		}
	}
	return uses
}

// travelOn returns how many of somebody's minutes on a thing were travel. Where the row does not
// say, the travel is taken to be among his minutes on nothing in particular; what is more than those
// is travel on the thing only if it is the one he worked on.
func travelOn(r *notes.LaborRow, key string, on notes.Minutes) notes.Minutes {
	switch {
	case r.TravelOn != nil:
		return min(r.TravelOn[key], on)
	case key == notes.Unassigned:
		return min(r.Travel, on)
	}
	unassigned := r.On[notes.Unassigned]
	worked := len(r.On)
	if unassigned > 0 {
		worked--
	}
	if worked > 1 {
		return 0
	}
	return min(max(r.Travel-unassigned, 0), on)
}

// minutesOn returns somebody's minutes on a line or extra; the label of a line may be in any case.
func minutesOn(r *notes.LaborRow, key string) notes.Minutes {
	if m, ok := r.On[key]; ok {
		return m
	}
	for k, m := range r.On { // at most one label is the same but for case
		if strings.EqualFold(k, key) {
			return m
		}
	}
	return 0
}
