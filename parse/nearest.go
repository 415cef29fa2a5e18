package parse

import "jobday/finding"

// nearest returns the one of known a person most likely meant by word, or "" when none is clearly
// nearest.
func nearest(word string, known []string) string { return finding.Nearest(word, known) }
