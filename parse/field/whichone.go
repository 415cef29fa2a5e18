package field

// whichOnes passes the numbers that say which thing, where or when, so that they count nothing: a time of day
// that opens the text, a room, a list of rooms, what a thing is supported every so many feet. It comes after the
// terms, which keep the numbers.
func (s *scanner) whichOnes() {
	s.openingClock()
	for k := range s.out {
		a := &s.out[k]
		if a.role != roleCount {
			continue
		}
		switch {
		case a.dim != "":
			if s.spacing(k) {
				a.role = roleSkip
			}
		case s.roomAt(k) < 0:
			if s.besideOne(k) {
				a.role = roleSkip
			}
		case s.roomList(k):
		case s.namesRoom(k):
			a.role = roleSkip
		}
	}
}

// openingClock passes "0815" and "1230" at the beginning of a text: the one can be nothing else, the other
// stands before what was done.
func (s *scanner) openingClock() {
	if len(s.out) < 2 || s.out[0].role != roleCount || s.out[0].dim != "" && s.out[0].dim != "set" {
		return
	}
	a := &s.out[0]
	end := a.to()
	if a.dim == "set" { // "0930 set 4 bollards"
		end = a.from()
		for end < len(s.text) && '0' <= s.text[end] && s.text[end] <= '9' {
			end++
		}
	}
	t := s.text[a.from():end]
	if !opensAsClock(t) {
		return
	}
	if t[0] == '0' || a.dim == "set" || s.out[1].role == roleVerb || s.out[1].verb() != "" && s.verbHere(1) {
		a.role, a.dim = roleSkip, "time"
	}
}

// opensAsClock reports whether three or four digits may be a time of day on a working day.
func opensAsClock(t string) bool {
	if len(t) != 3 && len(t) != 4 {
		return false
	}
	for i := range len(t) {
		if t[i] < '0' || t[i] > '9' {
			return false
		}
	}
	hour := int(t[len(t)-3] - '0')
	if len(t) == 4 {
		hour += 10 * int(t[0]-'0')
	}
	return hour >= 5 && hour < 24 && t[len(t)-2] < '6'
}

// spacing reports whether the measure at atom k says how far apart things are: "every 4 ft", "8 ft on center".
func (s *scanner) spacing(k int) bool {
	if a := &s.out[k]; a.dim != "ft" && a.dim != "in" && a.dim != "m" {
		return false
	}
	if k > 0 && lower(s.text[s.out[k-1].from():s.out[k-1].to()]) == "every" {
		return true
	}
	rest := s.text[s.out[k].to():]
	for _, p := range [...]string{" on center", " o.c", " oc", " apart"} {
		if len(rest) >= len(p) && lower(rest[:len(p)]) == p {
			return true
		}
	}
	return false
}

// besideOne reports whether the number at atom k stands right behind one name and right before the word for a
// single thing: "fan coil 11 circuit" is the circuit of the eleventh.
func (s *scanner) besideOne(k int) bool {
	if k == 0 || k+1 >= len(s.out) || s.nums[s.out[k].num].form != digits || s.nums[s.out[k].num].small < 2 {
		return false
	}
	if k > 1 && s.out[k-2].role == roleCount {
		return false // "6 recpt 4 sw"
	}
	before, next := &s.out[k-1], &s.out[k+1]
	if next.role != roleThing || next.plural || s.text[next.to()-1] == 's' || k+2 < len(s.out) && (s.out[k+2].isHead() || s.out[k+2].role == roleUnit || s.out[k+2].role == roleUnknown) {
		return false
	}
	return before.role == roleThing && !before.plural || before.role == roleUnit && before.text == "roll"
}

// roomList passes the rising numbers of three digits or more that begin at atom k, parted by marks or words of
// a list, and reports whether there are two: "305/307", "101-109", "401, 403 and 405".
func (s *scanner) roomList(k int) bool {
	last, end := s.roomAt(k), k
	for end+2 < len(s.out) && s.listMark(end+1) {
		n := s.roomAt(end + 2)
		if n <= last || n-last >= 100 || last%25 == 0 && n%25 == 0 {
			break
		}
		last, end = n, end+2
	}
	if end == k {
		return false
	}
	for ; k <= end; k += 2 {
		s.out[k].role = roleSkip
	}
	return true
}

// listMark reports whether atom k stands between the numbers of a list.
func (s *scanner) listMark(k int) bool {
	a := &s.out[k]
	switch a.role {
	case roleMark:
		return a.text == "/" || a.text == "+" || a.text == "&" || a.text == "," || a.text == "-"
	case roleStop, roleJoin:
		return a.text == "to" || a.text == "through" || a.text == "and"
	}
	return false
}

// namesRoom reports whether the number of three digits or more at atom k stands where the name of a room does:
// behind the word for a place, behind a word the trade does not know with a thing or a count right after it, or
// before the count of what is there ("301 x4"). A round number behind a word may count.
func (s *scanner) namesRoom(k int) bool {
	n := s.roomAt(k)
	if k+2 < len(s.out) && s.out[k+1].role == roleMark && s.out[k+1].text == "x" && n%25 != 0 {
		if m := &s.out[k+2]; m.role == roleCount && m.dim == "" && s.nums[m.num].small < 100 {
			return true
		}
	}
	if k == 0 {
		return false
	}
	switch before := &s.out[k-1]; before.role {
	case rolePlace:
		return before.dim != "side" && (n%50 != 0 || before.dim == "unit")
	case roleUnknown:
		return n%5 != 0 && k+1 < len(s.out) && (s.out[k+1].isHead() || s.out[k+1].role == roleUnknown) && !before.plural
	}
	return false
}
