package trade

import "slices"

// Wanted is a test that usually follows something installed and that no note reports.
type Wanted struct {
	Installed string // the words that say what was installed, as given
	Test      string // what is usually tested: "trip test by button and tester, mA and ms"
	Source    string // always "common practice, no source"
}

const commonPractice = "common practice, no source"

// usual says which test usually follows a device: any word of device calls for it, unless a word
// of unless stands beside it; any word of tested shows that it was done.
type usual struct {
	name                   string // by which a company switches it off
	device, unless, tested map[string]bool
	test                   string
}

// usualTests are in the order they are asked for. Words are stems.
var usualTests = []usual{
	{
		name:   "gfci",
		device: setOf("gfci", "gfi", "gfic", "gfcis", "gfis"), tested: setOf("gfci", "gfi", "gfic", "gfcis", "gfis", "ma"),
		test: "GFCI trip, by button and by tester where there is a ground: mA and ms",
	},
	{
		name:   "afci",
		device: setOf("afci", "afi", "arcfault", "arc"), tested: setOf("afci", "afi", "arcfault", "arc"),
		test: "AFCI trip, by its button",
	},
	{
		name:   "voltage",
		device: setOf("servic", "meter", "mast", "switchgear", "switchboard", "panel", "panelboard", "subpanel", "loadcenter", "transformer"),
		unless: setOf("label", "directory", "schedul", "cover", "trac", "trace", "blank", "filler"),
		tested: setOf("v", "volt", "voltag", "l1", "l"), test: "voltage on all legs, to neutral and between",
	},
	{
		name:   "torque",
		device: setOf("servic", "meter", "switchgear", "switchboard", "panel", "panelboard", "subpanel", "loadcenter", "transformer", "feeder", "lug", "main"),
		unless: setOf("label", "directory", "schedul", "cover", "trac", "trace", "blank", "filler"),
		tested: setOf("torqu", "lb", "nm"), test: "torque of the terminals, beside the marked value",
	},
	{
		name:   "circuit",
		device: setOf("circuit", "ckt", "feeder", "homerun", "whip"), unless: setOf("rough", "label", "trac", "trace", "map", "directory", "dead"),
		tested: setOf("v", "volt", "voltag", "l", "polarity", "tester"), test: "polarity and voltage of the circuit",
	},
	{
		name:   "receptacle",
		device: setOf("recept", "receptacl", "outlet", "plug", "duplex", "recep"), unless: setOf("gfci", "gfi", "rough", "box", "cover", "plat", "plate"),
		tested: setOf("polarity", "tester", "recept", "receptacl", "outlet", "plug", "ground", "v", "volt"), test: "polarity and ground at the receptacle",
	},
	{
		name:   "electrode",
		device: setOf("rod", "electrod", "ufer"), tested: setOf("ohm", "rod", "electrod", "resistanc", "potential"),
		test: "resistance of the electrode, or a second electrode",
	},
	{
		name:   "motor",
		device: setOf("motor", "pump", "compressor", "fan", "blower", "conveyor"), unless: setOf("paddl", "ceil", "bath", "switch", "box"),
		tested: setOf("rotation", "rotat", "turn", "amp", "a", "phas"), test: "rotation and running current",
	},
	{
		name:   "emergency",
		device: setOf("emergency", "exit", "egres", "egress"), tested: setOf("emergency", "exit", "egres", "egress", "battery"),
		test: "light on battery, by its button",
	},
	{
		name:   "smoke",
		device: setOf("smok", "detector", "alarm"), tested: setOf("smok", "detector", "alarm"), test: "all alarms sound together",
	},
	{
		name:   "transfer",
		device: setOf("transfer", "interlock", "generator", "genset", "ats"), tested: setOf("transfer", "interlock", "generator", "genset", "ats"),
		test: "transfer and return, with the other source locked out",
	},
	{
		name:   "shared_neutral",
		device: setOf("mwbc", "multiwir"), tested: setOf("tie", "together", "common", "mwbc", "multiwir"),
		test: "both hots go off together and are on different legs",
	},
}

// UsualTests names the tests that are asked for, in order: what a company may switch off.
func UsualTests() []string {
	var names []string
	for _, u := range usualTests {
		names = append(names, u.name)
	}
	return names
}

// MissingTests returns which usual tests of what was installed no test speaks of. Installed are
// the words of finished work and used devices, tests the words of the tests reported. What is only
// roughed in or not landed wants no test yet. Each test is wanted once, for the first that calls for
// it, unless its name is in off.
func MissingTests(installed, tests, off []string) []Wanted {
	done := map[string]bool{}
	for _, text := range tests {
		for _, j := range jots(text) {
			done[j.stem] = true
		}
	}
	var out []Wanted
	for _, u := range usualTests {
		if anyOf(done, u.tested) || slices.Contains(off, u.name) {
			continue
		}
		for _, text := range installed {
			if u.wants(text) {
				out = append(out, Wanted{text, u.test, commonPractice})
				break
			}
		}
	}
	return out
}

// anyOf reports whether a and b share a word.
func anyOf(a, b map[string]bool) bool {
	for w := range b {
		if a[w] {
			return true
		}
	}
	return false
}

// wants reports whether what text says was installed usually gets the test. The device must be
// what was installed, not where ("receptacle at the panel"): words behind "at", "in", "from" and
// the like do not count.
func (u usual) wants(text string) bool {
	found, place := false, false
	for _, j := range jots(text) {
		switch j.stem {
		case "at", "in", "from", "near", "by", "behind", "above", "under", "for":
			place = true
		case "rough", "not", "unland":
			return false
		}
		if u.unless[j.stem] && !place {
			return false
		}
		found = found || u.device[j.stem] && !place
	}
	return found
}
