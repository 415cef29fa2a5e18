package compile_test

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/parse/field"
	"jobday/reconcile"
	"jobday/testdata/reading"
)

// TestEntries holds single labelled entries against booked scopes and prints how many were decided
// right, decided wrong and left unclear, every miss with its words, and how often a match that was
// taken with a confidence was right. It fails where dev is decided right less often than the floor
// below; the floor only rises.
func TestEntries(t *testing.T) {
	sets := []string{"dev", "dev2", "dev3", "dev4", "dev5", "dev6", "dev7", "dev8", "dev9", "dev10", "dev11", "dev12", "dev13", "counts", "counts2", "counts3"}
	if *score {
		sets = append(sets, "score", "score2", "score3", "score4", "score5", "score6", "score7", "score8")
	}
	for _, set := range sets {
		t.Run(set, func(t *testing.T) {
			s := entryScore{tally: tally{}, sure: map[notes.Outcome]*reliability{}}
			jobs := 0
			for _, a := range entryArchives(t, set) {
				for _, e := range a.entries {
					s.entry(t, a.name, e, a.compile(t, e))
				}
				jobs++
			}
			t.Logf("%d entries of %d jobs\n%s\n%s", s.tally["all"].all(), jobs, s.tally, s.reliabilities())
			if set == "counts" {
				assert.Zero(t, s.tally[" qty"].wrong, "a number read wrong is worse than none")
			}
			if c := s.tally["all"]; set == "dev" {
				assert.GreaterOrEqual(t, 1000*c.right, leastEntriesRight*c.all(), "entries decided right, of 1000")
				assert.LessOrEqual(t, 1000*c.wrong, mostEntriesWrong*c.all(), "entries decided wrong, of 1000")
			}
		})
	}
}

// Of 1000 entries of dev, how many have to be decided right and may be decided wrong.
const (
	leastEntriesRight = 820
	mostEntriesWrong  = 60
)

// entryArchive is one job with its labelled entries and the files it is compiled with.
type entryArchive struct {
	name    string
	folder  string
	files   []*finding.File
	entries []reading.Entry
}

func entryArchives(t testing.TB, set string) []entryArchive {
	t.Helper()
	archives, err := reading.Archives("entries/" + set)
	require.NoError(t, err)
	shop := readingShop(t)
	var all []entryArchive
	for _, data := range archives {
		a := entryArchive{name: data.Name}
		for _, f := range slices.Concat(shop.Files, data.Files) {
			if reading.IsEntries(f.Name) {
				a.folder = path.Dir(f.Name)
				a.entries, err = reading.Entries(f.Data)
				require.NoError(t, err, a.name)
				continue
			}
			a.files = append(a.files, finding.NewFile(f.Name, f.Data))
		}
		require.NotEmpty(t, a.entries, a.name)
		all = append(all, a)
	}
	return all
}

// A readEntry is what an entry was read as, and the authorization of the extra it became.
type readEntry struct {
	notes.EntryResult
	auth string
}

// compile compiles a book whose one note is the entry.
func (a entryArchive) compile(t testing.TB, e reading.Entry) []readEntry {
	note := "---\ncrew: [Ana, Bo]\n---\n"
	if e.Heading != "" {
		note += e.Heading + "\n\n"
	}
	files := append(slices.Clone(a.files), finding.NewFile(a.folder+"/2026-03-16.md", []byte(note+e.Text+"\n")))
	r := compile.Book(files, compile.Options{})
	require.NoError(t, invariants(r), "%s: %s", a.name, e.Text)
	for _, f := range r.Findings {
		if f.Severity == finding.Error && f.Span.File != nil && strings.HasSuffix(f.Span.File.Name, "scope.md") {
			require.Fail(t, f.Message, a.name)
		}
	}
	var got []readEntry
	for _, day := range r.Days() {
		for _, res := range day.Entries {
			got = append(got, readEntry{res, authOf(day, res.Source)})
		}
	}
	return merge(got, e.Want)
}

