package finding

import "strings"

// recordRules are the rules about change orders and invoices, and about what became of them.
var recordRules = []Rule{
	{
		ID: "billing/changed", Severity: Warning, Since: "1",
		Title: "work that was billed and is now worth something else",
		Why:   "A note was edited after its work was billed. The next invoice corrects it, up or down; if the edit was a slip, the invoice was right.",
		Wrong: exampleInvoice + dayNote(strings.Replace(offeredNote, "2 of 3", "1 of 3", 1)),
		Right: exampleInvoice + dayNote(offeredNote),
	},
	{
		ID: "change/amount-moved", Severity: Warning, Since: "1",
		Title: "a note that makes an offered extra worth something else",
		Why:   "The amount agreed stands; what the note says now is not billed and may be missing in the offer.",
		Wrong: exampleOffer + dayNote(strings.Replace(offeredNote, "quoted 180", "quoted 240", 1)),
		Right: exampleOffer + dayNote(offeredNote),
	},
	{
		ID: "change/extra-gone", Severity: Warning, Since: "1",
		Title: "a change order whose extra no note has any more",
		Why:   "Nothing can be billed on it: the note is what proves the work.",
		Wrong: exampleOffer,
		Right: exampleOffer + dayNote(offeredNote),
	},
	{
		ID: "change/never-done", Severity: Warning, Since: "1",
		Title: "authorized work that no note reports as done",
		Why:   "It was promised and is not billed until a note says that it is done.",
		Wrong: exampleOffer + exampleAnswer + dayNote(offeredNote) + file("jobs/2431-quay/2026-03-16.md", "## Done\n- B: circuit pulled and landed, done\n"),
		Right: exampleOffer + exampleAnswer + dayNote(offeredNote),
	},
	{
		ID: "change/notice-due", Severity: Warning, Since: "1", OnDisk: true,
		Title: "extra work whose notice or claim period runs out",
		Why:   "Contracts commonly ask for notice in writing within some days of the work, and for the amount within some more; after that it may not be paid. Model: FAR 52.243-4(d) and (e). The periods are notice: in company.yaml.",
		Wrong: "within five days before the period ends, and after it, no change order offers the work; days are counted to today, or to jobday check --today DATE",
		Right: "offer it with: jobday change offer EXTRA",
	},
	{
		ID: "record/answer", Severity: Error, Since: "1",
		Title: "an answer that fits no change order",
		Why:   "What it authorizes is not known, so it authorizes nothing.",
		Wrong: exampleAnswer,
		Right: exampleOffer + exampleAnswer + dayNote(offeredNote),
	},
	{
		ID: "record/edited", Severity: Warning, Since: "1",
		Title: "a record that was edited after it was written",
		Why:   "A record is what was agreed or sent. Its last line carries the SHA-256 of what stands above it.",
		Wrong: strings.Replace(exampleAnswer, "Amsel", "Amzel", 1),
		Right: exampleAnswer,
	},
	{
		ID: "record/job", Severity: Error, Since: "1",
		Title: "a record of another job",
		Why:   "The job got another number after it was billed, or the record was copied from another folder: what was billed would be counted wrongly.",
		Wrong: strings.Replace(exampleInvoice, `job: "2431"`, `job: "2499"`, 1) + dayNote(offeredNote),
		Right: exampleInvoice + dayNote(offeredNote),
	},
	{
		ID: "record/gap", Severity: Warning, Since: "1",
		Title: "a number that is missing among change orders or invoices",
		Why:   "Numbers have no gaps: a missing one was lost or taken away, and what it billed may be billed again.",
		Wrong: strings.ReplaceAll(exampleOffer, "co-1", "co-2"),
		Right: exampleOffer,
	},
	{
		ID: "record/half", Severity: Error, Since: "1",
		Title: "a record that was not written whole",
		Why:   "What it bills or agrees is not known, so nothing of the job is billed until it is put right.",
		Wrong: exampleAnswer[:strings.Index(exampleAnswer, "End of record")],
		Right: exampleAnswer,
	},
	{
		ID: "record/key", Severity: Error, Since: "1",
		Title: "a key, part or column a record does not have, or lacks",
		Why:   "What it was meant to say is not used.",
		Wrong: strings.Replace(exampleAnswer, "evidence:", "evidense:", 1),
		Right: exampleAnswer,
	},
	{
		ID: "record/line-changed", Severity: Warning, Since: "1",
		Title: "a note line that a record rests on and that reads another way now",
		Why:   "The amount agreed or billed stays; the note no longer proves it.",
		Wrong: exampleOffer + dayNote(strings.Replace(offeredNote, "quoted 180", "quoted 240", 1)),
		Right: exampleOffer + dayNote(offeredNote),
	},
	{
		ID: "record/name", Severity: Error, Since: "1",
		Title: "a record under another name than its number: two records with one number",
		Why:   "Only one of two records with one number can be the one that was sent; the other is not used.",
		Wrong: strings.Replace(exampleAnswer, "co-1-answer-1.md", "co-1-answer-2.md", 1),
		Right: exampleAnswer,
	},
	{
		ID: "record/note-changed", Severity: Note, Since: "1",
		Title: "a note that changed after a record was made from it",
		Why:   "The lines the record rests on read as they did; something else in the note is new.",
		Wrong: exampleOffer + dayNote(offeredNote+"\nThe ovens stay on until ten.\n"),
		Right: exampleOffer + dayNote(offeredNote),
	},
	{
		ID: "record/sum", Severity: Error, Since: "1",
		Title: "a figure of a record that is not what its parts make",
		Why:   "A slip or a forgery; the record is not used until somebody settles which figure is right.",
		Wrong: strings.Replace(exampleOffer, "subtotal: 180.00", "subtotal: 280.00", 1),
		Right: exampleOffer,
	},
	{
		ID: "record/value", Severity: Error, Since: "1",
		Title: "a value in a record that cannot be read",
		Why:   "The record is not used.",
		Wrong: strings.Replace(exampleAnswer, "amount: 180.00", "amount: 18O.00", 1),
		Right: exampleAnswer,
	},
}

