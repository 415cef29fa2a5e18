package reconcile

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// How much of the words that tell faults apart two texts must share to be about one fault: less
// where the later one names the same kind of fault as well.
const (
	sameFault     = 0.6
	sameKindFault = 0.5
	sameWords     = 0.75 // by the vocabulary of work alone
	sameDayWords  = 2    // telling words shared by two entries of one day: what, and which or where
	tooNearFaults = 0.1  // two open faults that fit a text about as well: nobody can say which
)

// faultWords is what tells a fault from others: the words of where and what, in order, and among
// them those that announced the kind.
type faultWords struct {
	telling []string
	core    []string
	where   []string // see whereWords
	every   []string // see everyWord
}

func (d *day) faultWordsOf(text, core string) faultWords {
	w := faultWords{telling: d.in.Kinds.Telling(firstClause(text))}
	for _, c := range d.in.Kinds.Telling(core) {
		if c != "panel" && !isNumber(c) { // says where, not what
			w.core = append(w.core, c)
		}
	}
	if len(w.core) == 0 {
		w.core = w.telling
	}
	return w
}

// firstClause is the text up to what was done about it: "cooler disconnect has no cover; made safe".
func firstClause(text string) string {
	if at := strings.IndexAny(text, ";("); at > 0 {
		return text[:at]
	}
	return text
}

// near returns the open deficiencies of earlier days, or with today those of other entries of this day that
// share enough words with an entry, that it may speak of.
func (d *day) near(r *read, today bool) []*openFault {
	var near []*openFault
	for _, f := range d.faults {
		if f.closed || f.record.State == notes.FaultCorrected || (f.record.Found == d.out.Date) != today {
			continue
		}
		if today && (f.tells(r) || !f.sharesEnough(d.telling(r), d.whereWords(f))) {
			continue
		}
		near = append(near, f)
	}
	return near
}

// telling returns the words of an entry that tell which fault it is about. They are found once.
func (d *day) telling(r *read) []string {
	if r.telling == nil {
		r.telling = d.in.Kinds.Telling(r.result.Text)
	}
	return r.telling
}

// aboutFault returns which of the deficiencies near an entry it speaks of, or nil. Where two fit about as
// well none is taken, and a finding says so.
func (d *day) aboutFault(r *read, near []*openFault, kind string) *openFault {
	var best, second *openFault
	var most, next float64
	for _, f := range near {
		switch p := f.fits(r, d.telling(r), kind); {
		case p > most:
			second, next, best, most = best, most, f, p
		case p > next:
			second, next = f, p
		}
	}
	if second != nil && most-next < tooNearFaults && !both(r.result.Text) {
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "deficiency/which",
			Message: "may be about " + quoted(best.record.Title) + " of " + best.record.Found.String() + " or about " +
				quoted(second.record.Title) + " of " + second.record.Found.String() + "; both stay open",
			Hint: "name the place and the fault in the words of that day", Span: r.entry.Span,
		})
		return nil
	}
	return best
}

// tells reports whether a deficiency was told by this very line.
func (f *openFault) tells(r *read) bool {
	return slices.ContainsFunc(f.record.From, func(s notes.Source) bool {
		return s.File == r.result.Source.File && s.Line == r.result.Source.Line
	})
}

// sharesEnough reports whether two entries of one day have words in common that say both what is
// wrong and which or where. A day has much to say of one place: the place alone is not enough.
func (f *openFault) sharesEnough(later, where []string) bool {
	n, core := 0, false
	for _, w := range later {
		if slices.Contains(f.words.telling, w) {
			n++
			core = core || slices.Contains(f.words.core, w) && !slices.Contains(where, w)
		}
	}
	return core && n >= sameDayWords
}

// both reports whether words speak of more than one thing on purpose.
func both(text string) bool {
	for _, w := range strings.Fields(strings.ToLower(text)) {
		if w == "both" || w == "all" {
			return true
		}
	}
	return false
}

