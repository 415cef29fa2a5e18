package report_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/report"
)

// fullNote uses every section, so that no part of the report of fullDay is empty.
const fullNote = `---
date: 2026-03-12
crew: [Ines, Tobias]
---

Oven fitters were in our way until ten.

## Done
- [x] A: all four hood lights up, working
- proofing cabinet circuit pulled, 52 ft of 10/2 MC, box set, not landed yet
- 4 GFCIs at the counter, one more than booked
- swapped the recept by the sink

## Materials
- 52 ft 10/2 MC
- 4 sealed LED fixtures

## Extras
- Added a disconnect for the dough mixer
  - 45 min, Ines
  - 1 30A unfused disconnect, 6 ft 10/2 MC
  - ok'd by Ruth Amsel on site 10:40
  - ![cover on](photos/mixer-disconnect.png)
- Ruth asked for two receptacles behind the register, told her the office would price it
- re-aimed the sign light, quoted 60, not ok'd yet

## Deficiencies
- LP1 has two open knockouts on the bottom; closed them, 10 min
- cooler disconnect has no cover, live parts; made safe with tape and a tag, told Ruth

## Tests
- GFCI prep counter left: tripped at 8.2 mA, 31 ms, reset ok
- L1-N 121.4 V, L2-N 120.9, L1-L2 242

## Circuits
- LP1 2,4: proofing cabinet, 30A 2P, 10 AWG
- LP1 16/18: front sign and shop lights, share a neutral

## Time
- Ines 7-3:30, 30 lunch
- Tobias 8:00-12:00, 12:30-15:30

## Left
- land the proofing circuit

## Questions
- is the cooler disconnect ours to replace?

## Deliveries
- 4 LED fixtures from the supply house, one carton crushed, lamps fine

## Equipment
- scissor lift 3 h, idle 2 h

## Delays
- 1 h, oven fitters in the way

## Instructions
- Ruth: keep the ovens on whatever happens

## Safety
- tailgate talk on the hot hood, locked out LP1 2/4

## Conditions
- rain until noon, 9 C, counter open to customers from six

## Subcontractors
- oven fitters, 2 men, hood and duct
`

// books is where the texts of a fixture come from and how places in them are found.
type books struct {
	t     *testing.T
	files []*finding.File
}

// at is the place of the first line of any note that holds the words.
func (b books) at(words string) notes.Source {
	for _, f := range b.files {
		if i := bytes.Index(f.Text, []byte(words)); i >= 0 {
			return notes.SourceOf(f.Span(i, i+len(words)))
		}
	}
	b.t.Fatalf("no note says %q", words)
	return notes.Source{}
}

func (b books) from(words ...string) []notes.Source {
	var list []notes.Source
	for _, w := range words {
		list = append(list, b.at(w))
	}
	return list
}

func (b books) refs() []notes.NoteRef {
	var list []notes.NoteRef
	for _, f := range b.files {
		sum := sha256.Sum256(f.Text)
		n := notes.NoteRef{
			File: f.Name, SHA256: hex.EncodeToString(sum[:]), Source: f,
			Covered: []finding.Span{f.Span(0, len(f.Text))},
		}
		n.Lines = n.Filled()
		n.Accounted = n.Lines - len(n.Unaccounted())
		list = append(list, n)
	}
	return list
}

func dec(s string) notes.Decimal   { return notes.MustDecimal(s) }
func usd(s string) notes.Money     { return notes.MustMoney(s) }
func ft(s string) notes.Quantity   { return notes.Quantity{Value: dec(s), Unit: notes.Foot} }
func each(s string) notes.Quantity { return notes.Quantity{Value: dec(s), Unit: notes.Each} }
func yes() *bool                   { b := true; return &b }
func no() *bool                    { b := false; return &b }
func qty(q notes.Quantity) *notes.Quantity {
	return &q
}

