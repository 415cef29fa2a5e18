package trade

import (
	"strconv"
	"strings"
)

// A Conductor is a wire by size and metal.
type Conductor struct {
	Size     string // as the table names it: "12", "1/0", "250"
	Kcmil    bool   // Size is in kcmil, not AWG
	Aluminum bool   // or copper-clad aluminum; copper otherwise
	// Cable60 is set for NM and UF cable, whose ampacity goes by the 60 degree column whatever the
	// terminals are marked (NEC 334.80 and 340.80, from memory).
	Cable60 bool
}

// String returns "12 AWG copper", "250 kcmil aluminum".
func (c Conductor) String() string {
	unit, metal := " AWG", " copper"
	if c.Kcmil {
		unit = " kcmil"
	}
	if c.Aluminum {
		metal = " aluminum"
	}
	return c.Size + unit + metal
}

// An ampacityRow is one size of NEC Table 310.16 (310.15(B)(16) before 2020), amperes in the columns
// for 60 and 75 degrees C; 0 where the table has none. The 90 degree column is left out: terminals
// at a breaker are marked 60 or 75.
type ampacityRow struct {
	size                   string
	cu60, cu75, al60, al75 int
	// checked says that two published copies of the table in an older layout (Table 310-16) show
	// the same four figures; the other rows are of the layout since 2011, from memory.
	checked bool
}

var ampacities = []ampacityRow{
	{"14", 15, 20, 0, 0, false},
	{"12", 20, 25, 15, 20, false},
	{"10", 30, 35, 25, 30, true},
	{"8", 40, 50, 35, 40, false},
	{"6", 55, 65, 40, 50, true},
	{"4", 70, 85, 55, 65, true},
	{"3", 85, 100, 65, 75, true},
	{"2", 95, 115, 75, 90, true},
	{"1", 110, 130, 85, 100, true},
	{"1/0", 125, 150, 100, 120, true},
	{"2/0", 145, 175, 115, 135, true},
	{"3/0", 165, 200, 130, 155, true},
	{"4/0", 195, 230, 150, 180, true},
	{"250", 215, 255, 170, 205, true},
	{"300", 240, 285, 195, 230, false},
	{"350", 260, 310, 210, 250, true},
	{"400", 280, 335, 225, 270, true},
	{"500", 320, 380, 260, 310, true},
	{"600", 350, 420, 285, 340, false},
	{"700", 385, 460, 315, 375, false},
	{"750", 400, 475, 320, 385, true},
	{"800", 410, 490, 330, 395, true},
	{"900", 435, 520, 355, 425, true},
	{"1000", 455, 545, 375, 445, true},
	{"1250", 495, 590, 405, 485, true},
	{"1500", 525, 625, 435, 520, false},
	{"1750", 545, 650, 455, 545, true},
	{"2000", 555, 665, 470, 560, false},
}

// smallSizes are below the table: fixture and control wire.
var smallSizes = map[string]bool{"18": true, "16": true}

// smallConductors is the largest breaker for small conductors, in amperes by AWG size: NEC 240.4(D).
// Checked for 14, 12 and 10 copper and 12 and 10 aluminum against a wire maker's copy of the
// footnote to Table 310-16 that the rule came from; 18 and 16 are from memory.
var smallConductors = map[string]struct{ copper, aluminum int }{
	"18": {7, 0}, "16": {10, 0}, "14": {15, 0}, "12": {20, 15}, "10": {30, 25},
}

// standardRatings are the standard ampere ratings of fuses and breakers up to 800 A, beyond which
// the next size up is not allowed: NEC 240.6(A) and 240.4(B), from memory.
var standardRatings = []int{
	15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400,
	450, 500, 600, 700, 800,
}

// ConductorSizes is what a conductor may be called, for a hint.
const ConductorSizes = "14 to 1 and 1/0 to 4/0 AWG, 250 to 2000 kcmil; AL behind it for aluminum"

