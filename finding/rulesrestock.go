package finding

// restockRules are the rules about what only restocking needs.
var restockRules = []Rule{
	{
		ID: "prices/pack", Severity: Error, Since: "1",
		Title: "a package of the price list that is no number",
		Why:   "The list of what to restock then asks for the exact length or count, not for whole packages.",
		Wrong: file("prices.csv", "code,item,unit,cost,price,kind,words,pack\nMC102,10/2 MC cable,ft,1.12,,material,,250 ft\n"),
		Right: file("prices.csv", "code,item,unit,cost,price,kind,words,pack\nMC102,10/2 MC cable,ft,1.12,,material,,250\n"),
	},
}
