package parse

import (
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// flush turns the item being gathered into entries.
func (r *noteReader) flush() {
	if r.cur == nil {
		return
	}
	it := *r.cur
	r.cur = nil
	r.interpret(it)
}

// interpret reads an item: its label, whether it says that there is nothing, what it lists, and
// what each part of it is.
func (r *noteReader) interpret(it item) {
	in := r.carriedSection(it, r.section.name)
	if r.section.crew && in == notes.Time && it.label == "" && len(it.details) == 0 {
		hours, names := r.crewLine(it.start, it.end)
		if names {
			r.remark(it.start, it.end)
			return
		}
		if !hours && !isNothing(r.body[it.start:it.end]) {
			in = ""
		}
	}
	raw := r.body[it.start:it.end]
	photos, words := r.photos(raw, it.start)
	if len(photos) > 0 && isNothing(words) {
		r.picture(it, in, photos)
		return
	}
	n := len(r.note.Entries)
	label, labelAt := r.scopeLabel(words, in)
	start := it.start + labelAt
	text := words[labelAt:]
	switch {
	case in != "" && isNothing(text) && label == "":
		r.add(notes.Entry{
			Section: in, Text: fold(raw), Span: r.file.Span(it.start, it.end), Kind: in.Kind(),
			Why: "says there is nothing under " + title(in), Sure: 1, Nothing: true,
		})
	case isAgain(text) && n > 0 && !signsOf(r.scan.scan(text, start)).has(clockSpan|looseSpan):
		r.again(it, in, label)
	default:
		r.behind = label != ""
		r.parts(text, start, in)
		r.behind = false
	}
	r.complete(it, n, label, labelAt, photos)
}

// complete puts on the entries of an item, those from index n on, what belongs to the item as a
// whole: its label and box on each, its nested items and pictures on the first.
func (r *noteReader) complete(it item, n int, label string, labelAt int, photos []notes.Photo) {
	if n >= len(r.note.Entries) {
		for _, d := range it.details {
			r.parts(r.body[d.start:d.end], d.start, r.section.name)
		}
		return
	}
	for i := n; i < len(r.note.Entries); i++ {
		e := &r.note.Entries[i]
		e.Label, e.Box = label, it.box
		if label != "" {
			e.LabelSpan = r.file.Span(it.start, it.start+labelAt)
		}
	}
	first := &r.note.Entries[n]
	first.Photos = photos
	in := first.Section
	for _, d := range it.details {
		text := r.body[d.start:d.end]
		if r.note.Entries[n].Kind == notes.TimeEntry && r.tellsHours(text) {
			r.parts(text, d.start, in)
			continue
		}
		if v, own := r.ownEntry(text, d.start, r.note.Entries[n].Kind); own {
			r.push(text, d.start, in).judged(v)
			continue
		}
		r.detail(n, text, d.start)
	}
	r.last, r.lastEnd = n, it.end
}

// ownEntry reports whether a detail is plainly another thing than the entry it stands below: an
// extra, a fault, a question hiding in it.
func (r *noteReader) ownEntry(text string, base int, below notes.Kind) (verdict, bool) {
	v := judgeWords(evidenceOf(r.scan.scan(text, base), nil))
	v.why += ", below another item"
	switch v.kind {
	case below:
		return v, false
	case notes.Question:
		return v, v.score >= 9
	case notes.Extra:
		return v, v.score >= 8 && below != notes.Extra && below != notes.Deficiency && below != notes.Question
	case notes.Deficiency:
		return v, v.score >= 8 && below != notes.Extra && below != notes.Test
	}
	return v, false
}

// detail adds a detail to entry i.
func (r *noteReader) detail(i int, raw string, start int) {
	photos, words := r.photos(raw, start)
	box, at := tickBox(r.file.Text, start, start+len(raw))
	if box != notes.NoBox {
		words, start = words[at-start:], at
	}
	e := &r.note.Entries[i]
	e.Photos = append(e.Photos, photos...)
	if isNothing(words) && len(photos) > 0 {
		return
	}
	e.Details = append(e.Details, notes.Detail{
		Text: fold(words), Span: r.file.Span(start, start+len(words)), Facts: r.facts(words, e.Section),
	})
}

// again adds an entry that says what the one before it said, for another place.
func (r *noteReader) again(it item, in notes.Section, label string) {
	above := r.note.Entries[len(r.note.Entries)-1]
	r.add(notes.Entry{
		Section: in, Text: fold(r.body[it.start:it.end]), Span: r.file.Span(it.start, it.end),
		Kind: above.Kind, Why: "says the same as the entry above", Sure: above.Sure, MayBe: above.MayBe, Again: true,
	})
}

// picture puts pictures that stand alone on the entry before them, or makes an entry of them.
func (r *noteReader) picture(it item, in notes.Section, photos []notes.Photo) {
	if n := len(r.note.Entries); n > 0 {
		e := &r.note.Entries[n-1]
		e.Photos = append(e.Photos, photos...)
		return
	}
	r.add(notes.Entry{
		Section: in, Text: fold(r.body[it.start:it.end]), Span: r.file.Span(it.start, it.end),
		Kind: notes.Narrative, Why: "is a picture", Sure: 1, Photos: photos,
	})
}

func (r *noteReader) add(e notes.Entry) {
	e.Place = r.where.name()
	r.note.Entries = append(r.note.Entries, e)
}

// photos finds pictures, "![alt](path)", in a text that starts at the file offset base, and returns
// the text with blanks in their place, so that offsets stay and no figure of a path is counted.
func (r *noteReader) photos(text string, base int) ([]notes.Photo, string) {
	if !strings.Contains(text, "](") {
		return nil, text
	}
	var photos []notes.Photo
	var out []byte
	for i := 0; i < len(text); {
		open := strings.Index(text[i:], "![")
		if open < 0 {
			break
		}
		open += i
		mid := strings.Index(text[open:], "](")
		if mid < 0 {
			break
		}
		mid += open
		end := strings.IndexByte(text[mid:], ')')
		if end < 0 {
			break
		}
		end += mid + 1
		target, _, _ := strings.Cut(strings.TrimSpace(text[mid+2:end-1]), " \"")
		photos = append(photos, notes.Photo{
			Path: strings.Trim(target, "<> "), Alt: fold(text[open+2 : mid]), Span: r.file.Span(base+open, base+end),
		})
		if out == nil {
			out = []byte(text)
		}
		for j := open; j < end; j++ {
			out[j] = ' '
		}
		i = end
	}
	if out == nil {
		return nil, text
	}
	return photos, string(out)
}

// A part is a stretch of an item that is to become one entry, with its clauses behind ";".
type part struct {
	span
	details []span
	kind    notes.Kind
	signs   sign
	lead    span // its first clause, when it has more: that one says what it is
	carried bool // only says more of the entry before
	own     bool // names a thing that is booked and counted
}

// prose makes entries of the clauses of an item: one where they all speak of one thing, more where
// they part.
func (r *noteReader) prose(text string, base int, in notes.Section, marks []mark) {
	all := r.divide(text, base, in, marks)
	for i, p := range all {
		raw := text[p.start:p.end]
		first := len(r.note.Entries)
		switch {
		case p.carried && r.last >= 0 && onlyBlanks(r.file.Text, r.lastEnd, base+p.start):
			r.detail(r.last, raw, base+p.start)
			r.lastEnd = base + p.end
			continue
		case p.kind == notes.Material && (in == "" && r.store.box == notes.NoBox && !r.inPlace(raw, base+p.start) || in == notes.Done) && p.lead.end == 0:
			r.bareList(raw, base+p.start, in)
		case p.lead.end > 0 && in != notes.Time && (in != "" || p.kind != notes.TimeEntry):
			r.sentences(raw, text[p.lead.start:p.lead.end], base+p.start, in)
		default:
			r.times(raw, base+p.start, in)
		}
		if i+1 < len(all) && all[i+1].kind == notes.LeftOpen && !all[i+1].own {
			r.unfinished(first)
		}
		for _, d := range p.details {
			n := len(r.note.Entries)
			if n > first && r.note.Entries[n-1].Kind == notes.TimeEntry && r.tellsHours(text[d.start:d.end]) {
				r.times(text[d.start:d.end], base+d.start, in)
				continue
			}
			if r.last == n-1 && n > 0 {
				r.detail(n-1, text[d.start:d.end], base+d.start)
				r.lastEnd = base + d.end
			} else {
				r.entry(text[d.start:d.end], base+d.start, in)
			}
		}
	}
}

// tellsHours reports whether words behind hours tell more of them: "ana 8 hrs; bo 7 hrs". A break alone tells
// none.
func (r *noteReader) tellsHours(text string) bool { return len(field.ReadTime(text, r.lex)) > 0 }

// unfinished notes on the entries from index n on that some of their work is left: "box set, plate
// tomorrow".
func (r *noteReader) unfinished(n int) {
	for i := n; i < len(r.note.Entries); i++ {
		if p := &r.note.Entries[i].Facts.Progress; r.note.Entries[i].Kind == notes.Work && p.Complete == notes.Unsaid {
			p.Complete = notes.No
		}
	}
}

// inPlace reports whether words list work below the name of a place, not material.
func (r *noteReader) inPlace(raw string, start int) bool {
	return r.where.name() != "" && !signsOf(r.scan.scan(raw, start)).has(measured)
}

// onlyBlanks reports whether nothing but blanks and signs stands between two places, and no empty
// line.
func onlyBlanks(text []byte, from, to int) bool {
	if from > to || to-from > 200 {
		return false
	}
	breaks := 0
	for _, c := range text[from:to] {
		if isLetter(c) || isDigit(c) || c >= 0x80 {
			return false
		}
		if c == '\n' {
			breaks++
		}
	}
	return breaks < 2
}

// entry judges one stretch of words with everything that can be read from them, and adds it as an
// entry, or as narrative when it is none and no section is open.
func (r *noteReader) entry(raw string, start int, in notes.Section) {
	if strings.TrimSpace(raw) == "" {
		return
	}
	e := r.push(raw, start, in)
	marks := r.scan.scan(raw, start)
	said := evidenceOf(marks, &e.Facts)
	v := judge(said, in)
	switch {
	case in == "" && r.behind && (v.kind == notes.Narrative || v.kind == notes.Material):
		v = verdict{kind: notes.Work, score: strongScore, why: "stands behind a label", next: v.kind, lead: strongScore}
	case in != "" || v.score >= strongScore:
	case r.store.box != notes.NoBox && v.kind != notes.Work:
		v = verdict{kind: notes.Work, score: strongScore, why: "stands behind a box", next: v.kind, lead: strongScore}
	case v.kind == notes.Material && r.where.name() != "" && !said.signs.has(measured):
		v = verdict{kind: notes.Work, score: clearScore, why: "lists work by place", next: v.kind, lead: clearScore}
	}
	e.judged(r.weigh(marks, said, in, v))
	jotted := said.jotted()
	r.factsOf(e, raw, in)
	if e.Kind == notes.Narrative && in == "" && jotted {
		r.last, r.lastEnd = -1, e.Span.End // only what is booked can tell what it is
		return
	}
	r.keep(in)
}

// surelyTalk is how surely words are narrative that nothing booked could make anything else.
const surelyTalk = 0.98

// push adds an entry with what can be read from its words, before it is judged. The facts are large:
// they are read into their place.
func (r *noteReader) push(raw string, start int, in notes.Section) *judgedEntry {
	r.note.Entries = append(r.note.Entries, notes.Entry{
		Section: in, Text: fold(raw), Span: r.file.Span(start, start+len(raw)), Place: r.where.name(),
	})
	e := &r.note.Entries[len(r.note.Entries)-1]
	e.Facts = r.facts(raw, in)
	return (*judgedEntry)(e)
}

// A judgedEntry is an entry whose kind is being settled.
type judgedEntry notes.Entry

func (e *judgedEntry) judged(v verdict) {
	e.Kind, e.Why, e.Sure = v.kind, v.why, v.sure()
	if e.Sure < notes.SureEnough {
		e.MayBe = []notes.Kind{v.kind, v.next}
	}
}

// keep makes the last entry the one that later words may say more about; one that is narrative
// outside every section is carried as narrative instead.
func (r *noteReader) keep(in notes.Section) {
	n := len(r.note.Entries) - 1
	e := &r.note.Entries[n]
	r.last, r.lastEnd = n, e.Span.End
	if e.Kind == notes.Narrative && in == "" {
		r.last = -1
		if e.Sure >= surelyTalk && !r.named {
			span := e.Span
			r.note.Entries = r.note.Entries[:n]
			r.narrative(span.Start, span.End)
		}
	}
}

// sentences adds an entry of several sentences. The first says what it is, except that all together
// may make an extra of it: what was asked, then who agreed.
func (r *noteReader) sentences(raw, lead string, start int, in notes.Section) {
	e := r.push(raw, start, in)
	said := evidenceOf(r.scan.scan(raw, start), &e.Facts)
	v := judge(said, in)
	first := judge(evidenceOf(r.scan.scan(lead, start), nil), in)
	fault := first.kind == notes.Deficiency && first.score >= strongScore && e.Facts.Consent.State != notes.Authorized
	if v.kind != notes.Extra || v.score < strongScore || fault { // a price wanted for a fault leaves it one
		v = first
	}
	e.judged(r.weigh(r.scan.scan(raw, start), said, in, v))
	r.factsOf(e, raw, in)
	r.keep(in)
}

// narrative carries a stretch as narrative, together with the one before it when only blanks part
// them.
func (r *noteReader) narrative(start, end int) {
	if n := len(r.note.Narrative); n > 0 {
		last := &r.note.Narrative[n-1]
		if last.Span.End <= start && sameLineOrNext(r.file.Text[last.Span.End:start]) {
			last.Span.End = end
			last.Text = "" // read once all of it is known, or a long text would be copied for each line
			return
		}
	}
	r.remark(start, end)
}

// sameLineOrNext reports whether a gap has no content and no blank line.
func sameLineOrNext(gap []byte) bool {
	breaks := 0
	for _, c := range gap {
		if c == '\n' {
			breaks++
		} else if !isBlank(c) && c != '.' && c != '!' {
			return false
		}
	}
	return breaks <= 1
}

// facts reads what words say, by the section they stand in. Where a section says what its lines are
// about, only that is read, and more boldly.
func (r *noteReader) facts(raw string, in notes.Section) notes.Facts {
	switch in {
	case notes.Time:
		if rows := field.ReadTime(raw, r.lex); len(rows) > 0 {
			return notes.Facts{Time: rows}
		}
	case notes.Tests:
		if values := field.ReadReadings(raw, r.lex); len(values) > 0 {
			return notes.Facts{Readings: values}
		}
	case notes.Circuits:
		if c := field.Circuit(raw, r.lex); c.Found() {
			return notes.Facts{Circuit: c}
		}
	}
	return field.Read(raw, r.lex)
}

// factsOf reads the facts of an entry once its kind is known: all of them where the words won over a
// section of which only a part was read, and boldly what the kind is about.
func (r *noteReader) factsOf(e *judgedEntry, raw string, in notes.Section) {
	switch in {
	case notes.Time, notes.Tests, notes.Circuits:
		if e.Kind != in.Kind() {
			e.Facts = field.Read(raw, r.lex)
		}
	}
	switch {
	case e.Kind == notes.TimeEntry && in != notes.Time: // there it was read boldly before
		if rows := field.ReadTime(raw, r.lex); surer(rows, e.Facts.Time) {
			e.Facts.Time = rows
		}
	case e.Kind == notes.Test && len(e.Facts.Readings) == 0 && in != notes.Tests:
		e.Facts.Readings = field.ReadReadings(raw, r.lex)
	case e.Kind == notes.Circuit && in != notes.Circuits:
		e.Facts.Circuit = field.Circuit(raw, r.lex)
	}
}
