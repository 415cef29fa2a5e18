package main

import (
	"bytes"
	"context"
	"strings"

	"github.com/spf13/cobra"
	"go.yaml.in/yaml/v4"

	"jobday/book"
	"jobday/compile"
	"jobday/finding"
	"jobday/parse"
)

const wordsFile = "words.yaml"

// teach adds a word of the shop to words.yaml and says which entries it changed.
func (o decideOptions) teach(ctx context.Context, sys *system, b *openBook, page *bytes.Buffer) error {
	word, meaning, ok := strings.Cut(o.word, "=")
	word, meaning = oneLine(word), oneLine(meaning)
	if !ok || word == "" || meaning == "" {
		return usagef("%q does not say what stands for what: write it as --word \"skinny = tandem 20A breaker\"", o.word)
	}
	note := o.by
	if o.why != "" {
		note = strings.TrimPrefix(note+": "+o.why, ": ")
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	err := book.Append(b.root, wordsFile, func(old []byte) ([]byte, error) {
		return withWord(old, [2]string{word, meaning}, note)
	})
	if err != nil {
		return err
	}
	after, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	c := changed(b, after, func(*compile.JobResult) bool { return true })
	c.Word = &taughtWord{word, meaning, wordsFile}
	return c.write(page, o.format)
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// withWord returns the text of words.yaml with a word more. It refuses a word that is there
// already, and a file that would be no YAML with a line more, or not be read as meant.
func withWord(old []byte, pair [2]string, note string) ([]byte, error) {
	pairs, found := parse.WordPairs(finding.NewFile(wordsFile, old))
	for _, p := range pairs {
		switch {
		case !strings.EqualFold(oneLine(p[0]), pair[0]):
		case strings.EqualFold(oneLine(p[1]), pair[1]):
			return nil, usagef("%q stands for %q already; nothing was written", p[0], p[1])
		default:
			return nil, usagef("%q stands for %q already: change it in %s if that is wrong", p[0], p[1], wordsFile)
		}
	}
	text := book.AddWord(old, pair[0], pair[1], note)
	now, more := parse.WordPairs(finding.NewFile(wordsFile, text))
	var whole yaml.Node
	if yaml.Load(text, &whole) != nil || len(more) > len(found) || len(now) != len(pairs)+1 || now[len(pairs)] != pair {
		return nil, usagef("%s is written so that a line at its end would not be read as meant; add it there by hand:\n%s",
			wordsFile, strings.TrimSpace(string(book.AddWord(nil, pair[0], pair[1], note))))
	}
	return text, nil
}

// completeDecide offers what can stand next: an entry that is unclear or an extra, then the words
// of a decision.
func completeDecide(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		const plain = cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
		b, err := o.open(context.Background(), sys)
		if err != nil {
			return nil, plain
		}
		var offers []string
		offer := func(word, what string) {
			if strings.HasPrefix(strings.ToLower(word), strings.ToLower(start)) {
				offers = append(offers, word+"\t"+what)
			}
		}
		if len(args) == 0 {
			for _, e := range b.unclear() {
				offer(e.ID, e.Text)
			}
			return offers, plain
		}
		t, err := b.target(args[0], o.job)
		if err != nil {
			return nil, plain
		}
		for _, c := range t.choices() {
			said, rest, more := strings.Cut(c.Decision, " ")
			switch {
			case len(args) == 1 && said != "line":
				offer(said, c.Means)
			case len(args) == 1 && len(offers) == 0:
				offer("line", "work on a booked line")
			case len(args) == 2 && more && said == args[1] && said != "price":
				word, _, _ := strings.Cut(rest, " ")
				offer(word, c.Means)
			}
		}
		return offers, plain
	}
}
