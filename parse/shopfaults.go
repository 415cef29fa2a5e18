package parse

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// Deficiencies reads deficiencies.yaml, the shop's own kinds of deficiency, with the keys of the
// built-in catalogue:
//
//	words:                      # optional: what people write for a word of the phrases
//	  pedestal: [bollard, dock box]
//	kinds:
//	  - slug: pedestal-lock-missing
//	    title: Dock pedestal without its lock
//	    hazard: shock           # shock, fire, water, overload, access, documentation
//	    severity: hazard        # danger, hazard, maintenance
//	    correction: Fit a lock keyed to the marina.
//	    phrases: [pedestal missing lock, pedestal not locked]
//	    rules:
//	      - {section: "555.35(A)", editions: [2020, 2023]}
//
// A kind with the slug of a built-in one takes its place; what it leaves out stays as built in.
// Otherwise slug, title and phrases are required; without hazard the office is to judge it, without
// severity it is a hazard, without caution the general one stands. A rule needs its editions: those
// of the NEC it stands in, or with code: the edition of that document. What is wrong is left out,
// with a finding. So is a phrase that announces another kind already.
func Deficiencies(f *finding.File) (trade.Catalogue, finding.List) {
	var found finding.List
	r := faultReader{found: &found, left: trade.MostOwnPhrases}
	m := loadYAML(f, f.Span(0, len(f.Text)), f.Name, &found)
	if words := m.sub("words", `"words"`); words != nil {
		words.each(func(word string, _ finding.Span) {
			if forms := words.texts(word); len(forms) > 0 && strings.TrimSpace(word) != "" {
				r.folds = append(r.folds, trade.Fold{Word: strings.ToLower(word), Forms: lowered(forms)})
			}
		})
	}
	for _, k := range m.maps("kinds", "the kind") {
		r.kind(k)
	}
	m.done()
	all := trade.NewCatalogue(r.kinds, r.folds)
	r.clashes(all)
	return all, found
}

// clashes reports phrases of the shop's kinds that announce another kind already: that one is taken.
func (r *faultReader) clashes(all trade.Catalogue) {
	var slugs []string
	for _, k := range r.kinds {
		slugs = append(slugs, k.Slug)
	}
	for _, c := range all.Clashes(slugs) {
		r.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "deficiency/phrase", Span: r.at[slices.Index(slugs, c.Slug)],
			Message: quote(c.Phrase) + " of " + quote(c.Slug) + " announces " + quote(c.Other.Title) + " already, which is taken",
			Hint:    "write words that only this kind has, or give it the slug " + c.Other.Slug + " to take the place of that kind",
		})
	}
}

// A faultReader reads one deficiencies.yaml.
type faultReader struct {
	kinds []trade.Kind
	at    []finding.Span // of the slug of each kind
	folds []trade.Fold
	left  int // phrases that may still be entered
	found *finding.List
}

func lowered(list []string) []string {
	for i := range list {
		list[i] = strings.ToLower(list[i])
	}
	return list
}

func (r *faultReader) kind(m *mapping) {
	slug := m.text("slug")
	k, builtIn := trade.KindOf(slug)
	k.Slug = slug
	if !builtIn {
		k.Hazard, k.Severity, k.Caution, k.FollowUp = trade.ToBeJudged, notes.Hazard, trade.GeneralCaution(), "none"
	}
	for _, text := range []struct {
		key string
		to  *string
	}{
		{"title", &k.Title}, {"look", &k.LookFor}, {"why", &k.Why}, {"correction", &k.Correction},
		{"caution", &k.Caution}, {"follow_up", &k.FollowUp},
	} {
		if s := m.text(text.key); s != "" {
			*text.to = s
		}
	}
	r.judged(m, &k)
	if list := r.phrases(m); len(list) > 0 {
		k.Phrases = list
	}
	if m.has("rules") {
		k.Code = nil
	}
	for _, rule := range m.maps("rules", "the rule") {
		if ref, ok := r.rule(rule); ok {
			k.Code = append(k.Code, ref)
		}
	}
	m.done()
	if !r.refused(m, k) {
		r.kinds, r.at = append(r.kinds, k), append(r.at, m.at("slug"))
	}
}

