// Package templates holds the pages and style sheets of the reports as they are shipped.
package templates

import "embed"

// Files is every template and style sheet, by its name in this folder.
//
//go:embed *.tmpl *.css
var Files embed.FS
