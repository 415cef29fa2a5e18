//go:build kill

package main

// killRounds is how often the kill test kills.
const killRounds = 150
