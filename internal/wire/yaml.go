package wire

import (
	"buf.build/go/protovalidate"
	"buf.build/go/protoyaml"
	"google.golang.org/protobuf/proto"
)

// UnmarshalYAML reads strict YAML or JSON in the shape of a message of the
// contract and holds it to the contract's field rules. file names it in errors,
// which have the lines.
func UnmarshalYAML(document []byte, file string, m proto.Message) error {
	return protoyaml.UnmarshalOptions{Path: file, Validator: fieldRules{}}.Unmarshal(document, m)
}

// fieldRules adapts the field rules' validator to what the YAML reader asks for.
type fieldRules struct{}

func (fieldRules) Validate(m proto.Message) error { return protovalidate.Validate(m) }
