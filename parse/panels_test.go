package parse

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

const panelsText = `# What is on site

Read off the doors on the first visit.

| Panel | Spaces | Phases | Volts    | Main              | Terminals | Feeder             |
|-------|--------|--------|----------|-------------------|-----------|--------------------|
| LP1   | 42     | 3      | 208Y/120 | 225A main breaker | 75        | MDP 12, 4/0 AWG    |
| Barn  | 12     | 1      | 120/240  | lugs only         | 60 C      |                    |

## LP-1

| Space | Breaker      | Conductor | Serves                | Neutral |
|-------|--------------|-----------|-----------------------|---------|
| 1     | 20A 1P       | 12 AWG    | Counter receptacles   |         |
| 3, 5  | 30A 2P GFCI  | 10 AWG    | Oven \| left          |         |
| 8     | 20/1 tied    |           | Shop lights           | 10      |
| 10    | 20A 1P       |           | Office                | shared  |
| 12    |              |           | reserved second oven  |         |

| Panel | Circuit | Description | Breaker |
|-------|---------|-------------|---------|
| barn  | 1-5     | welder      | 50A 3P  |
`

func TestPanelsAreReadInFull(t *testing.T) {
	f := finding.NewFile("jobs/1-x/panels.md", []byte(panelsText))
	panels, found := Panels(f)
	require.Empty(t, found)
	require.Len(t, panels, 2)
	lp := panels[0]
	assert.Equal(t, notes.Panel{
		Name: "LP1", Spaces: 42, Phases: 3, Volts: "208Y/120", Main: "225A main breaker", Terminal: 75,
		Feeder: "MDP 12, 4/0 AWG", Circuits: lp.Circuits, Span: lp.Span,
	}, lp)
	assert.Equal(t, []string{
		"[1] Counter receptacles, 20A 1P, 12 AWG", "[3 5] Oven | left, 30A 2P GFCI, 10 AWG", "[8] Shop lights, 20A 1P, , shared with [10] tied",
		"[10] Office, 20A 1P, , shared with []", "[12] reserved second oven, , ",
	}, rowsOf(lp))
	assert.Equal(t, []string{"[1 3 5] welder, 50A 3P, "}, rowsOf(panels[1]))
	assert.Equal(t, 60, panels[1].Terminal)
	line, column := lp.Circuits[1].At.Conductor.Position()
	assert.Equal(t, [2]int{15, 26}, [2]int{line, column})
	assert.Equal(t, "10 AWG", lp.Circuits[1].At.Conductor.Text())

	scope := finding.NewFile("jobs/1-x/scope.md", []byte("## Scope\n\n| Line | Work |\n|---|---|\n| A | Label LP1 |\n\n## Panels\n\nfrom the doors\n\n"+
		strings.ReplaceAll(strings.SplitAfterN(panelsText, "\n\n", 3)[2], "## LP-1", "### LP-1")+"\n## Not included\n\n- Painting\n"))
	job, found := Scope(scope)
	require.Empty(t, found)
	require.Len(t, job.Panels, 2)
	assert.Equal(t, rowsOf(lp), rowsOf(job.Panels[0]), "scope.md reads as panels.md does")
	assert.Len(t, job.NotIncluded, 1)
}

func rowsOf(p notes.Panel) []string {
	var rows []string
	for _, c := range p.Circuits {
		s := fmt.Sprintf("%v %s, %s, %s", c.Spaces, c.Serves, c.Breaker, c.Conductor)
		if c.Shared {
			s += fmt.Sprintf(", shared with %v", c.With)
		}
		if c.Tied == notes.Yes {
			s += " tied"
		}
		rows = append(rows, s)
	}
	return rows
}

