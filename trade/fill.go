package trade

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
)

// A raceway is a kind of conduit or tubing with the inside area of each trade size in square
// inches: NEC chapter 9, Table 4. EMT: checked on published copies up to 3-1/2; everything else
// from memory.
type raceway struct {
	name  string
	words []string // how notes write it, in lower case; the longest first
	areas map[string]string
}

var raceways = []raceway{
	{"EMT", []string{"emt"}, map[string]string{"1/2": "0.304", "3/4": "0.533", "1": "0.864", "1-1/4": "1.496", "1-1/2": "2.036", "2": "3.356",
		"2-1/2": "5.858", "3": "8.846", "3-1/2": "11.545", "4": "14.753"}},
	{"IMC", []string{"imc"}, map[string]string{"1/2": "0.342", "3/4": "0.586", "1": "0.959", "1-1/4": "1.647", "1-1/2": "2.225", "2": "3.630",
		"2-1/2": "5.135", "3": "7.922", "3-1/2": "10.584", "4": "13.631"}},
	{"RMC", []string{"rmc", "grc", "rigid"}, map[string]string{"1/2": "0.314", "3/4": "0.549", "1": "0.887", "1-1/4": "1.526", "1-1/2": "2.071", "2": "3.408",
		"2-1/2": "4.866", "3": "7.499", "3-1/2": "10.010", "4": "12.882", "5": "20.212", "6": "29.158"}},
	{"PVC schedule 80", []string{"pvc schedule 80", "pvc sch 80", "sch 80 pvc", "schedule 80 pvc", "pvc 80"}, map[string]string{"1/2": "0.217", "3/4": "0.409", "1": "0.688",
		"1-1/4": "1.237", "1-1/2": "1.711", "2": "2.874", "2-1/2": "4.119", "3": "6.442", "3-1/2": "8.688", "4": "11.258", "5": "17.855", "6": "25.598"}},
	{"PVC schedule 40", []string{"pvc"}, map[string]string{"1/2": "0.285", "3/4": "0.508", "1": "0.832", "1-1/4": "1.453", "1-1/2": "1.986", "2": "3.291",
		"2-1/2": "4.695", "3": "7.268", "3-1/2": "9.737", "4": "12.554", "5": "19.761", "6": "28.567"}},
	{"LFMC", []string{"lfmc", "sealtite", "liquidtight"}, map[string]string{"3/8": "0.192", "1/2": "0.314", "3/4": "0.541", "1": "0.873", "1-1/4": "1.528",
		"1-1/2": "1.981", "2": "3.246", "2-1/2": "4.881", "3": "7.475", "3-1/2": "9.731", "4": "12.692"}},
	{"FMC", []string{"fmc", "flex", "greenfield"}, map[string]string{"3/8": "0.116", "1/2": "0.317", "3/4": "0.533", "1": "0.817", "1-1/4": "1.277",
		"1-1/2": "1.858", "2": "3.269", "2-1/2": "4.909", "3": "7.069", "3-1/2": "9.621", "4": "12.566"}},
	{"ENT", []string{"ent", "smurf"}, map[string]string{"1/2": "0.246", "3/4": "0.454", "1": "0.785", "1-1/4": "1.410", "1-1/2": "1.936", "2": "3.205"}},
}

// wireSizes are the sizes of Table 5, in the order of the columns below.
var wireSizes = []string{"14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600", "750"}

// wireAreas are the areas of insulated conductors in square inches: NEC chapter 9, Table 5, checked
// on a published copy (2008 edition). THHN stands for THWN and THWN-2, XHHW for XHHW-2, THW for TW
// and THHW.
var wireAreas = map[string][]string{
	"THHN": {"0.0097", "0.0133", "0.0211", "0.0366", "0.0507", "0.0824", "0.0973", "0.1158", "0.1562", "0.1855", "0.2223", "0.2679", "0.3237",
		"0.3970", "0.4608", "0.5242", "0.5863", "0.7073", "0.8676", "1.0496"},
	"XHHW": {"0.0139", "0.0181", "0.0243", "0.0437", "0.0590", "0.0814", "0.0962", "0.1146", "0.1534", "0.1825", "0.2190", "0.2642", "0.3197",
		"0.3904", "0.4536", "0.5166", "0.5782", "0.6984", "0.8709", "1.0532"},
	"THW": {"0.0139", "0.0181", "0.0243", "0.0437", "0.0726", "0.0973", "0.1134", "0.1333", "0.1901", "0.2223", "0.2624", "0.3117", "0.3718",
		"0.4596", "0.5281", "0.5958", "0.6619", "0.7901", "0.9729", "1.1652"},
}

// insulationNames is what notes write for each row of wireAreas.
var insulationNames = []struct{ word, name string }{
	{"thhn", "THHN"}, {"thwn", "THHN"}, {"xhhw", "XHHW"}, {"thhw", "THW"}, {"thw", "THW"}, {"tw", "THW"},
}