// ReadConductor reads a conductor as a panel's table or a note writes it: "10 AWG", "#12", "12/2 MC",
// "10/3 NM", "1/0 AL", "250 kcmil". It returns false for a size that is not made or not in the table.
func ReadConductor(s string) (Conductor, bool) {
	var c Conductor
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == ',' || r == '\t' || r == '#' })
	if len(words) == 0 {
		return c, false
	}
	size := words[0]
	for _, unit := range []string{"awg", "kcmil", "mcm", "ga"} {
		size = strings.TrimSuffix(size, unit)
	}
	if gauge, wires, cable := strings.Cut(size, "/"); cable && len(wires) == 1 && wires >= "2" && wires <= "5" && gauge != "1" && gauge != "3" {
		size = gauge // "12/2"; "1/2" and "3/8" are sizes of raceways
	}
	row, known := ampacityOf(size)
	if !known && !smallSizes[size] {
		return c, false
	}
	c.Size = size
	c.Kcmil = known && len(row.size) >= 3 && !strings.Contains(row.size, "/")
	for _, w := range words {
		switch w {
		case "al", "alu", "alum", "aluminum", "aluminium":
			c.Aluminum = true
		case "nm", "nmb", "nm-b", "romex", "uf", "uf-b", "ufb":
			c.Cable60 = true
		}
	}
	return c, true
}

func ampacityOf(size string) (ampacityRow, bool) {
	for _, r := range ampacities {
		if r.size == size {
			return r, true
		}
	}
	return ampacityRow{}, false
}

// Ampacity returns the amperes a conductor may carry by the column for terminals of 60 or 75 degrees
// C, before any adjustment for bundling or heat; 0 when the table has no figure.
func (c Conductor) Ampacity(terminal int) int {
	r, _ := ampacityOf(c.Size)
	at60 := terminal == 60 || c.Cable60
	switch {
	case c.Aluminum && at60:
		return r.al60
	case c.Aluminum:
		return r.al75
	case at60:
		return r.cu60
	}
	return r.cu75
}

// largestBreaker returns the largest breaker the conductor may have in general, and the rule.
func (c Conductor) largestBreaker(terminal int) (amps int, rule string) {
	small, limited := smallConductors[c.Size]
	if limited {
		amps = small.copper
		if c.Aluminum {
			amps = small.aluminum
		}
		return amps, "NEC 240.4(D)"
	}
	carries := c.Ampacity(terminal)
	rule = "NEC Table 310.16: " + strconv.Itoa(carries) + " A"
	for _, r := range standardRatings {
		if r >= carries {
			if r > carries {
				rule += ", the next standard size up by 240.4(B)"
			}
			return r, rule
		}
	}
	return carries, rule
}

// Breaker is an overcurrent device by rating and poles.
type Breaker struct {
	Amps  int
	Poles int    // 0 when not said
	Kind  string // "GFCI", "AFCI", or ""
}

// ReadBreaker reads a breaker as a panel's table or a note writes it: "30A 2P", "20/1", "2P 40 A",
// "20A GFCI", "15". It returns false when there is no rating, or words that are none of these.
func ReadBreaker(s string) (Breaker, bool) {
	var b Breaker
	words := runs(s)
	for i, w := range words {
		n, err := strconv.Atoi(w)
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		switch {
		case err == nil && n >= 1 && n <= 3 && b.Poles == 0 && (b.Amps > 0 || strings.HasPrefix(next, "p")):
			b.Poles = n
		case err == nil && n >= 10 && n <= 6000 && b.Amps == 0:
			b.Amps = n
		case err == nil:
			return Breaker{}, false
		case w == "gfci" || w == "gfi":
			b.Kind = "GFCI"
		case w == "afci":
			b.Kind = "AFCI"
		case w == "single" && b.Poles == 0:
			b.Poles = 1
		case w == "double" && b.Poles == 0:
			b.Poles = 2
		case !breakerWords[w]:
			return Breaker{}, false
		}
	}
	if b.Amps == 0 {
		return Breaker{}, false
	}
	return b, true
}

