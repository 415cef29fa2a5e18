package parse

import (
	"jobday/finding"
	"jobday/trade"
)

// Words reads words.yaml, the shop's own words for things: one a line, the way the shop writes it
// and what it stands for.
//
//	skinny: tandem 20A breaker
//	blue box: single-gang old work box
func Words(f *finding.File) (trade.Words, finding.List) {
	pairs, found := WordPairs(f)
	return trade.NewWords(pairs), found
}

// WordPairs reads words.yaml as it is written: each way of writing and what it stands for.
func WordPairs(f *finding.File) ([][2]string, finding.List) {
	var found finding.List
	m := loadYAML(f, f.Span(0, len(f.Text)), "words.yaml", &found)
	var pairs [][2]string
	m.each(func(key string, at finding.Span) {
		meaning := m.text(key)
		if meaning == "" && key != "" {
			found.Add(finding.Finding{
				Severity: finding.Error, Rule: "words/empty", Span: at,
				Message: quote(key) + " stands for nothing", Hint: "write what it stands for behind the colon",
			})
			return
		}
		pairs = append(pairs, [2]string{key, meaning})
	})
	return pairs, found
}