// fits says how well a later text is about the fault, 0 for not at all.
func (f *openFault) fits(r *read, later []string, kind string) float64 {
	if veto, _ := r.query.contradicts(&indexedLine{query: f.query}); veto != "" {
		return 0
	}
	shared, core := 0, false
	for _, w := range later {
		if slices.Contains(f.words.telling, w) {
			shared++
			core = core || slices.Contains(f.words.core, w)
		}
	}
	if f.otherOne(later) {
		return 0
	}
	o := 0.0
	if n := min(len(later), len(f.words.telling)); n > 0 && core {
		o = float64(shared) / float64(n)
	}
	same := kind != "" && kind == f.record.Kind
	switch {
	case o >= sameFault, same && o >= sameKindFault, same && shared >= 2:
		return max(o, sameKindFault) + float64(shared)/100
	}
	if o := r.query.overlap(&f.query); o >= sameWords {
		return o
	}
	return 0
}

// otherOne reports whether a later text names another one of the same things: other numbers ("LP2"
// for "LP1"), or another word before the same thing ("freezer disconnect" for "cooler disconnect").
func (f *openFault) otherOne(later []string) bool {
	numbers, common := 0, false
	for i, w := range later {
		at := slices.Index(f.words.telling, w)
		if isNumber(w) {
			if !f.numbered() {
				continue
			}
			numbers++
			common = common || at >= 0
			continue
		}
		if at < 1 || i < 1 {
			continue
		}
		mine, theirs := f.words.telling[at-1], later[i-1]
		if mine != theirs && !isNumber(mine) && !isNumber(theirs) && !slices.Contains(f.words.core, mine) &&
			!slices.Contains(later, mine) && !slices.Contains(f.words.telling, theirs) && placeWord(theirs) {
			return true
		}
	}
	return numbers > 0 && !common
}

// placeWord reports whether a word can say which of several things is meant: one the trade does not
// know as work or as a property.
func placeWord(w string) bool {
	terms := field.Terms(w)
	return len(terms) == 0 || terms[0].Class != field.VerbTerm && terms[0].Class != field.TraitTerm
}

func (f *openFault) numbered() bool { return slices.ContainsFunc(f.words.telling, isNumber) }

// isNumber reports whether a telling word is a number, of a name ("n1" of "LP1") or by itself.
func isNumber(w string) bool {
	w = strings.TrimPrefix(w, "n")
	return w != "" && w[0] >= '0' && w[0] <= '9'
}

// settleFault lets an entry change how a deficiency of an earlier day stands, or with today one of
// another entry of this day: put right, made safe for now, or declined by the customer. It reports
// whether the entry speaks of one.
func (d *day) settleFault(r *read, today bool) bool {
	if !d.stands(today) {
		return false
	}
	declined := r.facts.Consent.State == notes.Declined || r.facts.Fault.State == notes.FaultDeclined
	mend := r.mends()
	p := r.facts.Progress
	if (p.NotDone || p.Blocked) && mend != trade.MendForNow {
		mend = trade.MendPending
	}
	if mend <= trade.MendPending && !declined {
		return false
	}
	var f *openFault
	if near := d.near(r, today); len(near) > 0 {
		f = d.aboutFault(r, near, d.announced(r.result.Text))
	}
	if f == nil && mend == trade.MendForNow && today {
		f = d.onlyFaultAt(r)
	}
	if f == nil {
		return false
	}
	switch {
	case declined:
		f.record.State, f.record.By, f.record.At = notes.FaultDeclined, who(r), d.out.Date
	case mend == trade.MendForNow:
		f.record.State, f.record.At = notes.FaultMadeSafe, d.out.Date
	case p.Complete == notes.No && mend != trade.MendDone:
		return false
	case mend == trade.MendDone || f.lacking() || f.wornOut() && saysNew(r.result.Text):
		f.record.State, f.record.At, f.record.How = notes.FaultCorrected, d.out.Date, r.howMended()
	default:
		return false
	}
	f.tell(r)
	f.record.From = append(f.record.From, r.result.Source)
	f.record.Photo = append(f.record.Photo, r.result.Photos...)
	verb := "closes"
	if f.record.State != notes.FaultCorrected {
		verb = "says how it stands with"
	}
	r.addWhy(verb + " the deficiency of " + f.record.Found.String() + ": " + strings.TrimSpace(f.record.Title))
	return true
}

// stands reports whether any deficiency is open that an entry may settle: one of an earlier day, or with
// today any.
func (d *day) stands(today bool) bool {
	return slices.ContainsFunc(d.faults, func(f *openFault) bool {
		return !f.closed && f.record.State != notes.FaultCorrected && (today || f.record.Found != d.out.Date)
	})
}