// judged reads hazard and severity.
func (r *faultReader) judged(m *mapping, k *trade.Kind) {
	if s := strings.ToLower(m.text("hazard")); slices.Contains(trade.Hazards, s) {
		k.Hazard = s
	} else if s != "" {
		m.bad("hazard", quote(s)+" is no class of hazard", known(s, trade.Hazards))
	}
	severities := []string{string(notes.Danger), string(notes.Hazard), string(notes.Maintenance)}
	if s := strings.ToLower(m.text("severity")); slices.Contains(severities, s) {
		k.Severity = notes.Severity(s)
	} else if s != "" {
		m.bad("severity", quote(s)+" is no severity", known(s, severities))
	}
}

// phrases reads the phrases of a kind, and reports those that could never fit or would always.
func (r *faultReader) phrases(m *mapping) []string {
	var list []string
	for _, p := range m.texts("phrases") {
		words := strings.Fields(strings.ToLower(p))
		telling := slices.ContainsFunc(words, func(w string) bool { return w != "missing" && w != "no" && w != "not" })
		switch {
		case !telling, len(words) > trade.MostPhraseWords:
			m.bad("phrases", quote(p)+" cannot announce anything", "write two to four words that say what is wrong, such as: pedestal missing lock")
		case r.left == 0:
			m.bad("phrases", "more phrases than can be kept: "+quote(p)+" and those behind it are left out", "keep the phrases your crews write")
			return list
		default:
			list = append(list, strings.ToLower(p))
			r.left--
		}
	}
	return list
}

// rule reads a reference to a code. One without editions claims more than anybody checked.
func (r *faultReader) rule(m *mapping) (trade.Reference, bool) {
	ref := trade.Reference{Code: m.text("code"), Section: m.text("section"), Editions: m.texts("editions"), Checked: m.flag("checked")}
	if ref.Code == "" {
		ref.Code = "NEC"
	}
	m.done()
	bad := func(key, message, hint string) (trade.Reference, bool) {
		r.found.Add(finding.Finding{Severity: finding.Error, Rule: "deficiency/rule", Span: m.at(key), Message: message, Hint: hint})
		return ref, false
	}
	all := strings.Join(trade.Editions, ", ")
	switch {
	case ref.Section == "":
		return bad("section", "a rule without its section", `write section: "210.8(A)"`)
	case len(ref.Editions) == 0:
		return bad("section", "the rule "+quote(ref.Section)+" names no edition", "write editions: ["+all+"], as far as it stands in them")
	case ref.Code != "NEC" && len(ref.Editions) == 1:
		ref.Editions = slices.Repeat(ref.Editions, len(trade.Editions))
	case ref.Code != "NEC" && len(ref.Editions) != len(trade.Editions):
		return bad("editions", "expected one edition of "+ref.Code+", or one for each of the NEC of "+all, "write editions: [2021]")
	}
	for _, e := range ref.Editions {
		if ref.Code == "NEC" && !slices.Contains(trade.Editions, e) {
			return bad("editions", quote(e)+" is not an edition known here", "known: "+all)
		}
	}
	return ref, true
}

// refused reports a kind that cannot be used.
func (r *faultReader) refused(m *mapping, k trade.Kind) bool {
	f := finding.Finding{Severity: finding.Error, Rule: "deficiency/kind", Span: m.at("slug")}
	same := slices.IndexFunc(r.kinds, func(h trade.Kind) bool { return h.Slug == k.Slug })
	switch {
	case k.Slug == "":
		f.Message, f.Hint = "a kind of deficiency without a slug", "write slug: and a short name, such as pedestal-lock-missing"
	case strings.Trim(k.Slug, "abcdefghijklmnopqrstuvwxyz0123456789-") != "":
		f.Message, f.Hint = quote(k.Slug)+" is no slug", "use lower-case letters, digits and dashes, such as pedestal-lock-missing"
	case same >= 0:
		f.Message, f.Hint = quote(k.Slug)+" is written twice; the first one is used", "remove one of the two"
		f.Related = []finding.Related{{Message: "first written here", Span: r.at[same]}}
	case k.Title == "":
		f.Message, f.Hint = quote(k.Slug)+" has no title; a customer would not know what it is", "write title: and plain words"
	case len(k.Phrases) == 0:
		f.Message, f.Hint = quote(k.Slug)+" has no phrases; no note could announce it", "write phrases: [pedestal missing lock]"
	default:
		return false
	}
	r.found.Add(f)
	return true
}

// known lists what may be written, or the one that was likely meant.
func known(s string, list []string) string {
	if near := nearest(s, list); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	return "known: " + strings.Join(list, ", ")
}