func bakery() (*notes.Company, *notes.Job) {
	c := &notes.Company{
		Name: "Sorrel & Tate Electric", Address: []string{"3 Mill Yard", "Harrow Falls"},
		Contact: "office@sorrel-tate.example", TaxNumbers: []string{"EIN 00-0000000"}, Currency: "USD",
		Treatments: []notes.TaxTreatment{{
			Name: "commercial repair", Per: "invoice", Taxed: []string{"scope", "material"},
			Rates: []notes.TaxRate{{Name: "State sales tax", Percent: dec("7.25")}},
		}},
	}
	j := &notes.Job{
		Number: "2431", Title: "Proofing room and front counter", Customer: "Quay Lane Bakery",
		Site: "14 Quay Lane", Booked: notes.MustDate("2026-03-09"), Tax: "commercial repair",
		Lines: []notes.ScopeLine{
			{Label: "A", Price: notes.LinePrice{Kind: notes.LotPrice}},
			{Label: "D", Price: notes.LinePrice{Kind: notes.TimeAndMaterial}},
		},
	}
	return c, j
}

// fullDay is a day with every part filled.
func fullDay(t *testing.T) report.Input {
	b := books{t, []*finding.File{
		finding.NewFile("jobs/2431-quay-bakery/2026-03-12.md", []byte(fullNote)),
		finding.NewFile("jobs/2431-quay-bakery/2026-03-12-tobias.md",
			[]byte("work\nstarted on LP1, 14 of 42 spaces traced\n\nparts: 2 ko fillers\n")),
	}}
	company, job := bakery()
	d := &notes.JobDay{
		Version: notes.Version, Company: company.Name, Job: job.Number, Date: notes.MustDate("2026-03-12"),
		Crew: []string{"Ines", "Tobias"}, Number: 1, Final: true, Notes: b.refs(),
	}
	fillScope(d, b)
	fillEntries(d, b)
	fillExtras(d, b)
	fillFaults(d, b)
	fillUse(d, b)
	fillCarried(d, b)
	fillMoney(d, b)
	require.NoError(t, d.Check())
	return report.Input{Day: d, Job: job, Company: company, Notes: b.files}
}

func fillScope(d *notes.JobDay, b books) {
	d.Scope = []notes.LineStanding{
		{
			Line: "A", Work: "Replace hood lights with sealed LED fixtures",
			Booked: notes.BookedQty{Qty: dec("4"), Unit: notes.Each}, Today: dec("4"), ToDate: dec("4"),
			State: notes.Complete, Hours: notes.LineHours{Booked: 180, Today: 240, ToDate: 240},
			Price: usd("640"), Ready: usd("640"), From: b.from("all four hood lights"), Finished: true,
		},
		{
			Line: "B", Work: "Circuit for proofing cabinet, 30 A 2-pole, to box",
			Booked: notes.BookedQty{Qty: dec("1"), Unit: notes.Each}, Left: dec("1"),
			State: notes.UnderWay, Hours: notes.LineHours{Booked: 270, Today: 195, ToDate: 195},
			Price: usd("585"), From: b.from("proofing cabinet circuit"),
		},
		{
			Line: "C", Work: "GFCI receptacles at prep counter",
			Booked: notes.BookedQty{Qty: dec("3"), Unit: notes.Each}, Today: dec("3"), ToDate: dec("4"), Over: dec("1"),
			State: notes.Over, Hours: notes.LineHours{Booked: 120},
			Price: usd("354"), Ready: usd("236"),
			From: append([]notes.Source{{File: "jobs/2431-quay-bakery/2026-03-10.md", Line: 9, Column: 3, EndLine: 9, EndColumn: 20}},
				b.from("4 GFCIs at the counter")...),
		},
		{
			Line: "D", Work: "Trace and label panel LP1",
			Booked: notes.BookedQty{Qty: dec("1"), Unit: notes.Each}, ToDate: dec("0.3333"), Today: dec("0.3333"), Left: dec("0.6667"),
			State: notes.Blocked, BlockedBy: "the panel schedule from the owner",
			Price: usd("300"), From: b.from("started on LP1"),
		},
		{
			Line: "E", Work: "Dimmer for the order window lights",
			Booked: notes.BookedQty{Qty: dec("1"), Unit: notes.Each}, Left: dec("1"),
			State: notes.NotReported, Price: usd("165"),
		},
	}
}

