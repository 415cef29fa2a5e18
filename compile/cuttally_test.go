package compile_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"jobday/compile"
	"jobday/finding"
	"jobday/parse"
	"jobday/testdata/demo"
)

func TestCutTally(t *testing.T) {
	sets := strings.Split(os.Getenv("CUTSETS"), ",")
	if os.Getenv("CUTSETS") == "" {
		return
	}
	for _, set := range sets {
		paths, _ := filepath.Glob("../testdata/reading/" + set + "/*.txtar")
		count := map[string]int{}
		for _, p := range paths {
			a, shop := archive(t, p), archive(t, "../testdata/reading/shop.txtar")
			labels := map[string]map[int][]label{}
			texts := map[string][]string{}
			data := map[string][]byte{}
			for i, f := range a.Files {
				if base := filepath.Base(f.Name); strings.HasPrefix(base, "20") {
					a.Files[i].Data, labels[f.Name] = unlabel(t, f.Data)
					data[f.Name] = a.Files[i].Data
					texts[f.Name] = strings.Split(string(a.Files[i].Data), "\n")
				}
			}
			prices, _ := demo.FS.ReadFile("prices.csv")
			shop.Files = append(shop.Files, txtar.File{Name: "prices.csv", Data: prices})
			r := compile.Book(input(a, shop), compile.Options{})
			for file, byLine := range labels {
				got := entriesByLine(r, file)
				for i, text := range texts[file] {
					want, read := byLine[i+1], together(byLine[i+1], got[i+1])
					if len(want) == 0 && len(read) == 0 {
						continue
					}
					key := fmt.Sprintf("%d labels, %d read", min(len(want), 3), min(len(read), 3))
					ok := len(want) == len(read)
					for k := range want {
						ok = ok && want[k].outcome == read[k].outcome
					}
					if ok { key += " right" }
					count[key]++
					if len(want) != len(read) && !(len(want) == 1 && want[0].outcome == "narrative") {
						var w, g []string
						for _, l := range want { w = append(w, l.outcome) }
						for _, l := range read { g = append(g, l.outcome) }
						where := ""
						if len(g) == 0 {
							n, _ := parse.Note(finding.NewFile(file, data[file]), parse.NoteContext{People: shopPeople})
							for _, e := range n.Entries {
								if n.File.LineAt(e.Span.Start) < i+1 && n.File.LineAt(e.Span.End-1) >= i+1 { where = "continues" }
								for _, d := range e.Details {
									if n.File.LineAt(d.Span.Start) == i+1 { where = "detail of " + string(e.Kind) }
								}
							}
							for _, e := range n.Narrative {
								if n.File.LineAt(e.Span.Start) <= i+1 && n.File.LineAt(e.Span.End-1) >= i+1 { where = "narrative" }
							}
							for _, e := range n.Structure {
								if n.File.LineAt(e.Start) <= i+1 && n.File.LineAt(e.End-1) >= i+1 { where = "structure" }
							}
							count["lost: "+where]++
						}
						t.Logf("%s:%d %s %v / %v: %s", filepath.Base(p), i+1, where, w, g, text)
					}
				}
			}
		}
		for _, k := range sortedKeys(count) {
			t.Logf("%s: %5d %s", set, count[k], k)
		}
	}
}

func sortedKeys(m map[string]int) []string {
	var ks []string
	for k := range m { ks = append(ks, k) }
	for i := range ks { for j := i + 1; j < len(ks); j++ { if ks[j] < ks[i] { ks[i], ks[j] = ks[j], ks[i] } } }
	return ks
}
