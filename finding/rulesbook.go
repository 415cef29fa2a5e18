package finding

// bookRules are the rules about what the files of a book are: their names, their keys, the company.
var bookRules = []Rule{
	{
		ID: "book/no-company", Severity: Error, Since: "1",
		Title:  "the book has no company.yaml",
		Why:    "Rates, people, markups and taxes come from it; without it no time and no tax can be figured.",
		OnDisk: true,
		Wrong:  "the folder given as the book holds no file of that name",
		Right:  "write one, or start with: jobday new book DIR",
	},
	{
		ID: "book/no-jobs", Severity: Note, Since: "1", OnDisk: true,
		Title: "the book has no jobs yet",
		Why:   "There is nothing to compile until a job is booked.",
		Wrong: "the folder jobs is missing or holds no folder",
		Right: "book one with: jobday new job NUMBER",
	},
	{
		ID: "company/markup", Severity: Error, Since: "1",
		Title: "brackets of markup that overlap, or leave a gap",
		Why:   "Material is billed at its cost and a markup; where two brackets claim the same cost, only one can be used, and above the last one nothing is added.",
		Wrong: companyFile(`name: Reed and Marl Electric
markup:
  - {up_to: 25.00, percent: 50}
  - {up_to: 25.00, percent: 30}
  - {percent: 20}
`),
		Right: companyFile(`name: Reed and Marl Electric
markup:
  - {up_to: 25.00, percent: 50}
  - {percent: 20}
`),
	},
	{
		ID: "company/no-class", Severity: Error, Since: "1",
		Title: "a person in no labor class, or in one without rates",
		Why:   "The hours of that person cannot be priced.",
		Wrong: companyFile(`name: Reed and Marl Electric
people:
  Tobias Lund: aprentice
classes:
  apprentice: {rate: 62.00}
`),
		Right: companyFile(`name: Reed and Marl Electric
people:
  Tobias Lund: apprentice
classes:
  apprentice: {rate: 62.00}
`),
	},
	{
		ID: "company/no-name", Severity: Error, Since: "1",
		Title: "the company has no name",
		Why:   "Every report and invoice says who it is from.",
		Wrong: companyFile("currency: USD\n"),
		Right: companyFile(`name: Reed and Marl Electric
currency: USD
`),
	},
	{
		ID: "company/no-rate", Severity: Error, Since: "1",
		Title: "a labor class without a rate",
		Why:   "Time of that class cannot be billed.",
		Wrong: companyFile(`name: Reed and Marl Electric
classes:
  apprentice: {cost: 27.00}
`),
		Right: companyFile(`name: Reed and Marl Electric
classes:
  apprentice: {cost: 27.00, rate: 62.00}
`),
	},
	{
		ID: "file/encoding", Severity: Error, Since: "1",
		Title: "bytes that are no UTF-8 text",
		Why:   "What they were meant to say is lost, so the file is kept as it stands and nothing is read out of it.",
		Wrong: dayNote("## Done\n- C: 2 of 3 GFCI receptacles in the caf\xe9\n"),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles in the café
`),
	},
	{
		ID: "file/link", Severity: Error, Since: "1", OnDisk: true,
		Title: "a link that leads out of the book, or nowhere",
		Why: "A book is one folder that can be copied, kept and checked as it stands. A link out of it could bring " +
			"in files nobody meant to bill from, so it is never followed.",
		Wrong: "a file or job folder of the book is a link to a place outside of it, or to nothing",
		Right: "put the file itself into the book",
	},
	{
		ID: "file/name", Severity: Warning, Since: "1", OnDisk: true,
		Title: "a file that looks like part of the book but was not read",
		Why:   "A day's work in a file the program passes over is a day that is not billed.",
		Wrong: "a job's folder holds 2026-03-12.txt, or the book holds prices.xlsx or company.yml",
		Right: "save it under the name the book knows: 2026-03-12.md, prices.csv, company.yaml",
	},
	{
		ID: "file/stray", Severity: Warning, Since: "1", OnDisk: true,
		Title: "a note that lies in no job's folder",
		Why:   "Nothing says which customer it is for, so it is not read and not billed.",
		Wrong: "a file such as 2026-03-12.md lies beside company.yaml, in jobs itself or a folder too deep",
		Right: "move it into the folder of its job",
	},
	{
		ID: "file/too-large", Severity: Error, Since: "1", OnDisk: true,
		Title: "a file too large to be read whole",
		Why: "Eight megabytes are some four thousand days of notes: a file beyond that is something else, or notes " +
			"that were joined. Its head is read, the rest stays on disk as it is.",
		Wrong: "a file of the book has more than 8 MB",
		Right: "split it, one note a day and author",
	},
	{
		ID: "file/unreadable", Severity: Error, Since: "1", OnDisk: true,
		Title: "a file that could not be read",
		Why:   "What is in it is missing from every report until it can be read.",
		Wrong: "the system refuses to open a file or folder of the book, or it is no plain file",
		Right: "check who may read it, and that it is a plain file",
	},
	{
		ID: "file/photo", Severity: Warning, Since: "1", OnDisk: true,
		Title: "a photo a note points to that cannot be shown",
		Why: "A photo is what shows a customer what was found. Where it is missing, damaged, too large or no picture, " +
			"the report says so in its place.",
		Wrong: "a note says ![open panel](photos/panel.jpg) and the job's folder holds no such file, or one that is no JPEG or PNG of at most 20 MB and 50 million pixels",
		Right: "put the photo itself, as the camera made it, into the folder photos of the job",
	},
	{
		ID: "frontmatter/open", Severity: Error, Since: "1",
		Title: "front matter that is never closed",
		Why:   "Where it ends is not known, so none of its keys is used.",
		Wrong: dayNote(`---
date: 2026-03-12

## Done
- C: 2 of 3 GFCI receptacles in
`),
		Right: dayNote(`---
date: 2026-03-12
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "job/no-scope", Severity: Error, Since: "1",
		Title: "a job's folder without scope.md",
		Why:   "Nothing says what was booked, so nothing can be billed.",
		Wrong: file("jobs/2440-barn/2026-03-12.md", `## Done
- feeder pulled
`),
		Right: file("jobs/2440-barn/2026-03-12.md", `## Done
- A: feeder pulled, complete
`) + file("jobs/2440-barn/scope.md", `---
job: 2440
title: Barn feeder
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Feeder to the barn | 1 | ea | 900.00 | 8 |
`),
	},
	{
		ID: "job/number-twice", Severity: Error, Since: "1",
		Title: "two folders with one job number",
		Why:   "Invoices and extras could go to the wrong customer.",
		Wrong: file("jobs/2440-barn/scope.md", `---
job: 2431
title: Barn feeder
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Feeder to the barn | 1 | ea | 900.00 | 8 |
`),
		Right: file("jobs/2440-barn/scope.md", `---
job: 2440
title: Barn feeder
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Feeder to the barn | 1 | ea | 900.00 | 8 |
`),
	},
	{
		ID: "job/two-scopes", Severity: Error, Since: "1",
		Title: "two scopes in one job",
		Why:   "Only one is read, and nobody can tell whether it is the right one.",
		Wrong: file("jobs/2431-quay/scope-old.md", `---
job: 2431
tax: repair
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
		Right: file("jobs/2431-quay/photos/scope-old.md", `---
job: 2431
tax: repair
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
	},
	{
		ID: "key/duplicate", Severity: Error, Since: "1",
		Title: "a key that is written twice",
		Why:   "Only the first is used; the second may be the one that was meant.",
		Wrong: dayNote(`---
date: 2026-03-12
crew: [Ines Marrow]
crew: [Tobias Lund]
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
		Right: dayNote(`---
date: 2026-03-12
crew: [Ines Marrow, Tobias Lund]
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "key/unknown", Severity: Error, Since: "1",
		Title: "a key that means nothing here",
		Why:   "What it was meant to set keeps its default, without anybody noticing.",
		Wrong: dayNote(`---
date: 2026-03-12
crw: [Ines Marrow]
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
		Right: dayNote(`---
date: 2026-03-12
crew: [Ines Marrow]
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "value/bad", Severity: Error, Since: "1",
		Title: "a value that cannot be read",
		Why:   "Its default is used instead.",
		Wrong: companyFile(`name: Reed and Marl Electric
classes:
  journeyman: {rate: 98.005}
`),
		Right: companyFile(`name: Reed and Marl Electric
classes:
  journeyman: {rate: 98.00}
`),
	},
	{
		ID: "value/kind", Severity: Error, Since: "1",
		Title: "a value of the wrong shape",
		Why:   "Its default is used instead.",
		Wrong: companyFile("- Reed and Marl Electric\n"),
		Right: companyFile("name: Reed and Marl Electric\n"),
	},
	{
		ID: "words/empty", Severity: Error, Since: "1",
		Title: "a word that stands for nothing",
		Why:   "It cannot help to read a note.",
		Wrong: file("words.yaml", "skinny:\n"),
		Right: file("words.yaml", "skinny: tandem 20A breaker\n"),
	},
	{
		ID: "yaml/alias", Severity: Error, Since: "1",
		Title: "an anchor or alias of YAML",
		Why:   "A value that stands somewhere else is easily changed by mistake.",
		Wrong: companyFile(`name: Reed and Marl Electric
taxes:
  repair: {taxed: [scope], rates: &rates {state: 6}}
`),
		Right: companyFile(`name: Reed and Marl Electric
taxes:
  repair: {taxed: [scope], rates: {state: 6}}
`),
	},
	{
		ID: "yaml/syntax", Severity: Error, Since: "1",
		Title: "a part that is no YAML",
		Why:   "None of it is used; the parts before and after it are.",
		Wrong: companyFile(`name: Reed and Marl Electric
classes:
  journeyman: {cost: 46.00, rate: 98.00
`),
		Right: companyFile(`name: Reed and Marl Electric
classes:
  journeyman: {cost: 46.00, rate: 98.00}
`),
	},
	{
		ID: "templates/broken", Severity: Error, Since: "1", OnDisk: true,
		Title: "a page of the shop's own that cannot be used",
		Why:   "The shipped page is written instead, which may not look or say what the shop wants.",
		Wrong: "templates/report.html.tmpl asks for a field the report does not have, or leaves a block open",
		Right: "mend it at the line that is named, or take the file away",
	},
	{
		ID: "templates/name", Severity: Warning, Since: "1", OnDisk: true,
		Title: "a file among the shop's own pages that nothing uses",
		Why:   "The page it was meant to replace is still the shipped one.",
		Wrong: "templates/reports.html.tmpl",
		Right: "templates/report.html.tmpl",
	},
}