// TestPanelsSayWhatIsWrong: each bad cell is a finding at its place, and the rest is read.
func TestPanelsSayWhatIsWrong(t *testing.T) {
	const head = "| Panel | Spaces | Phases | Terminals | Main |\n|---|---|---|---|---|\n"
	const good = head + "| A | 12 | 3 | 75 | 100A |\n"
	const rows = "\n## A\n\n| Space | Breaker | Conductor | Serves |\n|---|---|---|---|\n"
	for _, c := range []struct{ text, want string }{
		{head + "| A | many | 3 | 75 | 100A |\n", `3:7 panel/bad "many" is not the number of spaces; expected 1 to 200`},
		{head + "| A | 0 | 3 | 75 | 100A |\n", `3:7 panel/bad "0" is not the number of spaces; expected 1 to 200`},
		{head + "| A | 12 | 2 | 75 | 100A |\n", `3:12 panel/bad "2" is not a number of phases; expected 1 or 3`},
		{head + "| A | 12 | 3 | 90 | 100A |\n", `3:16 panel/bad "90" is not what terminals are marked for; expected 60 or 75, in degrees C`},
		{head + "| A | 12 | 3 | 75 | big |\n", `3:21 panel/bad "big" is no main: no rating in amperes is in it`},
		{head + "|  | 12 | 3 | 75 | 100A |\n", `3:1 panel/bad this row does not name the panel; 1:1 panel/none no panel was found; expected a table with one row a panel`},
		{good + "| a | 24 | 1 | 60 | 60A |\n", `4:3 panel/twice the panel "a" stands twice; the first row is used`},
		{"| Panel | Spces |\n|---|---|\n| A | 12 |\n", `1:11 table/column unknown column "Spces"`},
		{"| Spaces |\n|---|\n| 12 |\n", `1:1 table/column this table has no column "panel"; 1:1 panel/none no panel was found; expected a table with one row a panel`},
		{head + "| A | 12 | 3 |\n", `3:1 table/cells this row has fewer cells than the header: 3 instead of 5`},
		{good + rows + "| 1 | huge | 12 | Lights hall |\n", `9:7 panel/bad "huge" is no breaker`},
		{good + rows + "| one | 20A | 12 | Lights hall |\n", `9:3 panel/bad "one" is not a list of spaces`},
		{good + rows + "| 1, 900 | 20A | 12 | Lights hall |\n", `9:3 panel/bad "1, 900" is not a list of spaces`},
		{good + rows + "|  | 20A | 12 | Lights hall |\n", `9:1 panel/bad this row does not say which spaces`},
		{good + strings.Replace(rows, "A", "B", 1) + "| 1 | 20A | 12 | x |\n| 3 | 20A | 12 | y |\n", `5:4 panel/unknown "B" is no panel of this table: its circuits are not read`},
		{"nothing here\n", `1:1 panel/none no panel was found; expected a table with one row a panel`},
		{"", `1:1 panel/none no panel was found; expected a table with one row a panel`},
		{head + "| A | 12 | 3 | 75 | \xff |\n", `3:21 file/encoding this byte is not text in UTF-8; 3:21 panel/bad "�" is no main: no rating in amperes is in it`},
		{strings.Repeat("- ", 200) + "x\n", `1:1 panel/size the panels cannot be read: the file is larger than 512 KB or nested too deep`},
	} {
		_, found := Panels(finding.NewFile("panels.md", []byte(c.text)))
		var said []string
		for _, f := range found {
			line, column := f.Span.Position()
			said = append(said, fmt.Sprintf("%d:%d %s %s", line, column, f.Rule, strings.ToValidUTF8(f.Message, "�")))
			assert.NotEmpty(t, f.Hint)
		}
		assert.Equal(t, c.want, strings.Join(said, "; "), c.text)
	}
}

func FuzzPanels(f *testing.F) {
	f.Add([]byte(panelsText))
	f.Add([]byte("| Panel |\n|---|\n| A |\n\n| Space | Serves |\n|---|---|\n| 1-200 | x |\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		file := finding.NewFile("panels.md", text)
		panels, found := Panels(file)
		again, _ := Panels(file)
		require.Equal(t, len(panels), len(again))
		for _, x := range found {
			require.True(t, x.Span.Known() && x.Span.End <= len(text) && x.Hint != "" && x.Rule != "")
		}
		for _, p := range panels {
			require.NotEmpty(t, p.Name)
			require.LessOrEqual(t, p.Spaces, notes.MaxSpaces)
			for _, c := range p.Circuits {
				require.NotEmpty(t, c.Spaces)
			}
		}
	})
}
