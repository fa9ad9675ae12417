package rpcerr

import (
	"fmt"
	"strconv"
	"strings"
)

// maxViolations keeps a status within the 8 KiB of headers that gRPC clients of
// other languages take: 40 violations of some 120 bytes come to about 6.5 KiB
// after base64. The message still says how many there are.
const maxViolations = 40

// maxEcho is the most bytes of a caller's own words that an error repeats.
const maxEcho = 120

// InvalidFields says that fields break their rules; violations names them all.
func InvalidFields(violations []Violation) *Error {
	return withViolations(ReasonInvalidFields, violations)
}

// UnknownSKU is a field of the request that names a part the catalog lacks, or
// one that isn't what the field asks for; Why completes the sentence.
type UnknownSKU struct {
	Field, SKU, Why string
}

// UnknownSKUs says which parts the catalog of that revision doesn't hold as what
// they are asked for.
func UnknownSKUs(catalogRevision string, unknown ...UnknownSKU) *Error {
	violations := make([]Violation, len(unknown))
	skus := make([]string, len(unknown))
	for i, u := range unknown {
		violations[i] = Violation{
			Field:       u.Field,
			Description: fmt.Sprintf("%q %s", clip(u.SKU), u.Why),
			Rule:        string(ReasonUnknownSKU),
		}
		skus[i] = u.SKU
	}
	e := withViolations(ReasonUnknownSKU, violations)
	e.Metadata["skus"] = strings.Join(skus, ",")
	e.Metadata["catalog_revision"] = catalogRevision
	return e
}

// MalformedBody says what keeps a body from being read at all: detail says
// where, such as "line 3, column 14", and cause is the parser's word for it.
func MalformedBody(detail string, cause error) *Error {
	return &Error{
		Reason:   ReasonMalformedBody,
		Message:  "The body isn't valid JSON: " + detail + ".",
		Metadata: map[string]string{"detail": detail},
		Cause:    cause,
	}
}

// UnreadableFields says which members of a JSON body the contract can't take:
// names it doesn't have, or values of another kind.
func UnreadableFields(violations []Violation, cause error) *Error {
	e := withViolations(ReasonMalformedBody, violations)
	e.Cause = cause
	return e
}

// BodyTooLarge says that a body exceeds limit bytes.
func BodyTooLarge(limit int64) *Error {
	return &Error{
		Reason:   ReasonBodyTooLarge,
		Message:  fmt.Sprintf("The body is larger than %d bytes.", limit),
		Metadata: map[string]string{"limit_bytes": strconv.FormatInt(limit, 10)},
	}
}

// UnsupportedMedia says that a header declares something else than plain JSON.
func UnsupportedMedia(header, value string) *Error {
	value = clip(value)
	return &Error{
		Reason:   ReasonUnsupportedMedia,
		Message:  fmt.Sprintf("%s is %q; send Content-Type: application/json and no Content-Encoding.", header, value),
		Metadata: map[string]string{"header": header, "value": value},
	}
}

// RouteNotFound says that nothing is served at the path.
func RouteNotFound(path string) *Error {
	path = clip(path)
	return &Error{
		Reason:   ReasonRouteNotFound,
		Message:  fmt.Sprintf("Nothing is served at %q.", path),
		Metadata: map[string]string{"path": path},
	}
}

// MethodNotAllowed says that the path answers another method, named in allowed.
func MethodNotAllowed(method, allowed string) *Error {
	return &Error{
		Reason:   ReasonMethodNotAllowed,
		Message:  fmt.Sprintf("The route answers %s, not %q.", allowed, method),
		Metadata: map[string]string{"method": method, "allowed": allowed},
	}
}

// NotImplemented says that the server has no such call.
func NotImplemented(cause error) *Error {
	return &Error{Reason: ReasonNotImplemented, Message: "This server doesn't answer that call.", Cause: cause}
}

// Overloaded says to come back in a moment.
func Overloaded() *Error {
	return &Error{Reason: ReasonOverloaded, Message: "The service answers as many calls as it can; try again shortly."}
}

// DeadlineExceeded says that no answer was ready in time.
func DeadlineExceeded(cause error) *Error {
	return &Error{Reason: ReasonDeadlineExceeded, Message: "No answer was ready in time.", Cause: cause}
}

// Canceled says that the caller went away.
func Canceled(cause error) *Error {
	return &Error{Reason: ReasonCanceled, Message: "The caller gave up.", Cause: cause}
}

// Internal tells the caller nothing but that the service failed.
func Internal(cause error) *Error {
	return &Error{Reason: ReasonInternal, Message: "The service failed; the log has the cause under the request's id.", Cause: cause}
}

func withViolations(reason Reason, violations []Violation) *Error {
	if len(violations) == 0 {
		violations = []Violation{{Description: reason.Title()}}
	}
	count := len(violations)
	first := violations[0]
	message := fmt.Sprintf("%s: %s.", nameOf(first.Field), strings.TrimSuffix(first.Description, "."))
	if count > 1 {
		message = fmt.Sprintf("%s And %d more.", message, count-1)
	}
	if count > maxViolations {
		violations = violations[:maxViolations]
	}
	return &Error{
		Reason:     reason,
		Message:    message,
		Metadata:   map[string]string{"first_field": first.Field, "violation_count": strconv.Itoa(count)},
		Violations: violations,
	}
}

// clip makes what a caller sent fit to send back: protobuf strings are UTF-8, and
// nobody needs a kilobyte of path.
func clip(sent string) string {
	if len(sent) > maxEcho {
		sent = sent[:maxEcho]
	}
	return strings.ToValidUTF8(sent, "\ufffd")
}

func nameOf(field string) string {
	if field == "" {
		return "request"
	}
	return field
}
