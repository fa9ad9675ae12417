package wire

import (
	"fmt"
	"regexp"

	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// strict finds what protoyaml lets pass: a key given twice, of which the last
// would win; a key without a value; a field by its number; whole numbers with a
// byte unit; and YAML's own devices, aliases and tags, that make a document say
// something else than it seems to. It goes no deeper than the message's fields.
func (c *collector) strict(n *yaml.Node, d protoreflect.MessageDescriptor) {
	if !c.plain(n) || n.Kind != yaml.MappingNode {
		return // another kind is protoyaml's to refuse
	}
	seen := map[protoreflect.FieldNumber]int{} // line
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if !c.plain(key) {
			continue
		}
		field := fieldOf(d, key.Value)
		if field == nil {
			if byNumber.MatchString(key.Value) {
				c.refuse(key, "fields go by their names, not by numbers: %s", key.Value)
			}
			continue // unknown: protoyaml names those that would do
		}
		if before, ok := seen[field.Number()]; ok {
			c.refuse(key, "%s stands twice, first in line %d", field.Name(), before)
			continue
		}
		seen[field.Number()] = key.Line
		c.strictField(value, field)
	}
}

func (c *collector) strictField(n *yaml.Node, field protoreflect.FieldDescriptor) {
	if !field.IsList() {
		c.strictValue(n, field)
		return
	}
	if !c.plain(n) {
		return
	}
	if isNull(n) {
		c.refuse(n, "%s has no value", field.Name())
	}
	if n.Kind == yaml.SequenceNode {
		for _, item := range n.Content {
			c.strictValue(item, field)
		}
	}
}

func (c *collector) strictValue(n *yaml.Node, field protoreflect.FieldDescriptor) {
	switch {
	case !c.plain(n):
	case isNull(n):
		c.refuse(n, "%s has no value; what isn't known is left out", field.Name())
	case field.Message() != nil:
		c.strict(n, field.Message())
	case isInteger(field.Kind()) && n.Kind == yaml.ScalarNode && !wholeNumber.MatchString(n.Value):
		c.refuse(n, "%s must be a whole number, got %q", field.Name(), n.Value)
	}
}

func (c *collector) refuse(n *yaml.Node, format string, args ...any) {
	c.at[place{n.Line, n.Column}] = true
	c.problems = append(c.problems, DocumentProblem{Line: n.Line, Column: n.Column, Text: fmt.Sprintf(format, args...)})
}

// plain refuses aliases, what they refer to, and tags.
func (c *collector) plain(n *yaml.Node) bool {
	switch {
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		c.refuse(n, "anchors and aliases aren't read; write the value out")
	case n.Style&yaml.TaggedStyle != 0:
		c.refuse(n, "tags aren't read: %s", n.Tag)
	default:
		return true
	}
	return false
}

var (
	byNumber    = regexp.MustCompile(`^[0-9]+$`)
	wholeNumber = regexp.MustCompile(`^-?[0-9]+$`)
)

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

func isInteger(k protoreflect.Kind) bool {
	return k == protoreflect.Int32Kind || k == protoreflect.Int64Kind
}

// fieldOf is the field of that name, as the contract or as JSON spells it.
func fieldOf(d protoreflect.MessageDescriptor, name string) protoreflect.FieldDescriptor {
	if f := d.Fields().ByTextName(name); f != nil {
		return f
	}
	return d.Fields().ByJSONName(name)
}
