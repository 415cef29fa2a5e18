package field

import "jobday/notes"

func (r *reader) time() []notes.TimeRow      { return nil }
func (r *reader) progress() notes.Progress   { return notes.Progress{} }
func (r *reader) consent() notes.Consent     { return notes.Consent{} }
func (r *reader) price() notes.PriceWords    { return notes.PriceWords{} }
func (r *reader) fault() notes.FaultWords    { return notes.FaultWords{} }
func (r *reader) readings() []notes.Measured { return nil }