func (b books) entry(id string, section notes.Section, o notes.Outcome, words string) notes.EntryResult {
	return notes.EntryResult{
		ID: "2026-03-12/" + id, Section: section, Text: words, Source: b.at(words), Outcome: o, Confidence: 0.95,
		Why: "under " + string(section), Reading: notes.NoReading{},
	}
}

func fillEntries(d *notes.JobDay, b books) {
	hood := b.entry("hood-lights", notes.Done, notes.InScope, "all four hood lights up, working")
	hood.Lines, hood.Confidence, hood.Why = []string{"A"}, 1, "the label A is written in front"
	hood.Reading = notes.WorkReading{Qty: qty(each("4")), Complete: yes(), Minutes: 240, People: []string{"Ines", "Tobias"}}
	proof := b.entry("proofing-circuit", notes.Done, notes.InScope, "proofing cabinet circuit pulled, 52 ft of 10/2 MC, box set, not landed yet")
	proof.Lines, proof.Confidence, proof.Why = []string{"B"}, 0.93, "says proofing, cabinet, circuit"
	proof.Reading = notes.WorkReading{Complete: no()}
	gfci := b.entry("gfcis-counter", notes.Done, notes.InScope, "4 GFCIs at the counter, one more than booked")
	gfci.Lines, gfci.Reading = []string{"C"}, notes.WorkReading{Qty: qty(each("4"))}
	sink := b.entry("swapped-recept", notes.Done, notes.Unclear, "swapped the recept by the sink")
	sink.Confidence, sink.Why = 0.48, "says receptacle, but no line names the sink"
	sink.Candidates = []notes.Candidate{{Line: "C", Confidence: 0.48}, {Line: "E", Confidence: 0.12}}
	lp1 := b.entry("lp1-traced", notes.Done, notes.InScope, "started on LP1, 14 of 42 spaces traced")
	lp1.Lines, lp1.Reading = []string{"D"}, notes.WorkReading{Complete: no()}
	cable := b.entry("cable", notes.Materials, notes.Material, "52 ft 10/2 MC")
	cable.Reading = notes.MaterialReading{Qty: qty(ft("52")), Item: "10/2 MC"}
	mixer := b.entry("mixer-disconnect", notes.Extras, notes.Extra, "Added a disconnect for the dough mixer")
	mixer.Reading = notes.WorkReading{Minutes: 45, People: []string{"Ines"}}
	mixer.Details = []notes.DetailResult{{Text: "45 min, Ines", Source: b.at("45 min, Ines")}}
	mixer.Photos = []string{"photos/mixer-disconnect.png"}
	register := b.entry("register-receptacles", notes.Extras, notes.Extra, "Ruth asked for two receptacles behind the register, told her the office would price it")
	register.Reading = notes.WorkReading{Qty: qty(each("2"))}
	sign := b.entry("sign-light", notes.Extras, notes.Extra, "re-aimed the sign light, quoted 60, not ok'd yet")
	sign.Reading = notes.WorkReading{}
	fault := b.entry("cooler-cover", notes.Deficiencies, notes.Deficiency, "cooler disconnect has no cover, live parts; made safe with tape and a tag, told Ruth")
	fault.Reading = notes.FaultReading{Kind: "box-cover-missing", Severity: notes.Danger, State: notes.FaultMadeSafe}
	test := b.entry("gfci-test", notes.Tests, notes.Test, "GFCI prep counter left: tripped at 8.2 mA, 31 ms, reset ok")
	test.Reading = notes.TestReading{Readings: gfciReadings(), Verdict: notes.Outside}
	hours := b.entry("ines-hours", notes.Time, notes.TimeEntry, "Ines 7-3:30, 30 lunch")
	hours.Reading = notes.TimeReading{People: []string{"Ines"}, Spans: []notes.ClockSpan{{From: 420, To: 930}}, Minutes: 480}
	oven := b.entry("oven-fitters", "", notes.Narrative, "Oven fitters were in our way until ten.")
	oven.Why = "outside every section"
	d.Entries = []notes.EntryResult{oven, hood, proof, gfci, sink, cable, mixer, register, sign, fault, test, hours, lp1}
}

