package trade

// RecordItem is one thing public specifications ask of a contractor's daily record.
type RecordItem struct {
	Item    string
	AskedBy []string // titles, see SOURCES.md; all read on a published page
	Part    string   // the JSON key of the JobDay that answers it, "a.b" for a key inside; "" when the report's own
	Where   string   // where a reader finds it, when no key of the JobDay does: "signature lines"
	Office  string   // why the record of one day cannot answer it and who does, or ""
}

// The specifications the list was drawn from.
const (
	QualityRecords   = "UFGS 01451A contractor quality control, quality control records"
	QualitySystem    = "UFGS 01312A quality control system, reports and deficiencies"
	ForceAccount     = "State engineering policy guide 109.5, force account (Missouri)"
	DailyWorkReport  = "State construction contract administration handbook, daily work report minimum (Texas)"
	MunicipalAccount = "Municipal construction documents 4.4.6, daily force account reports (British Columbia)"
	CountyAccount    = "County force account form, review and signature (Indian River, Florida)"
	DayworkPractice  = "Daywork sheets, statement practice"
	StateExtraWork   = "State construction and material specifications 109.05 (Ohio, 2010)"
)

// RecordItems returns what a daily record must carry, in the order a report shows it.
func RecordItems() []RecordItem {
	return []RecordItem{
		{Item: "date", AskedBy: []string{ForceAccount, DailyWorkReport}, Part: "date"},
		{Item: "job", AskedBy: []string{ForceAccount, DailyWorkReport}, Part: "job"},
		{Item: "report number in order", AskedBy: []string{ForceAccount}, Part: "number"},
		{Item: "the last report marked final", AskedBy: []string{ForceAccount}, Part: "final"},
		{Item: "contractor", AskedBy: []string{QualityRecords}, Part: "company"},
		{Item: "each subcontractor and its area of work", AskedBy: []string{QualityRecords}, Part: "subcontractors"},
		{Item: "who worked, class and hours", AskedBy: []string{MunicipalAccount, DayworkPractice, DailyWorkReport}, Part: "labor"},
		{Item: "trades and head count", AskedBy: []string{QualityRecords}, Part: "labor"},
		{Item: "work done, where and by whom", AskedBy: []string{QualityRecords, DailyWorkReport}, Part: "scope"},
		{Item: "work beyond the booked scope", AskedBy: []string{StateExtraWork, ForceAccount}, Part: "extras"},
		{Item: "change order number on each extra", AskedBy: []string{ForceAccount}, Part: "extras.number"},
		{Item: "equipment with hours worked, idle and down", AskedBy: []string{QualityRecords, MunicipalAccount, DayworkPractice}, Part: "equipment"},
		{Item: "materials received", AskedBy: []string{QualityRecords, MunicipalAccount}, Part: "deliveries"},
		{Item: "materials used, with quantities", AskedBy: []string{DayworkPractice}, Part: "materials"},
		{Item: "tests with results and the rule they are held against", AskedBy: []string{QualityRecords}, Part: "tests"},
		{Item: "deficiencies with the correction taken", AskedBy: []string{QualityRecords}, Part: "deficiencies"},
		{Item: "status of deficiencies kept current", AskedBy: []string{QualitySystem}, Part: "deficiencies.state"},
		{Item: "safety checks and what was done", AskedBy: []string{QualityRecords}, Part: "safety"},
		{Item: "instructions given or received, conflicts in plans", AskedBy: []string{QualityRecords}, Part: "instructions"},
		{Item: "delays and their cause", AskedBy: []string{QualityRecords, DailyWorkReport}, Part: "delays"},
		{Item: "weather, temperature and site conditions", AskedBy: []string{QualityRecords, DailyWorkReport, MunicipalAccount}, Part: "conditions"},
		{Item: "photographs", AskedBy: []string{MunicipalAccount}, Part: "entries.photos"},
		{Item: "what is left", AskedBy: []string{DailyWorkReport}, Part: "left"},
		{Item: "statement that the record shows good work and bad", AskedBy: []string{QualityRecords}, Where: "statement above the signatures"},
		{Item: "signatures of both sides", AskedBy: []string{CountyAccount, MunicipalAccount}, Where: "signature lines"},
		{Item: "submittals reviewed and checks away from the site", AskedBy: []string{QualityRecords}, Office: "kept by the office; a note may tell of it under instructions"},
		{Item: "a report for every 7 days without work", AskedBy: []string{QualityRecords}, Office: "written by the office as a day note without work"},
		{Item: "stock affidavit, invoices and payroll", AskedBy: []string{StateExtraWork}, Office: "sent by the office with the claim"},
	}
}
