// Package compile runs the stages over a whole book: text to notes, notes against scope, money.
// It is a pure function of the files it is given; the order of the files does not matter.
//
// Read it first: one day goes from note line to invoice line through Book, readJob and price.
package compile

import (
	"cmp"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"jobday/billing"
	"jobday/finding"
	"jobday/hours"
	"jobday/notes"
	"jobday/parse"
	"jobday/price"
	"jobday/reconcile"
	"jobday/record"
	"jobday/trade"
)

// Options narrows a compile and watches it.
type Options struct {
	// Job compiles only the job with this number; "" compiles all.
	Job string
	// Offering gives every extra the rows of an offer.
	Offering bool
	// Progress, when set, is called after each note that was read, possibly from several goroutines.
	Progress func(done, total int)
}

// Result is everything a book compiles to.
type Result struct {
	Company  *notes.Company
	Prices   *notes.PriceList
	Jobs     []JobResult  // by folder
	Findings finding.List // sorted, of the whole book
	// Templates are the shop's own pages and style sheets, as files: they are for whoever writes reports.
	Templates []*finding.File
}

// JobResult is one job with its days.
type JobResult struct {
	Job    *notes.Job
	Folder string           // "jobs/2431-quay-bakery"
	Notes  []*notes.DayNote // by date, then file
	Days   []*notes.JobDay  // by date, priced
	// LaidOut is how the job's panels stood before the first note.
	LaidOut []notes.PanelStanding
	// Records are its change orders and invoices.
	Records record.Set
}

// Day returns the job's day on the date, or nil.
func (j *JobResult) Day(date notes.Date) *notes.JobDay {
	for _, d := range j.Days {
		if d.Date == date {
			return d
		}
	}
	return nil
}

// Days returns the JobDays of all jobs, by job folder and date.
func (r *Result) Days() []*notes.JobDay {
	var days []*notes.JobDay
	for _, j := range r.Jobs {
		days = append(days, j.Days...)
	}
	return days
}

// Worked is the jobs with their days, as a time sheet takes them.
func (r *Result) Worked() []hours.Job {
	var jobs []hours.Job
	for _, j := range r.Jobs {
		jobs = append(jobs, hours.Job{Job: j.Job, Days: j.Days})
	}
	return jobs
}

// Billing returns the job as its bills are made from it.
func (j *JobResult) Billing(c *notes.Company) billing.Input {
	return billing.Input{Company: c, Job: j.Job, Days: j.Days, Records: j.Records}
}

// Find returns the job with the number, or nil.
func (r *Result) Find(number string) *JobResult {
	for i := range r.Jobs {
		if strings.EqualFold(r.Jobs[i].Job.Number, number) {
			return &r.Jobs[i]
		}
	}
	return nil
}

// shop is what all jobs of a book share.
type shop struct {
	company *notes.Company
	prices  *notes.PriceList
	rows    *price.Rows // index of prices
	// overtime is known once all jobs are read.
	overtime price.Overtime
	words    trade.Words
	kinds    trade.Catalogue // of deficiencies
	offering bool
}

// Book compiles files, named relative to the book with forward slashes. It never fails: what is
// wrong with the files is in the findings, and the rest is compiled.
func Book(files []*finding.File, opt Options) *Result {
	layout, found := arrange(files)
	s, more := readShop(layout)
	found.Add(more...)
	s.offering = opt.Offering
	folders := layout.folders
	jobs := make([]openJob, len(folders))
	total, done := 0, atomic.Int64{}
	for _, f := range folders {
		total += len(f.notes)
	}
	read := func() {
		if n := done.Add(1); opt.Progress != nil {
			opt.Progress(int(n), total)
		}
	}
	each(len(folders), func(i int) { jobs[i] = readJob(folders[i], s, opt, read) })
	s.overtime = overtimeOf(jobs, s.company)
	each(len(folders), func(i int) { jobs[i].price(s) })
	r := &Result{Templates: layout.templates, Company: s.company, Prices: s.prices}
	for _, j := range jobs {
		if j.Job != nil && opt.wants(j.Job) {
			r.Jobs = append(r.Jobs, j.JobResult)
			found.Add(j.found...)
		}
	}
	found.Add(sameNumber(r.Jobs)...)
	found.Add(hours.Check(r.Company, r.Worked())...)
	r.Findings = found.Sort()
	return r
}

// each calls do with 0 to n-1, on all cores.
func each(n int, do func(i int)) {
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	for i := range n {
		g.Go(func() error {
			do(i)
			return nil
		})
	}
	_ = g.Wait() // the workers return no errors
}

func (o Options) wants(j *notes.Job) bool { return o.Job == "" || strings.EqualFold(j.Number, o.Job) }

