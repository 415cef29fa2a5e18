package trade

import (
	"cmp"
	"strconv"
	"strings"

	"jobday/notes"
)

// A boxShape is metal boxes of one shape: the least volume in cubic inches by depth, NEC Table 314.16(A).
// The 4 in square boxes of 1-1/2 and 2-1/8 and the 4 in round one of 1-1/2: checked on published
// pages; the others from memory.
type boxShape struct {
	name    string
	sizes   []string // how notes write the face
	words   []string // one of which must stand in the text; none for a face that tells it alone
	volumes map[string]string
}

var boxShapes = []boxShape{
	{"4-11/16 square", []string{"4-11/16", "4 11/16"}, nil, map[string]string{"1-1/4": "25.5", "1-1/2": "29.5", "2-1/8": "42.0"}},
	{"4 octagon", []string{"4"}, []string{"oct", "round"}, map[string]string{"1-1/4": "12.5", "1-1/2": "15.5", "2-1/8": "21.5"}},
	{"4 square", []string{"4"}, []string{"square", "sq"}, map[string]string{"1-1/4": "18.0", "1-1/2": "21.0", "2-1/8": "30.3"}},
	{"3 x 2 device", []string{"3x2", "2x3"}, nil, map[string]string{"1-1/2": "7.5", "2": "10.0", "2-1/4": "10.5", "2-1/2": "12.5", "2-3/4": "14.0", "3-1/2": "18.0"}},
	{"4 x 2-1/8 device", []string{"4x2-1/8"}, nil, map[string]string{"1-1/2": "10.3", "1-7/8": "13.0", "2-1/8": "14.5"}},
}

// wireVolumes are the cubic inches each conductor takes: NEC Table 314.16(B). 14 to 6 checked on
// published pages; 18 and 16 from memory.
var wireVolumes = map[string]string{"18": "1.50", "16": "1.75", "14": "2.00", "12": "2.25", "10": "2.50", "8": "3.00", "6": "5.00"}

// wireOrder puts sizes in order, the smallest wire first.
var wireOrder = map[string]int{"18": 1, "16": 2, "14": 3, "12": 4, "10": 5, "8": 6, "6": 7}

const ruleBox = "NEC 314.16 (volumes of 14 to 6 AWG checked; grounding conductors beyond four from 2020, from memory)"

// box figures the volume a box needs: one volume for each conductor, by its size; by the largest
// conductor two for each device, one for all clamps, one for each support fitting, one for up to
// four grounding conductors and from 2020 a quarter for each beyond.
func (f *fillReader) box() (Fill, bool) {
	what, have, ok := f.volume()
	if !ok {
		return Fill{}, false
	}
	list := f.wires(true)
	devices := f.counted("device", "receptacle", "recept", "switch", "yoke")
	if len(list) == 0 {
		return Fill{}, false
	}
	fill := Fill{What: "volume of a " + what + " box", Limit: have.String() + " in3", Rule: ruleBox}
	total, largest, grounds := notes.Decimal{}, "", f.counted("ground", "gnd", "egc")
	var working []string
	add := func(n notes.Decimal, size, what string) {
		each := notes.MustDecimal(wireVolumes[size])
		total = total.Add(n.Mul(each))
		working = append(working, n.String()+" x "+each.String()+" ("+what+")")
	}
	for _, w := range list {
		if wireVolumes[w.size] == "" {
			fill.Unknown = quoted(w.size) + " is no size of conductor in Table 314.16(B)"
			return fill, true
		}
		if cmp.Compare(wireOrder[w.size], wireOrder[largest]) > 0 {
			largest = w.size
		}
		switch {
		case w.ground:
			grounds += w.count
		case w.cable > 0:
			grounds += w.count // each cable has its own
			add(notes.Int(w.count*w.cable), w.size, w.size+" AWG of "+strconv.Itoa(w.count)+" cables")
		default:
			add(notes.Int(w.count), w.size, w.size+" AWG")
		}
	}
	if devices > 0 {
		add(notes.Int(2*devices), largest, "two for each device")
	}
	if strings.Contains(f.text, "clamp") {
		add(one, largest, "clamps")
	}
	if fittings := f.counted("stud", "hickey"); fittings > 0 {
		add(notes.Int(fittings), largest, "support fittings")
	}
	if grounds > 0 {
		add(groundVolumes(grounds, f.edition), largest, strconv.Itoa(grounds)+" grounds")
	}
	fill.Over, fill.Value, fill.Unit = total.Cmp(have) > 0, total, "in3"
	fill.Working = strings.Join(working, " + ") + " = " + total.Fixed(2) + " in3; a " + what + " box has " + have.Fixed(1) + " in3"
	return fill, true
}

