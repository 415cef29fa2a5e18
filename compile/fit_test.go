package compile_test

import (
	"bytes"
	"flag"
	"fmt"
	"hash/fnv"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/chance"
	"jobday/chance/fit"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/reconcile"
	"jobday/testdata/reading"
)

var (
	fitSets  = flag.String("fit", "", "fit the models of kinds and outcomes to these sets of testdata/reading, parted by commas; \"all\" for every one")
	fitHold  = flag.Float64("hold", fitOptions.Hold, "how strongly weights are held to zero")
	fitLeast = flag.Int("least", fitOptions.Least, "features that fewer entries have are left out")
	fitApart = flag.String("apart", "", "with -fit: write no model, but say how well sets whose names hold one of these do that were not fitted to")
)

// A fitCase is an entry with its clues and what would be right.
type fitCase struct {
	set            string
	kind           fit.Case // of words alone
	whole          fit.Case // held against the booking
	consent, state fit.Case
	done           fit.Case
}

var kindAnswers = answers(notes.Work, notes.Extra)

var outcomeAnswers = answers(notes.InScope, notes.Extra)

func answers(first ...notes.Kind) []string {
	var all []string
	for _, k := range append(first, notes.Narrative, notes.Question, notes.Deficiency, notes.TimeEntry, notes.Test, notes.LeftOpen, notes.Material, notes.Delivery,
		notes.Delay, notes.SafetyCheck, notes.Instruction, notes.Condition, notes.Subcontractor, notes.EquipmentUse, notes.Circuit) {
		all = append(all, string(k))
	}
	return all
}

// A labelledJob is a job with notes of some days, or with one line as a note, and what its lines should say.
type labelledJob struct {
	set    string // with the name of the archive
	job    *notes.Job
	days   []*notes.DayNote
	labels map[string]map[int][]reading.Label // by file and line
}

// labelledJobs reads the labelled notes or entries of a set.
func labelledJobs(t testing.TB, set string) []labelledJob {
	t.Helper()
	archives, err := reading.Archives(set)
	require.NoError(t, err)
	var all []labelledJob
	for _, a := range archives {
		var job *notes.Job
		var days []*notes.DayNote
		labels := map[string]map[int][]reading.Label{}
		note := func(name string, text []byte, want map[int][]reading.Label) *notes.DayNote {
			labels[name] = want
			n, _ := parse.Note(finding.NewFile(name, text), parse.NoteContext{People: reading.People, Named: true})
			return n
		}
		held := func(days []*notes.DayNote) {
			all = append(all, labelledJob{set + "/" + a.Name, job, days, maps.Clone(labels)})
		}
		for _, f := range a.Files {
			switch {
			case strings.HasSuffix(f.Name, "scope.md"):
				job, _ = parse.Scope(finding.NewFile(f.Name, f.Data))
			case reading.IsNote(f.Name):
				text, want, err := reading.Unlabel(f.Data)
				require.NoError(t, err, a.Name)
				days = append(days, note(f.Name, text, want))
			case reading.IsEntries(f.Name):
				entries, err := reading.Entries(f.Data)
				require.NoError(t, err, a.Name)
				for _, e := range entries {
					text := fmt.Sprintf("---\ncrew: [Ana, Bo]\n---\n%s\n\n%s\n", e.Heading, e.Text)
					held([]*notes.DayNote{note("jobs/1-x/2026-03-16.md", []byte(text), map[int][]reading.Label{6: e.Want})})
				}
			}
		}
		if len(days) > 0 {
			held(days)
		}
	}
	return all
}

// reconciled holds the notes of a job against its booking.
func (j labelledJob) reconciled(in reconcile.Input) {
	in.Company = &notes.Company{}
	for _, p := range reading.People {
		in.Company.People = append(in.Company.People, notes.Person{Name: p})
	}
	in.Prices, in.Job, in.Notes, in.Named = &notes.PriceList{}, j.job, j.days, true
	reconcile.Job(in)
}

// entriesOf are the entries of a note with where they begin, to be put beside labels.
func entriesOf(n *notes.DayNote) []reading.Read[*notes.Entry] {
	var all []reading.Read[*notes.Entry]
	for i := range n.Entries {
		e := &n.Entries[i]
		all = append(all, reading.Read[*notes.Entry]{Line: n.File.LineAt(e.Span.Start), Start: e.Span.Start, Said: e})
	}
	return all
}

