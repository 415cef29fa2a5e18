package finding

import "strings"

// noteRules are the rules about what the notes say, and how it is held against the scope.
var noteRules = []Rule{
	{
		ID: "crew/slip", Severity: Warning, Since: "1",
		Title: "a name in the crew that is nobody's, and close to somebody's",
		Why:   "What \"both\" worked would be the hours of a stranger, without class or rate.",
		Wrong: dayNote(`---
crew: [Ines, Tobais]
---
## Done
- circuit for the mixer
`),
		Right: dayNote(`---
crew: [Ines, Tobias]
---
## Done
- circuit for the mixer
`),
	},
	{
		ID: "decision/no-entry", Severity: Warning, Since: "1",
		Title: "a decision about an entry that is gone",
		Why:   "It has no effect: its note was edited or moved.",
		Wrong: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/mixer-circuit | circuit for the mixer | extra | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
		Right: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | extra | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
	},
	{
		ID: "decision/no-extra", Severity: Warning, Since: "1",
		Title: "a price or an authorization decided about an entry that is no extra",
		Why:   "It has no effect: only work beyond scope has a price of its own and somebody who says yes to it.",
		Wrong: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/gfci-receptacle | 2 of 3 GFCI receptacles in | authorized by Ruth Amsel | Hanna | 2026-03-13 | she called |
`) + dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
		Right: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/gfci-receptacle | 2 of 3 GFCI receptacles in | extra | Hanna | 2026-03-13 | those of the back room |
| 2026-03-12/gfci-receptacle | 2 of 3 GFCI receptacles in | authorized by Ruth Amsel | Hanna | 2026-03-13 | she called |
`) + dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "decision/row", Severity: Error, Since: "1",
		Title: "a decision that cannot be read",
		Why:   "It has no effect.",
		Wrong: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | extra | Hanna | Friday | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
		Right: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | extra | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
	},
	{
		ID: "decision/stale", Severity: Warning, Since: "1",
		Title: "a decision about words that have changed",
		Why:   "It may no longer fit what the note says, so it is not applied.",
		Wrong: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the dough mixer | extra | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
		Right: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | extra | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
	},
	{
		ID: "decision/unknown-line", Severity: Error, Since: "1",
		Title: "a decision for a line that is not booked",
		Why:   "It has no effect.",
		Wrong: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | line K | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
		Right: file("jobs/2431-quay/decisions.md", `| Entry | Words | Decision | By | When | Why |
|-------|-------|----------|----|------|-----|
| 2026-03-12/circuit-mixer | circuit for the mixer | line B | Hanna | 2026-03-13 | asked Ines |
`) + dayNote(`## Done
- circuit for the mixer
`),
	},
	{
		ID: "entry/unclear", Severity: Warning, Since: "1",
		Title: "an entry of which nobody can tell what it is",
		Why:   "Its money, if it stands for any, waits until somebody says.",
		Wrong: dayNote("two more by the door\n"),
		Right: dayNote(`## Extras
- two more lights by the door, owner asked for them
`),
	},
	{
		ID: "entry/unknown-label", Severity: Warning, Since: "1",
		Title: "a label that no booked line has",
		Why:   "A slip in a label moves work to another line, or off the scope.",
		Wrong: dayNote(`## Done
- Z: pulled the proofing cabinet circuit, complete
`),
		Right: dayNote(`## Done
- B: pulled the proofing cabinet circuit, complete
`),
	},
	{
		ID: "entry/which-line", Severity: Warning, Since: "1",
		Title: "an entry that may be one line or another, or an extra",
		Why:   "A wrong match bills the wrong thing; the entry waits for a word.",
		Wrong: dayNote(`## Done
- light over the counter
`),
		Right: dayNote(`## Done
- A: 1 light over the counter
`),
	},
	{
		ID: "extra/looks-booked", Severity: Warning, Since: "1",
		Title: "written as an extra, but it reads like a booked line",
		Why:   "The same work could be billed twice.",
		Wrong: dayNote(`## Extras
- GFCI receptacles at prep counter
`),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles at prep counter
`),
	},
	{
		ID: "extra/no-authorization", Severity: Warning, Since: "1",
		Title: "an extra without a word on who allowed it",
		Why:   "An extra nobody authorized is not paid; it is held until somebody confirms it.",
		Wrong: dayNote(`## Extras
- Added a disconnect for the dough mixer
  - quoted 180
`),
		Right: dayNote(`## Extras
- Added a disconnect for the dough mixer
  - quoted 180
  - ok'd by Ruth Amsel on site 10:40
`),
	},
	{
		ID: "heading/slip", Severity: Note, Since: "1",
		Title: "a heading with a slip that was read all the same",
		Why:   "What stands below it is material, hours or an extra only because of the heading.",
		Wrong: dayNote(`## Matrials
- 52 ft 10/2 MC cable
`),
		Right: dayNote(`## Materials
- 52 ft 10/2 MC cable
`),
	},
	{
		ID: "heading/which", Severity: Warning, Since: "1",
		Title: "a heading that may be a slip for one section or another",
		Why:   "What stands below is read without it, and may be unclear for that.",
		Wrong: dayNote(`## Lft
- third GFCI receptacle
`),
		Right: dayNote(`## Left
- third GFCI receptacle
`),
	},
	{
		ID: "material/no-quantity", Severity: Warning, Since: "1",
		Title: "material without a quantity",
		Why:   "It cannot be counted, restocked or billed.",
		Wrong: dayNote(`## Materials
- 10/2 MC
`),
		Right: dayNote(`## Materials
- 52 ft 10/2 MC
`),
	},
	{
		ID: "material/two-readings", Severity: Warning, Since: "1",
		Title: "a quantity with two honest readings",
		Why:   "A guess would be billed.",
		Wrong: dayNote(`## Materials
- 4 15A recept 2
`),
		Right: dayNote(`## Materials
- 4 15A recepts
`),
	},
	{
		ID: "note/comment-open", Severity: Error, Since: "1",
		Title: "a comment that is never closed",
		Why:   "Where it ends is not known, so what follows is kept as narrative.",
		Wrong: dayNote(`## Done
<!-- not sure yet
- C: 2 of 3 GFCI receptacles in
`),
		Right: dayNote(`## Done
<!-- not sure yet -->
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "note/date-conflict", Severity: Error, Since: "1",
		Title: "a date that contradicts the file's name",
		Why:   "The day would be billed and paid under the wrong date; the name of the file is used.",
		Wrong: dayNote(`---
date: 2026-03-21
---

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
		ID: "note/date-missing", Severity: Error, Since: "1",
		Title: "a note that does not say which day it is of",
		Why:   "It has no place among the days of the job.",
		Wrong: file("jobs/2431-quay/thursday.md", `## Left
- third GFCI receptacle
`),
		Right: file("jobs/2431-quay/thursday.md", `---
date: 2026-03-12
---

## Left
- third GFCI receptacle
`),
	},
	{
		ID: "note/empty", Severity: Warning, Since: "1",
		Title: "a note that says nothing",
		Why:   "A day without a word is a day nobody bills.",
		Wrong: dayNote(``),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "note/nesting", Severity: Error, Since: "1",
		Title: "a line with more bullets than anyone writes",
		Why:   "It takes too long to read; the note is kept whole as narrative.",
		Wrong: dayNote("## Done\n" + strings.Repeat("- ", 101) + "C: 2 of 3\n"),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "note/other-job", Severity: Error, Since: "1",
		Title: "a note that says another job than its folder",
		Why:   "The work could be billed to the wrong customer.",
		Wrong: dayNote(`---
job: 2440
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
		Right: dayNote(`---
job: 2431
---

## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "note/size", Severity: Error, Since: "1",
		Title: "a note or line beyond what can be read",
		Why:   "It is kept whole as narrative: nothing is lost, and nothing in it is billed.",
		Wrong: dayNote("## Done\n- C: " + strings.Repeat("2 of 3 GFCI receptacles in ", 160) + "\n"),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "progress/how-many", Severity: Warning, Since: "1",
		Title: "work on a line of several without a count",
		Why:   "What was done cannot be billed.",
		Wrong: dayNote(`## Done
- C: GFCI receptacles at the counter
`),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles at the counter
`),
	},
	{
		ID: "progress/of-differs", Severity: Warning, Since: "1",
		Title: "a count out of another number than was booked",
		Why:   "Either the count or the booking is wrong.",
		Wrong: dayNote(`## Done
- C: 2 of 5 GFCI receptacles in
`),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles in
`),
	},
	{
		ID: "test/impossible", Severity: Warning, Since: "1",
		Title: "a reading that cannot be",
		Why:   "A slip in a figure hides a hazard.",
		Wrong: dayNote(`## Tests
- GFCI prep counter left: tripped at 5 A, 28 ms
`),
		Right: dayNote(`## Tests
- GFCI prep counter left: tripped at 5 mA, 28 ms
`),
	},
	{
		ID: "time/implausible", Severity: Warning, Since: "1",
		Title: "hours that cannot be right",
		Why:   "Pay and billing stand on the clock.",
		Wrong: dayNote(`## Time
- Ines 7-3:30, 12 hrs
`),
		Right: dayNote(`## Time
- Ines 7:00-15:30, 30 lunch
`),
	},
	{
		ID: "time/over-clock", Severity: Warning, Since: "1",
		Title: "more minutes on the work than on the clock",
		Why:   "One of the two is wrong.",
		Wrong: dayNote(`## Done
- C: 2 of 3 GFCI receptacles, 4 h, Ines

## Time
- Ines 7:00-9:00
`),
		Right: dayNote(`## Done
- C: 2 of 3 GFCI receptacles, 1 h, Ines

## Time
- Ines 7:00-9:00
`),
	},
	{
		ID: "time/overlap", Severity: Warning, Since: "1",
		Title: "one person on the clock twice",
		Why:   "The hours would be paid twice.",
		Wrong: dayNote(`## Time
- Ines 7:00-15:00
- Ines 14:00-16:00
`),
		Right: dayNote(`## Time
- Ines 7:00-15:00
- Ines 15:00-16:00
`),
	},
	{
		ID: "time/several-lines", Severity: Warning, Since: "1",
		Title: "one time for work on several lines",
		Why:   "The minutes can be put on none of them.",
		Wrong: scopeTable(`| A | Circuit for the dough mixer | 1 | ea | 400.00 | 3 |
| B | Circuit for the proofing cabinet | 1 | ea | 585.00 | 4 |
`) + dayNote("## Done\n- both circuits complete, 2 h, Ines\n"),
		Right: scopeTable(`| A | Circuit for the dough mixer | 1 | ea | 400.00 | 3 |
| B | Circuit for the proofing cabinet | 1 | ea | 585.00 | 4 |
`) + dayNote("## Done\n- A: complete, 1 h, Ines\n- B: complete, 1 h, Ines\n"),
	},
	{
		ID: "time/unnamed", Severity: Note, Since: "1",
		Title: "minutes without a name",
		Why:   "They are counted as the author's.",
		Wrong: file("jobs/2431-quay/2026-03-12-tobias.md", `---
crew: [Ines Marrow, Tobias Lund]
---

## Done
- C: 1 of 3 GFCI receptacles, 45 min
`),
		Right: file("jobs/2431-quay/2026-03-12-tobias.md", `---
crew: [Ines Marrow, Tobias Lund]
---

## Done
- C: 1 of 3 GFCI receptacles, 45 min, Tobias
`),
	},
	{
		ID: "time/unread", Severity: Warning, Since: "1",
		Title: "an entry under Time without a time",
		Why:   "The hours would be missing.",
		Wrong: dayNote(`## Time
- Ines
`),
		Right: dayNote(`## Time
- Ines 7:00-15:30, 30 lunch
`),
	},
}
