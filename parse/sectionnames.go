package parse

import (
	"strings"

	"jobday/notes"
)

// sectionNames are the plain names of the sections, as plainName writes them. They are what crews and offices of the
// trade head such lists with: common practice, no source.
var sectionNames = buildSectionNames()

func buildSectionNames() map[string]notes.Section {
	names := map[notes.Section]string{
		notes.Done: "done|work|completed|complete|work done|work completed|work performed|completed work|done today|" +
			"did|did today|today|what we did|finished|progress|work today|today's work|installed|" +
			"scope|scope work|scope items|scope of work|in scope|per scope|booked work|contract work|base scope|ticket items|ticket work|" +
			"on the ticket|went in|got in|got done|what got done|what went in|what i did|what was done|work dun|accomplished|" +
			"completed today|finished today|installed today|progress today|today's progress|done so far|items completed|completed items|" +
			"work items|work report|work activities|work in place|description of work|work description|services performed|tasks completed",
		notes.Materials: "materials|material|parts|mats|mat|used|consumed|spent|material used|materials used|parts used|used today|stock|" +
			"stuff used|mat'l|mat'ls|matl|matls|mtl|mtls|from stock|off the truck|from truck|truck stock|parts list|material list|" +
			"material use|materials use|material usage|matl used|matls used|mat used|mats used|mtl used|mtls used|mat'l used|materials list|matl list|" +
			"mats list|parts from truck|parts from the truck|parts off truck|parts off the truck|from the truck|off truck|used from truck|" +
			"used off the truck|truck parts|truck material|from van|from the van|off the van|parts from van|van stock|stock used|" +
			"used from stock|from shop|from the shop|shop stock|bill of materials|bom|stuff|stuff we used|what we used|things used|" +
			"items used|supplies|supplies used|consumables|material taken|material installed|materials installed",
		notes.Extras: "requests|request|customer requests|extras|extra|added|change|changes|add-ons|add-on|addons|add ons|adds|not booked|change orders|" +
			"change order|extra work|added work|additional|additional work|not on ticket|not on the ticket|co|cos|out of scope|" +
			"additional items|additional requests|extra items|extra stuff|added items|items added|add on work|extras to bill|" +
			"billable extras|any extras|possible extras|not in scope|not in the scope|outside scope|outside of scope|" +
			"outside the scope|beyond scope|off ticket|off the ticket|not on quote|not in the quote|not in contract|change requests|" +
			"change request|pending change orders|possible change orders|possible change order|potential change orders|pending cos|possible co|possible cos|co items|" +
			"co request|co requests|pco|pcos|owner requests|owner request|client requests|client request|customer request|tenant requests|" +
			"gc requests",
		notes.Deficiencies: "trouble|troubles|trouble found|deficiencies|deficiency|problems|problem|found|issues|issue|hazards|hazard|defects|defect|violation|" +
			"fault|faults|problems found|issues found|found issues|found problems|things found|deficiencies found|violations|hazards found|" +
			"corrections needed|corrections|correction|needs correction|correction list|to correct|code violations|code issues|code problems|" +
			"safety issues|safety hazards|concerns|concern|defects found|faults found|what we found|what i found|things noticed|also found|" +
			"red tags|red tagged|repairs needed|repair needed|needs repair|needs attention|existing problems|existing issues|any issues|" +
			"new issues|other issues|any problems|other problems|issues noted|problems noted|deficiencies noted|inspection corrections|" +
			"inspector corrections|inspection items|troubles found|conditions found",
		notes.Tests: "tests|test|readings|reading|testing|checks|test results|tested|meter readings|measurements|measurement|test readings|checked|megger|meggered|megged|megger readings|" +
			"readings taken|test log|test report|testing results|megger tests|megger test|insulation tests|insulation readings|" +
			"ir readings|ir tests|voltage readings|amp readings|load readings|gfci tests|function tests|functional tests|function test|" +
			"final tests|final checks|voltage checks|commissioning tests",
		notes.Circuits: "circuits|circuit|panel|directory|panel directory|panel schedule|circuit directory|ckts|ckt|circuit list|" +
			"panel labels|breakers|panels|panel changes|panel info|panel card|panel legend|panel updates|circuit changes|" +
			"circuit schedule|circuit labels|circuit log|directory changes|directory updates|" +
			"panel directory changes|breaker list|breaker changes|ckt list|ckt changes",
		notes.Time: "time|hours|hrs|labor|labour|man hours|manhours|man-hours|crew time|crew hours|time on site|hours today|" +
			"time sheet|timesheet|hr|" + peopleNames + "|hour|hours worked|hrs worked|time worked|labor hours|labour hours|" +
			"labor hrs|man hrs|manhrs|our hours|my hours|hrs today|time today|labor today|hours on site|hrs on site|hours on job|" +
			"job hours|daily hours|names and hours|names and hrs|names and times|crew and hours|crew and time|times|clock times|" +
			"time log|labor log|time card|timecard|time cards|timecards",
		notes.Left: "left|to do|todo|to-do|remaining|next|punch|punch list|punchlist|open items|open|tomorrow|left to do|" +
			"still to do|still left|next trip|next visit|next time|not done|to finish|for tomorrow|rest|unfinished|outstanding|need|needs|still need|tmrw|tmw|to get|to order|need to|" +
			"follow up|follow ups|followup|followups|following up|punch items|punch list items|still open|to go|still to go|pending|" +
			"pending items|pending work|remaining work|remaining items|work remaining|work left|what's left|whats left|what is left|" +
			"items left|left to finish|left over work|to complete|to be completed|to be done|unfinished work|unfinished items|next steps|next up|next day|" +
			"next week|tomorrow's work|tomorrow's plan|plan for tomorrow|plan|for next time|for next trip|return trip|return visit|" +
			"carry over|carryover|carried over|action items|open work|outstanding items|outstanding work|needed|need to do|still needs|" +
			"still needed|gotta do|got to do|still gotta do|needed next|need for tomorrow|needed tomorrow|need tomorrow|order list|" +
			"shopping list|need to order|to buy|parts needed|parts to order|material needed|materials needed|material to order|matl needed|mats needed|" +
			"to bring|bring tomorrow|bring next time",
		notes.Questions: "questions|question|q|qs|ask|need to know|ask office|ask the office|for the office|for office|open questions|" +
			"rfi|rfis|need answer|need answers|questions for office|questions for the office|office questions|q's|rfi's|any questions|" +
			"clarifications|clarification|need clarification|to clarify|to ask|ask pm|ask the pm|for the pm|need direction|" +
			"decisions needed|decision needed|need decision|need decisions|need a decision|unanswered",
		notes.Deliveries: "deliveries|delivery|received|delivered|deliveries received|material received|materials received|" +
			"deliveries today|delivered today|received today|material delivered|materials delivered|material delivery|" +
			"material deliveries|received material|received materials|shipments|shipment|receiving|packing slips|drop offs|dropped off",
		notes.Equipment: "equipment|tools|rental|rentals|lift|lifts|equip|equipment used|machines|plant|tool rental|rented|" +
			"equipment on site|rental equipment|equipment rental|equipment rentals|equipment rented|tools used|tools and equipment used|" +
			"lift rental|lifts on site|machinery|heavy equipment|special tools|equip used",
		notes.Delays: "delays|delay|held up|waiting|delayed|hold ups|holdups|hold-ups|standby|down time|downtime|lost time|waiting on|awaiting|" +
			"hold up|held up by|delayed by|waiting for|waited on|waited for|waiting time|wait time|idle time|stand by|blocked by|" +
			"blockers|roadblocks|roadblock|lost hours|interruptions|any delays|holding us up",
		notes.Instructions: "instructions|instruction|directives|directive|told|directions|orders|instructions received|" +
			"instructions given|from the gc|gc says|site instructions|gc instructions|gc directions|gc direction|owner instructions|" +
			"customer instructions|site directives|field directives|field directive|field instructions|verbal directions|" +
			"verbal direction|verbal instructions|told us",
		notes.Safety: "safety|toolbox|jsa|jha|toolbox talk|tailgate|safety talk|safety check|safety checks|loto|tool box talk|" +
			"tool box|toolbox talks|toolbox meeting|tailgate talk|tailgate meeting|safety meeting|safety briefing|safety topic|" +
			"safety topics|safety notes|safety items|safety huddle|site safety|pre task plan|pretask|ptp|ppe|lockout tagout|hazard assessment",
		notes.Conditions: "conditions|weather|site|site conditions|condition|access|weather and access|jobsite|job site|" +
			"weather conditions|weather and site|job conditions|jobsite conditions|working conditions|work conditions|site condition|" +
			"site access|wx",
		notes.Subcontractors: "subcontractors|subs|other trades|subcontractor|sub|trades|others on site|other contractors|" +
			"trades on site|visitors|subs on site|other subs|other crews|other trades on site|other contractors on site|" +
			"visitors on site|site visitors|visitor|trade partners|who else|who else was there",
	}
	table := map[string]notes.Section{}
	for _, s := range notes.Sections {
		for _, name := range strings.Split(names[s], "|") {
			table[plainName(name)] = s
		}
	}
	return table
}

