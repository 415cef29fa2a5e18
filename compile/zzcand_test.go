package compile_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"jobday/compile"
	"jobday/testdata/demo"
)

func TestCandTally(t *testing.T) {
	if os.Getenv("CUTSETS") == "" {
		return
	}
	for _, set := range strings.Split(os.Getenv("CUTSETS"), ",") {
		paths, _ := filepath.Glob("../testdata/reading/" + set + "/*.txtar")
		count := map[string]int{}
		for _, p := range paths {
			a, shop := archive(t, p), archive(t, "../testdata/reading/shop.txtar")
			labels := map[string]map[int][]label{}
			texts := map[string][]string{}
			for i, f := range a.Files {
				if base := filepath.Base(f.Name); strings.HasPrefix(base, "20") {
					a.Files[i].Data, labels[f.Name] = unlabel(t, f.Data)
					texts[f.Name] = strings.Split(string(a.Files[i].Data), "\n")
				}
			}
			prices, _ := demo.FS.ReadFile("prices.csv")
			shop.Files = append(shop.Files, txtar.File{Name: "prices.csv", Data: prices})
			r := compile.Book(input(a, shop), compile.Options{})
			for _, day := range r.Days() {
				for _, e := range day.Entries {
					want := labels[e.Source.File][e.Source.Line]
					if len(want) != 1 || want[0].outcome != "in-scope" || want[0].facts["lines"] == "" || strings.Contains(want[0].facts["lines"], ",") {
						continue
					}
					w := want[0].facts["lines"]
					key := string(e.Outcome)
					switch {
					case e.Outcome == "in-scope" && strings.Join(e.Lines, ",") == w:
						key += " line right"
					case e.Outcome == "in-scope":
						key += " line wrong"
					case len(e.Candidates) == 0:
						key += " none"
					case e.Candidates[0].Line == w:
						key += " top right"
					default:
						key += " top wrong"
					}
					count[key]++
					if e.Outcome == "unclear" && strings.HasPrefix(set, "dev") {
						s := ""
						for _, c := range e.Candidates { s += c.Line + " " }
						t.Logf("%s %s [%s] cands %s: %s -- %s %v", filepath.Base(p), key, w, s, e.Text, e.Why, e.Confidence)
					}
				}
			}
		}
		for _, k := range sortedKeys(count) {
			t.Logf("%s: %5d %s", set, count[k], k)
		}
	}
}
