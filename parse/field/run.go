package field

// runs counts things that are named by their numbers: "bollards 1 thru 4" are four and "peds 5, 6
// and 7" three. It comes after the terms, which keep the numbers themselves.
func (s *scanner) runs() {
	for k := 0; k+1 < len(s.out); k++ {
		if a := &s.out[k]; a.role != roleThing && a.role != roleUnknown || !a.plural && !s.unknownPlural(a) || k > 0 && s.out[k-1].role == roleCount {
			continue
		}
		if n := s.dashedRun(k + 1); n > 1 {
			s.nums[s.out[k+1].num], s.out[k+1].dim, s.out[k+1].alt, s.out[k+1].guess = spelledNum(n, 0), "", -1, false
			continue
		}
		if n, end := s.runAt(k + 1); n > 1 && s.runEnds(end) && len(s.nums) < maxNums {
			s.nums = append(s.nums, spelledNum(n, 0))
			from := &s.out[k+1]
			from.dim = ""
			from.num, from.end = int8(len(s.nums)-1), s.out[end-1].end
			for j := k + 2; j < end; j++ {
				s.out[j].role, s.out[j].text = roleJoin, "run"
			}
			if end < len(s.out) && s.out[end].text == "set" {
				s.out[end].role = roleStop // "peds 5 and 6 set"
			}
			k = end - 1
		}
	}
}

// runAt counts the numbers that stand from atom k on and returns the atom after them: rising
// numbers parted by commas, or the first and last of a run.
func (s *scanner) runAt(k int) (n, end int) {
	last := s.whichAt(k)
	if last < 0 {
		return 0, k
	}
	n, end = 1, k+1
	for end+1 < len(s.out) {
		next := s.whichAt(end + 1)
		switch sep := &s.out[end]; {
		case next <= last:
			return n, end
		case sep.role == roleStop && (sep.text == "through" || sep.text == "to") || sep.role == roleMark && sep.text == "-" && !sep.spaced:
			n += next - last
		case sep.role == roleMark && (sep.text == "," || sep.text == "&" || sep.text == "/"):
			n++
		case sep.role == roleJoin && sep.text == "and":
			n++
		default:
			return n, end
		}
		last, end = next, end+2
	}
	return n, end
}

// whichAt returns the number at atom k when it may say which one, or -1.
func (s *scanner) whichAt(k int) int {
	if k >= len(s.out) || s.out[k].role != roleCount || s.out[k].dim != "" && (s.out[k].dim != "set" || k+1 < len(s.out) && s.out[k+1].isHead()) || s.out[k].guess {
		return -1
	}
	n := s.nums[s.out[k].num]
	if n.form != digits && n.form != spelled || n.small < 1 || n.small > 99 {
		return -1
	}
	return n.small
}

// runEnds reports whether nothing that the last number could count stands at atom k.
func (s *scanner) runEnds(k int) bool {
	if k >= len(s.out) {
		return true
	}
	switch a := &s.out[k]; a.role {
	case roleMark:
		return a.text != "x" && a.text != "@" && a.text != "-" && a.text != "/"
	case roleStop, roleVerb:
		return true
	case roleUnit:
		return a.text == "set" && !a.plural && (k+1 >= len(s.out) || s.out[k+1].role == roleMark)
	}
	return false
}

// roomNumbers passes two or more rising numbers of three digits or more in a row, with nothing between
// them: "Rms 201 202 203 projector outlets" counts none of them.
func (s *scanner) roomNumbers() {
	for k := 0; k+1 < len(s.out); k++ {
		end := k + 1
		for last := s.roomAt(k); last > 0 && end < len(s.out) && s.roomAt(end) > last; end++ {
			last = s.roomAt(end)
		}
		if end-k < 2 {
			continue
		}
		for ; k < end; k++ {
			s.out[k].role = roleSkip
		}
	}
}

// roomAt returns the number at atom k when it may be that of a room, or -1.
func (s *scanner) roomAt(k int) int {
	if s.out[k].role != roleCount || s.out[k].dim != "" {
		return -1
	}
	if n := s.nums[s.out[k].num]; n.form == digits && n.small >= 100 {
		return n.small
	}
	return -1
}

// unknownPlural reports whether a word the trade does not know is written as more than one: "inverters".
func (s *scanner) unknownPlural(a *atom) bool {
	n := len(a.text)
	return a.role == roleUnknown && n > 3 && s.text[a.to()-1] == 's' && s.text[a.to()-2] != 's'
}

// dashedRun counts "7-10" behind a name in the plural, which the reading of numbers left with two readings; 0 for
// anything else.
func (s *scanner) dashedRun(k int) int {
	a := &s.out[k]
	if a.role != roleCount || a.alt < 0 || a.dim != "" && a.dim != "set" || !s.runEnds(k+1) {
		return 0
	}
	from, to := s.nums[a.num], s.nums[a.alt]
	if from.form != digits || to.form != digits || from.small < 1 || to.small <= from.small || to.small > 99 {
		return 0
	}
	return to.small - from.small + 1
}
