package finding

// Rules is every rule the program can raise, by name. It is read-only.
// Tests require that each is raised by its example, is not raised by the example put right, and
// that no rule is raised that is not here.
var Rules = []Rule{
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
}
