package parse

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
)

const header = "code,item,unit,cost,price,kind,words\n"

// rows shows a price list as code|item|unit|cost|price|kind.
func rows(t *testing.T, text string) ([]string, []string) {
	t.Helper()
	list, found := Prices(finding.NewFile("prices.csv", []byte(text)))
	var out []string
	for _, r := range list.Rows {
		cells := []string{r.Code, r.Item, string(r.Unit), "-", "-", r.Kind}
		if r.Cost != nil {
			cells[3] = r.Cost.String()
		}
		if r.Price != nil {
			cells[4] = r.Price.String()
		}
		out = append(out, strings.Join(cells, "|"))
	}
	return out, shown(found)
}

func TestPricesReadsWhatSpreadsheetsWrite(t *testing.T) {
	want := []string{"A1|10/2 MC cable|ft|1.12|1.85|material", "T1|Replace switch|ea|-|68.00|task"}
	for name, text := range map[string]string{
		"plain":              header + "A1,10/2 MC cable,ft,1.12,1.85,material,10/2 MC\nT1,Replace switch,ea,,68,task,\n",
		"no last line break": header + "A1,10/2 MC cable,ft,1.12,1.85,material,\nT1,Replace switch,ea,,68.00,task,",
		"CRLF and a mark":    "\ufeff" + strings.ReplaceAll(header+"A1,10/2 MC cable,ft,1.12,1.85,,\nT1,Replace switch,ea,,68,task,\n", "\n", "\r\n"),
		"columns in any order": "Price,Kind,Item,Code,Cost,Unit\n1.85,material,10/2 MC cable,A1,1.12,FEET\n\n" +
			"68.00,task,Replace switch,T1,,each\n,,,,,\n",
		"quoted":     header + "\"A1\",\"10/2 MC cable\",ft,\"1.12\",1.85,,\"\"\nT1,\"Replace\nswitch\",ea,,68,task,\n",
		"semicolons": strings.ReplaceAll(header, ",", ";") + "A1;10/2 MC cable;ft;1.12;1.85;;\nT1;Replace switch;ea;;68;task;\n",
	} {
		got, found := rows(t, text)
		assert.Empty(t, found, name)
		assert.Equal(t, want, got, name)
	}
}