func fillExtras(d *notes.JobDay, b books) {
	d.Extras = []notes.ExtraWork{
		{
			ID: "2026-03-12/mixer-disconnect", Work: "Added a disconnect for the dough mixer",
			Outcome: notes.ExtraDone, Minutes: 45,
			Materials:     []notes.MaterialUse{{Qty: each("1"), Item: "30A unfused disconnect", Code: "DSC30"}, {Qty: ft("6"), Item: "10/2 MC"}},
			Authorization: notes.Authorization{State: "authorized", By: "Ruth Amsel", How: "on site", At: "10:40"},
			Pricing: []notes.PricingStep{
				{What: "labor Ines, journeyman", Basis: "45 min, billed in steps of 15 min", Qty: dec("0.75"), Unit: "h", Rate: dec("96"), Amount: usd("72"), From: b.from("45 min, Ines")},
				{What: "30A unfused disconnect", Basis: "list price DSC30", Qty: dec("1"), Unit: "ea", Rate: dec("38.50"), Amount: usd("38.50"), From: b.from("1 30A unfused")},
				{What: "10/2 MC", Basis: "cost 1.37 and 35 % markup", Qty: dec("6"), Unit: "ft", Rate: dec("1.8495"), Amount: usd("11.10"), From: b.from("1 30A unfused")},
			},
			Amount: usd("121.60"), State: notes.ExtraAuthorized, From: b.from("Added a disconnect"),
		},
		{
			ID: "2026-03-12/register-receptacles", Work: "Two receptacles behind the register",
			Outcome: notes.ExtraNotDone, Authorization: notes.Authorization{State: "asked", By: "Ruth"},
			State: notes.NeedsPrice, From: b.from("Ruth asked for two"),
		},
		{
			ID: "2026-03-12/sign-light", Work: "Re-aimed the sign light", Outcome: notes.ExtraDone,
			Authorization: notes.Authorization{State: "none"},
			Pricing:       []notes.PricingStep{{What: "quoted", Basis: "as written", Qty: dec("1"), Unit: "ea", Rate: dec("60"), Amount: usd("60"), From: b.from("re-aimed")}},
			Amount:        usd("60"), State: notes.NeedsAuthorization, From: b.from("re-aimed"),
		},
	}
}

func gfciReadings() []notes.TestValue {
	return []notes.TestValue{{Value: "8.2", Unit: "mA"}, {Value: "31", Unit: "ms"}, {Value: "reset"}}
}

func fillFaults(d *notes.JobDay, b books) {
	d.Deficiencies = []notes.DeficiencyRecord{
		{
			Kind: "knockout-open", Title: "Open knockout or missing filler", Where: "LP1", Hazard: "shock, fire",
			Severity: notes.Hazard, Rules: []notes.CodeRule{{Code: "NEC", Edition: "2020", Section: "110.12(A)"}, {Code: "NEC", Edition: "2020", Section: "408.7"}},
			State: notes.FaultCorrected, Caution: "Treat every conductor as live until tested dead.", FollowUp: "none, closed today",
			From: b.from("LP1 has two open knockouts"), Text: "LP1 has two open knockouts on the bottom",
		},
		{
			Kind: "box-cover-missing", Title: "Box cover missing", Where: "cooler disconnect", Hazard: "shock",
			Severity: notes.Danger, Rules: []notes.CodeRule{{Code: "NEC", Edition: "2020", Section: "314.28(C)"}},
			State: notes.FaultMadeSafe, Caution: "Live parts may be exposed: keep clear until a qualified person has made it safe.",
			FollowUp: "replace the cover", From: b.from("cooler disconnect has no cover"),
			Text: "cooler disconnect has no cover, live parts", Told: "Ruth", Found: notes.MustDate("2026-03-12"),
			Photo: []string{"photos/cooler.png"},
		},
	}
	d.Tests = []notes.TestRecord{
		{
			What: "GFCI prep counter left", Readings: gfciReadings(), Limit: "trips between 4 and 6 mA", Rule: "UL 943, class A",
			Verdict: notes.Outside, Why: "8.2 mA is above 6 mA", From: b.from("GFCI prep counter left"),
		},
		{
			What: "supply voltage", Readings: []notes.TestValue{{Value: "121.4", Unit: "V", Between: "L1-N"}, {Value: "120.9", Unit: "V", Between: "L2-N"}, {Value: "242", Unit: "V", Between: "L1-L2"}},
			Limit: "114 to 126 V, 228 to 252 V", Rule: "ANSI C84.1, range A", Verdict: notes.Within, From: b.from("L1-N 121.4 V"),
		},
	}
	d.Circuits = []notes.CircuitRecord{
		{Panel: "LP1", Spaces: []int{2, 4}, Serves: "proofing cabinet", Breaker: "30A 2P", Conductor: "10 AWG", From: b.from("LP1 2,4")},
		{Panel: "LP1", Spaces: []int{16, 18}, Serves: "front sign and shop lights", SharedWith: []int{16, 18},
			Findings: []string{"circuits that share a neutral must be switched off together"}, From: b.from("LP1 16/18")},
	}
}

