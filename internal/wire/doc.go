// Package wire turns the contract's messages and YAML documents into the domain's
// types and back. It is the only package, beside service, that knows both.
package wire
