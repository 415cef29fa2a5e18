package billing

import (
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/record"
)

// Check holds the records of a job against its notes as they are now: amounts agreed that the notes
// make something else, work authorized and never done, work billed that is worth something else now.
// It raises the rules under "change/" and "billing/", but change/notice-due: see Notices.
func Check(in Input) finding.List {
	var found finding.List
	in.checkJob(&found)
	in.checkChanges(&found)
	if len(in.Records.Invoices) > 0 && len(in.Records.Broken) == 0 {
		in.checkBilled(&found)
	}
	return found
}

// checkJob reports records that name another job than their folder's.
func (in *Input) checkJob(found *finding.List) {
	check := func(number, job string, f *finding.File) {
		if job == record.Plain(in.Job.Number) {
			return
		}
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "record/job", Span: f.LineSpan(jobLine(f)),
			Message: number + " is a record of job " + quote(job) + ", and the scope in this folder is of job " + quote(in.Job.Number),
			Hint:    "give the scope its number back, or move the record into the folder of its job",
			Holds:   "what " + number + " bills or agrees",
		})
	}
	for i := range in.Records.Changes {
		c := &in.Records.Changes[i]
		check(c.Number, c.Job, c.File)
	}
	for i := range in.Records.Invoices {
		v := &in.Records.Invoices[i]
		check(v.Number, v.Job, v.File)
	}
}

// jobLine returns the line of a record that names its job.
func jobLine(f *finding.File) int {
	for n := 1; n <= f.Lines(); n++ {
		if strings.HasPrefix(f.LineSpan(n).Text(), "job:") {
			return n
		}
	}
	return 1
}

func (in *Input) checkChanges(found *finding.List) {
	all := notes.LatestExtras(in.Days)
	byNumber := map[string][]*notes.ExtraWork{}
	for _, e := range all {
		if e.Number != "" {
			byNumber[e.Number] = append(byNumber[e.Number], e)
		}
	}
	agreed := Agreements(in.Days, in.Records.Changes)
	for i := range in.Records.Changes {
		c := &in.Records.Changes[i]
		for _, item := range c.Items {
			var e *notes.ExtraWork
			for _, x := range byNumber[c.Number] {
				if a := agreed[x.ID]; a != nil && a.Item.Extra == item.Extra {
					e = x
				}
			}
			if e == nil {
				in.checkGone(found, c, item)
				continue
			}
			in.checkItem(found, c, item, e)
		}
	}
}

// checkGone reports an item whose extra the notes no longer have. One that a later change order took
// over is none.
func (in *Input) checkGone(found *finding.List, c *notes.ChangeOrder, item notes.ChangeItem) {
	for _, later := range in.Records.Changes {
		for _, i := range later.Items {
			if later.Number != c.Number && i.Extra == item.Extra {
				return
			}
		}
	}
	found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "change/extra-gone", Span: item.Span,
		Message: c.Number + " offers " + quote(item.Work) + ", and the notes no longer have that extra",
		Hint:    "put its line back into the note as it was, or decline " + c.Number,
		Holds:   item.Amount.String(),
	})
}

func (in *Input) checkItem(found *finding.List, c *notes.ChangeOrder, item notes.ChangeItem, e *notes.ExtraWork) {
	if e.Figured != nil && !e.Figured.Equal(item.Amount) {
		found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "change/amount-moved", Span: item.Span,
			Message: c.Number + " agrees on " + item.Amount.String() + " for " + quote(item.Work) + "; the notes now make it " + e.Figured.String(),
			Hint:    "the amount agreed stands; write work that came later as an extra of its own, or agree anew: decline or withdraw " + c.Number + ", then offer it again",
			Related: in.related("the notes as they are now", e.From),
		})
	}
	if e.State == notes.ExtraAuthorized && e.Outcome == notes.ExtraNotDone && in.wroteAfter(c) {
		found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "change/never-done", Span: item.Span,
			Message: c.Number + " is authorized, and no note says that " + quote(item.Work) + " was done",
			Hint:    "write it as done in a note once it is, or tell the customer that it will not be",
			Holds:   item.Amount.String(),
		})
	}
}

// wroteAfter reports whether the crew wrote a note after the customer's answer.
func (in *Input) wroteAfter(c *notes.ChangeOrder) bool {
	if len(c.Answers) == 0 || len(in.Days) == 0 {
		return false
	}
	return in.Days[len(in.Days)-1].Date.Compare(c.Answers[len(c.Answers)-1].At) > 0
}

// checkBilled reports what is worth something else than it was billed at. The difference stands on
// the next invoice.
func (in *Input) checkBilled(found *finding.List) {
	for _, d := range in.differences() {
		if !d.correction {
			continue
		}
		v := in.Records.Invoice(d.sent.number)
		f := finding.Finding{
			Severity: finding.Warning, Rule: "billing/changed", Span: v.File.LineSpan(1),
			Hint: "the next invoice corrects it by " + d.amount.String() + "; put the note back if it was edited by mistake",
		}
		for _, l := range v.Lines {
			if l.Ref == d.ref && l.Taxed == d.taxed {
				f.Span = l.Span
			}
		}
		if d.gone {
			f.Message = quote(d.what) + " was billed at " + d.sent.amount.String() + " up to " + v.Number + ", and the notes no longer have it"
		} else {
			f.Message = quote(d.what) + " was billed at " + d.sent.amount.String() + " up to " + v.Number + "; the notes now make it " + d.tally.amount.String()
			f.Related = in.related("the notes as they are now", d.from)
		}
		found.Add(f)
	}
}

// related names the first place in the notes.
func (in *Input) related(message string, from []notes.Source) []finding.Related {
	for _, s := range from {
		if f := in.file(s.File); f != nil {
			return []finding.Related{{Message: message, Span: span(f, s)}}
		}
	}
	return nil
}

// span returns the bytes of a place in a note.
func span(f *finding.File, s notes.Source) finding.Span {
	return f.Span(f.Offset(s.Line, s.Column), f.Offset(s.EndLine, s.EndColumn))
}

// noticeAhead is how many days before a period runs out it is told.
const noticeAhead = 5

// Notices warns of notice and claim periods that run out within five days or ran out. today is the
// day they are counted to.
func Notices(in Input, today notes.Date) finding.List {
	var found finding.List
	for _, r := range Changes(in, today) {
		what, due, left := "notice in writing", r.NoticeDue, r.NoticeLeft
		if due.Known() && left < 0 && r.ClaimDue.Known() && r.ClaimLeft <= noticeAhead {
			what, due, left = "a claim with its amount", r.ClaimDue, r.ClaimLeft
		}
		if !due.Known() || left > noticeAhead {
			continue
		}
		f := finding.Finding{
			Severity: finding.Warning, Rule: "change/notice-due",
			Message: quote(r.Work) + " was found " + r.Found.String() + "; " + what + " is due by " + due.String() + ", " + daysLeft(left),
			Hint:    "offer it: jobday change offer " + r.Extra + " --job " + in.Job.Number,
			Holds:   r.Amount.String(),
		}
		for _, s := range r.From {
			if file := in.file(s.File); file != nil {
				f.Span = span(file, s)
				break
			}
		}
		found.Add(f)
	}
	return found
}

func daysLeft(n int) string {
	switch {
	case n == 0:
		return "which is today"
	case n == 1:
		return "in 1 day"
	case n > 1:
		return "in " + strconv.Itoa(n) + " days"
	case n == -1:
		return "1 day ago"
	}
	return strconv.Itoa(-n) + " days ago"
}
