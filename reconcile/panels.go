package reconcile

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// panelBook is how the panels of a job stand between two days.
type panelBook struct {
	list    []*panel // those the book lays out, in the order written, then those only notes name
	laidOut int
	touched []*circuit // entered since the last check
	again   []*circuit // whose neutral is to be looked at again, because a partner moved
	found   []panelFinding
	raised  map[string]bool // what was said of a group of circuits, so that it is said once a day
}

// panel is one panel as it stands.
type panel struct {
	notes.Panel
	known    bool
	at       map[int]*circuit
	neutrals [][]int // spaces that share a neutral
	said     []notes.PanelCircuit
	stale    bool
}

// circuit is what one breaker or empty space is for, and where that was written.
type circuit struct {
	notes.PanelCircuit
	in     *panel
	poles  int // 0 when nobody said
	amps   int // 0 when nobody said
	shared bool
	from   origin

	ofNeutral []string // those of Findings that are about the neutral it shares
}

// origin is where words about a circuit stand.
type origin struct {
	notes.PanelPlaces
	date   notes.Date
	layout bool
	record int // of today's circuits; -1 for a row of a layout
	entry  int // of today's reads; -1 for a row of a layout
}

// layOut enters the panels as they stood before the job, and what is to be looked at in them.
func (s *standing) layOut() {
	s.panels = newPanelBook(s.in.Job)
	for _, f := range s.panels.found {
		s.found.Add(f.Finding)
	}
	s.panels.found, s.panels.raised = nil, nil
}

// LaidOut returns how the panels of a job stood before any note, in the order of their layouts.
func LaidOut(job *notes.Job) []notes.PanelStanding {
	var out []notes.PanelStanding
	for _, p := range newPanelBook(job).list {
		out = append(out, p.standing())
	}
	return out
}

// newPanelBook enters the layouts of the job.
func newPanelBook(job *notes.Job) panelBook {
	b := panelBook{laidOut: len(job.Panels)}
	for i, layout := range job.Panels {
		b.list = append(b.list, &panel{Panel: layout, known: true, at: map[int]*circuit{}, stale: true})
		for _, row := range layout.Circuits {
			b.enter(b.list[i], row.CircuitWords, origin{PanelPlaces: row.At, layout: true, record: -1, entry: -1})
		}
	}
	b.check()
	return b
}

// recordCircuits enters circuits as reported, with what is to be looked at, and how every panel
// stands after them.
func (d *day) recordCircuits() {
	for i, r := range d.reads {
		if r.result.Outcome != notes.Circuit {
			continue
		}
		for _, c := range circuitsOf(r) {
			d.recordCircuit(c, i)
		}
	}
	b := &d.standing.panels
	b.check()
	for _, f := range b.found {
		if f.record >= 0 {
			rec := &d.out.Circuits[f.record]
			rec.Findings = append(rec.Findings, f.Message)
		}
		d.add(f.Finding)
	}
	b.found, b.raised = nil, nil
	for _, p := range b.list {
		d.out.Panels = append(d.out.Panels, p.standing())
	}
}

// saidCircuit is the words about one circuit, of an entry or of a clause that names spaces itself.
type saidCircuit struct {
	words  notes.CircuitWords
	text   string
	span   finding.Span
	source notes.Source
}

// circuitsOf returns the circuits an entry speaks of. A detail that names spaces before a colon is
// a circuit of its own; any other adds to the one before it.
func circuitsOf(r *read) []saidCircuit {
	out := []saidCircuit{{r.facts.Circuit, r.entry.Text, r.entry.Span, r.result.Source}}
	for _, det := range r.entry.Details {
		if w := det.Facts.Circuit; len(w.Spaces) > 0 && spacesFirst(det.Text) {
			if w.Panel == "" {
				w.Panel = out[0].words.Panel
			}
			out = append(out, saidCircuit{w, det.Text, det.Span, notes.SourceOf(det.Span)})
			continue
		}
		addDetail(&out[len(out)-1].words, field.CircuitDetail(det.Text, nil))
	}
	return out
}

// spacesFirst reports whether a text begins with numbers and a colon: "9: plugs", "9,11: dryer".
func spacesFirst(text string) bool {
	end := strings.IndexByte(text, ':')
	return end > 0 && strings.Trim(text[:end], "0123456789,/&#- ") == ""
}

func addDetail(w *notes.CircuitWords, more notes.CircuitWords) {
	if w.Breaker == "" {
		w.Breaker = more.Breaker
	}
	if w.Conductor == "" {
		w.Conductor = more.Conductor
	}
	if w.Tied == notes.Unsaid {
		w.Tied = more.Tied
	}
	w.Shared = w.Shared || more.Shared
	w.Instead = w.Instead || more.Instead
	w.With = append(w.With[:len(w.With):len(w.With)], more.With...)
	w.Was = append(w.Was[:len(w.Was):len(w.Was)], more.Was...)
}