// merge returns the results as the labels count them: an entry that serves several lines may have
// been read as one or as one for each line.
func merge(got []readEntry, want []reading.Label) []readEntry {
	if len(want) != 1 || len(got) < 2 {
		return got
	}
	one := got[0]
	for _, g := range got[1:] {
		if g.Outcome != notes.InScope || one.Outcome != notes.InScope {
			return got
		}
		one.Lines = append(slices.Clone(one.Lines), g.Lines...)
	}
	slices.Sort(one.Lines)
	one.Lines = slices.Compact(one.Lines)
	return []readEntry{one}
}

// entryScore counts what was decided, and how right the confidences were.
type entryScore struct {
	tally tally
	sure  map[notes.Outcome]*reliability
}

func (s *entryScore) entry(t *testing.T, file string, e reading.Entry, got []readEntry) {
	for i, want := range e.Want {
		g := readEntry{EntryResult: notes.EntryResult{Outcome: notes.Narrative}}
		if i < len(got) {
			g = got[i]
		}
		if missed := s.one(want, g); len(missed) > 0 {
			t.Logf("%s:%d %q: expected %s, read %s %.2f (%s)", file, e.Line, e.Text, strings.Join(missed, " "), g.Outcome, g.Confidence, briefly(g))
		}
	}
	for _, g := range got[min(len(got), len(e.Want)):] {
		if g.Outcome == notes.Material || g.Outcome == notes.TimeEntry || g.Outcome == notes.Narrative {
			continue // a material or the hours beside the work
		}
		s.tally.add("invented", "", string(g.Outcome), g.Outcome == notes.Unclear)
		t.Logf("%s:%d %q: invented %s %v (%s)", file, e.Line, e.Text, g.Outcome, g.Lines, g.Text)
	}
}

func briefly(g readEntry) string {
	out := g.Why
	if len(g.Lines) > 0 {
		out = strings.Join(g.Lines, ",") + " " + out
	}
	for _, c := range g.Candidates {
		out += fmt.Sprintf("; %s %.2f", c.Line, c.Confidence)
	}
	return out
}

// one scores one label and returns what was expected where the reading differs.
func (s *entryScore) one(want reading.Label, g readEntry) (missed []string) {
	outcomes := strings.Split(want.Outcome, "|")
	right := slices.Contains(outcomes, string(g.Outcome))
	facts := map[string]string{}
	for _, f := range factsOf(g.EntryResult) {
		facts[f.key] = f.value
	}
	lines, booked := want.Facts["lines"]
	rightLine := right && (g.Outcome != notes.InScope || slices.Contains(strings.Split(lines, "|"), facts["lines"]))
	unclear := g.Outcome == notes.Unclear
	expect, read := outcomes[0], string(g.Outcome)
	if right {
		read = expect
	}
	s.tally.add(expect, expect, read, unclear)
	whole := "wrong"
	if rightLine {
		whole = "right"
	}
	s.tally.add("all", "right", whole, unclear)
	s.rely(g, rightLine, lines)
	if !right {
		return append(missed, want.Outcome, "lines="+lines)
	}
	if booked && g.Outcome == notes.InScope {
		s.tally.add(" lines", lines, pick(lines, facts["lines"]), false)
		if !rightLine {
			return append(missed, "lines="+lines)
		}
	}
	facts["auth"] = g.auth
	for _, k := range []string{"qty", "done", "auth"} {
		value, labelled := want.Facts[k]
		if !labelled || string(g.Outcome) != outcomes[0] {
			continue
		}
		if value == "none" && k != "auth" {
			value = ""
		}
		if !s.tally.add(" "+k, value, pick(value, facts[k]), facts[k] == "") {
			missed = append(missed, k+"="+value+", read "+facts[k])
		}
	}
	return missed
}

// pick returns all when got is one of its choices, so that the two compare equal.
func pick(all, got string) string {
	if slices.Contains(strings.Split(all, "|"), got) {
		return all
	}
	return got
}

