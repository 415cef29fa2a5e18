package parse

import (
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// knownPriceColumns are all columns a price list may have: the usual ones, and how much comes in a
// package, which few lists say.
var knownPriceColumns = append(slices.Clone(priceColumns), "pack")

// mostInPack is more than comes in any package; a larger figure is a slip.
const mostInPack = 1_000_000

// pack reads how many units of a row come in one package: 250 for a roll of 250 ft. An empty cell
// is none. What cannot be read is none as well, with the finding prices/pack.
func (p *priceReader) pack(row *notes.PriceRow, c priceCell) {
	if c.text == "" {
		return
	}
	d, err := notes.ParseDecimal(c.text)
	if err != nil || d.Sign() <= 0 || d.Cmp(notes.Int(mostInPack)) > 0 || !d.Equal(d.Round(6)) {
		p.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "prices/pack", Span: c.at,
			Message: quote(c.text) + " is not how much comes in a package; " + quote(row.Item) + " is restocked by the " + string(row.Unit),
			Hint:    "write a plain number of " + string(row.Unit) + ", like 250",
		})
		return
	}
	row.Pack = d
}
