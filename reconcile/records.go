package reconcile

import (
	"slices"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// recordTests judges today's readings against the limits the trade knows.
func (d *day) recordTests() {
	for _, r := range d.reads {
		if r.result.Outcome != notes.Test {
			continue
		}
		if reading, ok := d.recordFill(r); ok && len(r.facts.Readings) == 0 {
			r.result.Reading = reading
			continue
		}
		v := trade.Judge(r.entry.Text, r.facts.Readings)
		rec := notes.TestRecord{
			What: v.What, Readings: []notes.TestValue{}, Limit: v.Limit, Rule: v.Rule, Verdict: v.Verdict, Why: v.Why, Impossible: v.Impossible != "",
			From: []notes.Source{r.result.Source},
		}
		if rec.What == "" {
			rec.What = r.entry.Text
		}
		for _, m := range r.facts.Readings {
			rec.Readings = append(rec.Readings, testValue(m))
		}
		r.result.Reading = notes.TestReading{Readings: rec.Readings, Verdict: rec.Verdict}
		d.out.Tests = append(d.out.Tests, rec)
		if v.Impossible != "" {
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "test/impossible", Message: v.Impossible,
				Hint: "check the figure and its unit, and write the reading as the instrument showed it",
				Span: r.entry.Span,
			})
		}
	}
}

// testValue writes a measured value as the JobDay carries it: the figure with its bound, or the
// word for a bare result.
func testValue(m notes.Measured) notes.TestValue {
	v := notes.TestValue{Value: m.Result, Unit: m.Unit, Between: m.Between}
	if m.HasVal {
		v.Value = m.Op + m.Value.String()
	}
	return v
}

// recordRemarks carries what is said in words: deliveries, delays, the weather and the like.
func (d *day) recordRemarks() {
	for _, r := range d.reads {
		switch outcome := r.result.Outcome; outcome {
		case notes.LeftOpen:
			line := d.leftOf(r)
			if line >= 0 && len(r.result.Lines) == 0 {
				r.result.Lines = []string{d.in.Job.Lines[line].Label}
			}
			d.standing.left = append(d.standing.left, &openPoint{point: d.remark(r), query: r.query, line: line})
		case notes.Question:
			d.standing.asked = append(d.standing.asked, &openPoint{point: d.remark(r), query: r.query, line: -1})
		default:
			if list := d.remarks(outcome); list != nil && !(outcome == notes.Narrative && r.entry.Nothing) {
				*list = append(*list, d.remark(r))
			}
		}
	}
}

// remarks returns the list of the day that an outcome belongs to, or nil.
func (d *day) remarks(outcome notes.Outcome) *[]notes.Standing {
	switch outcome {
	case notes.Narrative:
		return &d.out.Narrative
	case notes.Delivery:
		return &d.out.Deliveries
	case notes.EquipmentUse:
		return &d.out.Equipment
	case notes.Delay:
		return &d.out.Delays
	case notes.Instruction:
		return &d.out.Instructions
	case notes.SafetyCheck:
		return &d.out.Safety
	case notes.Condition:
		return &d.out.Conditions
	case notes.Subcontractor:
		return &d.out.Subcontractors
	}
	return nil
}

// remark returns an entry as it is carried.
func (d *day) remark(r *read) notes.Standing {
	p := d.point(r.result.Text, r.entry.Span)
	p.From = []notes.Source{r.result.Source}
	for _, row := range r.facts.Time {
		p.Minutes += row.PersonMinutes()
	}
	p.By = r.facts.Consent.By
	return p
}

// openPoint is something left to do, or a question, until it is closed.
type openPoint struct {
	point notes.Standing
	query query
	line  int // the line what is left belongs to, or -1
}

// leftOf returns the line that what is left belongs to, or -1.
func (d *day) leftOf(r *read) int {
	if ms := d.match(r); len(ms) > 0 && ms[0].p >= TakeAt {
		return ms[0].line
	}
	return -1
}

// closePoints closes what later work did and later words answered, and lists what stands.
func (d *day) closePoints() {
	d.standing.left = slices.DeleteFunc(d.standing.left, d.leftIsDone)
	for _, p := range d.left {
		d.out.Left = append(d.out.Left, p.point)
	}
	d.standing.asked = slices.DeleteFunc(d.standing.asked, d.answered)
	for _, p := range d.asked {
		d.out.Questions = append(d.out.Questions, p.point)
	}
}

// leftIsDone reports whether what was left is done: the line it belongs to is complete, or a later
// entry reports the same work as done.
func (d *day) leftIsDone(p *openPoint) bool {
	if p.line >= 0 && d.standing.lines[p.line].complete {
		return true
	}
	if p.point.Since == d.out.Date {
		return false
	}
	for _, r := range d.reads {
		switch r.result.Outcome {
		case notes.InScope, notes.Extra, notes.Deficiency:
			pr := r.facts.Progress
			if !pr.NotDone && !pr.Blocked && pr.Complete != notes.No && r.query.overlap(&p.query) >= 0.75 {
				return true
			}
		}
	}
	return false
}

// answered reports whether an instruction of a later day, or work that was decided, speaks of what
// was asked.
func (d *day) answered(p *openPoint) bool {
	if p.point.Since == d.out.Date {
		return false
	}
	for _, r := range d.reads {
		switch r.result.Outcome {
		case notes.Instruction, notes.Extra, notes.InScope:
			if r.query.overlap(&p.query) >= 0.7 {
				return true
			}
		}
	}
	return false
}