// groundVolumes is how many volumes grounding conductors take: one, and from the 2020 edition a
// quarter more for each beyond four (from memory).
func groundVolumes(n int, edition string) notes.Decimal {
	if n <= 4 || edition < "2020" {
		return one
	}
	return one.Add(notes.Ratio(n-4, 4))
}

// volume finds the one box of a text with what it holds: by its face and depth, or as marked ("20
// cu in box").
func (f *fillReader) volume() (what string, have notes.Decimal, ok bool) {
	for _, n := range f.figures {
		if (n.unit == "cu" || n.unit == "cubic") && (strings.HasPrefix(n.after, "in") || n.after == "") {
			return n.value.String() + " in3", n.value, plausible(n.value, 10000)
		}
	}
	text := strings.NewReplacer("4x4x", "4 square x", " x ", "x", "\"", "", " in.", "").Replace(f.text)
	for _, square := range []string{"square x", "squarex", "sq x", "sqx"} {
		if strings.Contains(text, "4 "+square) {
			text = strings.Replace(text, "4 "+square, "4x", 1) + " square"
		}
	}
	found := 0
	for _, shape := range boxShapes {
		if !containsAny(text, shape.words) && shape.words != nil {
			continue
		}
		for _, face := range shape.sizes {
			for _, depth := range boxDepths {
				if volume := shape.volumes[depth]; volume != "" && hasSize(text, face+"x"+depth) {
					what, have = shape.name+" x "+depth, notes.MustDecimal(volume)
					found++
				}
			}
		}
	}
	return what, have, found == 1
}

// boxDepths are the depths of the table.
var boxDepths = []string{"1-1/4", "1-1/2", "1-7/8", "2", "2-1/8", "2-1/4", "2-1/2", "2-3/4", "3-1/2"}

// hasSize reports whether a size stands in the text by itself, not as a part of a longer one.
func hasSize(text, size string) bool {
	for from := 0; ; {
		at := strings.Index(text[from:], size)
		if at < 0 {
			return false
		}
		at += from
		end := at + len(size)
		before := at == 0 || !isDigit(text[at-1]) && text[at-1] != '-' && text[at-1] != '/' && text[at-1] != 'x'
		after := end == len(text) || !isDigit(text[end]) && text[end] != '-' && text[end] != '/' && text[end] != 'x'
		if before && after {
			return true
		}
		from = at + 1
	}
}

// containsAny reports whether a word that begins with one of words stands in text: "octagon" does for "oct", and
// "grounds" does not for "round".
func containsAny(text string, words []string) bool {
	for _, w := range words {
		for from := 0; ; {
			at := strings.Index(text[from:], w)
			if at < 0 {
				break
			}
			at += from
			if at == 0 || !isLetter(text[at-1]) {
				return true
			}
			from = at + 1
		}
	}
	return false
}

// counted returns how many of a thing a text counts: "2 devices"; 1 for a thing without a number.
func (f *fillReader) counted(words ...string) int {
	for _, n := range f.figures {
		if n.after == "box" {
			continue // "2-3/4 device box"
		}
		for _, w := range words {
			if count, whole := n.value.Int(); whole && n.value.IsWhole() && strings.HasPrefix(n.unit, w) && count > 0 && count < 500 {
				return count
			}
		}
	}
	return 0
}
