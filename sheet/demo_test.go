package sheet_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"

	"jobday/notes"
	"jobday/sheet"
)

// order is a change order with all a customer is shown, of an invented shop.
func order() sheet.Sheet {
	return sheet.Sheet{
		Kind: "Change order", Number: "2431-CO-3", Title: "Disconnect for the spiral mixer, back room",
		Lang: "en-US", Date: notes.MustDate("2026-03-12"),
		Letterhead: sheet.Letterhead{Name: "Lanternmoor Electric", Address: []string{"9 Weir Lane", "Lanternmoor"},
			Contact: "office@lanternmoor.example, 555-0142", TaxNumbers: []string{"License EC-20417"}},
		To: sheet.Addressee{Name: "Amsel Bakery", Address: []string{"14 Mill Row", "Lanternmoor"}, Site: "14 Mill Row, back room"},
		Facts: []sheet.Fact{
			{Label: "Date", Value: sheet.Words("March 12, 2026")},
			{Label: "Job", Value: sheet.Words("2431, bakery back room")},
			{Label: "Asked for by", Value: sheet.Words("Ruth Amsel, on site, 10:40")},
			{Label: "Answer wanted by", Value: sheet.Words("March 19, 2026")},
		},
		Blocks: []sheet.Block{
			sheet.Para{Text: sheet.Words("The following is not part of the work agreed. It is done when you say yes, and billed at the price below.")},
			sheet.Heading{Text: sheet.Words("What is added, and its price"), ID: "price"},
			prices(),
			sheet.Heading{Text: sheet.Words("Effect on the job")},
			sheet.Facts{Rows: []sheet.Fact{
				{Label: "Contract so far", Value: sheet.Words("4,180.00 USD, with 2 change orders")},
				{Label: "With this one", Value: sheet.Strong("4,544.72 USD")},
				{Label: "Time", Value: sheet.Words("Half a day more; the room stays in use.")},
			}},
			sheet.Notice{Tone: sheet.Stop, Word: "danger", Title: "The mixer has no means of disconnect in sight", Text: []sheet.Text{
				sheet.Join(" ", sheet.Quote("can't see the panel from the mixer"), sheet.Link("2026-03-12.md:18", "#n1-L18")),
				sheet.Words("Until it is fitted, the mixer is not to be cleaned or opened with its breaker only switched off."),
			}},
			sheet.Choice{Label: "You decide", Options: []sheet.Option{{Text: "Do it at this price"}, {Text: "Do it by time and material"}, {Text: "Leave it as it is", Chosen: true}}},
			sheet.Signature{Title: "Agreed", Statement: sheet.Words("A signature orders the work above at the price shown and changes nothing else in the contract."),
				Parties: []sheet.Party{{Role: "For Amsel Bakery"}, {Role: "For Lanternmoor Electric", Name: "Marek Dolin", Date: "March 12, 2026"}}},
		},
		Foot: []string{"Amounts are in USD. What the code requires is for the local authority to say; this paper points to it and is no inspection."},
	}
}

func prices() sheet.Table {
	return sheet.Table{
		Columns: []sheet.Column{{Title: "Work and material", Width: 4}, {Title: "Quantity", Align: sheet.Right}, {Title: "Rate", Align: sheet.Right}, {Title: "Amount", Align: sheet.Right}},
		Rows: []sheet.Row{
			{Kind: sheet.Group, Cells: []sheet.Cell{{Text: sheet.Words("Labor")}}},
			{ID: "r1", Cells: []sheet.Cell{{Text: sheet.Join(" ", sheet.Words("Journeyman"), sheet.Link("2026-03-12.md:18", "#n1-L18"))}, {Text: sheet.Words("1.5 h")}, {Text: sheet.Words("118.00")}, {Text: sheet.Words("177.00")}},
				Working: &sheet.Working{Label: "Working of 177.00", Lines: []sheet.Text{
					sheet.Words("1 h 20 noted, billed in steps of 15 min: 1.5 h"), sheet.Words("1.5 h x 118.00 = 177.00"), sheet.Quote("1:20 on mixer disco")}}},
			{Kind: sheet.Group, Cells: []sheet.Cell{{Text: sheet.Words("Material")}}},
			sheet.Cells("60 A non-fused disconnect, 3 pole", "1 ea", "104.40", "104.40"),
			sheet.Cells("3/4 in flexible metal conduit, with connectors and straps", "6 ft", "4.25", "25.50"),
			sheet.Cells("8 AWG THHN copper", "24 ft", "1.18", "28.32"),
			sheet.Sum(sheet.Subtotal, "Subtotal", "335.22"),
			sheet.Sum(sheet.Subtotal, "Sales tax, 8.8 % of material 158.22", "13.92"),
			sheet.Sum(sheet.Total, "Total in USD", "349.14"),
		},
	}
}

