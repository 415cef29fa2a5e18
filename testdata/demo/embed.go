// Package demo holds the demo book: a contractor of our own invention with three jobs, compiled
// by "jobday demo" and by the tests. Every person, firm, place and price in it is invented.
package demo

import "embed"

// FS is the book: company.yaml, prices.csv, words.yaml and the folder jobs.
//
//go:embed company.yaml prices.csv words.yaml jobs
var FS embed.FS
