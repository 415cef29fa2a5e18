package review

import (
	"cmp"
	"slices"
	"strings"

	"jobday/notes"
)

// What brings an extra about.
const (
	Asked   = "asked for or agreed to"
	Beyond  = "more than was booked"
	Mending = "a fault was put right"
	Dropped = "booked work was dropped"
	OnSite  = "the site needed it" // nobody of the customer's is named
)

// extras returns each extra of a job as the last report up to the time's end tells it.
func (in Input) extras(j Job) []Extra {
	var list []Extra
	standing := j.Days[len(j.Days)-1].Scope
	for _, w := range notes.LatestExtras(j.Days) {
		e := Extra{
			ID: w.ID, Job: j.Job.Number, Found: w.Found, Work: w.Work, Cause: causeOf(w), Thing: w.Thing,
			Done: w.Outcome == notes.ExtraDone, State: w.State, Fate: fateOf(w), Amount: w.Amount,
			From: w.From, Days: in.Until.DaysSince(w.Found),
		}
		if l, ok := grewFrom(w, standing); ok {
			e.Line, e.scope = l.Line, l
		}
		list = append(list, e)
	}
	return list
}

// causeOf says what brought an extra about. A customer who is named counts before what was found,
// for then somebody's wish is behind it.
func causeOf(w *notes.ExtraWork) string {
	switch {
	case w.Outcome == notes.ExtraCredit:
		return Dropped
	case w.Line != "":
		return Beyond
	case w.Mends:
		return Mending
	case w.Authorization.State != "none" && w.Authorization.State != "":
		return Asked
	}
	return OnSite
}

func fateOf(w *notes.ExtraWork) Fate {
	switch w.State {
	case notes.ExtraBilled:
		return Billed
	case notes.ExtraAuthorized:
		return Authorized
	case notes.ExtraDeclined:
		return Declined
	case notes.ExtraNoCharge:
		return GivenAway
	case notes.NeedsPrice:
		return Unpriced
	}
	return Awaiting
}

// grewFrom returns the booked line an extra grew from: the line it goes beyond, else the only line
// about the same thing.
func grewFrom(w *notes.ExtraWork, scope []notes.LineStanding) (notes.LineStanding, bool) {
	var near []notes.LineStanding
	for _, l := range scope {
		if w.Line != "" && strings.EqualFold(l.Line, w.Line) {
			return l, true
		}
		if w.Thing != "" && l.Thing == w.Thing {
			near = append(near, l)
		}
	}
	if w.Line == "" && len(near) == 1 {
		return near[0], true
	}
	return notes.LineStanding{}, false
}

// Age is exposed work of an age: done, and on nobody's confirmed word.
type Age struct {
	Share
	From int `json:"from_days"`
	To   int `json:"to_days"` // -1 for no end
}

// ages are the bounds of the ages, in days.
var ages = [...]struct {
	name     string
	from, to int
}{{"this week", 0, 6}, {"one to two weeks", 7, 13}, {"two to four weeks", 14, 29}, {"thirty days and older", 30, -1}}

// exposure sorts what was done without a confirmed word by its age.
func exposure(all []Extra) []Age {
	list := make([]Age, len(ages))
	var sum notes.Money
	for i, a := range ages {
		list[i] = Age{Share{Name: a.name, Of: []string{}}, a.from, a.to}
		for _, e := range all {
			if e.exposed() && e.Days >= a.from && (a.to < 0 || e.Days <= a.to) {
				list[i].add(e, e.Amount)
				sum = sum.Add(e.Amount)
			}
		}
	}
	var running notes.Decimal
	for i := range list {
		amount := list[i].Amount.Decimal()
		running = running.Add(amount)
		list[i].Percent, list[i].Running = percent(amount, sum.Decimal()), percent(running, sum.Decimal())
	}
	return list
}

func (e Extra) exposed() bool {
	return e.Done && (e.Fate == Awaiting || e.Fate == Unpriced) && e.Cause != Dropped
}

// pareto groups extras by a name, the greatest amount first, credits left out.
func pareto(extras []Extra, name func(Extra) string) []Share {
	at := map[string]int{}
	list := []Share{}
	var sum notes.Money
	for _, e := range extras {
		if e.Cause == Dropped {
			continue
		}
		n := name(e)
		i, known := at[n]
		if !known {
			i = len(list)
			at[n] = i
			list = append(list, Share{Name: n})
		}
		list[i].add(e, e.Amount)
		sum = sum.Add(e.Amount)
	}
	slices.SortStableFunc(list, func(a, b Share) int {
		return cmp.Or(b.Amount.Cmp(a.Amount), cmp.Compare(b.Count, a.Count), cmp.Compare(a.Name, b.Name))
	})
	percents(list, sum.Decimal(), byAmount)
	return list
}

func byAmount(s Share) notes.Decimal { return s.Amount.Decimal() }

// percents sets how much of the whole each share is, and all up to it.
func percents(list []Share, whole notes.Decimal, of func(Share) notes.Decimal) {
	var running notes.Decimal
	for i := range list {
		running = running.Add(of(list[i]))
		list[i].Percent, list[i].Running = percent(of(list[i]), whole), percent(running, whole)
	}
}

// percent returns part of whole in percent, rounded half away from zero to a tenth; 0 of nothing.
func percent(part, whole notes.Decimal) notes.Decimal {
	if whole.Sign() == 0 {
		return notes.Decimal{}
	}
	return part.Mul(notes.Int(100)).Quo(whole, 6).Round(1)
}
