package notes

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheLatestOfEach: each stands once, where it was found, as the last day that lists it has it.
func TestTheLatestOfEach(t *testing.T) {
	days := []*JobDay{
		{Date: MustDate("2026-03-12"), Extras: []ExtraWork{{ID: "a"}, {ID: "b", State: NeedsPrice}}},
		{Date: MustDate("2026-03-13"), Extras: []ExtraWork{{ID: "c"}, {ID: "b", State: ExtraAuthorized}}},
	}
	got := LatestExtras(days)
	require.Len(t, got, 3)
	require.Equal(t, "b", got[1].ID)
	require.Same(t, &days[1].Extras[1], got[1])
	require.Equal(t, NeedsPrice, LatestExtras(UpTo(days, MustDate("2026-03-12")))[1].State)
	require.Len(t, UpTo(days, Date{}), 2, "an unknown date is after all")
	require.Empty(t, LatestDeficiencies(nil))
}
