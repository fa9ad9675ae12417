package server

import (
	"encoding/json"
	"math"
	"net/http"
	"strconv"
	"strings"

	"go.uber.org/zap"
	"google.golang.org/genproto/googleapis/rpc/code"
	"google.golang.org/protobuf/encoding/protojson"

	"leafmoment.example/leafmoment/internal/middleware"
	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// problem is an error answer over HTTP: problem details as in RFC 9457, with the
// gRPC status beside them. proto/openapi.json describes it.
type problem struct {
	Type       string             `json:"type"`
	Title      string             `json:"title"`
	Status     int                `json:"status"`
	Detail     string             `json:"detail"`
	Instance   string             `json:"instance"`
	Code       string             `json:"code"`
	Reason     string             `json:"reason"`
	Violations []problemViolation `json:"violations,omitempty"`
	Details    []json.RawMessage  `json:"details"`
}

type problemViolation struct {
	Field       string `json:"field"`
	Pointer     string `json:"pointer"`
	Description string `json:"description"`
	Rule        string `json:"rule"`
}

// problemType is a tag URI (RFC 4151): a name for the problem, not an address.
const problemType = "tag:leafmoment.example,2026:"

func problemOf(e *rpcerr.Error, requestID string) problem {
	p := problem{
		Type:     problemType + string(e.Reason),
		Title:    e.Reason.Title(),
		Status:   e.Reason.HTTPStatus(),
		Detail:   e.Message,
		Instance: requestID,
		Code:     code.Code(e.Reason.Code()).String(),
		Reason:   string(e.Reason),
	}
	for _, v := range e.Violations {
		p.Violations = append(p.Violations, problemViolation{v.Field, pointer(v.Field), v.Description, v.Rule})
	}
	for _, detail := range e.GRPCStatus().Proto().GetDetails() {
		// The types of the details are linked in; there is nothing to fail.
		if text, err := protojson.Marshal(detail); err == nil {
			p.Details = append(p.Details, text)
		}
	}
	return p
}

// pointer is the JSON pointer (RFC 6901, as a URI fragment) of a field's path.
// Paths hold contract names and indices alone, which need no escaping.
func pointer(field string) string {
	if field == "" {
		return "#"
	}
	return "#/" + strings.NewReplacer(".", "/", "[", "/", "]", "").Replace(field)
}

// problems writes error answers.
type problems struct {
	log     *zap.Logger
	metrics *telemetry.Metrics
}

// write answers with an error that the interceptor chain has counted and logged.
func (p *problems) write(w http.ResponseWriter, r *http.Request, e *rpcerr.Error) {
	text, err := json.Marshal(problemOf(e, r.Header.Get(middleware.RequestIDHeader)))
	if err != nil {
		p.log.Error("error answer not written", zap.Error(err))
		w.WriteHeader(http.StatusInternalServerError)
		return
	}
	header := w.Header()
	header.Set("Content-Type", "application/problem+json")
	header.Set("Content-Length", strconv.Itoa(len(text)))
	if wait := e.Reason.RetryAfter(); wait > 0 {
		header.Set("Retry-After", strconv.Itoa(int(math.Ceil(wait.Seconds()))))
	}
	w.WriteHeader(e.Reason.HTTPStatus())
	if _, err := w.Write(text); err != nil {
		p.log.Debug("error answer not sent", zap.Error(err))
	}
}

// refuse answers a request that never became a call, and counts and logs it here
// because the chain doesn't see it.
func (p *problems) refuse(w http.ResponseWriter, r *http.Request, err error) {
	e := rpcerr.From(err)
	p.metrics.Error(e.Reason)
	log := p.log.Info
	fields := []zap.Field{
		zap.String("request_id", r.Header.Get(middleware.RequestIDHeader)),
		zap.Int("status", e.Reason.HTTPStatus()),
		zap.String("reason", string(e.Reason)),
	}
	if e.Reason == rpcerr.ReasonInternal {
		log, fields = p.log.Error, append(fields, zap.NamedError("cause", e.Cause))
	}
	log("request refused", fields...)
	p.write(w, r, e)
}
