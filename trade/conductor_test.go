package trade

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// NEC 240.4(D), from memory: 15 A for 14 AWG, 20 A for 12, 30 A for 10, copper.
func TestBreakerAgainstConductor(t *testing.T) {
	for _, c := range []struct {
		breaker, conductor string
		wrong              bool
	}{
		{"15A 1P", "14 AWG", false},
		{"20A 1P", "14 AWG", true},
		{"20A 1P", "12 AWG", false},
		{"25A 2P", "12/2 MC", true},
		{"30A 2P", "10 AWG", false},
		{"30A 2P", "#12", true},
		{"40 amp 2P", "10/3 NM", true},
		{"60A 2P", "6 AWG", false},
		{"100A 2P", "1 AWG", false},
		{"30A 2P", "10 AWG aluminum", false},
		{"", "14 AWG", false},
		{"20A", "", false},
		{"99999999999999999999A", "14 AWG", false},
	} {
		what, wrong := CheckCircuit(c.breaker, c.conductor)
		assert.Equal(t, c.wrong, wrong, "%s on %s", c.breaker, c.conductor)
		assert.Equal(t, wrong, what != "")
	}
	what, _ := CheckCircuit("20A 1P", "14 AWG")
	assert.Contains(t, what, "15 A is the most for 14 AWG copper")
}
