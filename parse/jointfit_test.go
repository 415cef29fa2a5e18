package parse

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/chance/fit"
	"jobday/finding"
	"jobday/notes"
	"jobday/testdata/reading"
)

var (
	fitSets    = flag.String("fit", "", "fit the model of joints to these sets of testdata/reading, parted by commas")
	fitAgainst = flag.String("against", "", "with -fit: write no model, but say how well these sets are parted")
	fitHold    = flag.Float64("hold", 1, "how strongly weights are held to zero")
)

var jointAnswers = []string{partsThere, readsOn}

// A labelledNote is a note with its labels by line.
type labelledNote struct {
	name string
	text []byte
	want map[int][]reading.Label
	made map[joined]bool // of a text put together from lines of others: where it parts
}

// joined is a place where a text may part: within a line, or where it begins.
type joined struct {
	at    int
	begin bool
}

// read reads a note, and lets joint decide where it parts.
func (n labelledNote) read(joint func(r *noteReader, at int, m meeting, clues []string) bool) {
	f := finding.NewFile(n.name, n.text)
	note, found := &notes.DayNote{File: f}, finding.List{}
	h := readHead(f, &found)
	headOfNote(note, h.keys, &found)
	r := newNoteReader(note, NoteContext{People: reading.People}, &found)
	r.atJoint = func(at int, m meeting, clues []string) bool { return joint(r, at, m, clues) }
	lines, _ := markdownLines(noteMarkdown, f.Text[h.body:], h.body)
	r.read(lines)
}

func (n labelledNote) lineAt(at int) int {
	return 1 + strings.Count(string(n.text[:at]), "\n")
}

// A labelledJoint is a place where a note may part, and whether it does.
type labelledJoint struct {
	at      int
	meeting meeting
	in      notes.Section
	parts   bool
}

// jointsOf says of each place where a note may part whether its labels say so; places they say nothing of are left
// out.
func (n labelledNote) jointsOf() map[joined]bool {
	byLine := map[int][]labelledJoint{}
	n.read(func(r *noteReader, at int, m meeting, _ []string) bool {
		line := n.lineAt(at)
		in := r.section.name
		if r.carry.section != "" {
			in = r.carry.section
		}
		byLine[line] = append(byLine[line], labelledJoint{at, m, in, m.rule == partsThere})
		return m.rule == partsThere
	})
	gold := map[joined]bool{}
	for line, js := range byLine {
		var inner []labelledJoint
		for _, j := range js {
			switch j.meeting.how {
			case "line", "above":
				parts := len(n.want[line]) > 0
				if m := j.meeting; parts || m.full || m.indented || m.rule == readsOn {
					gold[joined{j.at, true}] = parts
				}
			default:
				inner = append(inner, j)
			}
		}
		for at, parts := range n.partsOf(line, inner) {
			gold[joined{at, false}] = parts
		}
	}
	return gold
}

func (n labelledNote) lineText(line int) string {
	return strings.Split(string(n.text), "\n")[line-1]
}

// partsOf finds at which joints of a line its labels part it: those where its pieces are likeliest to be of the
// kinds the labels say.
func (n labelledNote) partsOf(line int, js []labelledJoint) map[int]bool {
	want := n.want[line]
	// things of a list are parted as a list
	var kinds [][]notes.Kind
	for i, l := range want {
		if i > 0 && l.Outcome == want[i-1].Outcome && (l.Outcome == string(notes.TimeEntry) || l.Outcome == string(notes.Material)) {
			continue
		}
		if l.Outcome == string(notes.Unclear) {
			return nil
		}
		kinds = append(kinds, l.Kinds())
	}
	if len(js) == 0 || len(kinds) == 0 || len(kinds)-1 > len(js) {
		return nil
	}
	parts := map[int]bool{}
	for _, j := range js {
		parts[j.at] = false
	}
	if len(kinds) == 1 {
		return parts
	}
	slices.SortFunc(js, func(a, b labelledJoint) int { return a.at - b.at })
	start := 0
	for i, l := range strings.SplitAfter(string(n.text), "\n") {
		if i == line-1 {
			break
		}
		start += len(l)
	}
	end := start + len(n.lineText(line))
	at := []int{start}
	for _, j := range js {
		at = append(at, j.at)
	}
	at = append(at, end)
	for _, cut := range n.likeliest(at, js, kinds) {
		parts[cut] = true
	}
	return parts
}

