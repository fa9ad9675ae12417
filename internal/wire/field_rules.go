package wire

import (
	"errors"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"buf.build/go/protovalidate"
	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// fieldRules holds a message that was read from a document to the contract's
// field rules. What a rule says of a value that couldn't be read is left out.
func (c *collector) fieldRules(root *yaml.Node, m proto.Message) {
	err := protovalidate.Validate(m)
	var invalid *protovalidate.ValidationError
	switch {
	case err == nil:
		return
	case !errors.As(err, &invalid):
		c.problems = append(c.problems, DocumentProblem{Text: err.Error()})
		return
	}
	for _, v := range invalid.Violations {
		path := v.Proto.GetField()
		n, whole := closest(root, m.ProtoReflect().Descriptor(), path.GetElements())
		unreadable := whole || n.Kind != yaml.MappingNode
		if unreadable && c.at[place{n.Line, n.Column}] {
			continue
		}
		c.problems = append(c.problems, DocumentProblem{
			Line: n.Line, Column: n.Column, Text: protovalidate.FieldPathString(path) + ": " + v.Proto.GetMessage(),
		})
	}
}

// closest follows a field's path into a document, as far as it goes; whole says
// that it goes to the end.
func closest(n *yaml.Node, d protoreflect.MessageDescriptor, path []*validate.FieldPathElement) (node *yaml.Node, whole bool) {
	for _, element := range path {
		field := d.Fields().ByName(protoreflect.Name(element.GetFieldName()))
		value := valueOf(n, d, field)
		if value == nil {
			return n, false
		}
		n = value
		if element.GetSubscript() != nil {
			i := element.GetIndex()
			if n.Kind != yaml.SequenceNode || i >= uint64(len(n.Content)) {
				return n, false
			}
			n = n.Content[i]
		}
		d = field.Message()
	}
	return n, true
}

// valueOf is the value of a field in a mapping; nil where it isn't there.
func valueOf(n *yaml.Node, d protoreflect.MessageDescriptor, field protoreflect.FieldDescriptor) *yaml.Node {
	if n.Kind != yaml.MappingNode || field == nil {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if fieldOf(d, n.Content[i].Value) == field {
			return n.Content[i+1]
		}
	}
	return nil
}
