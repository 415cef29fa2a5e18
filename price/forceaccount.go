package price

import "jobday/notes"

// ForceAccount returns the built-in pricing rules: public provisions for work whose price could not
// be agreed beforehand. Each is on actual cost, with the percentages as the source states them; a job
// names one in its scope. What a contract says goes before any of them.
func ForceAccount() []notes.PricingRules {
	const labor, material, equipment, subcontract = notes.LaborCost, notes.MaterialCost, notes.EquipmentCost, notes.SubcontractCost
	percent := func(name string, p int, on ...string) notes.Markup {
		return notes.Markup{Name: name, Percent: notes.Int(p), On: on}
	}
	sets := []notes.PricingRules{
		{
			Name: "indian river force account", Source: "Indian River County, Florida, form A",
			Markups: []notes.Markup{
				percent("supervision and small tools", 15, labor),
				percent("profit", 10, labor, material), // on labor before the 15 %
			},
		},
		{
			Name: "indian river change order", Source: "Indian River County, Florida, form B",
			Markups: []notes.Markup{
				percent("overhead and profit", 20, labor, material, equipment),
				percent("overhead and profit on subcontract", 10, subcontract), // on the subcontractor's price
			},
		},
		{
			Name: "paris field cost", Source: "City of Paris, Texas, method C",
			Markups: []notes.Markup{percent("overhead and profit", 15, labor, material, equipment, subcontract)},
		},
		{
			Name: "san joaquin force account", Source: "San Joaquin County, file form",
			Markups: []notes.Markup{
				percent("markup on labor", 15, labor), percent("markup on material", 15, material),
				percent("markup on equipment", 15, equipment),
				percent("bond", 1), // on the sum with its markups
			},
		},
		{
			Name: "hawaii actual cost", Source: "Hawaii Revised Statutes 103D-501(b)(5)(A), work done directly",
			Markups: []notes.Markup{percent("overhead and profit", 20, labor, material, equipment)},
		},
		{
			Name: "missouri subcontract", Source: "Missouri DOT, Engineering Policy Guide 109.5, subcontracted work",
			Markups: []notes.Markup{percent("handling of subcontract", 5, subcontract)},
		},
		{
			Name: "ohio subcontract", Source: "Ohio DOT, 2010 Construction and Material Specifications 109.05, Table 109.05-2",
			Markups: []notes.Markup{{Name: "handling of subcontract", On: []string{subcontract}, Bands: ohioHandling()}},
		},
	}
	for i := range sets {
		sets[i].AtCost = true
	}
	return sets
}

// ohioHandling is what the prime may add to a subcontractor's work: 500 up to 10 000, 5 % up to
// 500 000, and above that 25 000 and 2.5 % of the excess, at most 37 500.
func ohioHandling() []notes.MarkupBand {
	small, large, most := notes.MustMoney("10000"), notes.MustMoney("500000"), notes.MustMoney("37500")
	return []notes.MarkupBand{
		{UpTo: &small, Fixed: notes.MustMoney("500")},
		{UpTo: &large, Percent: notes.Int(5)},
		{Fixed: notes.MustMoney("25000"), Percent: notes.MustDecimal("2.5"), From: large, AtMost: &most},
	}
}