// likeliest chooses where to part a line between at[0] and the last of at into pieces of the kinds wanted.
func (n labelledNote) likeliest(at []int, js []labelledJoint, kinds [][]notes.Kind) []int {
	last := len(at) - 1
	memo := map[[2]int]float64{}
	score := func(i, j int, ks []notes.Kind, k int) float64 {
		key := [2]int{i*1000 + j, k}
		if s, ok := memo[key]; ok {
			return s
		}
		s := logChance(string(n.text[at[i]:at[j]]), js[0].in, ks)
		memo[key] = s
		return s
	}
	const impossible = -1e9
	best := make([][]float64, len(kinds)+1)
	from := make([][]int, len(kinds)+1)
	for k := range best {
		best[k], from[k] = make([]float64, len(at)), make([]int, len(at))
		for j := range best[k] {
			best[k][j] = impossible
		}
	}
	best[0][0] = 0
	for k := 1; k <= len(kinds); k++ {
		for j := 1; j <= last; j++ {
			for i := 0; i < j; i++ {
				if best[k-1][i] <= impossible {
					continue
				}
				s := best[k-1][i] + score(i, j, kinds[k-1], k)
				if j < last {
					s += liking(js[j-1].meeting)
				}
				if s > best[k][j] {
					best[k][j], from[k][j] = s, i
				}
			}
		}
	}
	var cuts []int
	for k, j := len(kinds), last; k > 1; k-- {
		j = from[k][j]
		cuts = append(cuts, at[j])
	}
	return cuts
}

// liking prefers, of joints that are as likely, the stronger one, and the one that the rules part at.
func liking(m meeting) float64 {
	s := 0.0
	if m.rule == partsThere {
		s += 0.5
	}
	switch m.how {
	case ".", ";":
		s += 1
	case ",":
		s += 0.3
	}
	return s
}

// logChance is how likely a text is of one of some kinds.
func logChance(text string, in notes.Section, wanted []notes.Kind) float64 {
	f := finding.NewFile("2026-03-03.md", []byte(text))
	r := newNoteReader(&notes.DayNote{File: f, Crew: []string{"Ana", "Bo"}}, NoteContext{People: reading.People}, &finding.List{})
	marks := r.scan.scan(r.body, 0)
	if len(marks) == 0 {
		return -5
	}
	facts := r.facts(r.body, in)
	e := evidenceOf(marks, &facts)
	r.clues.gather(marks, e, setting{in: in, rule: judge(e, in)})
	m := kinds()
	p := 0.0
	for a, x := range m.Weigh(nil, r.clues.Of) {
		if slices.Contains(wanted, notes.Kind(m.Answers[a])) {
			p += x
		}
	}
	return math.Log(max(p, 1e-4))
}

// labelledNotes reads the notes of a set. Its single entries have one label each whatever they say, and so tell nothing
// of where texts part.
func labelledNotes(t *testing.T, set string) []labelledNote {
	archives, err := reading.Archives(set)
	require.NoError(t, err)
	var all []labelledNote
	for _, a := range archives {
		for _, f := range a.Files {
			if reading.IsNote(f.Name) {
				text, want, err := reading.Unlabel(f.Data)
				require.NoError(t, err)
				all = append(all, labelledNote{name: f.Name, text: text, want: want})
			}
		}
	}
	return append(all, putTogether(all)...)
}

// putTogether writes lines that follow one another in a note as one: two things in one line, or four as a paragraph
// wrapped as editors do. Who writes two things on two lines may as well write them on one.
func putTogether(all []labelledNote) []labelledNote {
	const few, many = 2, 4
	var made []labelledNote
	for _, n := range all {
		lines := strings.Split(string(n.text), "\n")
		for i := range lines {
			switch len(lines[i]) % 5 {
			case 0, 1:
				made = n.join(made, lines, i, few, []string{". ", "; ", ". "}[len(lines[i])%3], 1000)
			case 2:
				made = n.join(made, lines, i, many, ". ", 58+len(lines[i])%40)
			}
		}
	}
	return made
}