func TestPricesFindings(t *testing.T) {
	good := "G,good row,ea,1.00,2.00,,\n"
	cases := []struct {
		name, row string
		kept      int // of the row and the good one behind it
		want      []string
	}{
		{"a comma in a figure", "A,cable,ft,1,250.00,,,\n", 1, []string{
			`2:1 "A,cable,ft,1,250.00,,," error prices/cells: this row has 8 of the 7 cells the header has | write 1250.00 for 1,250.00`}},
		{"thousands in quotes", "A,generator,ea,\"1,250.00\",,,\n", 2, []string{
			`2:16 "\"1,250.00\"" warning amount/comma: "1,250.00" is read as 1250.00; the comma is taken to part thousands | write 1250.00`}},
		{"a price of nothing", "A,cable,ft,0.82,0.00,,\n", 2, []string{
			`2:1 "A,cable,ft,0.82,0.00,," warning prices/no-price: "cable" is priced at 0.00; nothing is charged for it | leave the price empty to charge cost and markup, or write what you charge`}},
		{"a currency sign", "A,cable,ft,$1.25,,,\n", 1, []string{
			`2:12 "$1.25" error prices/amount: "$1.25" has a currency sign; expected the figure alone; the row is left out | write 1.25`}},
		{"a negative cost", "A,cable,ft,-1,,,\n", 1, []string{
			`2:12 "-1" error prices/amount: "-1" is negative; expected an amount of 0.00 or more; the row is left out | write it like 1250.00`}},
		{"a formula", "A,cable,ft,=1+1,,,\n", 1, []string{
			`2:12 "=1+1" error prices/formula: "=1+1" is a formula; expected text or a figure | write what the formula comes to`}},
		{"no unit", "A,cable,,1,,,\n", 1, []string{
			`2:1 "A,cable,,1,,," error prices/no-unit: "cable" has no unit; a price is for one of something | write ea, ft or another unit`}},
		{"an unknown kind", "A,cable,ft,1,,materiel,\n", 1, []string{
			`2:15 "materiel" error prices/kind: "materiel" is neither material nor task; the row is left out | did you mean "material"?`}},
		{"too few cells", "A,cable,ft\n", 1, []string{
			`2:1 "A,cable,ft" error prices/cells: this row has 3 of the 7 cells the header has | put quotes around a cell with a comma in it; leave an empty cell between two commas`}},
		{"no amounts", "A,cable,ft,,,,\n", 2, []string{
			`2:1 "A,cable,ft,,,," warning prices/no-price: "cable" has neither cost nor price | write what it costs you under cost, or what you charge under price`}},
		{"a task without a price", "A,swap it,ea,5,,task,\n", 2, []string{
			`2:1 "A,swap it,ea,5,,task," warning prices/no-price: the task "swap it" has no price | write what you charge for one under price`}},
		{"an open quote", "A,\"cable,ft,1,,,\n", 1, []string{
			`2:3 "\"cable,ft,1,,," error prices/quote: a quote in this row is not closed, or stands inside a cell; the row is left out | put quotes around the whole cell and double those inside: "1/2"" EMT"`}},
		{"an inch mark", "A,3/4\" EMT,ft,1,,,\n", 2, []string{
			`2:1 "A,3/4\" EMT,ft,1,,," warning prices/inch-mark: a cell of this row holds a quote and is read as written | write in for inch, or put quotes around the whole cell and double those inside: "3/4"" EMT"`}},
		{"a code twice", "g,other,ea,1,,,\n", 1, []string{
			`3:1 "G" error prices/code-twice: the code "G" stands twice; the first row is used | give one of the two another code | first written here 2:1`}},
		{"a name twice", "H,good row,ea,1,,,\n", 2, []string{
			`3:1 "G,good row,ea,1.00,2.00,," warning prices/name-twice: "good row" names two rows; a note that uses it gets no price | word the two apart | the other row 2:1`}},
		{"a unit that looks like a slip", "A,cable,rol,1,,,\n", 2, []string{
			`2:9 "rol" warning unit/new: "rol" is taken for a unit of your own | if it is a slip, write "roll"`}},
		{"behind umlauts", "Ä,Käbel,ft,x,,,\n", 1, []string{
			`2:12 "x" error prices/amount: "x" is not an amount; the row is left out | write it like 1250.00`}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, found := rows(t, header+c.row+good)
			assert.Equal(t, c.want, found)
			assert.Len(t, got, c.kept, "the rest is still read")
		})
	}
}

func TestPricesHeader(t *testing.T) {
	got, found := rows(t, "A,cable,ft,1,2,,\n")
	assert.Equal(t, []string{"A|cable|ft|1.00|2.00|material"}, got)
	require.Len(t, found, 1)
	assert.Contains(t, found[0], "prices/header")

	got, found = rows(t, "code,itm,unit\nA,cable,ft\n")
	assert.Empty(t, got)
	assert.Len(t, found, 2)
	assert.Contains(t, found[1], `1:6 "itm" error prices/column: unknown column "itm"; it is not read | did you mean "item"?`)
}

func TestPricesKeepsWordsAndNames(t *testing.T) {
	list, _ := Prices(finding.NewFile("prices.csv", []byte(header+"A,wire connector,box,9.75,,,wire nuts; marrettes ;\n")))
	require.Len(t, list.Rows, 1)
	assert.Len(t, list.Rows[0].Words, 2)
	assert.Equal(t, "A,wire connector,box,9.75,,,wire nuts; marrettes", strings.TrimRight(list.Rows[0].Span.Text(), " ;"))
	empty, found := Prices(nil)
	require.NotNil(t, empty)
	assert.Empty(t, found)
}

func FuzzPrices(f *testing.F) {
	f.Add([]byte(header + "A,\"cable,ft,1\nB,3/4\" EMT,ft,1,,,\n\"C\",\"d\ne\",ea,1,,,x;y\n"))
	f.Add([]byte("\ufeffitem;unit;cost\r\na;ea;1\r\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		list, found := Prices(finding.NewFile("prices.csv", text))
		require.NotNil(t, list)
		for _, r := range list.Rows {
			require.NotEmpty(t, r.Item)
			require.NotEmpty(t, r.Unit)
		}
		for _, x := range found {
			require.LessOrEqual(t, x.Span.End, len(text))
		}
	})
}
