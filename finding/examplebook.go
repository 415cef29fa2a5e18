package finding

// ExampleBook is the book that the examples of the rules begin with, in the txtar layout: each
// file after a line "-- name --". It raises no finding by itself.
var ExampleBook = companyFile(`name: Reed and Marl Electric
people:
  Ines Marrow: journeyman
  Tobias Lund: apprentice
classes:
  journeyman: {cost: 46.00, rate: 98.00}
  apprentice: {cost: 27.00, rate: 62.00}
markup:
  - {percent: 30}
taxes:
  repair: {taxed: [scope, extra], rates: {state: 6}}
`) + priceRows(`MC102,10/2 MC cable,ft,1.12,,material,
GF20,20A GFCI receptacle,ea,17.40,28.00,material,GFCI
T-REC,Add receptacle on existing circuit,ea,,145.00,task,add recept
`) + scopeFile(`---
job: 2431
title: Front counter
tax: repair
---

## Scope

`+scopeHead+`| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
| B | Circuit for proofing cabinet, 30 A 2-pole | 1 | ea | 585.00 | 4.5 |
| C | GFCI receptacles at prep counter | 3 | ea | 118.00 each | 2 |

## Allowed materials

| Line | Item | Qty | Unit |
|------|------|-----|------|
| B | 10/2 MC cable | 65 | ft |
`) + dayNote(`---
crew: [Ines Marrow]
---

## Done
- C: 2 of 3 GFCI receptacles in, 2 h, Ines

## Time
- Ines 7:00-9:00
`)

const scopeHead = `| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
`

// file, companyFile, priceRows, scopeFile, scopeTable and dayNote write one file of an example in
// the txtar layout.
func file(name, text string) string { return "-- " + name + " --\n" + text }

func companyFile(text string) string { return file("company.yaml", text) }

func priceRows(rows string) string {
	return file("prices.csv", "code,item,unit,cost,price,kind,words\n"+rows)
}

func scopeFile(text string) string { return file("jobs/2431-quay/scope.md", text) }

func scopeTable(rows string) string { return scopeFile("## Scope\n\n" + scopeHead + rows) }

func dayNote(text string) string { return file("jobs/2431-quay/2026-03-12.md", text) }
