//go:build !kill

package main

// killRounds is how often the kill test kills; "make kill" does it many times over.
const killRounds = 8
