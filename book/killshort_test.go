//go:build !kill

package book

// killRounds is how often the kill test kills; "make kill" does it many times over.
const killRounds = 15