// mends returns what an entry says of putting something right. It is read once.
func (r *read) mends() trade.Mend {
	if r.mend < 0 {
		r.mend = trade.Mends(r.result.Text)
	}
	return r.mend
}

// onlyFaultAt returns the one open deficiency at the place an entry names, by two words or more that they
// share: "taped over the pump disconnect and tagged it" needs not say what is wrong with it. It is nil when
// there is none or more than one: to make safe closes nothing, and yet nobody guesses.
func (d *day) onlyFaultAt(r *read) *openFault {
	later := d.telling(r)
	var only *openFault
	for _, f := range d.faults {
		if f.closed || f.record.State == notes.FaultCorrected || f.tells(r) || f.otherOne(later) {
			continue
		}
		if veto, _ := r.query.contradicts(&indexedLine{query: f.query}); veto != "" {
			continue
		}
		n := 0
		for _, w := range later {
			if slices.Contains(d.everyWord(f), w) {
				n++
			}
		}
		if n < sameDayWords {
			continue
		}
		if only != nil {
			return nil
		}
		only = f
	}
	return only
}

// whereWords returns the telling words of where a deficiency is. They are found once.
func (d *day) whereWords(f *openFault) []string {
	if f.words.where == nil {
		f.words.where = d.in.Kinds.Telling(f.record.Where)
	}
	return f.words.where
}

// everyWord returns the telling words of a deficiency, taken together and each by itself: "disconnect cover" is
// one word of the catalogue, and names a disconnect too. They are found once.
func (d *day) everyWord(f *openFault) []string {
	if f.words.every == nil {
		f.words.every = append(f.words.every, f.words.telling...)
		for _, w := range strings.Fields(f.record.Text) {
			f.words.every = append(f.words.every, d.in.Kinds.Telling(w)...)
		}
	}
	return f.words.every
}

// announced returns the kind of fault a text names, also where it says that it is no more.
func (d *day) announced(text string) string {
	if k, _, ok := d.in.Kinds.FindKind(text); ok {
		return k.Slug
	}
	low := strings.ToLower(text)
	for _, over := range []string{"no more ", "no longer ", "got rid of "} {
		if _, rest, ok := strings.Cut(low, over); ok {
			if k, _, ok := d.in.Kinds.FindKind(rest); ok {
				return k.Slug
			}
		}
	}
	return ""
}

// lacking reports whether the fault is that something is not there, so that putting it in mends it.
func (f *openFault) lacking() bool {
	for _, w := range [...]string{"missing", "no-", "not-", "un", "short", "open", "exposed"} {
		if strings.HasPrefix(f.record.Kind, w) || strings.Contains(f.record.Kind, "-"+w) {
			return true
		}
	}
	return saysMissing(f.record.Text)
}

// wornOut reports whether the fault is in the thing itself, so that a new one mends it.
func (f *openFault) wornOut() bool {
	for _, w := range [...]string{"-failed", "-expired", "-damaged", "-broken", "-obsolete", "-aged"} {
		if strings.HasSuffix(f.record.Kind, w) {
			return true
		}
	}
	return false
}

// saysNew reports whether words speak of a new thing: "new smokes in the back hall".
func saysNew(text string) bool {
	return slices.Contains(strings.Fields(strings.ToLower(text)), "new")
}

// saysMissing reports whether words say that something is not there.
func saysMissing(text string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
		switch w {
		case "no", "not", "missing", "without", "needs", "lacks", "gone", "blank", "none":
			return true
		}
	}
	return false
}

// howMended says on what a correction was done: a booked line, an extra, or at no charge.
func (r *read) howMended() string {
	switch {
	case len(r.lines) > 0 && len(r.result.Lines) > 0:
		return "in scope, line " + strings.Join(r.result.Lines, ", ")
	case r.facts.Price.NoCharge || r.extra != nil && r.extra.work.Price.NoCharge:
		return "at no charge"
	case r.extra != nil:
		return "as an extra"
	}
	return ""
}

// who is the person whose word it is, as far as the entry says.
func who(r *read) string {
	if r.facts.Consent.By != "" {
		return r.facts.Consent.By
	}
	return r.facts.Fault.Told
}

// tell takes whom an entry says was told.
func (f *openFault) tell(r *read) {
	if t := r.facts.Fault.Told; t != "" {
		f.record.Told = t
	}
}
