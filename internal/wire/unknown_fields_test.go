package wire

import (
	"testing"

	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
)

func soundRequest() *pb.SizeGateRequest {
	return &pb.SizeGateRequest{Gate: &pb.Gate{
		Leaves:  []*pb.Leaf{{WidthMm: proto.Float64(3000), HeightMm: proto.Float64(1200), MassKg: proto.Float64(90), Solidity: proto.Float64(0.3)}},
		Opening: &pb.Opening{Direction: pb.OpeningDirection_OPENING_DIRECTION_INWARD},
	}}
}

func TestHasUnknownFields(t *testing.T) {
	if HasUnknownFields(soundRequest()) {
		t.Error("found some in a sound request")
	}
	alien := []byte{0xa0, 0x3f, 0x01} // field 1012, varint 1
	for name, message := range map[string]func(*pb.SizeGateRequest) proto.Message{
		"request":          func(r *pb.SizeGateRequest) proto.Message { return r },
		"single message":   func(r *pb.SizeGateRequest) proto.Message { return r.Gate.Opening },
		"repeated message": func(r *pb.SizeGateRequest) proto.Message { return r.Gate.Leaves[0] },
	} {
		request := soundRequest()
		message(request).ProtoReflect().SetUnknown(alien)
		if !HasUnknownFields(request) {
			t.Errorf("missed them in a %s", name)
		}
	}
}
