package middleware

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"buf.build/go/protovalidate"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/dynamicpb"

	"leafmoment.example/leafmoment/internal/rpcerr"
)

// validation refuses a request whose fields break their rules in the contract,
// and names every one. The rules of all requests are compiled here, so that one
// that can't be compiled stops the start and no call waits for it.
func validation(requests []protoreflect.MessageDescriptor) (grpc.UnaryServerInterceptor, error) {
	validator, err := protovalidate.New(
		protovalidate.WithMessageDescriptors(requests...), protovalidate.WithDisableLazy())
	if err != nil {
		return nil, err
	}
	var broken *protovalidate.ValidationError
	for _, request := range requests {
		err := validator.Validate(dynamicpb.NewMessage(request))
		if err != nil && !errors.As(err, &broken) {
			return nil, fmt.Errorf("rules of %s: %w", request.FullName(), err)
		}
	}
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		message, ok := req.(proto.Message)
		if !ok {
			return nil, rpcerr.Internal(fmt.Errorf("request is a %T", req))
		}
		if err := validator.Validate(message); err != nil {
			return nil, invalid(err)
		}
		return next(ctx, req)
	}, nil
}

func invalid(err error) error {
	var broken *protovalidate.ValidationError
	if !errors.As(err, &broken) {
		return rpcerr.Internal(err)
	}
	violations := make([]rpcerr.Violation, len(broken.Violations))
	for i, v := range broken.Violations {
		violations[i] = rpcerr.Violation{
			Field:       protovalidate.FieldPathString(v.Proto.GetField()),
			Description: v.Proto.GetMessage(),
			Rule:        strings.ToUpper(strings.ReplaceAll(v.Proto.GetRuleId(), ".", "_")),
		}
	}
	return rpcerr.InvalidFields(violations)
}
