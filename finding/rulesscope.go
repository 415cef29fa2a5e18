package finding

import "strings"

// scopeRules are the rules about what was booked, and the money on it.
var scopeRules = []Rule{
	{
		ID: "hours/bad", Severity: Error, Since: "1",
		Title: "booked hours that are no number",
		Why:   "The line has no hours to be held against.",
		Wrong: scopeTable("| A | Replace hood lights | 4 | ea | 640.00 | a day |\n"),
		Right: scopeTable("| A | Replace hood lights | 4 | ea | 640.00 | 8 |\n"),
	},
	{
		ID: "price/bad", Severity: Error, Since: "1",
		Title: "a booked price that cannot be read",
		Why:   "The line is held until it can.",
		Wrong: scopeTable("| A | Replace hood lights | 4 | ea | 640.00 or so | 3 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "price/declined-done", Severity: Warning, Since: "1",
		Title: "an extra that was declined and done all the same",
		Why:   "It is not billed.",
		Wrong: dayNote(`## Extras
- Added a disconnect for the dough mixer, done, 45 min, Ines
  - Ruth Amsel declined it
`),
		Right: dayNote(`## Extras
- Offered a disconnect for the dough mixer, not done
  - Ruth Amsel declined it
`),
	},
	{
		ID: "price/extra-unpriced", Severity: Warning, Since: "1",
		Title: "an extra that cannot be priced",
		Why:   "It is held until somebody writes how long it took or what was agreed.",
		Wrong: dayNote(`## Extras
- Added a disconnect for the dough mixer, done
  - ok'd by Ruth Amsel on site 10:40
`),
		Right: dayNote(`## Extras
- Added a disconnect for the dough mixer, done
  - ok'd by Ruth Amsel on site 10:40
  - quoted 180
`),
	},
	{
		ID: "price/line-unpriced", Severity: Warning, Since: "1",
		Title: "work on a booked line that has no price",
		Why:   "What it is worth is not known, so it is held.",
		Wrong: scopeTable(`| A | Replace hood lights | 4 | ea |  | 3 |
| C | GFCI receptacles at prep counter | 3 | ea | 118.00 each | 2 |
`) + dayNote(`## Done
- A: 2 of 4
`),
		Right: scopeTable(`| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
| C | GFCI receptacles at prep counter | 3 | ea | 118.00 each | 2 |
`) + dayNote(`## Done
- A: 2 of 4
`),
	},
	{
		ID: "price/material-unplaced", Severity: Warning, Since: "1",
		Title: "material on no line while one is billed by time and material",
		Why:   "It may be that line's, so it is held until somebody says what it was for.",
		Wrong: scopeTable(`| A | Replace hood lights | 4 | ea | 640.00 | 3 |
| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
`) + dayNote(`## Done
- D: traced half

## Materials
- 20 ft 3/4 in EMT
`),
		Right: scopeTable(`| A | Replace hood lights | 4 | ea | 640.00 | 3 |
| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
`) + dayNote(`## Done
- D: traced half

## Materials
- D: 20 ft 3/4 in EMT
`),
	},
	{
		ID: "price/no-class", Severity: Warning, Since: "1",
		Title: "hours of somebody who is in no labor class",
		Why:   "They cannot be priced.",
		Wrong: dayNote(`---
crew: [Jonas]
---

## Extras
- Added a disconnect for the dough mixer
  - 45 min, Jonas
  - ok'd by Ruth Amsel on site 10:40
`),
		Right: dayNote(`---
crew: [Ines]
---

## Extras
- Added a disconnect for the dough mixer
  - 45 min, Ines
  - ok'd by Ruth Amsel on site 10:40
`),
	},
	{
		ID: "price/no-cost", Severity: Note, Since: "1", After: []string{"price/material-unplaced"},
		Title: "material whose cost a word in the price list would settle",
		Why:   "Nothing waits for it, but what the line earned is not known.",
		Wrong: dayNote(`## Materials
- B: 20 ft MC cable
`),
		Right: dayNote(`## Materials
- B: 20 ft 10/2 MC
`),
	},
	{
		ID: "price/no-price", Severity: Warning, Since: "1",
		Title: "material that is to be billed and has no price",
		Why:   "It is held until it has one.",
		Wrong: dayNote(`## Extras
- Added a disconnect for the dough mixer
  - 3 range hood clamps, 45 min, Ines
  - ok'd by Ruth Amsel on site 10:40
`),
		Right: dayNote(`## Extras
- Added a disconnect for the dough mixer
  - 6 ft 10/2 MC, 45 min, Ines
  - ok'd by Ruth Amsel on site 10:40
`),
	},
	{
		ID: "price/over-allowance", Severity: Warning, Since: "1",
		Title: "more material than the booked price includes",
		Why:   "The rest is held until the customer agrees, or lost.",
		Wrong: dayNote(`## Materials
- B: 90 ft 10/2 MC
`),
		Right: dayNote(`## Materials
- B: 60 ft 10/2 MC
`),
	},
	{
		ID: "price/over-ceiling", Severity: Warning, Since: "1",
		Title: "time and material beyond the ceiling",
		Why:   "What goes beyond is not billed, so it is better to stop and ask.",
		Wrong: scopeTable("| D | Trace and label panel LP1 | 1 | ea | T&M max 100 | 1 |\n") + dayNote(`## Done
- D: traced half, 4 h, Ines
`),
		Right: scopeTable("| D | Trace and label panel LP1 | 1 | ea | T&M max 500 | 1 |\n") + dayNote(`## Done
- D: traced half, 4 h, Ines
`),
	},
	{
		ID: "price/time-unplaced", Severity: Warning, Since: "1",
		Title: "time on no line while one is billed by the hour",
		Why:   "It may be that line's, so it is held until somebody says what it was for.",
		Wrong: scopeTable(`| A | Replace hood lights | 4 | ea | 640.00 | 3 |
| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
`) + dayNote(`## Done
- D: traced half

## Time
- Ines 7:00-9:00
`),
		Right: scopeTable(`| A | Replace hood lights | 4 | ea | 640.00 | 3 |
| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
`) + dayNote(`## Done
- D: traced half, 2 h, Ines

## Time
- Ines 7:00-9:00
`),
	},
	{
		ID: "price/task-ambiguous", Severity: Warning, Since: "1",
		Title: "an extra that fits two tasks of the price list",
		Why:   "A guess would bill the wrong one.",
		Wrong: priceRows(`T-1,Add receptacle,ea,,145.00,task,
T-2,Receptacle in brick wall,ea,,210.00,task,
`) + dayNote(`## Extras
- Added 1 receptacle in the brick wall
  - ok'd by Ruth Amsel on site 10:40
`),
		Right: priceRows(`T-1,Add receptacle,ea,,145.00,task,
T-2,Add receptacle in brick wall,ea,,210.00,task,
`) + dayNote(`## Extras
- Added 1 receptacle in the brick wall
  - ok'd by Ruth Amsel on site 10:40
`),
	},
	{
		ID: "price/tax-unknown", Severity: Error, Since: "1",
		Title: "a tax treatment that company.yaml does not have",
		Why:   "Nothing on the job is ready until it is known: it would be billed without its tax.",
		Wrong: scopeFile(`---
job: 2431
tax: repairs
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "price/time-missing", Severity: Warning, Since: "1",
		Title: "work billed by the hour without a time",
		Why:   "Nothing can be billed for it.",
		Wrong: scopeTable(`| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`) + dayNote(`## Done
- D: traced and labeled, complete
`),
		Right: scopeTable(`| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`) + dayNote(`## Done
- D: traced and labeled, complete, 2 h, Ines
`),
	},
	{
		ID: "quantity/bad", Severity: Error, Since: "1",
		Title: "a booked quantity that cannot be read",
		Why:   "The line is held until it can.",
		Wrong: scopeTable("| A | Replace hood lights | some | ea | 640.00 | 3 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "scope/allowance", Severity: Error, Since: "1",
		Title: "material allowed for a line that is not booked",
		Why:   "It is part of no price.",
		Wrong: scopeTable(`| B | Circuit for proofing cabinet, 30 A 2-pole | 1 | ea | 585.00 | 4.5 |

## Allowed materials

| Line | Item | Qty | Unit |
|------|------|-----|------|
| K | 10/2 MC cable | 65 | ft |
`),
		Right: scopeTable(`| B | Circuit for proofing cabinet, 30 A 2-pole | 1 | ea | 585.00 | 4.5 |

## Allowed materials

| Line | Item | Qty | Unit |
|------|------|-----|------|
| B | 10/2 MC cable | 65 | ft |
`),
	},
	{
		ID: "scope/duplicate", Severity: Error, Since: "1",
		Title: "a label that two booked lines have",
		Why:   "A note that names it may mean either; both are held.",
		Wrong: scopeTable(`| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
| A | Replace counter lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
		Right: scopeTable(`| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
| B | Circuit for proofing cabinet, 30 A 2-pole | 1 | ea | 585.00 | 4.5 |
`),
	},
	{
		ID: "scope/empty", Severity: Error, Since: "1",
		Title: "a scope without a booked line",
		Why:   "Nothing can be billed but extras.",
		Wrong: scopeFile(`---
job: 2431
title: Front counter
---

Four hood lights, 640.
`),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "scope/label", Severity: Warning, Since: "1",
		Title: "a booked line without a label",
		Why:   "It is called by its number, which changes when a row is put in before it.",
		Wrong: scopeTable("|  | Replace hood lights | 4 | ea | 640.00 | 3 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "scope/number", Severity: Error, Since: "1",
		Title: "a scope that does not say which job it is",
		Why:   "Notes, extras and invoices are filed under the number.",
		Wrong: file("jobs/-barn/scope.md", `## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Feeder to the barn | 1 | ea | 900.00 | 8 |
`),
		Right: file("jobs/2440-barn/scope.md", `## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Feeder to the barn | 1 | ea | 900.00 | 8 |
`),
	},
	{
		ID: "scope/size", Severity: Error, Since: "1",
		Title: "a scope beyond what can be read",
		Why:   "It is kept whole as narrative: nothing is lost, and nothing in it is booked.",
		Wrong: scopeFile("---\njob: 2431\ntitle: Front counter\n---\n\n" + strings.Repeat("- ", 101) + "lights\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "scope/work", Severity: Error, Since: "1",
		Title: "a booked line that does not say what was booked",
		Why:   "No note can be matched to it.",
		Wrong: scopeTable("| A |  | 4 | ea | 640.00 | 3 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "table/cells", Severity: Error, Since: "1",
		Title: "a row with more or fewer cells than the header",
		Why:   "Its figures may stand in the wrong columns.",
		Wrong: scopeTable("| A | Replace hood lights | 4 | ea | 640.00 | 3 | 2 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "table/column", Severity: Error, Since: "1",
		Title: "a column that means nothing here",
		Why:   "What stands in it is not read.",
		Wrong: scopeFile(`---
job: 2431
tax: repair
---

## Scope

| Line | Work | Qty | Unit | Price | Hors |
|------|------|-----|------|-------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "table/shape", Severity: Error, Since: "1",
		Title: "rows that are no table",
		Why:   "They are kept as narrative, and nothing in them is booked.",
		Wrong: scopeFile(`---
job: 2431
tax: repair
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
`),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
	{
		ID: "table/wide", Severity: Error, Since: "1",
		Title: "a table wider than any scope",
		Why:   "It is kept as narrative, and nothing in it is booked.",
		Wrong: scopeFile("## Scope\n\n" + strings.Repeat("| A ", 80) + "|\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
}