// overtimeOf figures what of the time is billed as overtime, which only all jobs together tell.
func overtimeOf(jobs []openJob, c *notes.Company) price.Overtime {
	var days [][]*notes.JobDay
	for _, j := range jobs {
		days = append(days, j.Days)
	}
	return price.OvertimeOf(days, c)
}

// readShop reads the files all jobs share. A book without company.yaml is billed by the defaults,
// which a finding says.
func readShop(l layout) (shop, finding.List) {
	var s shop
	var found, more finding.List
	s.company, found = parse.Company(l.company)
	s.prices, more = parse.Prices(l.prices)
	found.Add(more...)
	s.company.Units = addedUnits(s.prices)
	s.rows = price.Index(s.prices)
	if l.words != nil {
		s.words, more = parse.Words(l.words)
		found.Add(more...)
	}
	if l.deficiencies != nil {
		s.kinds, more = parse.Deficiencies(l.deficiencies)
		found.Add(more...)
	}
	return s, found
}

// addedUnits returns the units the price list has beyond those every book knows, in its order.
func addedUnits(list *notes.PriceList) []notes.Unit {
	var added []notes.Unit
	for _, row := range list.Rows {
		if !slices.Contains(notes.Units, row.Unit) && !slices.Contains(added, row.Unit) {
			added = append(added, row.Unit)
		}
	}
	return added
}

// openJob is a job before its money.
type openJob struct {
	JobResult
	found finding.List
}

// readJob reads one job's folder and holds its notes against its scope. A job that is not asked for
// is left out, unless the week of somebody who worked on it may make overtime on another.
func readJob(f folder, s shop, opt Options, read func()) openJob {
	j, found := readScope(f)
	if !opt.wants(j) && !s.company.Overtime.Bill {
		return openJob{}
	}
	found.Add(readPanels(f, j)...)
	days := make([]*notes.DayNote, len(f.notes))
	lists := make([]finding.List, len(f.notes))
	ctx := noteContext(s)
	each(len(days), func(i int) {
		days[i], lists[i] = parse.Note(f.notes[i], ctx)
		lists[i].Add(checkJobNumber(days[i], j)...)
		read()
	})
	for _, l := range lists {
		found.Add(l...)
	}
	slices.SortStableFunc(days, func(a, b *notes.DayNote) int {
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(a.File.Name, b.File.Name))
	})
	var decided []notes.Decision
	if f.decided != nil {
		var more finding.List
		decided, more = parse.Decisions(f.decided)
		found.Add(more...)
	}
	jobdays, more := reconcile.Job(reconcile.Input{
		Company: s.company, Prices: s.prices, Job: j, Notes: days, Words: s.words, Kinds: s.kinds, Decisions: decided,
	})
	found.Add(more...)
	files := make([]*finding.File, len(days))
	for i, d := range days {
		files[i] = d.File
	}
	records, more := record.Read(f.records, files)
	found.Add(more...)
	return openJob{JobResult{Job: j, Folder: f.name, Notes: days, Days: jobdays, LaidOut: reconcile.LaidOut(j), Records: records}, found}
}

// price puts money on the days of a job and gives them what was found.
func (j *openJob) price(s shop) {
	if j.Job == nil {
		return
	}
	agreed := billing.Agreements(j.Days, j.Records.Changes)
	j.found = answered(j.found, j.Days, agreed)
	j.found.Add(price.Days(j.Days, price.Input{
		Company: s.company, Prices: s.prices, Job: j.Job, Rows: s.rows, Overtime: s.overtime,
		Agreed: agreed, Offering: s.offering,
	})...)
	j.records(s.company)
	j.found = j.found.Sort()
	for _, d := range j.Days {
		attach(d, j.Job, j.found)
	}
}

func noteContext(s shop) parse.NoteContext {
	ctx := parse.NoteContext{Words: s.words}
	for _, p := range s.company.People {
		ctx.People = append(ctx.People, p.Name)
	}
	return ctx
}

// attach gives a day the findings on its notes, the scope and the panels, and closes the account of lines.
func attach(d *notes.JobDay, j *notes.Job, found finding.List) {
	mine := map[*finding.File]int{}
	for i, n := range d.Notes {
		mine[n.Source] = i
	}
	for _, f := range found {
		i, ok := mine[f.Span.File]
		if !ok && (f.Span.File == nil || f.Span.File != j.File && f.Span.File != j.PanelsFile) {
			continue
		}
		if ok {
			d.Notes[i].Covered = append(d.Notes[i].Covered, f.Span)
		}
		d.Findings = append(d.Findings, notes.FindingRef{
			Severity: f.Severity.String(), Rule: f.Rule, Message: f.Message, Hint: f.Hint,
			Source: notes.SourceOf(f.Span),
		})
	}
	for i := range d.Notes {
		n := &d.Notes[i]
		n.Lines = n.Filled()
		n.Accounted = n.Lines - len(n.Unaccounted())
	}
}