// Fill is how far a raceway or box is filled, with the working. It is a pointer to look: bends,
// derating and what else is inside are not in it.
type Fill struct {
	What    string // "fill of 3/4 EMT", "volume of a 4 x 1-1/2 square box"
	Over    bool
	Value   notes.Decimal // how full: percent of a raceway, in3 of a box
	Unit    string        // "%" or "in3"
	Limit   string
	Rule    string
	Working string
	Unknown string // why nothing could be figured, though it was meant to be; else ""
}

// FindFill figures raceway fill or box volume where a text gives the numbers: "3/4 EMT, 9 #12 THHN",
// "4x1-1/2 square, 6 #12, 2 devices". Edition is the NEC edition in force ("2020"), for grounding
// conductors count more from 2020. It is false when the text does not give the numbers.
func FindFill(text, edition string) (Fill, bool) {
	if !strings.ContainsAny(text, "#/") && !strings.Contains(text, "cu") {
		return Fill{}, false
	}
	low := digitsForWords(strings.ToLower(text))
	list := figures(low)
	if len(list) < 2 || len(list) >= mostFigures {
		return Fill{}, false
	}
	f := fillReader{text: low, figures: list, edition: edition}
	if fill, ok := f.raceway(); ok {
		return fill, true
	}
	return f.box()
}

// countWords are counts as words; "a device" is one.
var countWords = map[string]string{"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
	"ten": "10", "twelve": "12", "a": "1", "an": "1"}

func digitsForWords(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		if d, ok := countWords[w]; ok {
			words[i] = d
		}
	}
	return strings.Join(words, " ")
}

// A fillReader reads the numbers of one text.
type fillReader struct {
	text    string
	figures []figure
	edition string
}

// wires is a count of equal conductors.
type wires struct {
	count  int
	size   string // "12"
	ground bool
	cable  int // conductors of each cable, 0 for single wires
}

// raceway figures the fill of the one raceway a text names.
func (f *fillReader) raceway() (Fill, bool) {
	kind, size, ok := f.conduit()
	if !ok {
		return Fill{}, false
	}
	list, insulation := f.wires(false), f.insulation()
	if len(list) == 0 {
		return Fill{}, false
	}
	fill := Fill{What: "fill of " + size + " in " + kind.name, Rule: "NEC chapter 9, Tables 1, 4 and 5 (" + kind.source() + ")"}
	inside := notes.MustDecimal(kind.areas[size])
	total, n, same := notes.Decimal{}, 0, true
	var working []string
	for _, w := range list {
		at := slices.Index(wireSizes, w.size)
		if at < 0 {
			fill.Unknown = quoted(w.size) + " is no size of conductor in Table 5"
			return fill, true
		}
		area := notes.MustDecimal(wireAreas[insulation.name][at])
		total = total.Add(area.Mul(notes.Int(w.count)))
		n += w.count
		same = same && w.size == list[0].size
		working = append(working, strconv.Itoa(w.count)+" x "+area.String()+" in2 ("+w.size+" "+insulation.shown+")")
	}
	most := fillPercent(n)
	if strings.Contains(f.text, "nipple") {
		most = 60
	}
	allowed := inside.Mul(notes.Int(most)).Quo(notes.Int(100), 5)
	fill.Value, fill.Unit = total.Mul(notes.Int(100)).Quo(inside, 2), "%"
	fill.Limit = strconv.Itoa(most) + " % of " + inside.String() + " in2 = " + allowed.String() + " in2"
	fill.Working = strings.Join(working, " + ") + " = " + total.String() + " in2, " + fill.Value.String() + " % of " +
		inside.String() + " in2; allowed " + fill.Limit
	fill.Over = total.Mul(notes.Int(100)).Cmp(inside.Mul(notes.Int(most))) > 0
	if fill.Over && same && n > 1 && f.nextWhole(total, allowed, n) {
		fill.Over = false
		fill.Working += "; of equal conductors the next whole number is allowed from a fraction of 0.8 (note 7, from memory)"
	}
	if most == 60 {
		fill.Working += "; a nipple of at most 24 in (checked)"
	}
	if !insulation.said {
		fill.Working += "; taken as THHN, the insulation is not written"
	}
	return fill, true
}

// nextWhole reports whether note 7 of chapter 9 allows n equal conductors: their number as figured
// from the areas has a fraction of 0.8 or more below n.
func (f *fillReader) nextWhole(total, allowed notes.Decimal, n int) bool {
	// allowed / (total / n) >= n - 0.2
	return allowed.Mul(notes.Int(n)).Mul(notes.Int(10)).Cmp(total.Mul(notes.Int(10*n-2))) >= 0
}

