// Package demo holds the catalog of an invented supplier, so that the service
// runs with nothing given.
package demo

import _ "embed"

//go:embed demo.yaml
var document []byte

// Catalog is the demo supplier's catalog document.
func Catalog() []byte { return document }