// cases holds notes against a booking, and puts each entry beside the label of its line. The chance of each line is
// what lines says.
func (j labelledJob) cases(lines *chance.Model) []fitCase {
	words := map[*notes.Entry]int{}
	for _, n := range j.days {
		for i := range n.Entries {
			n.Entries[i].ClueNames = n.Entries[i].ClueNames[:len(n.Entries[i].Clues)]
			words[&n.Entries[i]] = len(n.Entries[i].ClueNames)
		}
	}
	j.reconciled(reconcile.Input{Lines: lines})
	var all []fitCase
	for _, n := range j.days {
		got, want := entriesOf(n), maps.Clone(j.labels[n.File.Name])
		for _, g := range got {
			if len(want[g.Line]) == 0 {
				want[g.Line] = []reading.Label{{Outcome: "narrative|condition"}} // a title, or the rest of what stands above
			}
		}
		for _, a := range reading.Align(got, want) {
			e, label := a.Said, a.Want
			c := fitCase{set: j.set}
			if e.Judged == "" || label.Outcome == "unclear" {
				continue
			}
			c.kind = fit.Case{Features: e.ClueNames[:words[e]], Accept: accepted(kindAnswers, kindNames(label))}
			c.consent = answerCase(e.ClueNames, consentAnswers, label, notes.Extra, "auth", "")
			c.state = answerCase(e.ClueNames, stateAnswers, label, notes.Deficiency, "state", "found")
			c.done = doneCase(e, label)
			c.whole = fit.Case{Features: e.ClueNames, Accept: accepted(outcomeAnswers, strings.Split(label.Outcome, "|"))}
			if len(e.ClueNames) == words[e] {
				c.whole.Features, c.consent.Features, c.state.Features, c.done.Features = nil, nil, nil, nil // it has a label, or stands for the entry above
			}
			if strings.Contains(j.set, "plain/") {
				c.kind.Weight, c.whole.Weight = plainWeight, plainWeight
			}
			all = append(all, c)
		}
	}
	return all
}

// plainWeight is how much ordinary lines count that have to stay right.
const plainWeight = 3

var (
	consentAnswers = []string{"none", "asked", "authorized", "declined"}
	stateAnswers   = []string{"found", "made-safe", "corrected", "left", "declined"}
)

// answerCase is a case of what was answered or done about an entry; unsaid stands where its label does not say.
func answerCase(clues, answers []string, l reading.Label, of notes.Outcome, fact, unsaid string) fit.Case {
	said, labelled := l.Facts[fact]
	if !labelled || said == "open" {
		said = unsaid
	}
	if l.Outcome != string(of) || said == "" {
		return fit.Case{}
	}
	return fit.Case{Features: clues, Accept: accepted(answers, []string{strings.ReplaceAll(said, " ", "-")})}
}

var doneAnswers = []string{"yes", "no", "unsaid"}

// doneCase is a case of whether booked work is done. A label that does not say leaves it to the rules, or unsaid: its
// writer may have found nothing to say, or not cared.
func doneCase(e *notes.Entry, l reading.Label) fit.Case {
	if l.Outcome != string(notes.InScope) {
		return fit.Case{}
	}
	right := []string{l.Facts["done"]}
	if right[0] == "" {
		right = []string{"unsaid"}
		switch e.Facts.Progress.Complete {
		case notes.Yes:
			right = append(right, "yes")
		case notes.No:
			right = append(right, "no")
		}
	}
	return fit.Case{Features: e.ClueNames, Accept: accepted(doneAnswers, right)}
}

func kindNames(l reading.Label) []string {
	var names []string
	for _, k := range l.Kinds() {
		names = append(names, string(k))
	}
	return names
}

func accepted(answers []string, right []string) []int {
	var all []int
	for _, r := range right {
		if i := slices.Index(answers, r); i >= 0 {
			all = append(all, i)
		}
	}
	return all
}

// fitOptions are how all models are fitted.
var fitOptions = fit.Options{Least: 3, Hold: 1}

// TestFit fits the models of kinds, lines, outcomes and answers anew, or says how well they do on sets they were not fitted to.
func TestFit(t *testing.T) {
	if *fitSets == "" {
		return
	}
	sets := strings.Split(*fitSets, ",")
	var jobs []labelledJob
	for _, set := range sets {
		jobs = append(jobs, labelledJobs(t, set)...)
	}
	all := crossed(t, jobs)
	kind := func(c fitCase) fit.Case { return c.kind }
	whole := func(c fitCase) fit.Case { return c.whole }
	consent := func(c fitCase) fit.Case { return c.consent }
	state := func(c fitCase) fit.Case { return c.state }
	done := func(c fitCase) fit.Case { return c.done }
	if *fitApart != "" {
		apart(t, all, "kinds", kindAnswers, kind)
		apart(t, all, "outcomes", outcomeAnswers, whole)
		apart(t, all, "consent", consentAnswers, consent)
		apart(t, all, "state", stateAnswers, state)
		apart(t, all, "done", doneAnswers, done)
		return
	}
	writeModel(t, "../parse/kinds.model", kindAnswers, pickCases(all, kind))
	writeModel(t, "../reconcile/outcomes.model", outcomeAnswers, pickCases(all, whole))
	writeModel(t, "../reconcile/consent.model", consentAnswers, pickCases(all, consent))
	writeModel(t, "../reconcile/state.model", stateAnswers, pickCases(all, state))
	writeModel(t, "../reconcile/done.model", doneAnswers, pickCases(all, done))
}

