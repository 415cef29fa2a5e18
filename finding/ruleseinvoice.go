package finding

// eInvoiceRules are the rules about writing an invoice as an electronic one. They are raised where it
// is written, from a record that no note makes.
var eInvoiceRules = []Rule{
	{
		ID: "einvoice/missing", Severity: Error, Since: "1", OnDisk: true,
		Title: "something an electronic invoice must state is written nowhere",
		Why:   "A receiver's program refuses the invoice; nothing is made up in its place, so no file is written.",
		Wrong: "an invoice is to go out as ubl and company.yaml or scope.md does not say in which country a party is, or by what number the seller is known",
		Right: "write it under einvoice: in that file, such as einvoice: {country: US, registration: 204417}",
	},
	{
		ID: "einvoice/sums", Severity: Error, Since: "1", OnDisk: true,
		Title: "an invoice record that breaks the calculation rules of EN 16931",
		Why:   "Its amounts do not follow from each other, so a receiver's program refuses it.",
		Wrong: "an invoice record was edited by hand so that its sums no longer add up",
		Right: "void the invoice and make a new one",
	},
	{
		ID: "einvoice/tax-rounding", Severity: Note, Since: "1", OnDisk: true,
		Title: "a tax that was rounded line by line, or rate by rate",
		Why: "The electronic invoice carries the tax as billed. It differs by cents from the rate on the whole base, which\n" +
			"the public rule set lets pass below 1.00; a stricter receiver may not.",
		Wrong: "the tax of an invoice was computed per line, or for several rates apart",
		Right: "where your rules allow it, compute it per invoice and for all rates together, under taxes: in company.yaml",
	},
}