// peopleNames head a list of who was there. With hours it is the time of a day; without, it is its crew.
const peopleNames = "names|name|crew|crews|manpower|man power|people|who|who was here|who was there|who was on site|on site|onsite|" +
	"guys|men|techs|tech|technicians|technician|electricians|electrician|personnel|staff|head count|headcount|attendance|crew on site|crew today|men on site"

// crewNames are peopleNames one by one.
var crewNames = lineSet(peopleNames)

// asideNames head lines of no one kind: what else there was. Below Materials, "Also" may be followed by an extra,
// below Names by a question. So they open no section and end the one above: each line is what its own words say.
var asideNames = lineSet("also|other|misc|miscellaneous|other stuff|other things|other notes|other items|and also|etc|notes|note|" +
	"remarks|remark|comments|comment|general|general notes|general comments|fyi|observations|observation|anything else|ps|p.s|" +
	"additional notes|additional comments|extra notes|more notes|other info|job notes|daily notes|site notes|notes for office|" +
	"random|odds and ends|heads up|end of day|eod|summary|daily log|everything else|besides that|plus")

// remarkWords say how far something got, and are section names too. Right below something they are as often said
// of it.
var remarkWords = lineSet("done|complete|completed|finished|installed|tested|checked|megged|meggered|received|delivered|delayed|" +
	"waiting|pending|not done|unfinished|outstanding|rented")