func fillUse(d *notes.JobDay, b books) {
	d.Materials = []notes.MaterialUse{
		{Qty: ft("52"), Item: "10/2 MC", Code: "MC102", Line: "B", Allowed: dec("65"), Cost: usd("71.24"), Price: usd("96.17"), From: b.from("52 ft 10/2 MC"), Priced: true},
		{Qty: each("4"), Item: "sealed LED fixture", Code: "LED4", Line: "A", Allowed: dec("4"), Cost: usd("248.00"), Price: usd("334.80"), From: b.from("4 sealed LED"), Priced: true},
		{Qty: each("2"), Item: "ko filler", From: b.from("2 ko fillers")},
		{Qty: ft("6"), Item: "10/2 MC", Code: "MC102", Line: "2026-03-12/mixer-disconnect", Over: dec("6"), Cost: usd("8.22"), Price: usd("11.10"), From: b.from("1 30A unfused"), Priced: true},
	}
	d.Labor = []notes.LaborRow{
		{
			Name: "Ines", Class: "journeyman", Spans: []notes.ClockSpan{{From: 420, To: 930}}, Minutes: 480,
			On: map[string]notes.Minutes{"A": 240, "B": 195, "2026-03-12/mixer-disconnect": 45}, Cost: usd("336.00"), From: b.from("Ines 7-3:30"),
		},
		{
			Name: "Tobias", Class: "apprentice", Spans: []notes.ClockSpan{{From: 480, To: 720}, {From: 750, To: 930}}, Minutes: 420,
			On: map[string]notes.Minutes{notes.Unassigned: 420}, Cost: usd("168.00"), From: b.from("Tobias 8:00"), Travel: 30,
		},
	}
}

func (b books) standing(words string) []notes.Standing {
	return []notes.Standing{{Text: words, Since: notes.MustDate("2026-03-12"), From: b.from(words)}}
}

func fillCarried(d *notes.JobDay, b books) {
	d.Left = append(b.standing("land the proofing circuit"), notes.Standing{
		Text: "label the spare conduit", Since: notes.MustDate("2026-03-10"),
		From: []notes.Source{{File: "jobs/2431-quay-bakery/2026-03-10.md", Line: 22, Column: 3, EndLine: 22, EndColumn: 26}},
	})
	d.Questions = b.standing("is the cooler disconnect ours to replace?")
	d.Narrative = b.standing("Oven fitters were in our way until ten.")
	d.Deliveries = b.standing("4 LED fixtures from the supply house, one carton crushed, lamps fine")
	d.Equipment = b.standing("scissor lift 3 h, idle 2 h")
	d.Delays = b.standing("1 h, oven fitters in the way")
	d.Delays[0].Minutes, d.Delays[0].By = 60, "oven fitters"
	d.Instructions = b.standing("Ruth: keep the ovens on whatever happens")
	d.Instructions[0].By = "Ruth"
	d.Safety = b.standing("tailgate talk on the hot hood, locked out LP1 2/4")
	d.Conditions = b.standing("rain until noon, 9 C, counter open to customers from six")
	d.Subcontractors = b.standing("oven fitters, 2 men, hood and duct")
	d.Findings = []notes.FindingRef{
		{Severity: "warning", Rule: "price/none", Message: `no price for "2 ko fillers"`, Hint: "add a row to prices.csv", Source: b.at("2 ko fillers")},
		{Severity: "note", Rule: "scope/not-reported", Message: `no note mentions line E`, Hint: "E: not started"},
	}
}

