package field

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHoursOfACrew reads hours of several people in notes that do not say who wrote them. Only says that
// the line is read so in a text known to be about time; elsewhere it has to stay unread.
func TestHoursOfACrew(t *testing.T) {
	people := []string{"Ines Varga", "Tobias Lund", "Ana Reyes", "Karl Benn", "June Abbot"}
	two, three, one := []string{"Ines", "Karl"}, []string{"Ines", "Karl", "Tobias"}, []string{"Karl"}
	for _, c := range []struct {
		crew       []string
		line, want string
		only       bool
	}{
		{two, "Ines 7 Karl 9", "Ines 420 min; Karl 540 min", false},
		{three, "Ines 9 Karl 9.5 Tobias 4", "Ines 540 min; Karl 570 min; Tobias 240 min", false},
		{two, "INES 8, KARL 7 N HALF", "Ines 480 min; Karl 450 min", false},
		{two, "Ines seven hours, Karl six", "Ines 420 min; Karl 360 min", false},
		{two, "Ines 6h, Karl 5 and a half (school run)", "Ines 360 min; Karl 330 min", false},
		{two, "Karl 7.5", "Karl 450 min", false},
		{two, "Ana 7.5", "Ana 450 min", true},                    // not of this crew
		{[]string{"June Abbot"}, "June 8", "June 480 min", true}, // a day of the month
		{two, "k 7 i 7", "Karl 420 min; Ines 420 min", false},
		{two, "I/K 6-2:30, 30 lunch", "Ines & Karl 06:00-14:30 break 30", false},
		{two, "iv kb 7-3:30", "Ines & Karl 07:00-15:30", false},
		{two, "panel k 7-3", "07:00-15:00", true},
		{[]string{"Ana", "Bo"}, "A/B 7-9", "Ana & Bo 07:00-09:00", true}, // phases
		{two, "me 8, Karl 6.5", "Ines 480 min; Karl 390 min", false},
		{two, "Karl and me seven to three thirty", "Ines & Karl 07:00-15:30", false},
		{one, "I was there nine to noon", "Karl 09:00-12:00", false},
		{three, "Tobias and me 7-3:30", "Tobias x2 07:00-15:30", false}, // Ines or Karl
		{two, "we had me and Karl from 7 to 3:30", "Ines & Karl 07:00-15:30", false},
		{three, "All three 6:30 - 3, 30 min lunch", "x3 06:30-15:00 break 30", false},
		{two, "7-3:30 the two of us", "x2 07:00-15:30", false},
		{two, "Both men 7:00 to 2:00, 7 hours apiece", "x2 07:00-14:00", false},
	} {
		lex := NewLexicon(people, "", c.crew)
		assert.Equal(t, c.want, showTime(ReadTime(c.line, lex)), c.line)
		if c.only {
			c.want = "-"
		}
		assert.Equal(t, c.want, showTime(Read(c.line, lex).Time), c.line)
	}
}

func TestSharedFirstName(t *testing.T) {
	people := []string{"Ana Reyes", "Ana Bell", "Ben Okafor"}
	for _, c := range []struct {
		author string
		crew   []string
		want   string
	}{
		{"", []string{"Ana Bell", "Ben Okafor"}, "Ana Bell"},    // the crew settles it
		{"Ana Reyes", []string{"Ben Okafor"}, "Ana Reyes"},      // so does the author
		{"Ana Reyes", []string{"Ana Bell"}, ""},                 // both were there
		{"", []string{"Ana Reyes", "Ana Bell"}, ""},             // both were there
		{"", []string{"Ben Okafor"}, ""},                        // neither was
		{"", []string{"Ana", "Ben"}, ""},                        // the crew does not say which
		{"Ana", []string{"Ana Bell", "Ben Okafor"}, "Ana Bell"}, // one of them
	} {
		assert.Equal(t, c.want, NewLexicon(people, c.author, c.crew).Name("ana"), "%s %v", c.author, c.crew)
	}
}