// offeredNote is the day whose work the records of the examples offer and bill.
const offeredNote = `---
crew: [Ines Marrow]
---

## Done
- C: 2 of 3 GFCI receptacles in, 2 h, Ines

## Extras
- Wants a disconnect for the mixer, quoted 180, not done yet

## Time
- Ines 7:00-9:00
`

// exampleOffer, exampleAnswer and exampleInvoice are records made from it by the program.
const (
	exampleOffer = `-- jobs/2431-quay/changes/co-1.md --
---
record: change order
number: "co-1"
company: "Reed and Marl Electric"
job: "2431"
title: "Front counter"
customer: ""
site: ""
currency: "USD"
offered: 2026-03-13
by: "Hanna"
valid: 2026-04-12
reason: ""
effect: "none"
excluded: []
subtotal: 180.00
total: 190.80
---

# Change order co-1, job 2431: Front counter

This record was written once and is not edited: what changes later is a record of its own.

## Items

| Extra | Work | Where | Found | Done | Amount |
|---|---|---|---|---|---|
| 2026-03-12/disconnect-mixer-quoted | Wants a disconnect for the mixer, quoted 180, not done yet |  | 2026-03-12 | no | 180.00 |

## Price

| Row | Item | What | Basis | Qty | Unit | Rate | Amount | Taxed |
|---|---|---|---|---|---|---|---|---|
| 1 | 2026-03-12/disconnect-mixer-quoted | price agreed | as quoted in the note | 1 | lot | 180 | 180.00 | yes |

## Tax

| Tax | Percent | On | Amount |
|---|---|---|---|
| state | 6 | 180.00 | 10.80 |

## Notes

| Note | SHA-256 |
|---|---|
| jobs/2431-quay/2026-03-12.md | bbb2d730a6f465a157978abf8f40761a149259801902d769aad930a9f3670ed2 |

## Lines it rests on

| For | Note | Line | Words |
|---|---|---|---|
| 2026-03-12/disconnect-mixer-quoted | jobs/2431-quay/2026-03-12.md | 9 | - Wants a disconnect for the mixer, quoted 180, not done yet |

End of record co-1, SHA-256 of what stands above: 7dbb913f57601769c75a30f48733e9dad4da13297ba092fe0afb548b725f4b82
`
	exampleAnswer = `-- jobs/2431-quay/changes/co-1-answer-1.md --
---
record: answer to a change order
number: "co-1"
answer: 1
kind: "authorized"
who: "Ruth Amsel"
how: "signed"
at: 2026-03-14
evidence: ""
rows: []
amount: 180.00
by: "Hanna"
---

# Change order co-1: authorized by Ruth Amsel

This record was written once and is not edited: what changes later is a record of its own.

End of record co-1, SHA-256 of what stands above: 27f616a1774d10c0f9e58fde699d8babf6bf7ea15e2c3854d04bec42d9cdf482
`
	exampleInvoice = `-- jobs/2431-quay/invoices/2431-1.md --
---
record: invoice
number: "2431-1"
kind: "invoice"
voids: ""
why: ""
job: "2431"
title: "Front counter"
date: 2026-03-20
due: 2026-04-19
through: 2026-03-12
terms: "Net 30 days"
by: "Hanna"
currency: "USD"
seller: "Reed and Marl Electric"
seller_address: []
seller_contact: ""
seller_tax_numbers: []
buyer: ""
buyer_address: []
buyer_contact: ""
buyer_tax_numbers: []
site: ""
treatment: "repair"
tax_per: "invoice"
exempt: ""
lines: 236.00
allowances: 0.00
charges: 0.00
without_tax: 236.00
tax: 14.16
with_tax: 250.16
paid: 0.00
rounding: 0.00
to_pay: 250.16
---

# Invoice 2431-1: Front counter

This record was written once and is not edited: what changes later is a record of its own.

## Lines

| No | Ref | Change | What | Qty | Unit | Rate | Amount | Taxed | Kind | Why |
|---|---|---|---|---|---|---|---|---|---|---|
| 1 | C |  | C: GFCI receptacles at prep counter | 2 | ea | 118 | 236.00 | yes | scope | 2 ea done, 2 of 3 ea so far |

## Tax

| Tax | Percent | On | Amount |
|---|---|---|---|
| state | 6 | 236.00 | 14.16 |

## Attached daily reports

| Day |
|---|
| 2026-03-12 |

## Notes

| Note | SHA-256 |
|---|---|
| jobs/2431-quay/2026-03-12.md | bbb2d730a6f465a157978abf8f40761a149259801902d769aad930a9f3670ed2 |

## Lines it rests on

| For | Note | Line | Words |
|---|---|---|---|
| C | jobs/2431-quay/2026-03-12.md | 6 | - C: 2 of 3 GFCI receptacles in, 2 h, Ines |

End of record 2431-1, SHA-256 of what stands above: 0a95b9c436c1eb5b4e3437153b85aa9ba277aa67018c85be28ddb57016324cc7
`
)
