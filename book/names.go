package book

import (
	"io/fs"
	"path"
	"strings"

	"jobday/finding"
)

// The files of the book's own folder, and what people call them by mistake.
var ownFiles = map[string]string{
	"company.yaml": "", "prices.csv": "", "words.yaml": "", "deficiencies.yaml": "",
	"company.yml": "company.yaml", "company.yaml.txt": "company.yaml",
	"words.yml": "words.yaml", "words.yaml.txt": "words.yaml",
	"deficiencies.yml": "deficiencies.yaml", "deficiency.yaml": "deficiencies.yaml", "deficiencies.yaml.txt": "deficiencies.yaml",
	"price.csv": "prices.csv", "prices.csv.txt": "prices.csv", "prices.txt": "prices.csv",
	"prices.xlsx": "prices.csv", "prices.xls": "prices.csv", "prices.ods": "prices.csv",
}

// templatesFolder is the folder of the book with the shop's own pages.
const templatesFolder = "templates"

// otherFolders are the folders of a job that hold no notes.
var otherFolders = map[string]bool{"photos": true, "out": true}

// root takes one entry of the book's own folder.
func (s *shelf) root(e fs.DirEntry) {
	name := e.Name()
	switch right, known := ownFiles[strings.ToLower(name)]; {
	case known && right == "" && name == strings.ToLower(name):
		s.take(e)
	case known && right == "":
		s.misnamed(name, strings.ToLower(name))
	case known:
		s.misnamed(name, right)
	case e.IsDir() && name == templatesFolder:
		s.folder(name, ".tmpl", ".css")
	case !e.IsDir() && looksLikeNote(name) && startsWithDigit(name):
		s.stray(name)
	}
}

// inJob takes one entry of a job's folder: every Markdown file is read, as scope, note or
// decisions; what only looks like one is a finding, because nobody else would miss it.
func (s *shelf) inJob(e fs.DirEntry) {
	name := e.Name()
	switch {
	case hidden(name):
	case e.IsDir() && recordFolders[name]:
		s.records(name)
	case e.IsDir():
		if !otherFolders[name] {
			s.strays(name)
		}
	case path.Ext(name) == ".md":
		s.take(e)
	case looksLikeNote(name):
		s.misnamed(s.dir+name, strings.TrimRight(stem(name), ". ")+".md")
	}
}

// strays looks for notes in a folder below a job's, where they are not read.
func (s *shelf) strays(dir string) {
	entries, err := fs.ReadDir(s.at, dir)
	if err != nil {
		s.unreadable(s.dir+dir, err)
	}
	for _, e := range entries {
		if !e.IsDir() && looksLikeNote(e.Name()) {
			s.stray(s.dir + dir + "/" + e.Name())
		}
	}
}

func (s *shelf) stray(name string) {
	s.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "file/stray",
		Message: quoted(name) + " looks like a note but is not in a job's folder: it was not read",
		Hint:    "move it into the folder of its job, such as jobs/2431-quay-bakery/",
		Span:    place(name),
	})
}

func (s *shelf) misnamed(name, right string) {
	s.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "file/name",
		Message: quoted(name) + " was not read: its name is not one the book knows",
		Hint:    "if it belongs to the book, save it as " + right,
		Span:    place(name),
	})
}

// hidden reports whether a name is of a file that editors and systems leave about.
func hidden(name string) bool { return strings.HasPrefix(name, ".") || strings.HasSuffix(name, "~") }

// textEndings are the endings a note may have got by mistake.
var textEndings = map[string]bool{
	"": true, ".md": true, ".txt": true, ".text": true, ".markdown": true, ".mkd": true,
	".rtf": true, ".doc": true, ".docx": true, ".odt": true,
}

// looksLikeNote reports whether a name could be of a note or scope: a text by its ending, and
// without one only when it begins like a date.
func looksLikeNote(name string) bool {
	if hidden(name) || strings.EqualFold(stem(name), "readme") {
		return false
	}
	ending := strings.ToLower(path.Ext(name))
	if len(ending) > 1 && strings.Trim(ending[1:], "0123456789") == "" {
		ending = "" // "12.03.2026"
	}
	return textEndings[ending] && (ending != "" || startsWithDigit(name))
}

// stem returns a name without its text endings: "2026-03-12" of "2026-03-12.md.txt".
func stem(name string) string {
	for {
		ending := path.Ext(name)
		if ending == "" || !textEndings[strings.ToLower(ending)] {
			return name
		}
		name = strings.TrimSuffix(name, ending)
	}
}

func startsWithDigit(name string) bool { return name != "" && '0' <= name[0] && name[0] <= '9' }
