package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// A lineClue is something that may hold of an entry and a booked line, or of an entry that means no line. Its name
// is what the model of lines knows it by, and what a person is shown.
type lineClue int

// The clues of an entry and a line, in groups. Those of words alone, such as that one stands for another, have only
// names.
const (
	clueLine lineClue = iota
	clueNothing
	clueVeto
	clueVetoPlace
	clueEvidence                                  // one for each kind of evidence
	clueCovers       = clueEvidence + evidenceLen // by step
	clueCovered      = clueCovers + stepCount     // by step
	clueShare        = clueCovered + stepCount    // by class and state
	clueSameHead     = clueShare + 5*shareStates  // and the single ones
	clueKin          = clueSameHead + 1           // by how many
	clueKinOfHead    = clueKin + 3
	clueKinHeads     = clueKinOfHead + 1
	clueKinAlone     = clueKinHeads + 1
	clueMostKin      = clueKinAlone + 1
	clueLessKin      = clueMostKin + 1
	clueOtherKin     = clueLessKin + 1
	clueRoot         = clueOtherKin + 1 // by how many
	clueOtherFits    = clueRoot + 2
	clueWhere        = clueOtherFits + 1                        // by how whereabouts stand
	clueWhereAbout   = clueWhere + whereStates                  // and by what both are about
	clueElsewhere    = clueWhereAbout + aboutStates*whereStates // some, only, unknown
	clueOf           = clueElsewhere + 3                        // by what it is out of
	clueCounts       = clueOf + 3                               // by first or not, pieces or measure, and how many
	clueNumber       = clueCounts + 2*2*countStates
	clueComplete     = clueNumber + 1
	clueBegun        = clueComplete + 1
	clueTouched      = clueBegun + 1
	clueRestBegun    = clueTouched + 1
	clueRestNotBegun = clueRestBegun + 1
	clueSaid         = clueRestNotBegun + 1 // by how far above
	clueNext         = clueSaid + mostAbove
	clueHeard        = clueNext + 1 // one, more, one alone, more alone
	clueNone         = clueHeard + 4
	clueNoneShared   = clueNone + 1
	clueNoneHead     = clueNoneShared + 1
	clueNoneTrade    = clueNoneHead + 1
	lineClueLen      = clueNoneTrade + 1
)

// mostAbove is how many entries about booked work above an entry are looked at.
const mostAbove = 3

// How an entry and a line share terms of a class.
const (
	shareOne = iota
	shareMore
	shareOther  // each has its own
	lineOnly    // only the line has some
	entryOnly   // only the entry has
	shareStates // how many there are
)

// How what an entry counts stands to what is left of a line.
const (
	countMore = iota // more than is left
	countRest        // all that is left of what was begun
	countAll         // all of it at once
	countOne         // the only one
	countSome        // fewer
	countStates
)

// classes are the classes of terms that may be shared, with their names.
var classes = []struct {
	class field.TermClass
	name  string
}{
	{field.ThingTerm, "thing"}, {field.OtherTerm, "word"}, {field.PlaceTerm, "place"}, {field.DesignationTerm, "designation"}, {field.VerbTerm, "verb"},
}

// classOf returns the place of a class among classes, or -1.
func classOf(c field.TermClass) int {
	switch c {
	case field.ThingTerm:
		return 0
	case field.OtherTerm:
		return 1
	case field.PlaceTerm:
		return 2
	case field.DesignationTerm:
		return 3
	case field.VerbTerm:
		return 4
	}
	return -1
}

// lineClueNames are the names by clue.
var lineClueNames = nameLineClues()

func nameLineClues() [lineClueLen]string {
	var n [lineClueLen]string
	group := func(from lineClue, names ...string) {
		copy(n[from:], names)
	}
	group(clueLine, "it is a booked line", "shares no word", "is kept out by a veto", "is another place")
	for i, said := range evidenceSaid {
		n[int(clueEvidence)+i] = said
	}
	for i, s := range steps {
		n[int(clueCovers)+i] = "has " + s.name + " in 100 of the line's words"
		n[int(clueCovered)+i] = "the line has " + s.name + " in 100 of its words"
	}
	for i, c := range classes {
		group(clueShare+lineClue(i*shareStates), "shares a "+c.name, "shares more than one "+c.name, "each has another "+c.name, "only the line has a "+c.name, "only it has a "+c.name)
	}
	group(clueSameHead, "is about the same thing", "has a word that goes with the line", "has two words that go with the line", "has more words that go with the line",
		"goes with what the line is about", "what it is about goes with what the line is about", "goes with this line alone", "goes with this line most",
		"goes with another line more", "goes with other lines", "shares the root of a word", "shares the roots of words", "shares words with other lines")
	group(clueWhere, whereNames[:]...)
	for i, about := range aboutNames {
		for k, where := range whereNames {
			n[int(clueWhereAbout)+i*whereStates+k] = about + ", " + where
		}
	}
	group(clueElsewhere, "says where another line is", "says only where other lines are", "says where no line is")
	group(clueOf, "out of as many as are booked", "out of as many as are left", "out of another number")
	for i, first := range []string{"counts ", "counts besides "} {
		for k, unit := range []string{"pieces", "a measure"} {
			group(clueCounts+lineClue((2*i+k)*countStates), first+unit+", more than are left", first+unit+", all that are left", first+unit+", all that are booked",
				first+unit+", the only one", first+unit+", some of them")
		}
	}
	group(clueNumber, "names the number booked", "the line is complete", "the line was begun before", "the line was told of that day",
		"the rest of what was begun", "the rest of what was not begun", "the entry above is of the line", "the one before that is of the line", "an entry further up is of the line",
		"the entry above is of the line before", "a word was used of the line before", "words were used of the line before", "a word was used of this line alone", "words were used of this line alone")
	group(clueNone, "means no line", "no line, shares no word", "no line, names no thing", "no line, names nothing of the trade")
	return n
}

