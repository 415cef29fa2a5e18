package parse

import (
	"math/bits"
	"slices"
	"strings"
	"unicode"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// A slipName is a name of a section, ready to be compared with.
type slipName struct {
	name    string
	words   []string
	letters []uint32 // of each word
	section notes.Section
}

// slipNames are the names of the sections by how many words they have, in order.
var slipNames = func() [4][]slipName {
	var by [4][]slipName
	for name, s := range sectionNames {
		n := slipName{name: name, words: strings.Fields(name), section: s}
		for _, w := range n.words {
			n.letters = append(n.letters, lettersOf(w))
		}
		if len(n.words) < len(by) {
			by[len(n.words)] = append(by[len(n.words)], n)
		}
	}
	for _, list := range by {
		slices.SortFunc(list, func(a, b slipName) int { return strings.Compare(a.name, b.name) })
	}
	return by
}()

// lettersOf returns the letters a word has, one bit each: of two words that differ in more of them than slips
// make, the distance need not be counted.
func lettersOf(word string) uint32 {
	set := uint32(0)
	for i := range len(word) {
		set |= 1 << (word[i] & 31)
	}
	return set
}

// shortestTaken is how many letters a heading needs so that a slip in it is taken: of "tie" too little is left.
const shortestTaken = 4

// mostSlips is how many letters of a word may be wrong for it to be read as another.
func mostSlips(word string) int {
	switch {
	case len(word) < 3:
		return 0
	case len(word) < 9:
		return 1
	}
	return 2
}

// nearSections returns the sections that a heading without one may name by a slip, each with its nearest name: none,
// one, or several that are as near.
func (r *noteReader) nearSections(text string) []slipName {
	const longest = 30
	name := plainName(text)
	if len(name) > longest || anyDigit(text) && !onlyNumbered(text) || strings.ContainsAny(text, ",;?!|=@") {
		return nil
	}
	words := strings.Fields(name)
	if len(words) == 0 || len(words) >= len(slipNames) {
		return nil
	}
	slipped := make([]bool, len(words))
	letters := make([]uint32, len(words))
	for i, w := range words {
		slipped[i], letters[i] = !r.isWord(w), lettersOf(w)
	}
	if !slices.Contains(slipped, true) {
		return nil
	}
	var near []slipName
	least := len(name)
	for _, n := range slipNames[len(words)] {
		d := slipsTo(words, letters, slipped, n)
		if d <= 0 || d > least {
			continue
		}
		if d < least {
			near, least = near[:0], d
		}
		i := slices.IndexFunc(near, func(o slipName) bool { return o.section == n.section })
		switch {
		case i < 0:
			near = append(near, n)
		case titled(n.name) == title(n.section):
			near[i] = n // of names as near, the one a new note has
		}
	}
	return near
}

// slipsTo counts the slips between the words of a heading and a name, or returns -1 where they differ in more.
func slipsTo(words []string, letters []uint32, slipped []bool, n slipName) int {
	sum := 0
	for i, w := range words {
		to, most := n.words[i], mostSlips(w)
		switch {
		case w == to:
			continue
		case !slipped[i], len(to) < shortestTaken, !sameStart(w, to), len(to)-len(w) > most, len(w)-len(to) > most,
			bits.OnesCount32(letters[i]^n.letters[i]) > 2*most:
			return -1
		}
		d := finding.Slips(w, to)
		if d > most {
			return -1
		}
		sum += d
	}
	return sum
}

// sameStart reports whether two words begin alike, or with their first letters swapped: few slips are made there,
// and many a word differs only there, "reading" and "leading".
func sameStart(a, b string) bool {
	return a[0] == b[0] || len(a) > 1 && a[0] == b[1] && a[1] == b[0]
}

// isWord reports whether a word means something of its own, so that it is no slip of another: a person, a place, a
// thing of the trade, or a word of the language that stands near the name of a section.
func (r *noteReader) isWord(word string) bool {
	if nearWords[word] || r.lex.Name(word) != "" || placeName(word, true) != "" {
		return true
	}
	if len(word) < shortestTaken {
		return false
	}
	if _, section := sectionNames[word]; section || (signWords[word]|vocabularySign(word)) != 0 {
		return true
	}
	return slices.ContainsFunc(field.TermsIn(word, r.lex.Words), func(t field.Term) bool { return t.Class != field.OtherTerm })
}

// nearWords are words of the language that are a letter or two from the name of a section and may head lines of
// their own.
var nearWords = wordSet("across actual add adder addition additions ads aids aisle area areas arts away awning back band bands bank bar " +
	"bars base bath bathe bats batt batts bearing bearings bed beds best bins block board boards bold boots borders " +
	"both box brackets bulk bunch cafe cards carts cats cellar center chance channel channels charge charged charger " +
	"chargers charges check checker cheeks chicks chocks chucks circuitry classification clients cold collection " +
	"collections compete competed completely complexes concerned concert concerts conditional conditioned " +
	"conditioner conditioners conduction connect connection connections construction contract convection conviction " +
	"cook cooks cork corner correlation cots court crest crow crown decay decayed deck decks deed defeat defeats " +
	"defective defector defectors deficient deflect deliverer dental desk detect detector detectors detects dine " +
	"directing directors dock docks doe dole dome don dorm dorms dose dove down doze drew drone dune east eats " +
	"electrical electricity electronics entry equal equips exchange exchanges ext extract extracts farm faulty feed " +
	"feeds fence fest fields finisher fire firm fixture floor flow fold followers fond food fork form forms foul " +
	"fund furnished gates gift gifts gold grill grounds guests gums guns guts guy gym hall hold holds home hood hook " +
	"hounds house hunch huts inside instructor intake issued jest kit kite labels lap lathe lead leak learning " +
	"leather lent let life liner lines lint list lists lit lite lites live living load lobby loft lofts logo lone " +
	"loop loot lot lots lotto lower lunch machine machinist mail mails main mains mall malls malt manors maps marine " +
	"mars mart marts mass mast masts mate materially maternal mates math maul mauls meager meat meats media meds " +
	"merger mezz mill mills mils mine moats mold move named nave near neat nerd nest nests net nose nurse oats odds " +
	"office old one ones opened opens oven ovens owner oxen pads paint painted painting pan pane panelist panes " +
	"pantry pants park parks parlor party past pasture patch path paths patio pen penning pens pinch pit place plain " +
	"plane planet plank plans plants play plaza pliant plow pole poles pool pools porch pork port portal ports post " +
	"pound power program progressed pros pub punchline quest ramp range rats reacting readiness ready reaming rear " +
	"rearing receipted receiver receivers reception recess recessing reed reeds refraining regarding reheat " +
	"rejoining relay relays relieving reloading remarking reminding renal rending rent renter repainting repairs " +
	"requester reserving reset resort resp rests retailing retaining retraining rewarding rift road robin rods roof " +
	"room root rose rough round routes rust safe safely sales salon save score scoring seed seeds set sets shack " +
	"shed shift shock shop shops side sides sift sign sill sine sit sites situ size slab slip slips slope snack sock " +
	"sold sound soup south spa spare speakers spite spot spray stack stage stair stalls start steam stick stiff " +
	"stockroom stocks stool stools stop storage store stores stork street strip stub stubs study subcontract " +
	"subcontracts suds suite suites sump sun sundry supplied supplier suppliers swap sweep tame tank tap tape tasks " +
	"tasted tasting teach teams technical tee tenant tenants tennis tent tenting tents term terms tester testers " +
	"text texting texts theatre tide tides tile tiles tim timed timer timers tine tire tires toad toilet toils toll " +
	"tolls tom tome tone too tool tours tower towers town toys track trade traded trader traders training treads tub " +
	"tubs tune tunnel types unit units upper use user users vats vault vaults venue vest vests vibrations vocations " +
	"wafting wait walk wall wanting ward wards wash waste wasting water weathered web weeds week well west whole " +
	"wind wine wing wings wire wok wood woods word wore worm worn wound writing yard zone zones")

// sectionOrSlip returns the section that a heading names, or names by a slip. Of a slip it says so; where it may
// be several sections, it says that and names none.
func (r *noteReader) sectionOrSlip(start, end int) (notes.Section, bool) {
	if s, ok := sectionOf(r.scan.low[start:end]); ok {
		return s, true
	}
	if _, _, ok := r.sectionLabel(start, end); ok {
		return "", false
	}
	near := r.nearSections(r.body[start:end])
	if len(near) == 0 {
		return "", false
	}
	return r.sayNear(near, start, end)
}

// openSlip opens the section that a line without number signs names by a slip; where it may be several, it ends the
// one above.
func (r *noteReader) openSlip(near []slipName, it item, l line) {
	if s, taken := r.sayNear(near, it.start, it.end); taken {
		r.openByWord(s, l)
		r.section.crew = s == notes.Time && crewNames[near[0].name]
		return
	}
	r.open("", wordLevel)
	r.remark(l.start, l.end)
}

// sayNear says what a heading was read as, or that somebody has to say which of several it is.
func (r *noteReader) sayNear(near []slipName, start, end int) (s notes.Section, taken bool) {
	words := strings.TrimFunc(r.body[start:end], func(c rune) bool { return !unicode.IsLetter(c) })
	start += strings.Index(r.body[start:end], words)
	at := r.file.Span(start, start+len(words))
	least := quote(titled(near[0].name))
	if len(near) == 1 && len(plainName(words)) >= shortestTaken {
		read := least
		if section := title(near[0].section); section != titled(near[0].name) {
			read += ", which opens the section " + section
		}
		r.found.Add(finding.Finding{
			Severity: finding.Note, Rule: "heading/slip", Span: at,
			Message: "the heading " + quote(words) + " is read as " + read,
			Hint:    "write " + least + ", or name what is meant in other words",
		})
		return near[0].section, true
	}
	may, write := "", ""
	for i, n := range near {
		if i > 0 {
			may, write = may+" or ", write+" or "
		}
		may += quote(titled(n.name))
		write += quote(titled(n.name))
		if named := titled(n.name); named != title(n.section) {
			may += " (" + title(n.section) + ")"
		}
	}
	r.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "heading/which", Span: at,
		Message: "the heading " + quote(words) + " may be a slip for " + may + "; what stands below is read without it",
		Hint:    "write " + write + ", or name what is meant in other words",
	})
	return "", false
}

func titled(name string) string { return strings.ToUpper(name[:1]) + name[1:] }
