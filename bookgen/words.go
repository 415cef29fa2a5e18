package bookgen

var people = []string{"Ines Haldane", "Marek Dolin", "Tobias Wray", "Dorothea Pell", "Wen Akarsu"}

var treatments = []string{"commercial repair", "commercial improvement", "farm building"}

var places = []string{"mill office", "harbor shed", "print shop", "grain store", "clinic", "school annex", "corner bakery", "boat yard", "machine hall", "guest house"}

var floors = []string{"ground floor", "second floor", "rear wing", "north bay", "basement"}

var customers = []string{"Pinewell Mills", "Sorrel Harbor Company", "Old Ferry Print", "Brindle Grain", "Tarn Valley Clinic", "Copse Lane School"}

var streets = []string{"Weir Lane", "Copse Road", "Tannery Row", "Fuller Street", "Sluice Street"}

var rooms = []string{"kitchen", "north wall", "unit 4", "hall", "office 2", "loading dock", "break room", "stair B", "roof", "server closet", "front counter", "unit 7"}

var works = []string{
	"Duplex receptacles", "GFCI receptacles", "LED troffers, 2x4", "Occupancy sensors", "Single-pole switches",
	"Exit lights", "Circuit for heat pump, 30 A 2-pole", "Circuit for range, 50 A 2-pole", "Circuit for compressor, 20 A 2-pole",
	"Smoke detector bases", "Dimmers", "3-way switches", "Floor boxes", "Weatherproof receptacles",
	"Vapor-tight lights", "Data drops roughed", "Replace breakers", "Label panel", "Exhaust fans", "Emergency battery units",
}

var lengths = []string{"12/2 MC", "10/2 MC", "12/3 MC", "12/2 NM", "14/2 romex", "3/4 EMT", "1/2\" EMT", "10/3 NM", "#12 THHN", "#6 bare copper"}

var pieces = []string{
	"4in square boxes", "MC connectors", "20A GFCI recepts", "20A duplex receptacles", "single-pole switches", "1-gang old work boxes",
	"20A 1P breakers", "15A 1P breakers", "30A 2P breakers", "3/4 EMT connectors", "2x4 troffers", "occ sensors", "1-gang cover plates",
	"knockout seals", "LED dimmers", "in-use covers",
}

var numbers = []string{"two", "three", "a dozen", "six", "half a dozen", "ten"}

var remarks = []string{
	"all working", "trimmed out and tested", "not landed yet", "waiting on the ceiling grid", "left side only",
	"had to move two boxes for the duct", "plates still to go on", "rest tomorrow", "drywallers were in the way",
	"looks good", "checked against the drawing",
}

var extras = []string{
	"Added a disconnect for the new mixer", "moved the thermostat wire for the painter", "extra receptacle behind the copier",
	"fed the vending machine from the spare in LP2", "relocated two exit lights after the wall moved", "temporary lights for the plasterers",
	"hooked up the owner's sign transformer",
}

var consents = []string{
	"ok'd by the super on site 10:40", "no price talked about", "quoted 180, signed", "per the owner, texted yes 2:15",
	"declined, not this year", "n/c, our mistake", "asked for by the tenant, told her we would price it",
}

var faults = []string{
	"two open knockouts on the bottom of the panel; closed them, 10 min", "box over the ceiling has no cover; left, told the owner",
	"cord run as fixed wiring behind the freezer; unplugged it and tagged it", "neutral and ground under one screw in LP1; fixed, 15 min",
	"reversed polarity at the hall receptacle; corrected", "burnt lug on the old disconnect, live parts; made safe, told the super",
	"loose receptacle by the sink", "cable not supported over the grid, about 20 ft; left", "double tapped breaker, space 7; fixed",
}

var leftovers = []string{
	"trim the last three", "land the heat pump circuit", "label the panel", "plates", "second coat then fixtures",
	"pull the homerun from the roof", "test the GFCIs", "nothing",
}

var questions = []string{
	"is the rooftop disconnect ours?", "which color plates does the owner want?", "do we price the sign now or with the next change?",
	"who patches the hole in the hall?",
}

var deliveries = []string{
	"12 troffers received, two boxes dented, signed for 10", "500 ft of 12/2 MC, good", "breakers still on back order", "panel arrived, wrong bus, sent back",
}

var equipment = []string{"scissor lift 6 h worked, 2 h idle", "core drill 1 h", "mini digger 5 hrs, sat 1 hr", "threader all day"}

var delays = []string{"ceiling crew in the room until 10, 2 h", "no power for lifts, 1 h, building's", "inspector late, 45 min, city", "rain, roof shut 1.5 h"}

var instructions = []string{
	"super: move the floor box 8 in east, given 9:10", "owner wants all plates white", "architect by phone: hold the lobby lights",
	"told the painters to leave the covers off",
}

var safety = []string{"toolbox talk: ladders", "locked and tagged the panel, tested dead", "lift inspected, ok", "taped off the hall"}

var conditions = []string{"dry, 51 F, light wind", "wet, 44 F", "dust from sanding in unit 4", "other trades: plumber, drywall, painter", "hot in the attic, 98 F"}

var subs = []string{"Alder Digging: 1 man, 4 h, trench", "low voltage crew roughed the data drops, 2 men", "fire stop crew in the stair, 3 h"}

var prose = []string{
	"Good day. The elevator was out until nine so we carried everything up the back stair.",
	"Slow start, nobody had the key to the closet and the super was on the other job until half past eight.",
	"Painters and floor crew in the same room; worked around them.",
	"Short day for the second man, dentist in the afternoon.",
	"The ceiling grid went up faster than planned so we went to the hall first and came back after lunch.",
	"The super walked the job with us at ten and was fine with how the boxes sit on the north wall.",
	"Parked in the back because the loading dock is full of flooring until Thursday.",
	"Lost some time looking for the drawing with the new counter; the one in the trailer is the old one.",
	"We left the hall lights on a temporary switch so the cleaners can work tonight.",
}

var shifts = []string{
	"%s 7-3:30, 30 lunch", "%s 7:00-12:00, 12:30-15:30", "%s 8a-noon & 12:30-4p", "%s 0730-1600 less 1/2", "%s 8 h", "%s 6:30 to 3, no lunch",
}