// A reliability counts, by tenths of confidence, how many were right. The last row is 1 exactly.
type reliability [11]struct {
	n, right int
	sum      float64
}

// rely counts a decision beside the confidence it was made with. An entry left unclear counts as
// right when its first candidate is the line.
func (s *entryScore) rely(g readEntry, right bool, lines string) {
	switch g.Outcome {
	case notes.InScope, notes.Extra:
	case notes.Unclear:
		right = len(g.Candidates) > 0 && lines != "" && slices.Contains(strings.Split(lines, "|"), g.Candidates[0].Line)
	default:
		return
	}
	if s.sure[g.Outcome] == nil {
		s.sure[g.Outcome] = &reliability{}
	}
	row := &s.sure[g.Outcome][min(10, max(0, int(g.Confidence*10)))]
	row.n++
	row.sum += g.Confidence
	if right {
		row.right++
	}
}

func (s *entryScore) reliabilities() string {
	var out strings.Builder
	for _, o := range []notes.Outcome{notes.InScope, notes.Unclear, notes.Extra} {
		fmt.Fprintf(&out, "%-10s %6s %6s %8s %8s\n", o, "from", "n", "stated", "right")
		if s.sure[o] == nil {
			continue
		}
		for i, row := range s.sure[o] {
			if row.n > 0 {
				fmt.Fprintf(&out, "%-10s %6.1f %6d %8.2f %8.2f\n", "", float64(i)/10, row.n, row.sum/float64(row.n), float64(row.right)/float64(row.n))
			}
		}
	}
	return out.String()
}

// BenchmarkEntry reads labelled entries and matches them to a scope of 30 lines. The metric is
// microseconds an entry: "read" is the words alone, "note" the whole note with its structure,
// "match" everything from entries to an unpriced day.
func BenchmarkEntry(b *testing.B) {
	scope, note, texts := thirtyLines(b)
	job, _ := parse.Scope(scope)
	require.Len(b, job.Lines, 30)
	day, _ := parse.Note(note, parse.NoteContext{})
	require.GreaterOrEqual(b, len(day.Entries), len(texts))
	perEntry := func(b *testing.B) {
		b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(len(texts)), "us/entry")
	}
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			for _, text := range texts {
				field.Read(text, nil)
			}
		}
		perEntry(b)
	})
	b.Run("note", func(b *testing.B) {
		for b.Loop() {
			parse.Note(note, parse.NoteContext{})
		}
		perEntry(b)
	})
	b.Run("match", func(b *testing.B) {
		for b.Loop() {
			reconcile.Job(reconcile.Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: job, Notes: []*notes.DayNote{day}})
		}
		perEntry(b)
	})
}

// thirtyLines makes one scope of the first lines of several jobs, and a note of their entries.
func thirtyLines(b *testing.B) (scope, note *finding.File, texts []string) {
	table := "---\njob: 1\ntitle: All\ncustomer: All\n---\n\n## Scope\n\n| Line | Work | Qty | Unit | Price |\n|---|---|---|---|---|\n"
	body, n := "## Done\n", 0
	for _, a := range entryArchives(b, "dev") {
		j, _ := parse.Scope(a.files[len(a.files)-1])
		if n+len(j.Lines) > 30 {
			j.Lines = j.Lines[:30-n]
		}
		for _, l := range j.Lines {
			n++
			table += fmt.Sprintf("| N%d | %s | %s | %s | 10.00 |\n", n, l.Work, l.Qty.Value, l.Qty.Unit)
		}
		for _, e := range a.entries {
			text := strings.TrimPrefix(e.Text, "- ")
			body += "- " + text + "\n"
			texts = append(texts, text)
		}
		if n == 30 {
			break
		}
	}
	return finding.NewFile("jobs/1-all/scope.md", []byte(table)), finding.NewFile("jobs/1-all/2026-03-16.md", []byte(body)), texts
}
