// Package rpcerr makes every error that answers a call. An error says in one
// stable word why the call can't be answered, names every field that is wrong,
// and keeps what went wrong inside, which the log may show, apart from what the
// caller is told. No other package makes a gRPC status.
package rpcerr

import (
	"net/http"
	"time"

	"google.golang.org/grpc/codes"
)

// Domain is the domain of every google.rpc.ErrorInfo.
const Domain = "leafmoment"

// Reason says why a call isn't answered. Callers act on it: a reason that has
// been published stays.
type Reason string

// The reasons.
const (
	ReasonInvalidFields    Reason = "INVALID_FIELDS"
	ReasonUnknownSKU       Reason = "UNKNOWN_SKU"
	ReasonMalformedBody    Reason = "MALFORMED_BODY"
	ReasonBodyTooLarge     Reason = "BODY_TOO_LARGE"
	ReasonUnsupportedMedia Reason = "UNSUPPORTED_MEDIA"
	ReasonRouteNotFound    Reason = "ROUTE_NOT_FOUND"
	ReasonMethodNotAllowed Reason = "METHOD_NOT_ALLOWED"
	ReasonNotImplemented   Reason = "NOT_IMPLEMENTED"
	ReasonOverloaded       Reason = "OVERLOADED"
	ReasonDeadlineExceeded Reason = "DEADLINE_EXCEEDED"
	ReasonCanceled         Reason = "CANCELED"
	ReasonInternal         Reason = "INTERNAL"
)

// statusClientClosedRequest is common practice for a caller that went away;
// RFC 9110 has no status for it, and nobody is left to read it.
const statusClientClosedRequest = 499

// overloadRetry is long enough for calls of some milliseconds to drain and
// short enough that a customer still waits.
const overloadRetry = time.Second

// An entry is what follows from a reason alone.
type entry struct {
	code  codes.Code
	http  int
	title string
	retry time.Duration // when to try again; 0 where trying again won't help
}

var registry = map[Reason]entry{
	ReasonInvalidFields:    {codes.InvalidArgument, http.StatusBadRequest, "Fields of the request break their rules", 0},
	ReasonUnknownSKU:       {codes.InvalidArgument, http.StatusBadRequest, "The catalog doesn't hold a part that was asked for", 0},
	ReasonMalformedBody:    {codes.InvalidArgument, http.StatusBadRequest, "The body isn't the JSON this route reads", 0},
	ReasonBodyTooLarge:     {codes.ResourceExhausted, http.StatusRequestEntityTooLarge, "The body is too large", 0},
	ReasonUnsupportedMedia: {codes.InvalidArgument, http.StatusUnsupportedMediaType, "The body isn't declared as plain JSON", 0},
	ReasonRouteNotFound:    {codes.NotFound, http.StatusNotFound, "There is no such route", 0},
	ReasonMethodNotAllowed: {codes.Unimplemented, http.StatusMethodNotAllowed, "The route doesn't answer this method", 0},
	ReasonNotImplemented:   {codes.Unimplemented, http.StatusNotImplemented, "This server doesn't answer that call", 0},
	ReasonOverloaded:       {codes.Unavailable, http.StatusServiceUnavailable, "Too many calls at once", overloadRetry},
	ReasonDeadlineExceeded: {codes.DeadlineExceeded, http.StatusGatewayTimeout, "The answer took too long", 0},
	ReasonCanceled:         {codes.Canceled, statusClientClosedRequest, "The caller gave up", 0},
	ReasonInternal:         {codes.Internal, http.StatusInternalServerError, "The service failed", 0},
}

// Reasons lists every reason, in the order of their names.
func Reasons() []Reason { return sortedReasons }

// Code is the gRPC status code of the reason.
func (r Reason) Code() codes.Code { return registry[r].code }

// HTTPStatus is the HTTP status of the reason.
func (r Reason) HTTPStatus() int { return registry[r].http }

// Title says in a sentence what the reason stands for.
func (r Reason) Title() string { return registry[r].title }

// RetryAfter is how long to wait before trying again; 0 where that won't help.
func (r Reason) RetryAfter() time.Duration { return registry[r].retry }
