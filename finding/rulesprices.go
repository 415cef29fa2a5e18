package finding

// priceListRules are the rules about the price list, and units anywhere.
var priceListRules = []Rule{
	{
		ID: "prices/amount", Severity: Error, Since: "1",
		Title: "an amount in the price list that cannot be read",
		Why:   "The row is left out.",
		Wrong: priceRows("GF20,20A GFCI receptacle,ea,17.4O,,material,\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,,material,\n"),
	},
	{
		ID: "prices/cells", Severity: Error, Since: "1",
		Title: "a row of the price list with more or fewer cells than the header",
		Why:   "Its figures may stand in the wrong columns, so the row is left out.",
		Wrong: priceRows("LEDS4,Sealed LED fixture, 4 ft,ea,61.00,,material,\n"),
		Right: priceRows(`LEDS4,"Sealed LED fixture, 4 ft",ea,61.00,,material,
`),
	},
	{
		ID: "prices/code-twice", Severity: Error, Since: "1",
		Title: "a code that stands twice in the price list",
		Why:   "Only the first row is used.",
		Wrong: priceRows(`GF20,20A GFCI receptacle,ea,17.40,,material,
GF20,15A GFCI receptacle,ea,15.10,,material,
`),
		Right: priceRows(`GF20,20A GFCI receptacle,ea,17.40,,material,
GF15,15A GFCI receptacle,ea,15.10,,material,
`),
	},
	{
		ID: "prices/column", Severity: Error, Since: "1",
		Title: "a column of the price list that means nothing, or is missing",
		Why:   "What stands in it is not read.",
		Wrong: file("prices.csv", `code,item,unit,coast,price
GF20,20A GFCI receptacle,ea,17.40,28.00
`),
		Right: file("prices.csv", `code,item,unit,cost,price
GF20,20A GFCI receptacle,ea,17.40,28.00
`),
	},
	{
		ID: "prices/formula", Severity: Error, Since: "1",
		Title: "a formula in the price list",
		Why:   "Only a spreadsheet knows what it comes to, so the row is left out.",
		Wrong: priceRows("GF20,20A GFCI receptacle,ea,=12*1.45,,material,\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,,material,\n"),
	},
	{
		ID: "prices/header", Severity: Error, Since: "1",
		Title: "a price list without the names of its columns",
		Why:   "The usual order is assumed.",
		Wrong: file("prices.csv", "GF20,20A GFCI receptacle,ea,17.40,28.00,material,GFCI\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,28.00,material,GFCI\n"),
	},
	{
		ID: "prices/inch-mark", Severity: Warning, Since: "1",
		Title: "an inch mark in a cell of the price list",
		Why:   "A quote has a meaning in such a file; the next one could swallow a row.",
		Wrong: priceRows(`EM34,3/4" EMT,ft,0.98,,material,
`),
		Right: priceRows("EM34,3/4 in EMT,ft,0.98,,material,\n"),
	},
	{
		ID: "prices/kind", Severity: Error, Since: "1",
		Title: "a kind of row that is neither material nor task",
		Why:   "Whether its labor is in the price is not known, so the row is left out.",
		Wrong: priceRows("T-REC,Add receptacle on existing circuit,ea,,145.00,tsk,\n"),
		Right: priceRows("T-REC,Add receptacle on existing circuit,ea,,145.00,task,\n"),
	},
	{
		ID: "prices/name-twice", Severity: Warning, Since: "1",
		Title: "two rows of the price list with one name",
		Why:   "A note that uses the name gets no price.",
		Wrong: priceRows(`GF20,20A GFCI receptacle,ea,17.40,,material,GFCI
GF15,15A GFCI receptacle,ea,15.10,,material,GFCI
`),
		Right: priceRows(`GF20,20A GFCI receptacle,ea,17.40,,material,GFCI
GF15,15A GFCI receptacle,ea,15.10,,material,
`),
	},
	{
		ID: "prices/no-item", Severity: Error, Since: "1",
		Title: "a row of the price list that does not say what it prices",
		Why:   "Nothing can be matched with it.",
		Wrong: priceRows("GF20,,ea,17.40,,material,\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,,material,\n"),
	},
	{
		ID: "prices/no-price", Severity: Warning, Since: "1",
		Title: "a row of the price list that nothing can be billed by",
		Why:   "What it names cannot be priced.",
		Wrong: priceRows("GF20,20A GFCI receptacle,ea,,,material,\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,,material,\n"),
	},
	{
		ID: "prices/no-unit", Severity: Error, Since: "1",
		Title: "a row of the price list without a unit",
		Why:   "A price is for one of something.",
		Wrong: priceRows("GF20,20A GFCI receptacle,,17.40,,material,\n"),
		Right: priceRows("GF20,20A GFCI receptacle,ea,17.40,,material,\n"),
	},
	{
		ID: "prices/quote", Severity: Error, Since: "1",
		Title: "a quote in the price list that is not closed",
		Why:   "The row is left out: where its cells end is not known.",
		Wrong: priceRows(`EM34,"3/4 EMT,ft,0.98,,material,
GF20,20A GFCI receptacle,ea,17.40,,material,
`),
		Right: priceRows(`EM34,3/4 in EMT,ft,0.98,,material,
GF20,20A GFCI receptacle,ea,17.40,,material,
`),
	},
	{
		ID: "unit/new", Severity: Warning, Since: "1",
		Title: "a unit of the price list that looks like a slip",
		Why:   "A unit nobody uses matches nothing in the notes.",
		Wrong: priceRows("MC102,10/2 MC cable,rol,1.12,,material,\n"),
		Right: priceRows("MC102,10/2 MC cable,roll,1.12,,material,\n"),
	},
	{
		ID: "unit/unknown", Severity: Warning, Since: "1",
		Title: "an unknown unit",
		Why:   "What is counted in it cannot be compared with anything.",
		Wrong: scopeTable("| A | Replace hood lights | 4 | eaa | 640.00 | 3 |\n"),
		Right: scopeTable("| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n"),
	},
}
