package wire

import (
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// HasUnknownFields reports whether the message, or any message within it, came
// with fields that this version's contract doesn't have. Only protobuf lets them
// in; in JSON they are refused.
func HasUnknownFields(m proto.Message) bool { return unknownIn(m.ProtoReflect()) }

func unknownIn(m protoreflect.Message) bool {
	if len(m.GetUnknown()) > 0 {
		return true
	}
	found := false
	m.Range(func(field protoreflect.FieldDescriptor, value protoreflect.Value) bool {
		switch {
		case field.IsMap(): // the contract has none
		case field.Message() == nil:
		case field.IsList():
			for i, list := 0, value.List(); i < list.Len() && !found; i++ {
				found = unknownIn(list.Get(i).Message())
			}
		default:
			found = unknownIn(value.Message())
		}
		return !found
	})
	return found
}
