package finding

// moneyRules are the rules about what work beyond the booked prices is charged by.
var moneyRules = []Rule{
	{
		ID: "amount/comma", Severity: Warning, Since: "1",
		Title: "an amount with a comma in it",
		Why:   "Some write a comma where others write a point; read wrongly, the amount is off a thousand times.",
		Wrong: priceRows("G-1,portable generator,ea,\"1,250.00\",,material,\n"),
		Right: priceRows("G-1,portable generator,ea,1250.00,,material,\n"),
	},
	{
		ID: "company/no-overtime-rate", Severity: Warning, Since: "1",
		Title: "overtime is billed and a class has no rate for it",
		Why:   "Its overtime is billed at the rate for labor, which may be less than it costs.",
		Wrong: companyFile(`name: Reed and Marl Electric
classes:
  apprentice: {rate: 62.00}
overtime:
  bill: true
`),
		Right: companyFile(`name: Reed and Marl Electric
classes:
  apprentice: {rate: 62.00, overtime: 93.00}
overtime:
  bill: true
`),
	},
	{
		ID: "price/allowance-unused", Severity: Note, Since: "1",
		Title: "allowed material that a finished line did not use",
		Why:   "It stays in the booked price unless the company credits it, and what no note speaks of may be forgotten.",
		Wrong: dayNote(`## Done
- B: circuit for the proofing cabinet complete

## Materials
- B: 40 ft 10/2 MC
`),
		Right: dayNote(`## Done
- B: circuit for the proofing cabinet complete

## Materials
- B: 65 ft 10/2 MC
`),
	},
	{
		ID: "price/hire-twice", Severity: Warning, Since: "1",
		Title: "equipment or a subcontractor told twice for the same work",
		Why:   "The same hours below the work and in a section of their own are billed once.",
		Wrong: hiring(`## Done
- D: traced half, 2 h, Ines
  - scissor lift 2 h

## Equipment
- D: scissor lift 2 h
`),
		Right: hiring(`## Done
- D: traced half, 2 h, Ines
  - scissor lift 2 h
`),
	},
	{
		ID: "price/hire-unplaced", Severity: Warning, Since: "1",
		Title: "equipment or a subcontractor on no line and no extra",
		Why:   "It is not billed until somebody says what it was for.",
		Wrong: hiring(`## Done
- D: traced half, 2 h, Ines

## Equipment
- scissor lift 2 h
`),
		Right: hiring(`## Done
- D: traced half, 2 h, Ines

## Equipment
- D: scissor lift 2 h
`),
	},
	{
		ID: "price/rules-unknown", Severity: Error, Since: "1",
		Title: "pricing rules that neither company.yaml nor jobday has",
		Why:   "Nothing by time and material is billed until they are known.",
		Wrong: scopeFile("---\njob: 2431\npricing: county work\n---\n\n## Scope\n\n" + scopeHead +
			"| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
		Right: scopeFile("---\njob: 2431\npricing: paris field cost\n---\n\n## Scope\n\n" + scopeHead +
			"| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
}

// hiring is a book whose company charges for a lift, with a line billed by the hour and a note.
func hiring(note string) string {
	return companyFile(`name: Reed and Marl Electric
people:
  Ines Marrow: journeyman
classes:
  journeyman: {rate: 98.00}
equipment:
  scissor lift: 22.00
`) + scopeTable("| D | Trace and label panel LP1 | 1 | ea | T&M | 1 |\n") + dayNote(note)
}