// folds is in how many parts the jobs are laid, each with models of lines fitted to the others: a model that has
// seen the answers is surer than it will ever be again, and what builds on it has to know it as it will be.
const folds = 5

// crossed are the cases of jobs, with the chances of lines as models say that have not seen their writer.
func crossed(t *testing.T, jobs []labelledJob) []fitCase {
	choices := make([][]fit.Choice, folds)
	for _, j := range jobs {
		choices[j.fold()] = append(choices[j.fold()], j.choices()...)
	}
	cases := make([][]fitCase, folds)
	var wait sync.WaitGroup
	for k := range folds {
		wait.Go(func() {
			var others []fit.Choice
			for o := range folds {
				if o != k {
					others = append(others, choices[o]...)
				}
			}
			weights := fitLines(others)
			if *fitApart != "" {
				rateLines(t, weights, choices[k])
			}
			m, err := chance.Parse(weights.Text("means", least))
			if err != nil {
				t.Error(err)
				return
			}
			for _, j := range jobs {
				if j.fold() == k {
					cases[k] = append(cases[k], j.cases(m)...)
				}
			}
		})
	}
	wait.Wait()
	if *fitApart == "" {
		all := slices.Concat(choices...)
		text := fitLines(all).Text("means", least)
		t.Logf("../reconcile/lines.model: %d cases, %d bytes", len(all), len(text))
		require.NoError(t, os.WriteFile("../reconcile/lines.model", []byte(text), 0o644))
	}
	return slices.Concat(cases...)
}

// fold is the part a job lies in: that of its writer.
func (j labelledJob) fold() int {
	h := fnv.New32a()
	dir, name := path.Split(strings.TrimPrefix(j.set, "entries/"))
	writer, _, marked := strings.Cut(name, "_")
	if !marked || len(writer) > 1 {
		writer = dir + name
	}
	h.Write([]byte(writer))
	return int(h.Sum32() % folds)
}

// least is the smallest weight that is kept.
const least = 0.05

func fitLines(cs []fit.Choice) fit.Scores {
	o := fitOptions
	o.Hold, o.Least = *fitHold, *fitLeast
	return fit.FitChoices(cs, o)
}

// choices are the entries of a job about booked work or an extra, each with the clues that it means each line, and
// none, which stands last.
func (j labelledJob) choices() []fit.Choice {
	clues := map[finding.Span][][]string{}
	j.reconciled(reconcile.Input{OnLines: func(e *notes.Entry, c [][]string) { clues[e.Span] = c }})
	var all []fit.Choice
	for _, n := range j.days {
		for _, a := range reading.Align(entriesOf(n), j.labels[n.File.Name]) {
			if c := (fit.Choice{Options: clues[a.Said.Span], Accept: j.means(a.Want)}); len(c.Options) > 0 && len(c.Accept) > 0 {
				all = append(all, c)
			}
		}
	}
	return all
}

// means are the lines a label says its words mean, by index; that of none is the number of lines.
func (j labelledJob) means(l reading.Label) []int {
	if l.Outcome == string(notes.Extra) {
		return []int{len(j.job.Lines)}
	}
	var lines []int
	if l.Outcome == string(notes.InScope) || l.Outcome == string(notes.LeftOpen) {
		for label := range strings.FieldsFuncSeq(l.Facts["lines"], func(r rune) bool { return r == ',' || r == '|' }) {
			if i := slices.IndexFunc(j.job.Lines, func(x notes.ScopeLine) bool { return x.Label == label }); i >= 0 {
				lines = append(lines, i)
			}
		}
	}
	return lines
}

func pickCases(all []fitCase, which func(fitCase) fit.Case) []fit.Case {
	var cs []fit.Case
	for _, c := range all {
		if w := which(c); len(w.Features) > 0 && len(w.Accept) > 0 {
			cs = append(cs, w)
		}
	}
	return cs
}

func writeModel(t *testing.T, path string, answers []string, cases []fit.Case) {
	o := fitOptions
	o.Answers, o.Hold, o.Least = answers, *fitHold, *fitLeast
	text := fit.Fit(cases, o).Text(answers, least)
	t.Logf("%s: %d cases, %d features, %d bytes", path, len(cases), bytes.Count([]byte(text), []byte("\n"))-1, len(text))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}