// recordCircuit enters one circuit in today's records and in its panel.
func (d *day) recordCircuit(c saidCircuit, entry int) {
	w := c.words
	rec := notes.CircuitRecord{
		Panel: w.Panel, Spaces: list(w.Spaces), Serves: w.Serves, Breaker: w.Breaker, Conductor: w.Conductor,
		SharedWith: []int{}, Findings: []string{}, From: []notes.Source{c.source},
	}
	if len(w.Spaces) == 0 {
		rec.Serves = c.text // "directory done": a remark on the panel, kept as it stands
	}
	if w.Shared {
		rec.SharedWith = list(w.Spaces)
		if len(w.With) > 0 {
			rec.SharedWith = w.With
		}
		rec.Findings = append(rec.Findings, trade.SharedNeutralNote())
	}
	d.out.Circuits = append(d.out.Circuits, rec)
	if len(w.Spaces) == 0 {
		return
	}
	o := origin{date: d.out.Date, record: len(d.out.Circuits) - 1, entry: entry}
	o.Row, o.Space, o.Breaker, o.Conductor, o.Serves = c.span, c.span, c.span, c.span, c.span
	b := &d.standing.panels
	if p := b.panelOf(w.Panel, o, d.reads[entry].entry.Place); p != nil {
		d.out.Circuits[o.record].Panel = p.Name
		b.enter(p, w, o)
	}
}

// panelOf returns the panel a note means, nil when it may be one of several.
func (b *panelBook) panelOf(name string, o origin, place string) *panel {
	key := notes.PanelKey(name)
	for _, p := range b.list {
		if notes.PanelKey(p.Name) == key && (key != "" || b.laidOut == 0) {
			return p
		}
	}
	if key == "" && b.laidOut > 0 {
		for _, p := range b.list[:b.laidOut] {
			if b.laidOut == 1 || place != "" && notes.PanelKey(p.Name) == notes.PanelKey(place) {
				return p
			}
		}
		b.say(o, finding.Finding{
			Severity: finding.Warning, Rule: "panel/unsaid", Span: o.Row,
			Message: "nothing says which panel this circuit is in: it is on no directory",
			Hint:    "write the panel first, like: " + b.list[0].Name + " 2,4: oven; " + notes.PanelHint(b.layouts()),
		})
		return nil
	}
	if b.laidOut > 0 {
		b.say(o, finding.Finding{
			Severity: finding.Warning, Rule: "panel/not-laid-out", Span: o.Row,
			Message: "the panel " + quoted(name) + " is not among those laid out for the job",
			Hint:    "write it as laid out, or give it a row; " + notes.PanelHint(b.layouts()),
		})
	}
	p := &panel{Panel: notes.Panel{Name: name}, at: map[int]*circuit{}, stale: true}
	b.list = append(b.list, p)
	return p
}

func quoted(s string) string { return `"` + s + `"` }

func (b *panelBook) layouts() []notes.Panel {
	var out []notes.Panel
	for _, p := range b.list[:b.laidOut] {
		out = append(out, p.Panel)
	}
	return out
}

// standing is how the panel stands, by first space.
func (p *panel) standing() notes.PanelStanding {
	if p.stale {
		p.said, p.stale = nil, false
		for space, c := range p.at {
			if c.Spaces[0] != space {
				continue
			}
			said := c.PanelCircuit
			said.Spaces, said.Findings, said.From = slices.Clone(c.Spaces), slices.Clone(c.Findings), slices.Clone(c.From)
			for _, s := range p.neutralOf(space) {
				if !slices.Contains(c.Spaces, s) {
					said.Neutral = append(said.Neutral, s)
				}
			}
			p.said = append(p.said, said)
		}
		slices.SortFunc(p.said, func(a, b notes.PanelCircuit) int { return a.Spaces[0] - b.Spaces[0] })
	}
	return notes.PanelStanding{Panel: p.Panel, Known: p.known, Standing: p.said}
}

// neutralOf returns the spaces that share a neutral with a space, itself among them; nil for none.
func (p *panel) neutralOf(space int) []int {
	for _, group := range p.neutrals {
		if slices.Contains(group, space) {
			return group
		}
	}
	return nil
}

// share enters spaces as sharing one neutral, with those they shared it with before.
func (p *panel) share(spaces []int) {
	kept := p.neutrals[:0]
	all := slices.Clone(spaces)
	for _, group := range p.neutrals {
		if slices.ContainsFunc(group, func(s int) bool { return slices.Contains(spaces, s) }) {
			all = append(all, group...)
		} else {
			kept = append(kept, group)
		}
	}
	slices.Sort(all)
	p.neutrals = append(kept, slices.Compact(all))
}

// part takes a space out of the neutral it shared.
func (p *panel) part(space int) {
	for _, s := range p.neutralOf(space) {
		if c := p.at[s]; c != nil { // what was found of a neutral that is no longer shared stands no more
			c.Findings = slices.DeleteFunc(c.Findings, func(f string) bool { return slices.Contains(c.ofNeutral, f) })
			c.ofNeutral = nil
		}
	}
	for i, group := range p.neutrals {
		p.neutrals[i] = slices.DeleteFunc(group, func(s int) bool { return s == space })
	}
	p.neutrals = slices.DeleteFunc(p.neutrals, func(group []int) bool { return len(group) < 2 })
}
