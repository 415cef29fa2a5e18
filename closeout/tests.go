package closeout

import "jobday/notes"

// missingTests lists devices that went in without the test that belongs to them.
func missingTests(d *notes.JobDay) []Point { return nil }
