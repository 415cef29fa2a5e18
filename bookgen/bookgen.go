// Package bookgen makes job books of any size for the benchmarks and the property tests. The same
// size and seed give the same bytes on any machine. What it writes is meant to look like a crew's
// notes, about 2 KB and 20 to 30 entries each, in several styles of writing; its figures mean nothing.
package bookgen

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/testdata/demo"
)

// Size says how large a book is: so many jobs side by side, so many working days, a note for each.
// A job ends after JobDays and the next begins in its place, as crews move on; 0 stands for
// UsualJob, and Days for one that never ends.
type Size struct {
	Jobs    int
	Days    int
	JobDays int
	Seed    uint64
}

// UsualJob is how many days a job takes when nothing else is said: five weeks.
const UsualJob = 25

// Files returns the book: the demo's company, prices and words, then a scope and the notes of each
// job, by name.
func Files(s Size) []*finding.File {
	if s.JobDays <= 0 {
		s.JobDays = UsualJob
	}
	var files []*finding.File
	for _, name := range []string{"company.yaml", "prices.csv", "words.yaml"} {
		text, err := fs.ReadFile(demo.FS, name)
		if err != nil {
			panic("bookgen: " + err.Error())
		}
		files = append(files, finding.NewFile(name, text))
	}
	for j := range s.Jobs {
		for first := 0; first < s.Days; first += s.JobDays {
			files = append(files, job(s, j, first)...)
		}
	}
	return files
}

// firstDay is when every generated job starts: a Monday.
var firstDay = notes.Date{Year: 2026, Month: 1, Day: 5}

func job(s Size, j, first int) []*finding.File {
	g := &gen{r: rand.New(rand.NewPCG(s.Seed, uint64(j)<<32|uint64(first)))}
	number := 3000 + 100*j + first/s.JobDays
	folder := fmt.Sprintf("jobs/%d-%s/", number, strings.ReplaceAll(g.pick(places), " ", "-"))
	g.scope(number)
	files := []*finding.File{finding.NewFile(folder+"scope.md", []byte(g.out.String()))}
	for d := first; d < min(first+s.JobDays, s.Days); d++ {
		date := firstDay.AddDays(d/5*7 + d%5)
		g.out.Reset()
		g.note(date)
		files = append(files, finding.NewFile(folder+date.String()+".md", []byte(g.out.String())))
	}
	return files
}

// A gen writes one job.
type gen struct {
	r    *rand.Rand
	out  strings.Builder
	work []scopeWork // the job's lines
	crew []string
}

// A scopeWork is a line of the generated scope.
type scopeWork struct {
	label, what string
	qty         int
}

func (g *gen) pick(from []string) string { return from[g.r.IntN(len(from))] }

func (g *gen) line(format string, args ...any) { fmt.Fprintf(&g.out, format+"\n", args...) }

func (g *gen) scope(number int) {
	g.line("---\njob: %d\ntitle: %s, %s\ncustomer: %s\nsite: %d %s\nbooked: %s\ntax: %s\n---\n", number,
		g.pick(places), g.pick(floors), g.pick(customers), 1+g.r.IntN(300), g.pick(streets),
		firstDay.AddDays(-7), g.pick(treatments))
	g.line("## Scope\n\n| Line | Work | Qty | Unit | Price | Hours |\n|---|---|---|---|---|---|")
	for i, n := range g.r.Perm(len(works))[:8+g.r.IntN(5)] {
		w := scopeWork{label: string(rune('A' + i)), what: works[n] + ", " + g.pick(rooms), qty: 2 + g.r.IntN(40)}
		g.work = append(g.work, w)
		g.line("| %s | %s | %d | ea | %s | %d |", w.label, w.what, w.qty, g.linePrice(), 2+g.r.IntN(30))
	}
	g.line("\n## Allowed materials\n\n| Line | Item | Qty | Unit |\n|---|---|---|---|")
	for _, w := range g.work[:3] {
		g.line("| %s | %s | %d | ft |", w.label, g.pick(lengths), 50+g.r.IntN(300))
	}
	g.line("\n## Not included\n\n- Patching and painting\n- Core drilling")
	g.crew = []string{people[g.r.IntN(2)], people[2+g.r.IntN(3)]}
}

func (g *gen) linePrice() string {
	switch g.r.IntN(4) {
	case 0:
		return fmt.Sprintf("%d.00", 200+g.r.IntN(4000))
	case 1:
		return "T&M"
	case 2:
		return fmt.Sprintf("T&M max %d", 500+g.r.IntN(4000))
	}
	return fmt.Sprintf("%d.50 each", 40+g.r.IntN(200))
}