// fillPercent is NEC chapter 9, Table 1 (checked against published copies).
func fillPercent(n int) int {
	switch n {
	case 1:
		return 53
	case 2:
		return 31
	}
	return 40
}

func (r raceway) source() string {
	if r.name == "EMT" {
		return "checked"
	}
	return "Table 4 of " + r.name + " from memory, the others checked"
}

// conduit finds the one raceway of a text, with its trade size before it.
func (f *fillReader) conduit() (raceway, string, bool) {
	var kind raceway
	size, found := "", 0
	for i, n := range f.figures {
		rest := strings.TrimLeft(f.text[n.End:], " -\"”")
		rest = strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(rest, "inch"), "in."), " .")
		rest = strings.TrimLeft(strings.TrimPrefix(rest, "in "), " ")
		for _, r := range raceways {
			word, ok := startsWithAny(rest, r.words)
			if !ok || r.areas[tradeSize(n.text)] == "" || fitting(rest[len(word):]) {
				continue
			}
			if i > 0 && f.figures[i-1].unit == "" && f.between(i-1, i) == "" && f.figures[i-1].value.Cmp(notes.Int(1)) > 0 {
				return kind, "", false // "3 3/4 EMT": several, and nobody says what is in which
			}
			kind, size = r, tradeSize(n.text)
			found++
			break
		}
	}
	return kind, size, found == 1
}

// tradeSize writes a size as the tables do: "1 1/4" is "1-1/4".
func tradeSize(s string) string { return strings.ReplaceAll(s, " ", "-") }

// fitting reports whether what follows a raceway's name makes it a part: "EMT connectors".
func fitting(rest string) bool {
	word := strings.TrimLeft(rest, " -")
	word = word[:wordEnd(word, 0)]
	switch strings.TrimSuffix(word, "s") {
	case "connector", "conn", "coupling", "strap", "fitting", "elbow", "clamp", "bushing", "locknut", "hanger", "lb", "bodie", "body", "cap", "whip", "bender", "minerallac", "ground", "wire":
		return true
	}
	return false
}

func startsWithAny(text string, words []string) (string, bool) {
	for _, w := range words {
		if strings.HasPrefix(text, w) && (len(text) == len(w) || !isLetter(text[len(w)])) {
			return w, true
		}
	}
	return "", false
}

// between is what stands between two figures without blanks, dashes, "x" and "#".
func (f *fillReader) between(i, j int) string {
	return strings.Trim(f.text[f.figures[i].End:f.figures[j].Start], " -x#()")
}

// wires finds counts of conductors: "9 #12", "3 10 AWG", "4-#10", and with cables "3 14/2".
func (f *fillReader) wires(cables bool) []wires {
	var list []wires
	for i := 1; i < len(f.figures); i++ {
		n, size := f.figures[i-1], f.figures[i]
		count, whole := n.value.Int()
		if !whole || !n.value.IsWhole() || count < 1 || count > 500 || f.between(i-1, i) != "" && f.between(i-1, i) != "no." || strings.Contains(n.text, "/") ||
			strings.ContainsAny(size.text, "- .") {
			continue
		}
		w := wires{count: count, size: size.text, ground: groundBehind(f.text[size.End:])}
		gauge, inside, cable := strings.Cut(size.text, "/")
		switch {
		case cable && inside != "0" && cables && (inside == "2" || inside == "3" || inside == "4"):
			w.size = gauge
			w.cable, _ = strconv.Atoi(inside)
		case cable && inside != "0":
			continue
		case size.before == "#" || size.unit == "awg" || size.unit == "kcmil" || size.unit == "mcm" || insulated(size.unit):
		default:
			continue
		}
		list = append(list, w)
		i++
	}
	return list
}

func insulated(unit string) bool {
	for _, in := range insulationNames {
		if in.word == unit {
			return true
		}
	}
	return false
}

// groundBehind reports whether the words right behind a size say that it is a grounding conductor.
func groundBehind(rest string) bool {
	for n, w := range strings.FieldsFunc(rest, func(r rune) bool { return r == ' ' || r == '-' }) {
		switch strings.TrimRight(w, ",;.") {
		case "ground", "grounds", "gnd", "grd", "egc", "bare", "green", "g":
			return true
		}
		if n > 1 || strings.ContainsAny(w, ",;0123456789") {
			return false
		}
	}
	return false
}

type insulationWord struct {
	name, shown string
	said        bool
}

// insulation is the type of insulation a text names for its wires, THHN when it names none.
func (f *fillReader) insulation() insulationWord {
	for _, in := range insulationNames {
		if at := strings.Index(f.text, in.word); at >= 0 && (at == 0 || !isLetter(f.text[at-1])) {
			return insulationWord{in.name, strings.ToUpper(in.word), true}
		}
	}
	return insulationWord{name: "THHN", shown: "THHN"}
}