// join adds a note of one paragraph of the lines from index i on, if each has one label and none is of the kind of the
// one before it.
func (n labelledNote) join(made []labelledNote, lines []string, i, many int, by string, width int) []labelledNote {
	const head = "---\ncrew: [Ana, Bo]\n---\n\n"
	text, parts := []byte(head), map[joined]bool{}
	for k := range many {
		want := n.want[i+k+1]
		if len(want) != 1 || k > 0 && (want[0].Outcome == n.want[i+k][0].Outcome) {
			return made
		}
		said := strings.TrimRight(strings.TrimLeft(lines[i+k], " -*\t"), " .,;")
		if said == "" || !isLetter(said[0]) && !isDigit(said[0]) || strings.HasSuffix(said, ":") {
			return made
		}
		if k > 0 {
			text = append(text, by...)
			parts[joined{len(text), false}], parts[joined{len(text), true}] = true, true
		}
		if by == ". " {
			said = strings.ToUpper(said[:1]) + said[1:]
		}
		text = append(text, said...)
	}
	from, blank := len(head), 0
	for at := len(head); at < len(text); at++ {
		if text[at] == ' ' {
			blank = at
		}
		if at-from >= width && blank > from {
			text[blank], from = '\n', blank+1
		}
	}
	return append(made, labelledNote{name: "2026-03-16.md", text: append(text, '\n'), made: parts})
}

// A jointCase is a place where a text may part, with its clues.
type jointCase struct {
	fit.Case
	meeting
	made bool
}

func (c jointCase) parts() bool { return c.Accept[0] == 0 }

// jointCases are the joints of a set; those of lines that nothing is known of are left out.
func jointCases(t *testing.T, set string) []jointCase {
	var all []jointCase
	for _, n := range labelledNotes(t, set) {
		known := n.made
		if known == nil {
			known = n.jointsOf()
		}
		n.read(func(_ *noteReader, at int, m meeting, clues []string) bool {
			parts, is := known[joined{at, m.how == "line" || m.how == "above"}]
			if n.made == nil && !is {
				return m.rule == partsThere
			}
			c := jointCase{fit.Case{Features: slices.Clone(clues), Accept: []int{1}, Weight: 1}, m, n.made != nil}
			if parts {
				c.Accept[0] = 0
			}
			switch {
			case n.made != nil:
				c.Weight = madeWeight
			case set == "plain":
				c.Weight = plainWeight
			}
			all = append(all, c)
			return parts
		})
	}
	return all
}

// How much joints count that were put together, and those of "plain", which was written to say how people go on.
const (
	madeWeight  = 0.3
	plainWeight = 3
)

// TestFitJoints fits the model of joints anew, or says how well it does on sets it was not fitted to.
func TestFitJoints(t *testing.T) {
	if *fitSets == "" {
		return
	}
	var cases []fit.Case
	for set := range strings.SplitSeq(*fitSets, ",") {
		for _, c := range jointCases(t, set) {
			cases = append(cases, c.Case)
		}
	}
	w := fit.Fit(cases, fit.Options{Answers: jointAnswers, Least: 3, Hold: *fitHold})
	if *fitAgainst == "" {
		text := w.Text(jointAnswers, 0.05)
		t.Logf("joints.model: %d cases, %d bytes", len(cases), len(text))
		require.NoError(t, os.WriteFile("joints.model", []byte(text), 0o644))
		return
	}
	told := map[string]*jointTally{}
	for set := range strings.SplitSeq(*fitAgainst, ",") {
		for _, c := range jointCases(t, set) {
			name := c.how
			if c.made {
				name = "put together " + c.how
			}
			if told[name] == nil {
				told[name] = &jointTally{}
			}
			told[name].add(c, w.Chances(c.Features, 2)[0] >= c.from)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(told)) {
		t.Logf("%-18s %s", name, told[name])
	}
}

// A jointTally counts how often texts were parted right.
type jointTally struct{ all, parts, rules, joined, parted int }

func (y *jointTally) add(c jointCase, model bool) {
	y.all++
	if c.parts() {
		y.parts++
	}
	if (c.rule == partsThere) == c.parts() {
		y.rules++
	}
	switch {
	case model && !c.parts():
		y.parted++
	case !model && c.parts():
		y.joined++
	}
}

func (y *jointTally) String() string {
	return fmt.Sprintf("%5d, of which %4d part; by rule right %5d, weighed right %5d: wrongly joined %3d, wrongly parted %3d",
		y.all, y.parts, y.rules, y.all-y.joined-y.parted, y.joined, y.parted)
}