// review is a sheet of figures and charts.
func review() sheet.Sheet {
	v := func(amount, text string) sheet.Value {
		return sheet.Value{Amount: notes.MustDecimal(amount), Text: text}
	}
	weeks := sheet.Chart{Kind: sheet.Trend, Title: "Found and billed by week", Unit: "USD", Desc: "What was found rose through the quarter; what was billed followed two weeks later.",
		Series: []sheet.Series{{Name: "Found", Tone: sheet.Send}, {Name: "Billed", Tone: sheet.Go}}}
	for i, a := range []string{"410", "620", "540", "900", "1210", "1130", "1480", "1390"} {
		b := []string{"0", "220", "410", "600", "540", "880", "1000", "1240"}[i]
		weeks.Groups = append(weeks.Groups, sheet.ChartGroup{Label: "Week " + string(rune('1'+i)), Values: []sheet.Value{v(a, a+".00"), v(b, b+".00")}})
	}
	return sheet.Sheet{
		Kind: "Owner's review", Title: "January to March 2026, 14 jobs", Edition: "office copy, shows costs", Lang: "en", Date: notes.MustDate("2026-04-01"),
		Letterhead: sheet.Letterhead{Name: "Lanternmoor Electric"},
		Facts:      []sheet.Fact{{Label: "From", Value: sheet.Words("January 1, 2026")}, {Label: "To", Value: sheet.Words("March 31, 2026")}, {Label: "Days with notes", Value: sheet.Words("61 of 63")}},
		Blocks: []sheet.Block{
			sheet.Figures{Cells: []sheet.Figure{
				{Label: "Billed", Big: "7,680.00", Small: "USD", Tone: sheet.Go, Items: []sheet.Item{{Text: sheet.Words("Extras authorized before the work"), Right: sheet.Words("5,120.00")}, {Text: sheet.Words("Extras authorized after"), Right: sheet.Words("2,560.00"), Below: sheet.Words("a signature came 9 days later on average")}}},
				{Label: "Waits for a yes", Href: "#kinds", Big: "2,140.00", Small: "USD in 6 items", Tone: sheet.Hold, Items: []sheet.Item{{Text: sheet.Words("Oldest: hand digging at the barn"), Right: sheet.Words("41 days")}}},
				{Label: "Given away", Big: "1,270.00", Small: "USD", Tone: sheet.Stop, None: "Never priced, or done at no charge."},
				{Label: "Open hazards", Big: "0", Tone: sheet.Calm, None: "None reported. That is no finding that there is none."},
			}},
			sheet.Heading{Text: sheet.Words("Where it went")},
			sheet.Chart{Kind: sheet.Flowing, Title: "From found to billed", Unit: "USD", Desc: "Of 11,090.00 found beyond scope, 7,680.00 was billed.", Flows: []sheet.Flow{
				{From: "Found", To: "Billed", Value: v("7680", "7,680.00"), Tone: sheet.Go},
				{From: "Found", To: "Waits for a yes", Value: v("2140", "2,140.00"), Tone: sheet.Hold},
				{From: "Found", To: "Declined", Value: v("500", "500.00"), Tone: sheet.Calm},
				{From: "Found", To: "Given away", Value: v("770", "770.00"), Tone: sheet.Stop}}},
			sheet.Heading{Text: sheet.Words("Kinds of extras"), ID: "kinds"},
			sheet.Chart{Kind: sheet.Bars, Title: "Extras by kind", Unit: "USD", Desc: "Hidden conditions weigh most.", Series: []sheet.Series{{Name: "Value", Tone: sheet.Send}}, Groups: []sheet.ChartGroup{
				{Label: "Hidden conditions", Values: []sheet.Value{v("4210", "4,210.00")}}, {Label: "Asked for on site", Values: []sheet.Value{v("3100.5", "3,100.50")}},
				{Label: "Other trades in the way of a very long label", Values: []sheet.Value{v("1800", "1,800.00")}}, {Label: "Code requirement", Values: []sheet.Value{v("90", "90.00")}}}},
			sheet.Chart{Kind: sheet.Stacked, Title: "Where extras stand by job", Unit: "USD", Desc: "Job 2431 holds most of what waits.", Series: []sheet.Series{{Name: "Billed", Tone: sheet.Go}, {Name: "Waits", Tone: sheet.Hold}, {Name: "To send", Tone: sheet.Send}, {Name: "Lost", Tone: sheet.Stop}, {Name: "Declined", Tone: sheet.Calm}}, Groups: []sheet.ChartGroup{
				{Label: "2431 Bakery", Href: "2431.html", Values: []sheet.Value{v("2100", "2,100.00"), v("900", "900.00"), v("300", "300.00"), v("200", "200.00"), v("150", "150.00")}},
				{Label: "2440 Sheep barn", Href: "2440.html", Values: []sheet.Value{v("1500", "1,500.00"), v("640", "640.00"), v("0", "0.00"), v("570", "570.00"), v("350", "350.00")}}}},
			weeks,
			sheet.Heading{Text: sheet.Words("Scope as it stands")},
			standing(),
			sheet.Pictures{List: []sheet.Picture{{Bytes: drawing(420, 260), Alt: "Panel with its cover off", Caption: sheet.Words("Before")}, {Alt: "Panel after", Missing: "photos/after.jpg is not in the book"}}},
			sheet.Lines{Name: "2026-03-12.md", ID: "n1", Rows: []sheet.Line{{N: 1, Text: "# Thursday"}, {N: 2}, {N: 18, ID: "n1-L18", Text: "- mixer disco, 1:20, Ruth said ok 10:40", Fate: "extra, authorized"}}},
		},
		Foot: []string{"Sums are of what the notes and records say."},
	}
}