// steps are how high a share or a probability is, highest first.
var steps = []struct {
	from float64
	name string
}{{0.99, "99"}, {0.95, "95"}, {0.85, "85"}, {0.7, "70"}, {0.5, "50"}, {0.3, "30"}, {0.1, "10"}, {0.03, "3"}, {-1, "0"}}

const stepCount = 9

// stepOf returns the step of a share.
func stepOf(p float64) int {
	for i := range steps {
		if p >= steps[i].from {
			return i
		}
	}
	return stepCount - 1
}

// step names how high a probability is.
func step(p float64) string { return steps[stepOf(p)].name }

// words adds what the words themselves say for line i.
func (t *lineTally) words(m *match) {
	t.say(clueLine)
	if !m.touched {
		t.say(clueNothing)
		return
	}
	t.when(m.veto != "", clueVeto)
	t.when(m.place, clueVetoPlace)
	for i, name := range evidenceClues {
		t.when(name != "" && m.evidence[i] > 0, clueEvidence+lineClue(i))
	}
	t.say(clueCovers + lineClue(stepOf(m.evidence[evCoverage])))
	t.say(clueCovered + lineClue(stepOf(m.evidence[evPrecision])))
}

// counts adds how what an entry counts stands to what is booked and left of a line.
func (t *lineTally) counts(f *notes.Facts, line *notes.ScopeLine, left notes.Decimal, begun bool) {
	one := notes.Int(1)
	if of := f.Progress.Of; of != nil {
		switch {
		case of.Equal(line.Qty.Value) && line.Qty.Value.Cmp(one) > 0:
			t.say(clueOf)
		case of.Equal(left) && left.Cmp(one) > 0:
			t.say(clueOf + 1)
		default:
			t.say(clueOf + 2)
		}
	}
	for n := range f.Items {
		qty := &f.Items[n].Qty
		if !qty.Written() {
			continue
		}
		q, same := qty.In(line.Qty.Unit)
		if !same {
			t.word("counts in ", string(qty.Unit), ", booked in ", string(line.Qty.Unit))
			continue
		}
		group := clueCounts
		if n > 0 {
			group += 2 * countStates
		}
		if line.Qty.Unit != notes.Each {
			group += countStates
		}
		t.say(group + lineClue(countState(q.Value, left, begun)))
	}
}

func countState(n, left notes.Decimal, begun bool) int {
	one := notes.Int(1)
	switch more := n.Cmp(left); {
	case more > 0:
		return countMore
	case more == 0 && left.Cmp(one) > 0 && begun:
		return countRest
	case more == 0 && left.Cmp(one) > 0:
		return countAll
	case left.Equal(one):
		return countOne
	}
	return countSome
}

// number adds that an entry names the very number that is booked, of more than a few.
func (t *lineTally) number(numbers []int, line *notes.ScopeLine) {
	const few = 4
	if len(numbers) == 0 || line.Qty.Value.Cmp(notes.Int(few)) <= 0 {
		return
	}
	for _, n := range numbers {
		if line.Qty.Value.Equal(notes.Int(n)) {
			t.say(clueNumber)
			return
		}
	}
}

// wholeNumbers are the numbers of a text that stand alone, in the memory of all.
func wholeNumbers(all []int, text string) []int {
	all = all[:0]
	for i := 0; i < len(text); {
		if text[i] < '0' || text[i] > '9' {
			i++
			continue
		}
		j := i
		for j < len(text) && text[j] >= '0' && text[j] <= '9' {
			j++
		}
		alone := (i == 0 || strings.IndexByte(" (=x", text[i-1]) >= 0) && (j == len(text) || strings.IndexByte(" ,.;:)'", text[j]) >= 0)
		if n, err := strconv.Atoi(text[i:j]); alone && j-i < 6 && err == nil {
			all = append(all, n)
		}
		i = j
	}
	return all
}

// context adds how a line stands, and whether what was said just before is about it.
func (t *lineTally) context(d *day, f *notes.Facts, i int) {
	ls, ld := &d.standing.lines[i], &d.lines[i]
	p := &f.Progress
	begun := ls.begun || ld.touched
	t.when(ls.complete || ld.finished, clueComplete)
	t.when(ls.begun, clueBegun)
	t.when(ld.touched, clueTouched)
	if p.Rest || p.All || p.Complete == notes.Yes {
		t.when(begun, clueRestBegun)
		t.when(!begun, clueRestNotBegun)
	}
	for back, lines := range t.above {
		t.when(slices.Contains(lines, i), clueSaid+lineClue(back))
		t.when(back == 0 && slices.Contains(lines, i-1), clueNext)
	}
}
