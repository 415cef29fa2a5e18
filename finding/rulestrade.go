package finding

// tradeRules are the rules about the shop's own knowledge of the trade and about figures that are
// held against it.
var tradeRules = []Rule{
	{
		ID: "deficiency/kind", Severity: Error, Since: "1",
		Title: "a kind of deficiency that cannot be used",
		Why:   "Notes that announce it are kept as written, and somebody has to judge each by hand.",
		Wrong: file("deficiencies.yaml", `kinds:
  - slug: pedestal-lock-missing
    title: Dock pedestal without its lock
`),
		Right: file("deficiencies.yaml", `kinds:
  - slug: pedestal-lock-missing
    title: Dock pedestal without its lock
    phrases: [pedestal missing lock]
`),
	},
	{
		ID: "deficiency/phrase", Severity: Warning, Since: "1",
		Title: "a phrase that announces another kind of deficiency already",
		Why:   "A note that writes it gets the other kind, and the shop's own never shows.",
		Wrong: file("deficiencies.yaml", `kinds:
  - slug: dock-box-open
    title: Dock box without its lid
    phrases: [box missing cover]
`),
		Right: file("deficiencies.yaml", `kinds:
  - slug: dock-box-open
    title: Dock box without its lid
    phrases: [gangway box missing cover]
`),
	},
	{
		ID: "deficiency/rule", Severity: Error, Since: "1",
		Title: "a rule without its section or the editions it stands in",
		Why:   "A section that moved or was not there yet would be quoted to a customer.",
		Wrong: file("deficiencies.yaml", `kinds:
  - slug: pedestal-lock-missing
    title: Dock pedestal without its lock
    phrases: [pedestal missing lock]
    rules: [{section: "110.31"}]
`),
		Right: file("deficiencies.yaml", `kinds:
  - slug: pedestal-lock-missing
    title: Dock pedestal without its lock
    phrases: [pedestal missing lock]
    rules: [{section: "110.31", editions: [2020, 2023]}]
`),
	},
	{
		ID: "deficiency/which", Severity: Warning, Since: "1",
		Title: "words that may close either of two open deficiencies",
		Why:   "Closing the wrong one would leave a hazard nobody is told of any more; both stay open.",
		Wrong: dayNote(`## Deficiencies
- cooler disconnect has no cover
- freezer disconnect has no cover
`) + file("jobs/2431-quay/2026-03-13.md", `## Deficiencies
- put a cover on the disconnect, fixed
`),
		Right: dayNote(`## Deficiencies
- cooler disconnect has no cover
- freezer disconnect has no cover
`) + file("jobs/2431-quay/2026-03-13.md", `## Deficiencies
- put a cover on the cooler disconnect, fixed
`),
	},
	{
		ID: "fill/over", Severity: Warning, Since: "1",
		Title: "more in a raceway or box than the tables allow",
		Why:   "Wires packed too tight are hurt in pulling and run hot; it is cheapest to change before it is closed.",
		Wrong: dayNote(`## Tests
- 4x1-1/2 square, 6 #12, 2 devices
`),
		Right: dayNote(`## Tests
- 4x2-1/8 square, 6 #12, 2 devices
`),
	},
	{
		ID: "fill/unknown", Severity: Warning, Since: "1",
		Title: "a fill that names a conductor of no size in the tables",
		Why:   "Nothing can be figured for it.",
		Wrong: dayNote(`## Tests
- 3/4 EMT, 9 #13 THHN
`),
		Right: dayNote(`## Tests
- 3/4 EMT, 9 #12 THHN
`),
	},
}
