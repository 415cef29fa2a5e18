// Package trade holds what the program knows about electrical work as data: the catalogue of
// deficiencies, the limits readings are held against, which test usually follows which device,
// which conductor a breaker may protect, what a daily record must carry, and the standing words
// of caution.
//
// Every datum says where it comes from: "checked" was read on a published page (SOURCES.md lists
// the titles), "from memory" was not looked up, and "common practice, no source" is custom.
// Code references are pointers for the office, never advice: the edition adopted locally and the
// authority having jurisdiction decide. A reading inside its limit is "within", never "safe".
//
// The package reads nothing at run time and changes nothing once built: same words, same answer.
package trade
