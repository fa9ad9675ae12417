package server

import (
	"fmt"

	"github.com/fullstorydev/grpchan/inprocgrpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// handover passes messages between the gateway and the handlers without copying
// what is in them. That is sound because neither keeps one: the gateway makes a
// request for one call and doesn't look at it again, and only reads the answer.
type handover struct{}

var _ inprocgrpc.Cloner = handover{}

// Copy moves in's fields to out; the messages within are shared.
func (handover) Copy(out, in any) error {
	to, okTo := out.(proto.Message)
	from, okFrom := in.(proto.Message)
	if !okTo || !okFrom {
		return fmt.Errorf("%T to %T: not messages", in, out)
	}
	target, source := to.ProtoReflect(), from.ProtoReflect()
	if target.Descriptor() != source.Descriptor() {
		return fmt.Errorf("%T to %T: not the same message", in, out)
	}
	source.Range(func(field protoreflect.FieldDescriptor, value protoreflect.Value) bool {
		target.Set(field, value)
		return true
	})
	target.SetUnknown(source.GetUnknown())
	return nil
}

// Clone is for streams, which never pass through the gateway.
func (handover) Clone(in any) (any, error) {
	m, ok := in.(proto.Message)
	if !ok {
		return nil, fmt.Errorf("%T isn't a message", in)
	}
	return proto.Clone(m), nil
}
