package compile

import (
	"cmp"
	"path"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/record"
)

// layout is the files of a book, each in its place.
type layout struct {
	company, prices, words *finding.File
	deficiencies           *finding.File   // the shop's own kinds, or nil
	templates              []*finding.File // the shop's own pages, by name
	folders                []folder        // by name
}

// folder is one job's folder.
type folder struct {
	name    string
	scopes  []*finding.File // by name; one is right
	notes   []*finding.File // by name
	decided *finding.File   // decisions.md, or nil
	panels  *finding.File   // panels.md, or nil
	records []*finding.File // of the folders changes and invoices
}

// arrange sorts files into a layout. Company and prices are empty files when the book has none.
func arrange(files []*finding.File) (layout, finding.List) {
	var l layout
	var found finding.List
	byName := map[string]*folder{}
	sorted := slices.Clone(files)
	slices.SortFunc(sorted, func(a, b *finding.File) int { return cmp.Compare(a.Name, b.Name) })
	for _, f := range sorted {
		switch dir, base := path.Split(f.Name); {
		case f.Name == "company.yaml":
			l.company = f
		case f.Name == "prices.csv":
			l.prices = f
		case f.Name == "words.yaml":
			l.words = f
		case f.Name == "deficiencies.yaml":
			l.deficiencies = f
		case dir == "templates/":
			l.templates = append(l.templates, f)
		case strings.HasPrefix(dir, "jobs/") && strings.Count(dir, "/") == 2:
			folderNamed(byName, strings.TrimSuffix(dir, "/")).add(f, base)
		case strings.HasPrefix(dir, "jobs/") && strings.Count(dir, "/") == 3:
			job, in := path.Split(strings.TrimSuffix(dir, "/"))
			if in == record.ChangesFolder || in == record.InvoicesFolder {
				x := folderNamed(byName, strings.TrimSuffix(job, "/"))
				x.records = append(x.records, f)
			}
		}
	}
	if l.company == nil {
		l.company = finding.NewFile("company.yaml", nil)
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "book/no-company",
			Message: "the book has no company.yaml: nothing says who bills and at which rates",
			Hint:    "write one, or start with: jobday new book DIR",
			Span:    l.company.Span(0, 0),
		})
	}
	if l.prices == nil {
		l.prices = finding.NewFile("prices.csv", nil)
	}
	for _, f := range byName {
		l.folders = append(l.folders, *f)
	}
	slices.SortFunc(l.folders, func(a, b folder) int { return cmp.Compare(a.name, b.name) })
	return l, found
}

func folderNamed(all map[string]*folder, name string) *folder {
	if all[name] == nil {
		all[name] = &folder{name: name}
	}
	return all[name]
}

// add puts a file of the folder where it belongs: "scope.md" and its stray copies are scopes, a
// name that starts with a digit is a note.
func (f *folder) add(file *finding.File, base string) {
	switch {
	case strings.HasPrefix(base, "scope") && strings.HasSuffix(base, ".md"):
		f.scopes = append(f.scopes, file)
	case base == "decisions.md":
		f.decided = file
	case base == "panels.md":
		f.panels = file
	case strings.HasSuffix(base, ".md"):
		f.notes = append(f.notes, file)
	}
}

// number returns the job number a folder's name begins with: "2431" of "jobs/2431-quay-bakery".
func (f folder) number() string {
	n, _, _ := strings.Cut(path.Base(f.name), "-")
	return n
}

// readScope reads the folder's scope. Without one the job has no lines, and nothing its notes
// report can be billed until there is one.
func readScope(f folder) (*notes.Job, finding.List) {
	if len(f.scopes) == 0 {
		j := &notes.Job{Number: f.number()}
		span := finding.Span{}
		if len(f.notes) > 0 {
			span = f.notes[0].Span(0, 0)
		}
		return j, finding.List{{
			Severity: finding.Error, Rule: "job/no-scope",
			Message: "the folder " + f.name + " has no scope.md: nothing says what was booked",
			Hint:    "write what was booked into " + f.name + "/scope.md",
			Holds:   "all work of this job",
			Span:    span,
		}}
	}
	first := slices.IndexFunc(f.scopes, func(s *finding.File) bool { return path.Base(s.Name) == "scope.md" })
	first = max(first, 0)
	j, found := parse.Scope(f.scopes[first])
	if j.Number == "" {
		j.Number = f.number()
	}
	for i, other := range f.scopes {
		if i != first {
			found.Add(finding.Finding{
				Severity: finding.Error, Rule: "job/two-scopes",
				Message: "a second scope beside " + f.scopes[first].Name + ": it is not read",
				Hint:    "keep one scope.md in the folder and move what is booked into it",
				Span:    other.LineSpan(1),
				Related: []finding.Related{{Message: "the scope that is read", Span: f.scopes[first].LineSpan(1)}},
			})
		}
	}
	return j, found
}

// readPanels adds the panels of panels.md to those of the scope. A panel of both goes by the scope.
func readPanels(f folder, j *notes.Job) finding.List {
	if f.panels == nil {
		return nil
	}
	panels, found := parse.Panels(f.panels)
	j.PanelsFile = f.panels
	for _, p := range panels {
		if i := notes.PanelNamed(j.Panels, p.Name); i >= 0 {
			found.Add(finding.Finding{
				Severity: finding.Error, Rule: "panel/twice", Span: p.Span,
				Message: "the panel " + quote(p.Name) + " stands in the scope as well: that one is used",
				Hint:    "keep its row in one of the two files",
				Related: []finding.Related{{Message: "the row that is used", Span: j.Panels[i].Span}},
			})
			continue
		}
		j.Panels = append(j.Panels, p)
	}
	return found
}

// checkJobNumber compares the number a note gives with its folder's job.
func checkJobNumber(n *notes.DayNote, j *notes.Job) finding.List {
	if n.Job == "" || strings.EqualFold(n.Job, j.Number) {
		return nil
	}
	return finding.List{{
		Severity: finding.Error, Rule: "note/other-job",
		Message: "the note says job " + quote(n.Job) + " but lies in the folder of job " + j.Number,
		Hint:    "move the file to the folder of job " + n.Job + ", or write: job: " + j.Number,
		Span:    jobSpan(n),
	}}
}

// jobSpan is where the note gives its job number, as near as it can be found: front matter first.
func jobSpan(n *notes.DayNote) finding.Span {
	for line := 1; line <= min(n.File.Lines(), 20); line++ {
		s := n.File.LineSpan(line)
		if text := s.Text(); strings.HasPrefix(strings.TrimSpace(text), "job") && strings.Contains(text, n.Job) {
			at := strings.LastIndex(text, n.Job)
			return s.Sub(at, at+len(n.Job))
		}
	}
	return n.File.LineSpan(1)
}

// sameNumber finds jobs that share a number.
func sameNumber(jobs []JobResult) finding.List {
	var found finding.List
	first := map[string]*notes.Job{}
	for _, j := range jobs {
		key := strings.ToLower(j.Job.Number)
		if earlier, taken := first[key]; taken && j.Job.File != nil {
			f := finding.Finding{
				Severity: finding.Error, Rule: "job/number-twice",
				Message: "job number " + quote(j.Job.Number) + " is taken by another folder",
				Hint:    "give one of the two jobs another number",
				Span:    j.Job.File.LineSpan(1),
			}
			if earlier.File != nil {
				f.Related = []finding.Related{{Message: "the other job", Span: earlier.File.LineSpan(1)}}
			}
			found.Add(f)
			continue
		}
		first[key] = j.Job
	}
	return found
}

func quote(s string) string { return `"` + s + `"` }