func fillMoney(d *notes.JobDay, b books) {
	line := func(ref, what, q, rate, amount string, from []notes.Source) notes.InvoiceLine {
		return notes.InvoiceLine{
			Ref: ref, What: what, Qty: dec(q), Unit: notes.Each, Rate: dec(rate), Amount: usd(amount), Taxed: true,
			Why: "work reported and booked", From: from,
		}
	}
	a := line("A", "Replace hood lights with sealed LED fixtures", "1", "640", "640", b.from("all four hood lights"))
	a.Unit, a.Why = notes.Lot, "line A is complete: its lot price is due"
	c := line("C", "GFCI receptacles at prep counter", "2", "118", "236", b.from("4 GFCIs at the counter"))
	x := line("2026-03-12/mixer-disconnect", "Added a disconnect for the dough mixer", "1", "121.60", "121.60", b.from("Added a disconnect"))
	x.Unit, x.Why, x.Working, x.Taxed = notes.Lot, "authorized by Ruth Amsel, on site, 10:40", d.Extras[0].Pricing, false
	d.Money = notes.MoneyStanding{
		Ready: notes.Ready{
			Lines: []notes.InvoiceLine{a, c, x}, Subtotal: usd("997.60"),
			Tax:   []notes.TaxAmount{{Name: "State sales tax", Rate: dec("7.25"), Base: usd("876"), Amount: usd("63.51")}},
			Total: usd("1061.11"),
		},
		Held: []notes.MoneyNote{
			{What: "Re-aimed the sign light", Amount: usd("60"), Why: "nobody authorized it", From: b.from("re-aimed"), Ref: "2026-03-12/sign-light", Frees: "a yes from the customer"},
			{What: "Line C, one GFCI receptacle", Amount: usd("118"), Why: "an unclear entry may belong to it", From: b.from("swapped the recept"), Ref: "C", Frees: "settling what was swapped by the sink"},
			{What: "Two receptacles behind the register", Amount: usd("0"), Why: "it has no price", From: b.from("Ruth asked for two"), Ref: "2026-03-12/register-receptacles", Frees: "a price from the office"},
		},
		NotBilled: []notes.MoneyNote{
			{What: "Line B, circuit for proofing cabinet", Amount: usd("585"), Why: "not complete", From: b.from("proofing cabinet circuit"), Ref: "B"},
		},
	}
	d.Valued = []notes.Value{
		{What: "A", Amount: usd("640")}, {What: "C", Amount: usd("354")}, {What: "mixer", Amount: usd("121.60")},
		{What: "sign", Amount: usd("60")}, {What: "B", Amount: usd("585")},
	}
}

// emptyDay is a day nobody wrote anything about.
func emptyDay(t *testing.T) report.Input {
	d := &notes.JobDay{Version: notes.Version, Job: "2440", Date: notes.MustDate("2026-04-09"), Number: 2}
	require.NoError(t, d.Check())
	return report.Input{Day: d}
}

// hostile is text that tries to become markup, a formula, a direction or a command to a terminal.
var hostile = []string{
	`<script>alert(1)</script><img src=x onerror=alert(1)>`,
	`](javascript:alert(1)) **bold** _it_ ` + "`code`" + ` <b>x</b> | a | &copy; [l](http://x.example) ![p](http://x.example)`,
	`=HYPERLINK("http://x.example","a, b")`,
	strings.Repeat("W", 400),
	"\u202Eright-to-left override \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \U0001F477\U0001F3FD\u200d\u2642\ufe0f \u26a1",
	"\x1b[31mred\x1b[0m \x07bell \x9b31m broken \xff\xfe bytes",
	"a\u2028b\u2029c {{.Title}} </style></title> --> ]]>",
	"-12V lead", "+1", "@sum", "\ttab first", `say "when", then`,
	"# no heading", "1. no list", "- - no dash", "> no quote", "---", "=== 7) x", "T&M, file_name, ~45 ft",
}

