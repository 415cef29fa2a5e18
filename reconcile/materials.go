package reconcile

import (
	"fmt"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// recordMaterials lists what went in and where: what the material section names, what extras took,
// and lengths and packages that only a work entry mentions.
func (d *day) recordMaterials() {
	var listed []notes.MaterialUse
	for _, r := range d.reads {
		if r.result.Outcome == notes.Material {
			listed = append(listed, d.materialEntry(r)...)
		}
	}
	byExtras := d.takenByExtras(listed)
	d.out.Materials = append(append(d.out.Materials, listed...), byExtras...)
	for _, r := range d.reads {
		if r.result.Outcome == notes.InScope {
			d.inlineMaterials(r)
		}
	}
}

// materialEntry reads one entry of the material section. One that can be read in two ways is
// unclear and counts as nothing.
func (d *day) materialEntry(r *read) []notes.MaterialUse {
	var uses []notes.MaterialUse
	for _, it := range r.facts.Items {
		if len(it.Other) > 0 {
			d.twoReadings(r, it)
			return nil
		}
		uses = append(uses, notes.MaterialUse{
			Qty: it.Qty, Item: it.Name, Line: d.lineOfMaterial(r, it), From: []notes.Source{r.result.Source},
		})
	}
	reading := notes.MaterialReading{Item: r.entry.Text}
	if len(r.facts.Items) > 0 {
		it := r.facts.Items[0]
		reading.Item = it.Name
		if it.Qty.Written() {
			reading.Qty = &it.Qty
		}
	}
	r.result.Reading = reading
	if reading.Qty == nil {
		if len(uses) == 0 {
			uses = append(uses, notes.MaterialUse{Item: r.entry.Text, From: []notes.Source{r.result.Source}})
		}
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "material/no-quantity",
			Message: "does not say how much of " + quote(reading.Item),
			Hint:    "put the quantity first: 2 " + reading.Item,
			Span:    r.entry.Span,
		})
	}
	return uses
}

func (d *day) twoReadings(r *read, it notes.Item) {
	ways := []string{it.Qty.String()}
	for _, q := range it.Other {
		ways = append(ways, q.String())
	}
	r.set(notes.Unclear, 0.5, "can be read as "+strings.Join(ways, " or "))
	r.result.Why = r.why
	r.result.Reading = notes.MaterialReading{Item: it.Name}
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "material/two-readings",
		Message: quote(it.Text) + " can be read as " + strings.Join(ways, " or "),
		Hint:    "put the quantity and its unit first: " + it.Qty.String() + " " + it.Name,
		Span:    r.entry.Span.Sub(it.Start, it.End), Holds: "this material",
	})
}

// lineOfMaterial returns the label of the line a material went into: the one the entry names, the
// only one that allows it, the only one whose work of today mentions it, or the only one it is
// named in; "" when that does not settle it.
func (d *day) lineOfMaterial(r *read, it notes.Item) string {
	if r.entry.Label != "" {
		if l, ok := d.in.Job.Line(r.entry.Label); ok {
			return l.Label
		}
	}
	allowing := ""
	for _, a := range d.in.Job.Allowed {
		if a.Name == it.Name && a.Line != allowing {
			if allowing != "" {
				return ""
			}
			allowing = a.Line
		}
	}
	if allowing != "" {
		return allowing
	}
	if label := d.mentionedToday(it); label != "" {
		return label
	}
	return d.namedIn(it)
}

func (d *day) mentionedToday(it notes.Item) string {
	label := ""
	for _, w := range d.reads {
		if w.result.Outcome != notes.InScope || len(w.lines) != 1 {
			continue
		}
		for _, x := range w.facts.Items {
			if x.Name != it.Name || x.Name == "" {
				continue
			}
			l := d.in.Job.Lines[w.lines[0]].Label
			if label != "" && label != l {
				return ""
			}
			label = l
		}
	}
	return label
}

// namedIn returns the only line whose words name the item's own noun, as long as nothing about
// them contradicts.
func (d *day) namedIn(it notes.Item) string {
	if len(d.in.Job.Lines) == 1 {
		return d.in.Job.Lines[0].Label
	}
	words, label := d.item(it.Name), ""
	if !words.named {
		return ""
	}
	for i := range d.index.lines {
		l := &d.index.lines[i]
		if veto, _ := words.query.contradicts(l); l.means(words.head) && veto == "" {
			if label != "" {
				return ""
			}
			label = d.in.Job.Lines[i].Label
		}
	}
	return label
}

// extraMaterials enters what an extra took: what its details count, or its own words when there
// are no details.
func (d *day) extraMaterials(r *read, x *openExtra) {
	items := detailItems(r)
	if len(items) == 0 {
		items = r.entry.Facts.Items
	}
	for _, it := range items {
		if len(it.Other) > 0 {
			d.detailReadings(r, it)
			x.work.Unclear = "the quantity of " + it.Name + " can be read in two ways"
			continue
		}
		if it.Qty.Written() && it.Qty.Unit != notes.Hour {
			x.work.Materials = append(x.work.Materials, notes.MaterialUse{
				Qty: it.Qty, Item: it.Name, Line: x.work.ID, From: []notes.Source{r.result.Source},
			})
		}
	}
}

// detailReadings is twoReadings for a detail: the extra itself stays what it is.
func (d *day) detailReadings(r *read, it notes.Item) {
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "material/two-readings",
		Message: fmt.Sprintf("%s can be read as %s or %s", quote(it.Text), it.Qty, it.Other[0]),
		Hint:    "put the quantity and its unit first: " + it.Qty.String() + " " + it.Name,
		Span:    r.entry.Span, Holds: "this extra",
	})
}

// takenByExtras returns the material of today's extras. A material the section lists in the same
// quantity is the same thing written twice: its row goes to the extra and is not counted again.
func (d *day) takenByExtras(listed []notes.MaterialUse) []notes.MaterialUse {
	var more []notes.MaterialUse
	for _, x := range d.extras {
		if !x.touched {
			continue
		}
		for _, m := range x.work.Materials {
			if !d.fromToday(m) {
				continue
			}
			if i := sameUse(listed, m); i >= 0 {
				listed[i].Line = x.work.ID
				listed[i].From = append(listed[i].From, m.From...)
				continue
			}
			more = append(more, m)
		}
	}
	return more
}

func (d *day) fromToday(m notes.MaterialUse) bool {
	for _, n := range d.out.Notes {
		if len(m.From) > 0 && m.From[0].File == n.File {
			return true
		}
	}
	return false
}

func sameUse(listed []notes.MaterialUse, m notes.MaterialUse) int {
	for i, l := range listed {
		if l.Item == m.Item && l.Qty.Unit == m.Qty.Unit && l.Qty.Value.Equal(m.Qty.Value) && !strings.Contains(l.Line, "/") {
			return i
		}
	}
	return -1
}

// inlineMaterials counts lengths and packages that a work entry mentions and the material section
// does not.
func (d *day) inlineMaterials(r *read) {
	label := ""
	if len(r.lines) == 1 {
		label = d.in.Job.Lines[r.lines[0]].Label
	}
	for _, it := range r.facts.Items {
		if !it.Qty.Written() || it.Qty.Unit == notes.Each || it.Qty.Unit == notes.Hour || len(it.Other) > 0 || it.Name == "" {
			continue
		}
		known := false
		for _, m := range d.out.Materials {
			known = known || m.Item == it.Name
		}
		if !known {
			d.out.Materials = append(d.out.Materials, notes.MaterialUse{
				Qty: it.Qty, Item: it.Name, Line: label, From: []notes.Source{r.result.Source},
			})
		}
	}
}
