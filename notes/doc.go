// Package notes holds the words of the trade as types, with their invariants: what a crew writes
// (DayNote, Entry, Quantity), what was booked (Company, Job, ScopeLine) and the one result of
// compiling both, the JobDay. It reads no files and formats no output.
package notes