// breakerWords are words beside rating and poles that say nothing more.
var breakerWords = map[string]bool{
	"a": true, "amp": true, "amps": true, "p": true, "pole": true, "poles": true, "breaker": true, "brkr": true, "bkr": true,
	"cb": true,
}

// runs splits text into runs of digits and runs of letters, in lower case.
func runs(s string) []string {
	var out []string
	start, kind := 0, 0
	s = strings.ToLower(s)
	for i := 0; i <= len(s); i++ {
		k := 0
		if i < len(s) {
			switch c := s[i]; {
			case c >= '0' && c <= '9':
				k = 1
			case c >= 'a' && c <= 'z' || c >= 0x80:
				k = 2
			}
		}
		if k != kind {
			if kind != 0 {
				out = append(out, s[start:i])
			}
			start, kind = i, k
		}
	}
	return out
}

// String returns the normal form, "30A 2P GFCI".
func (b Breaker) String() string {
	s := strconv.Itoa(b.Amps) + "A"
	if b.Poles > 0 {
		s += " " + strconv.Itoa(b.Poles) + "P"
	}
	if b.Kind != "" {
		s += " " + b.Kind
	}
	return s
}

// Protection is a breaker and the conductor it protects, as written, "" where nothing is, and the
// temperature the terminals are marked for: 60, 75, or 0 when nobody said.
type Protection struct {
	Breaker, Conductor string
	Terminal           int
}

// ProtectionState says how a breaker fits its conductor.
type ProtectionState int

// The states of a protection.
const (
	ProtectionOpen      ProtectionState = iota // nothing to say: something is not written, or it fits
	ProtectionTooBig                           // the breaker is larger than the rules allow in general
	ProtectionTerminals                        // it depends on the terminals, and nobody said how they are marked
	ProtectionUnknown                          // the conductor is of no known size
)

// Check holds the breaker against the conductor by NEC 240.4(D) up to 10 AWG and by Table 310.16 with
// 240.4(B) above. Text is what to look at, "" when there is nothing. Motors, air conditioners, welders
// and taps have rules of their own, bundling and heat lower the ampacity: it is a pointer to look,
// no verdict, and nothing said is no word that it fits.
func (p Protection) Check() (state ProtectionState, text string) {
	if p.Conductor == "" {
		return ProtectionOpen, ""
	}
	c, ok := ReadConductor(p.Conductor)
	if !ok {
		return ProtectionUnknown, strconv.Quote(p.Conductor) + " is no conductor size in the table: nothing says what breaker it may have"
	}
	b, ok := ReadBreaker(p.Breaker)
	if !ok {
		return ProtectionOpen, ""
	}
	terminal, said := p.Terminal, p.Terminal == 60 || p.Terminal == 75
	if !said {
		terminal = 75
	}
	amps := strconv.Itoa(b.Amps) + " A breaker on " + c.String() + ": "
	if limit, rule := c.largestBreaker(terminal); b.Amps > limit {
		return ProtectionTooBig, amps + p.most(limit, c, rule, terminal) + " unless the load has a rule of its own; look before it is used"
	}
	if said || b.Amps > 100 { // above 100 A terminals are rated 75 in general: NEC 110.14(C)(1)(b), from memory
		return ProtectionOpen, ""
	}
	if limit, rule := c.largestBreaker(60); b.Amps > limit {
		return ProtectionTerminals, amps + p.most(limit, c, rule, 60) +
			" unless breaker and device are marked for 75 degrees C (NEC 110.14(C), from memory)"
	}
	return ProtectionOpen, ""
}

func (p Protection) most(limit int, c Conductor, rule string, terminal int) string {
	if limit == 0 {
		return "no breaker is listed for it (" + rule + ")"
	}
	s := strconv.Itoa(limit) + " A is the most (" + rule
	if _, small := smallConductors[c.Size]; !small {
		if c.Cable60 {
			terminal = 60
		}
		s += ", column for " + strconv.Itoa(terminal) + " degrees C"
	}
	return s + ")"
}
