//go:build kill

package book

// killRounds is how often the kill test kills.
const killRounds = 300
