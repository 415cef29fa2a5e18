// Package record reads and writes what was agreed or sent: change orders, the customer's answers to
// them, and invoices. Each is a Markdown file in the job's folder, written once and never changed:
//
//	changes/co-1.md            an offer
//	changes/co-1-answer-1.md   what the customer said to it
//	invoices/2431-1.md         an invoice, or the voiding of one
//
// A later event is a file of its own and not a row added to an earlier one. The text somebody
// signed stays byte for byte as it was; two people who answer or bill at once want the same name,
// so that one of them is refused; and where two branches of a version control meet, the same name
// is a conflict that nobody can overlook, while two rows in one table would merge in silence.
//
// A record is readable without jobday: front matter with the facts, tables with the amounts, the
// SHA-256 of every note it came from and the lines it rests on, word for word. Its last line names
// it and carries the SHA-256 of all that stands above, so that half a record and an edited one are
// told from a whole one.
package record
