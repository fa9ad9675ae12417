package rpcerr

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	spb "google.golang.org/genproto/googleapis/rpc/status"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/anypb"
	"google.golang.org/protobuf/types/known/durationpb"
)

var sortedReasons = slices.Sorted(maps.Keys(registry))

// Violation is one field that is wrong.
type Violation struct {
	Field       string // path by contract names, such as gate.leaves[0].width_mm; "" is the request itself
	Description string // what is wrong with it, in a sentence
	Rule        string // the broken rule, in upper snake case
}

// Error answers a call. Its Message, Metadata and Violations are for the
// caller; Cause is for the log alone.
type Error struct {
	Reason     Reason
	Message    string            // in English, for a developer to read
	Metadata   map[string]string // the changing words of Message, for a program to read
	Violations []Violation
	Cause      error
}

// Error is the text for the log, the cause included.
func (e *Error) Error() string {
	if e.Cause == nil {
		return fmt.Sprintf("%s: %s", e.Reason, e.Message)
	}
	return fmt.Sprintf("%s: %s: %v", e.Reason, e.Message, e.Cause)
}

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Cause }

// GRPCStatus is the status the caller gets: the public text, and as details an
// ErrorInfo, a BadRequest where fields are wrong, and a RetryInfo where trying
// again helps.
func (e *Error) GRPCStatus() *status.Status {
	answer := &spb.Status{Code: int32(e.Reason.Code()), Message: e.Message}
	for _, detail := range e.details() {
		// Deterministic, so that equal requests get equal bytes.
		packed := new(anypb.Any)
		if err := anypb.MarshalFrom(packed, detail, proto.MarshalOptions{Deterministic: true}); err != nil {
			return status.New(codes.Internal, ReasonInternal.Title())
		}
		answer.Details = append(answer.Details, packed)
	}
	return status.FromProto(answer)
}

func (e *Error) details() []proto.Message {
	details := []proto.Message{&errdetails.ErrorInfo{
		Reason: string(e.Reason), Domain: Domain, Metadata: e.Metadata,
	}}
	if len(e.Violations) > 0 {
		bad := new(errdetails.BadRequest)
		for _, v := range e.Violations {
			bad.FieldViolations = append(bad.FieldViolations, &errdetails.BadRequest_FieldViolation{
				Field: v.Field, Description: v.Description, Reason: v.Rule,
			})
		}
		details = append(details, bad)
	}
	if wait := e.Reason.RetryAfter(); wait > 0 {
		details = append(details, &errdetails.RetryInfo{RetryDelay: durationpb.New(wait)})
	}
	return details
}

// From turns any error into one that may answer a call: an *Error anywhere in
// the chain stays what it is, an ended context or a status from a library keeps
// its meaning, and all else is INTERNAL with the error as its cause. From(nil)
// is nil.
func From(err error) *Error {
	if err == nil {
		return nil
	}
	var own *Error
	switch {
	case errors.As(err, &own):
		return own
	case errors.Is(err, context.DeadlineExceeded):
		return DeadlineExceeded(err)
	case errors.Is(err, context.Canceled):
		return Canceled(err)
	}
	switch status.Code(err) {
	case codes.DeadlineExceeded:
		return DeadlineExceeded(err)
	case codes.Canceled:
		return Canceled(err)
	case codes.Unimplemented:
		return NotImplemented(err)
	}
	return Internal(err)
}
