// Package parse turns the files people write into the model, with positions: company.yaml,
// prices.csv, words.yaml, scope.md and the day notes.
//
// Reading never fails and never stops at the first slip. What cannot be used as meant becomes a
// finding with its exact place, and everything else is still read. A note accounts for each of its
// non-blank lines. Nothing here knows what a note means for the scope or what it is worth.
package parse
