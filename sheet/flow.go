package sheet

// leading is the height of a line as a multiple of the letters' size.
const leading = 1.3

// slip is a part of a sheet that is never parted: a line of text, a row, a picture.
type slip struct {
	h    float64 // height
	gap  float64 // room above, not at the top of a page
	keep bool    // stands on the same page as the next slip
	turn bool    // begins a new page
	id   string
	name string // of the part that begins here, for the list of parts a reader of PDFs shows
	head *slip  // drawn above this slip where it begins a page
	draw func(x, y float64)
}

// placed is a slip on its page.
type placed struct {
	*slip
	y float64
}

// place puts slips on pages so high. Slips that keep to the next stand together where they fit on a
// page at all.
func place(list []slip, high float64) [][]placed {
	pages := [][]placed{nil}
	y := 0.0
	put := func(s *slip) {
		last := len(pages) - 1
		if len(pages[last]) > 0 {
			y += s.gap
		} else if s.head != nil {
			pages[last] = append(pages[last], placed{s.head, y})
			y += s.head.h
		}
		pages[last] = append(pages[last], placed{s, y})
		y += s.h
	}
	turn := func() {
		if len(pages[len(pages)-1]) > 0 {
			pages, y = append(pages, nil), 0
		}
	}
	for i := 0; i < len(list); {
		if list[i].turn {
			turn()
		}
		to, need := i, list[i].h+list[i].gap
		for list[to].keep && to+1 < len(list) && !list[to+1].turn {
			to++
			need += list[to].h + list[to].gap
		}
		above := 0.0
		if list[i].head != nil {
			above = list[i].head.h
		}
		whole := need+above <= high // on a page of its own, below its head
		room := need
		if !whole {
			room = list[i].gap + list[i].h
		}
		if y == 0 {
			room += above
		}
		if y+room > high {
			turn()
		}
		if !whole {
			to = i
		}
		for ; i <= to; i++ {
			put(&list[i])
		}
	}
	return pages
}

// together makes slips keep to each other, and to what comes next when they are told to.
func together(list []slip, next bool) []slip {
	for i := range list {
		list[i].keep = next || i+1 < len(list)
	}
	return list
}

// unparted keeps the first two lines of a text together and the last two.
func unparted(list []slip) []slip {
	for i := range list {
		list[i].keep = i+1 < len(list) && (i == 0 || i == len(list)-2)
	}
	return list
}