// hostileDay carries the hostile text in every place a note's words can reach.
func hostileDay(t *testing.T) report.Input {
	f := finding.NewFile("jobs/x/2026-05-01.md", []byte(strings.Join(hostile, "\n")+"\n"))
	b := books{t, []*finding.File{f}}
	d := &notes.JobDay{
		Version: notes.Version, Company: hostile[0], Job: hostile[2], Date: notes.MustDate("2026-05-01"), Number: 1,
		Crew: []string{hostile[1], hostile[4]}, Notes: b.refs(),
	}
	for i, text := range hostile {
		from := b.from(text)
		label := string(rune('A' + i))
		d.Scope = append(d.Scope, notes.LineStanding{
			Line: label, Work: text, State: notes.Blocked, BlockedBy: text, From: from,
			Booked: notes.BookedQty{Qty: dec("99999999999999999999"), Unit: notes.Unit(text)}, Left: dec("99999999999999999999"),
		})
		e := b.entry(label, notes.Done, notes.Unclear, text)
		e.Why, e.Candidates = text, []notes.Candidate{{Line: label, Confidence: 0.5}}
		d.Entries = append(d.Entries, e)
		d.Extras = append(d.Extras, notes.ExtraWork{
			ID: "2026-05-01/" + label, Work: text, Authorization: notes.Authorization{State: "asked", By: text, How: text, At: text},
			State: notes.NeedsPrice, Outcome: notes.ExtraDone, From: from, Number: text,
			Pricing: []notes.PricingStep{{What: text, Basis: text, From: from}},
		})
		d.Deficiencies = append(d.Deficiencies, notes.DeficiencyRecord{
			Title: text, Where: text, Hazard: text, Severity: notes.Danger, State: notes.FaultFound, Caution: text, FollowUp: text, Text: text, From: from,
		})
		d.Tests = append(d.Tests, notes.TestRecord{What: text, Limit: text, Rule: text, Why: text, Verdict: notes.Recorded, Readings: []notes.TestValue{{Value: text}}, From: from})
		d.Circuits = append(d.Circuits, notes.CircuitRecord{Panel: text, Serves: text, Breaker: text, Conductor: text, Findings: []string{text}, From: from})
		d.Materials = append(d.Materials, notes.MaterialUse{Item: text, Code: text, Line: label, From: from})
		d.Labor = append(d.Labor, notes.LaborRow{Name: text, Class: text, On: map[string]notes.Minutes{text: 10}, Minutes: 10, From: from})
		d.Left = append(d.Left, notes.Standing{Text: text, By: text, From: from})
		d.Findings = append(d.Findings, notes.FindingRef{Severity: "note", Rule: "x/y", Message: text, Hint: text, Source: from[0]})
		d.Money.Held = append(d.Money.Held, notes.MoneyNote{What: text, Why: text, Frees: text, From: from})
		d.Money.Ready.Lines = append(d.Money.Ready.Lines, notes.InvoiceLine{
			Ref: label, What: text, Qty: dec("1"), Unit: notes.Each, Rate: dec("-12.5"), Amount: usd("-12.50"), Why: text, From: from,
		})
		d.Money.Ready.Subtotal = d.Money.Ready.Subtotal.Add(usd("-12.50"))
	}
	d.Money.Ready.Total = d.Money.Ready.Subtotal
	d.Valued = []notes.Value{{What: "all", Amount: d.Money.Ready.Total}}
	require.NoError(t, d.Check())
	job := &notes.Job{Number: d.Job, Title: hostile[0], Customer: hostile[4], Site: hostile[3]}
	return report.Input{Day: d, Job: job, Notes: b.files}
}