func standing() sheet.Table {
	bar := func(w, n, o int) *sheet.Bar { return &sheet.Bar{Before: w, Now: n, Over: o} }
	return sheet.Table{Close: true, Caption: "Booked work, what was there before, what came today.",
		Columns: []sheet.Column{{Title: "Line"}, {Title: "Work", Width: 4}, {Title: "Booked", Align: sheet.Right}, {Title: "To date", Align: sheet.Right}, {Title: "State", Width: 2}},
		Rows: []sheet.Row{
			{Cells: []sheet.Cell{{Text: sheet.Words("A")}, {Text: sheet.Words("Two 20 A circuits to the bench")}, {Text: sheet.Words("2 ea")}, {Text: sheet.Words("2 ea")}, {Text: sheet.Label("done", sheet.Go), Bar: bar(50, 50, 0)}}},
			{Cells: []sheet.Cell{{Text: sheet.Words("B")}, {Text: sheet.Words("EMT along the north wall")}, {Text: sheet.Words("140 ft")}, {Text: sheet.Words("152 ft")}, {Text: sheet.Label("over", sheet.Stop), Bar: bar(60, 40, 9)}}},
			{Cells: []sheet.Cell{{Text: sheet.Words("C")}, {Text: sheet.Words("Panel labels")}, {Text: sheet.Words("1 lot")}, {Text: sheet.Words("0")}, {Text: sheet.Words("not begun"), Bar: bar(0, 0, 0)}}},
		}}
}

// drawing is a picture of stripes.
func drawing(w, h int) []byte {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{200, 190, 170, 255}
			if (x/20+y/20)%2 == 0 {
				c = color.RGBA{120, 110, 100, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	return b.Bytes()
}
