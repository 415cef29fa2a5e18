package notes

// UpTo returns the days up to and with a date; an unknown date is after all of them. Days are in order.
func UpTo(days []*JobDay, date Date) []*JobDay {
	n := 0
	for n < len(days) && (!date.Known() || days[n].Date.Compare(date) <= 0) {
		n++
	}
	return days[:n]
}

// LatestExtras returns every extra of a job as the last of its days that lists it has it, in the order
// they were found. They are the days' own: a change of one is a change of its day.
func LatestExtras(days []*JobDay) []*ExtraWork {
	return latest(days, func(d *JobDay) []ExtraWork { return d.Extras }, func(x *ExtraWork) string { return x.ID })
}

// LatestDeficiencies returns every deficiency of a job as the last of its days that lists it has it,
// in the order they were found.
func LatestDeficiencies(days []*JobDay) []*DeficiencyRecord {
	return latest(days, func(d *JobDay) []DeficiencyRecord { return d.Deficiencies }, func(r *DeficiencyRecord) string { return r.ID })
}

func latest[T any](days []*JobDay, of func(*JobDay) []T, id func(*T) string) []*T {
	var all []*T
	at := map[string]int{}
	for _, d := range days {
		list := of(d)
		for i := range list {
			one := &list[i]
			if k, known := at[id(one)]; known {
				all[k] = one
				continue
			}
			at[id(one)] = len(all)
			all = append(all, one)
		}
	}
	return all
}
