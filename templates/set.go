package templates

import "slices"

// Set is the shipped files with a shop's own in the place of some; nil is the shipped ones.
type Set struct{ own map[string]string }

// NewSet returns the shipped files with own ones, by name, in their place or beside them.
func NewSet(own map[string]string) *Set { return &Set{own} }

// Text returns a file by its name; the error says that neither the shop nor the program has it.
func (s *Set) Text(name string) (string, error) {
	if s != nil {
		if text, ok := s.own[name]; ok {
			return text, nil
		}
	}
	text, err := Files.ReadFile(name)
	return string(text), err
}

// Own reports whether the shop has a file of this name.
func (s *Set) Own(name string) bool {
	if s == nil {
		return false
	}
	_, ok := s.own[name]
	return ok
}

// Shipped lists the names of the shipped files, in order.
func Shipped() []string {
	entries, err := Files.ReadDir(".")
	if err != nil {
		panic("templates: " + err.Error()) // what is embedded is always there
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	slices.Sort(names)
	return names
}
