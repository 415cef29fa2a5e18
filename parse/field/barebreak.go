package field

import "jobday/notes"

// bareBreak reads a break that is told without the word, in a text about time: a figure or a short time
// beside somebody whose span is told ("Bo 30", "30m me"), everybody's ("both 1/2 hr", "we each ate 30"), or
// all that is said behind the spans ("A 6:30-3, B 6:30-3. 30").
func (r *reader) bareBreak(i int, list []timePart) (timePart, bool) {
	if !r.bold || len(list) == 0 || !r.spanned(list) && !r.lunchTold() || r.toks[i].kind == symbol && r.low(i) != "." && !partSign(r.low(i)) {
		return timePart{}, false
	}
	if r.low(i) == "ate" || r.low(i) == "eating" {
		return r.ate(i)
	}
	a, bare, ok := r.breakAmount(i)
	if !ok {
		return a, false
	}
	last := list[len(list)-1]
	gap := i - last.to
	after := a.to
	all := everyone(r.low(i-1)) || everyone(r.low(after))
	if everyone(r.low(after)) {
		after++
	}
	ends := r.endsClause(after) || r.low(after) == "."
	spoken := bare || r.lunchTold()
	switch {
	case all && ends && (spoken || r.longDays(list)):
		a.flag, a.to = true, after
		return a, true
	case last.kind == aPerson && gap <= 2 && (gap == 0 || r.tookWords(last.to, i)) && ends && spoken && (r.hasSpan(last.who, list) || !anyTime(list)):
		return a, true
	case (last.kind == aSpan || last.kind == aPause || last.kind == aCrew || last.kind == aStop) && gap <= 1:
		if m, ok := r.mentionAt(after); ok && (r.endsClause(m.next) || r.low(m.next) == "only") && (bare || r.longDays(list)) && r.hasSpan(m, list) {
			return a, true
		}
		if m, ok := r.othersAt(after); ok && r.endsClause(m.next) {
			return a, true
		}
		if bare && last.kind == aSpan && r.low(i-1) == "," && r.low(after) == ")" && r.longDays(list) {
			return a, true // "Ines (7-3:30, 30)"
		}
		if r.endsText(after) && r.low(i-1) != "+" && r.longDays(list) && a.minutes <= 45 {
			a.flag = last.kind == aStop || r.low(i-1) == ","
			return a, true
		}
	}
	return a, false
}

// breakAmount reads a usual length of a break at token i; bare when it has no unit and is no amount of
// hours that anybody works.
func (r *reader) breakAmount(i int) (a timePart, bare, ok bool) {
	n, ok := r.num(i)
	if !ok || n.form == article && !hourWord(r.low(n.next)) && r.low(n.next) != "half" || r.tailOfSomething(i) {
		return a, false, false
	}
	a = timePart{kind: aPause, from: i, to: n.next}
	if s, timed := r.unitOfTime(n.v, n.next); timed {
		a.minutes, a.to = s.minutes, s.next
		return a, false, s.minutes >= 15 && s.minutes <= longBreak
	}
	if n.v.Cmp(one) < 0 {
		a.minutes, ok = wholeMinutes(n.v, 60)
		if r.low(a.to) == "off" || r.low(a.to) == "out" {
			a.to++
		}
		return a, false, ok && a.minutes >= 15
	}
	switch n.small {
	case 15, 20, 30, 45, 60:
		if r.low(a.to) == "m" || r.low(a.to) == "min" {
			a.to++
		}
		if r.low(a.to) == "l" && r.endsClause(a.to+1) || r.low(a.to) == "off" || r.low(a.to) == "out" {
			a.to++
		}
		a.minutes = notes.Minutes(n.small)
		return a, true, n.v.IsWhole()
	}
	return a, false, false
}

// partSign reports whether a symbol is a part of one: "½".
func partSign(low string) bool { return low == "½" || low == "¼" || low == "¾" }

// ate reads "ate 30", "ate in truck 30", "ate at the desk half an hour".
func (r *reader) ate(i int) (timePart, bool) {
	for j := i + 1; j < i+5 && j < len(r.toks) && !r.breaks(j); j++ {
		if a, _, ok := r.breakAmount(j); ok && (r.endsClause(a.to) || r.low(a.to) == ".") {
			a.from = i
			a.flag = everyone(r.low(i-1)) || r.low(i-1) == "we"
			return a, true
		}
	}
	return timePart{}, false
}

// spanned reports whether the parts hold a clock span.
func (r *reader) spanned(list []timePart) bool {
	for k := max(0, len(list)-nearParts); k < len(list); k++ {
		if list[k].kind == aSpan {
			return true
		}
	}
	return false
}

// longDays reports whether every span of the parts is long enough to have a break.
func (r *reader) longDays(list []timePart) bool {
	for k := max(0, len(list)-nearParts); k < len(list); k++ {
		if list[k].kind == aSpan {
			if s, doubt := list[k].pair.span(0); doubt != "" || s.Minutes() < breakAfter {
				return false
			}
		}
	}
	return true
}

// lunchTold reports whether a break is spoken of anywhere in the text.
func (r *reader) lunchTold() bool {
	s := &r.seen
	if s.lunch == 0 {
		s.lunch = -1
		for _, h := range s.hits {
			if h.sense == noBreak || h.sense == timeWord && r.breakWord(h.from) {
				s.lunch = 1
				break
			}
		}
	}
	return s.lunch > 0
}

// hasSpan reports whether a span was told of the people, before this.
func (r *reader) hasSpan(m mention, list []timePart) bool {
	if m.others || m.me && len(m.names) == 0 {
		return true
	}
	for k := max(0, len(list)-nearParts); k+1 < len(list); k++ {
		if list[k].kind != aPerson || list[k].who.others || len(m.names) == 0 {
			continue
		}
		for _, name := range list[k].who.names {
			if name == m.names[0] && (list[k+1].kind == aSpan || list[k+1].kind == aPerson) {
				return true
			}
		}
	}
	return false
}
