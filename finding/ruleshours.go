package finding

// hoursRules are the rules about the hours of a person over all jobs and days.
var hoursRules = []Rule{
	{
		ID: "hours/no-work", Severity: Warning, Since: "1",
		Title: "hours without a word of what was done",
		Why:   "Nobody can say later what the hours were for, and no line or extra gets them.",
		Wrong: dayNote("## Time\n- Ines 7:00-9:00\n"),
		Right: dayNote("## Done\n- C: 2 of 3 GFCI receptacles in\n\n## Time\n- Ines 7:00-9:00\n"),
	},
	{
		ID: "hours/overlap", Severity: Warning, Since: "1",
		Title: "somebody on the clock of two jobs at the same time",
		Why:   "Both are counted until one is put right: the hours would be paid, and may be billed, twice.",
		Wrong: otherDay("- Ines 8:30-11:00\n"),
		Right: otherDay("- Ines 9:00-11:00\n"),
	},
	{
		ID: "hours/short-break", Severity: Warning, Since: "1",
		Title: "a short break taken off the hours",
		Why: "Rest of about 5 to 20 minutes is work time that is paid (29 CFR 785.18); a meal of usually 30 minutes\n" +
			"is not, when the person is fully relieved (785.19). Local law can be stricter.",
		Wrong: dayNote("## Done\n- C: 2 of 3 GFCI receptacles in\n\n## Time\n- Ines 7:00-15:30, 15 min break\n"),
		Right: dayNote("## Done\n- C: 2 of 3 GFCI receptacles in\n\n## Time\n- Ines 7:00-15:30, 30 lunch\n"),
	},
}

// otherDay is a note of another job on the day of the example book's own.
func otherDay(time string) string {
	return file("jobs/2432-mill/scope.md", "---\njob: 2432\n---\n\n## Scope\n\n"+scopeHead+"| A | Trace panel LP1 | 1 | ea | 200.00 | 2 |\n") +
		file("jobs/2432-mill/2026-03-12.md", "## Done\n- A: traced half of LP1\n\n## Time\n"+time)
}
