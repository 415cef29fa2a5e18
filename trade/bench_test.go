package trade

import "testing"

func BenchmarkFindKind(b *testing.B) {
	rows := [...]string{
		"cooler disconnect has no cover, live parts; made safe with tape and a tag, told Ruth",
		"proofing cabinet circuit pulled, 52 ft of 10/2 MC, box set, not landed yet",
		"two wires under one screw on brkr 22",
		"Ines 7-3:30, 30 lunch",
	}
	FindKind(rows[0])
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		FindKind(rows[i%len(rows)])
		i++
	}
}

// BenchmarkBuildPhrases is what the first look-up of a program costs.
func BenchmarkBuildPhrases(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		buildPhrases(kinds, nil)
	}
}