// headingNames are section names that stand alone or not at all: before a colon they are what a line is about,
// "panels: row 1 and 2 full".
var headingNames = lineSet("panels|stuff|scope|supplies|staff|men|hour|times|conditions found")

// dashNames are the section names that also open a line with a dash, "mats - 4 recepts". The rest
// are as often the first word of a sentence or a place: "panel - replaced the cover".
var dashNames = lineSet("mats|materials|material|parts|used|left|remaining|hrs|hours|time|labor|labour|tests|extras|extra|" +
	"deficiencies|found|issues|questions|delays|safety|weather|deliveries|received|tomorrow|tmrw|need|todo|done|equipment|problems|" +
	"mat'l|mat'ls|matl|matls|mtl|mtls|parts used|material used|materials used|stuff used|material use|truck stock|parts from truck|" +
	"to do|follow up|punch|punch list|still to do|still open|to order|parts needed|material needed|materials needed|crew|names|manpower|techs|hrs worked|" +
	"hours worked|man hours|readings|test results|rfi|extra work|change order|work done|work completed|work performed|went in|" +
	"scope work|corrections needed|violations|deficiency|waiting on|next trip|next visit|tmw|toolbox talk|lost time|subs|other trades|visitors")

// bareNames open a line with nothing but a blank, where a name or a figure follows: "Hrs Ana 8-6".
var bareNames = wordSet("hrs hours time labor labour manpower mats materials parts matl matls mtl mtls mat'l")
