package rpcerr

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
)

var errSecret = errors.New("secret: row 7 of /etc/keys")

// one of every reason, made as the service makes it.
func one(reason Reason) *Error {
	field := []Violation{{Field: "gate.leaves[0].width_mm", Description: "must be finite", Rule: "DOUBLE_FINITE"}}
	return map[Reason]func() *Error{
		ReasonInvalidFields:    func() *Error { return InvalidFields(field) },
		ReasonUnknownSKU:       func() *Error { return UnknownSKUs("r1", UnknownSKU{"drive_sku", "XX-9", "is not in the catalog"}) },
		ReasonMalformedBody:    func() *Error { return MalformedBody("line 3, column 14", errSecret) },
		ReasonBodyTooLarge:     func() *Error { return BodyTooLarge(1 << 20) },
		ReasonUnsupportedMedia: func() *Error { return UnsupportedMedia("Content-Type", "text/plain") },
		ReasonRouteNotFound:    func() *Error { return RouteNotFound("/v1/nothing") },
		ReasonMethodNotAllowed: func() *Error { return MethodNotAllowed("PUT", "POST") },
		ReasonNotImplemented:   func() *Error { return NotImplemented(errSecret) },
		ReasonOverloaded:       Overloaded,
		ReasonDeadlineExceeded: func() *Error { return DeadlineExceeded(errSecret) },
		ReasonCanceled:         func() *Error { return Canceled(errSecret) },
		ReasonInternal:         func() *Error { return Internal(errSecret) },
	}[reason]()
}

// Every reason obeys AIP-193: an ErrorInfo with domain and an upper-snake reason
// of at most 63 characters, each kind of detail once, public text only.
func TestEveryReason(t *testing.T) {
	shape := regexp.MustCompile(`^[A-Z][A-Z0-9_]{1,61}[A-Z0-9]$`)
	if len(Reasons()) != len(registry) || len(registry) == 0 {
		t.Fatalf("%d reasons listed, %d registered", len(Reasons()), len(registry))
	}
	for _, reason := range Reasons() {
		t.Run(string(reason), func(t *testing.T) {
			if !shape.MatchString(string(reason)) {
				t.Error("not an upper-snake word of at most 63 characters")
			}
			e := one(reason)
			if e.Reason != reason {
				t.Fatalf("made with reason %s", e.Reason)
			}
			if e.Reason.HTTPStatus() < 400 || e.Reason.Code() == codes.OK || e.Reason.Title() == "" || e.Message == "" {
				t.Errorf("incomplete: %d %s %q %q", e.Reason.HTTPStatus(), e.Reason.Code(), e.Reason.Title(), e.Message)
			}
			st := e.GRPCStatus()
			if st.Code() != reason.Code() || st.Message() != e.Message {
				t.Errorf("status is %v %q", st.Code(), st.Message())
			}
			if text := st.Proto().String(); strings.Contains(text, "secret") {
				t.Errorf("the cause leaks: %s", text)
			}
			if e.Cause != nil && (!errors.Is(e, errSecret) || !strings.Contains(e.Error(), "secret")) {
				t.Error("the log doesn't see the cause")
			}
			checkDetails(t, e, st)
		})
	}
}

func checkDetails(t *testing.T, e *Error, st *status.Status) {
	t.Helper()
	seen := map[string]int{}
	for _, detail := range st.Details() {
		m, ok := detail.(proto.Message)
		if !ok {
			t.Fatalf("detail doesn't unpack: %v", detail)
		}
		seen[string(m.ProtoReflect().Descriptor().Name())]++
		switch d := detail.(type) {
		case *errdetails.ErrorInfo:
			if d.Reason != string(e.Reason) || d.Domain != "leafmoment" {
				t.Errorf("ErrorInfo is %v", d)
			}
		case *errdetails.BadRequest:
			if len(d.FieldViolations) != len(e.Violations) {
				t.Errorf("%d of %d violations", len(d.FieldViolations), len(e.Violations))
			}
			for i, v := range d.FieldViolations {
				if v.Field != e.Violations[i].Field || v.Description == "" || v.Reason == "" {
					t.Errorf("violation is %v", v)
				}
			}
		case *errdetails.RetryInfo:
			if d.RetryDelay.AsDuration() != time.Second {
				t.Errorf("retry after %v", d.RetryDelay)
			}
		}
	}
	want := map[string]int{"ErrorInfo": 1}
	if len(e.Violations) > 0 {
		want["BadRequest"] = 1
	}
	if e.Reason == ReasonOverloaded {
		want["RetryInfo"] = 1
	}
	if fmt.Sprint(seen) != fmt.Sprint(want) {
		t.Errorf("details are %v, want %v", seen, want)
	}
}

func TestFrom(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		want Reason
	}{
		"own":                {Overloaded(), ReasonOverloaded},
		"own, wrapped":       {fmt.Errorf("sizing: %w", Overloaded()), ReasonOverloaded},
		"deadline":           {fmt.Errorf("solver: %w", context.DeadlineExceeded), ReasonDeadlineExceeded},
		"canceled":           {context.Canceled, ReasonCanceled},
		"library's deadline": {status.Error(codes.DeadlineExceeded, "x"), ReasonDeadlineExceeded},
		"library's cancel":   {status.Error(codes.Canceled, "x"), ReasonCanceled},
		"no such method":     {status.Error(codes.Unimplemented, "x"), ReasonNotImplemented},
		"a foreign status":   {status.Error(codes.NotFound, "secret"), ReasonInternal},
		"anything else":      {errSecret, ReasonInternal},
	} {
		if got := From(c.err); got.Reason != c.want {
			t.Errorf("%s: %s, want %s", name, got.Reason, c.want)
		}
	}
	if From(nil) != nil {
		t.Error("From(nil) is an error")
	}
}

// A status must fit the header list that clients take.
func TestManyViolations(t *testing.T) {
	var all []Violation
	for i := range 5000 {
		all = append(all, Violation{
			Field:       fmt.Sprintf("gate.obstacles[%d].outline[3].x_mm", i),
			Description: "must be greater than or equal to -50000 and less than or equal to 50000",
			Rule:        "DOUBLE_GTE_LTE",
		})
	}
	e := InvalidFields(all)
	wire, err := proto.Marshal(e.GRPCStatus().Proto())
	if err != nil {
		t.Fatal(err)
	}
	if encoded := len(wire) * 4 / 3; encoded > 8<<10 {
		t.Errorf("status takes %d bytes of header", encoded)
	}
	if e.Metadata["violation_count"] != "5000" || !strings.Contains(e.Message, "And 4999 more") {
		t.Errorf("count is lost: %v %q", e.Metadata, e.Message)
	}
}

func TestOddInput(t *testing.T) {
	for _, e := range []*Error{
		RouteNotFound("/\xff" + strings.Repeat("é", 1000)),
		UnsupportedMedia("Content-Type", "\xfe\xff"),
		InvalidFields(nil),
		UnknownSKUs("r1"),
	} {
		if st := e.GRPCStatus(); st.Code() != e.Reason.Code() || len(st.Proto().String()) > 1500 {
			t.Errorf("%s answers %v", e.Reason, st)
		}
	}
}
