// Package ubl writes an invoice record as an electronic invoice.
package ubl
