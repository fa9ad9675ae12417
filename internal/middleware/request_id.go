package middleware

import (
	"context"
	"crypto/rand"
	"regexp"

	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
)

// RequestIDHeader is the header, and the gRPC metadata key, of a request's id.
const RequestIDHeader = "x-request-id"

// A caller's own id is taken where it is short and plain enough for a log line.
var acceptedID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`)

type requestIDKey struct{}

// AcceptRequestID returns the id that the caller sent, where it will do, or else
// a new one.
func AcceptRequestID(sent string) string {
	if acceptedID.MatchString(sent) {
		return sent
	}
	return rand.Text()
}

// RequestID is the id of the call that ctx belongs to; "" outside of a call.
func RequestID(ctx context.Context) string {
	id, _ := ctx.Value(requestIDKey{}).(string)
	return id
}

// requestID gives the call its id and sends it back in the header.
func requestID(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	var sent string
	if values := metadata.ValueFromIncomingContext(ctx, RequestIDHeader); len(values) > 0 {
		sent = values[0]
	}
	id := AcceptRequestID(sent)
	// It fails only where the headers have left, and nothing has been sent yet.
	_ = grpc.SetHeader(ctx, metadata.Pairs(RequestIDHeader, id))
	return next(context.WithValue(ctx, requestIDKey{}, id), req)
}
