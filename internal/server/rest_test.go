package server

import (
	"bytes"
	"io"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
	"go.uber.org/zap/zaptest/observer"
	"google.golang.org/protobuf/encoding/protojson"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
)

func TestBadRequests(t *testing.T) {
	core, logs := observer.New(zapcore.InfoLevel)
	s := run(t, nil, zap.New(core))
	const size = "/v1/gates:size"
	for name, c := range map[string]struct {
		method, path, body string
		headers            []string
		status             int
		reason             string
		detail             string // part of the text
		fields             string // of the violations, in order
	}{
		"empty body":            {"POST", size, "", nil, 400, "INVALID_FIELDS", "gate", "gate"},
		"no JSON":               {"POST", size, "{\n  \"gate\": {,}\n}", nil, 400, "MALFORMED_BODY", "line 2, column 12", ""},
		"cut short":             {"POST", size, `{"gate": {`, nil, 400, "MALFORMED_BODY", "line 1, column 11: it ends too early", ""},
		"two values":            {"POST", size, soundJSON + "\n{}", nil, 400, "MALFORMED_BODY", "line 3, column 1: something follows", ""},
		"a list":                {"POST", size, "[]", nil, 400, "MALFORMED_BODY", "must be an object", ""},
		"misspelled":            {"POST", size, strings.Replace(soundJSON, "mass_kg", "masKg", 1), nil, 400, "MALFORMED_BODY", "isn't a field of Leaf", "gate.leaves[0].masKg"},
		"misspelled twice":      {"POST", size, `{"gte": 1, "gate": {"leaves": [{}, {"widht_mm": 1}]}}`, nil, 400, "MALFORMED_BODY", "And 1 more", "gte gate.leaves[1].widht_mm"},
		"an odd name":           {"POST", size, `{"gate": {"a.b[0]": 1}}`, nil, 400, "MALFORMED_BODY", `Gate has no field "a.b[0]"`, "gate"},
		"text for a number":     {"POST", size, `{"gate": {"leaves": [{"width_mm": "wide", "rail_heights_mm": [1, true]}]}}`, nil, 400, "MALFORMED_BODY", "must be a number", "gate.leaves[0].width_mm gate.leaves[0].rail_heights_mm[1]"},
		"no such value":         {"POST", size, `{"view": "VIEW_HUGE"}`, nil, 400, "MALFORMED_BODY", "one of VIEW_UNSPECIFIED", "view"},
		"fraction of a count":   {"POST", size, `{"option_count": 1.5}`, nil, 400, "MALFORMED_BODY", "whole number", "option_count"},
		"an object for a list":  {"POST", size, `{"gate": {"leaves": {}}}`, nil, 400, "MALFORMED_BODY", "must be a list", "gate.leaves"},
		"twice, two spellings":  {"POST", size, `{"option_count": 1, "optionCount": 2}`, nil, 400, "MALFORMED_BODY", "given twice", "option_count"},
		"too deep":              {"POST", size, strings.Repeat("[", 20000), nil, 400, "MALFORMED_BODY", "", ""},
		"not UTF-8":             {"POST", size, "{\"view\": \"\xff\"}", nil, 400, "MALFORMED_BODY", "", "view"},
		"10 MB":                 {"POST", size, strings.Repeat(" ", 10<<20), nil, 413, "BODY_TOO_LARGE", "1048576", ""},
		"a form":                {"POST", size, "gate=1", []string{"Content-Type", "application/x-www-form-urlencoded"}, 415, "UNSUPPORTED_MEDIA", "application/json", ""},
		"another charset":       {"POST", size, soundJSON, []string{"Content-Type", "application/json; charset=latin1"}, 415, "UNSUPPORTED_MEDIA", "latin1", ""},
		"compressed":            {"POST", size, soundJSON, []string{"Content-Encoding", "gzip"}, 415, "UNSUPPORTED_MEDIA", "gzip", ""},
		"parameters":            {"POST", size + "?view=VIEW_FULL", soundJSON, nil, 400, "INVALID_FIELDS", "no parameters", ""},
		"parameters of a GET":   {"GET", "/v1/catalog?x=1", "", nil, 400, "INVALID_FIELDS", "no parameters", ""},
		"wrong method":          {"GET", size, "", nil, 405, "METHOD_NOT_ALLOWED", "POST", ""},
		"wrong method of a GET": {"DELETE", "/v1/catalog", "", nil, 405, "METHOD_NOT_ALLOWED", "GET", ""},
		"overridden method":     {"POST", "/v1/catalog", "{}", []string{"X-HTTP-Method-Override", "GET"}, 405, "METHOD_NOT_ALLOWED", "GET", ""},
		"overriding form":       {"POST", "/v1/catalog", "", []string{"X-HTTP-Method-Override", "GET", "Content-Type", "application/x-www-form-urlencoded"}, 405, "METHOD_NOT_ALLOWED", "GET", ""},
		"wrong path":            {"POST", "/v1/gates:paint", soundJSON, nil, 404, "ROUTE_NOT_FOUND", "/v1/gates:paint", ""},
		"odd path":              {"GET", "/%ff%00", "", nil, 404, "ROUTE_NOT_FOUND", "", ""},
		"root":                  {"GET", "/", "", nil, 404, "ROUTE_NOT_FOUND", "", ""},
		"no metrics here":       {"GET", "/metrics", "", nil, 404, "ROUTE_NOT_FOUND", "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			got := s.send(t, c.method, c.path, c.body, c.headers...)
			if got.status != c.status || got.problem.Reason != c.reason || !strings.Contains(got.problem.Detail, c.detail) {
				t.Errorf("answers %d %s", got.status, got.body)
			}
			var fields []string
			for _, v := range got.problem.Violations {
				if v.Description == "" || v.Rule == "" {
					t.Errorf("violation is %+v", v)
				}
				if v.Field != "" {
					fields = append(fields, v.Field)
				}
			}
			if joined := strings.Join(fields, " "); joined != c.fields {
				t.Errorf("names %q, want %q", joined, c.fields)
			}
			if (got.header.Get("Allow") != "") != (c.status == 405) {
				t.Errorf("Allow is %q", got.header.Get("Allow"))
			}
			// Each is counted and logged once, wherever it was turned away.
			if lines := logs.FilterField(zap.String("request_id", got.problem.Instance)).Len(); lines != 1 {
				t.Errorf("%d lines in the log", lines)
			}
		})
	}
	metrics := s.get(t, "/metrics")
	for _, want := range []string{`reason="ROUTE_NOT_FOUND"} 4`, `reason="BODY_TOO_LARGE"} 1`, `reason="METHOD_NOT_ALLOWED"} 4`, `reason="INVALID_FIELDS"} 3`} {
		if !strings.Contains(metrics, "leafmoment_errors_total{"+want) {
			t.Errorf("metrics lack %s", want)
		}
	}
}

// A body of unknown length is cut off too, and a request without a word about
// its media isn't guessed at.
func TestBodyWithoutHeaders(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	for name, c := range map[string]struct {
		media  string
		body   io.Reader
		status int
	}{
		"10 MB in chunks": {"application/json", io.LimitReader(spaces{}, 10<<20), 413},
		"no media":        {"", strings.NewReader(soundJSON), 415},
		"utf-8":           {"application/json; charset=UTF-8", strings.NewReader(soundJSON), 200},
	} {
		request, err := http.NewRequest(http.MethodPost, "http://"+s.RESTAddr()+"/v1/gates:size", c.body)
		if err != nil {
			t.Fatal(err)
		}
		if c.media != "" {
			request.Header.Set("Content-Type", c.media)
		}
		response, err := s.http.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		if response.StatusCode != c.status {
			t.Errorf("%s answers %d", name, response.StatusCode)
		}
	}
}

type spaces struct{}

func (spaces) Read(p []byte) (int, error) {
	copy(p, bytes.Repeat([]byte{' '}, len(p)))
	return len(p), nil
}

// What a caller writes into headers reaches no handler and changes no limit.
func TestHeadersAreNotTrusted(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	got := s.send(t, http.MethodPost, "/v1/gates:size", soundJSON,
		"Grpc-Timeout", "1n", "Grpc-Metadata-X-Request-Id", "forged", "X-Request-Id", "a b", "Accept", "application/xml")
	if got.status != http.StatusOK || strings.Contains(got.header.Get("X-Request-Id"), " ") || got.header.Get("X-Request-Id") == "forged" {
		t.Errorf("answers %d %v %s", got.status, got.header, got.body)
	}
	if got := s.send(t, http.MethodPost, "/v1/gates:size", soundJSON, "Grpc-Timeout", "nonsense"); got.status != http.StatusOK {
		t.Errorf("answers %d %s", got.status, got.body)
	}
	if got.header.Get("Cache-Control") != "no-store" || got.header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("headers are %v", got.header)
	}
}

// However large a wrong body is, no more than so many of its values are looked at.
func TestExplainingIsBounded(t *testing.T) {
	message := (*leafmomentv1.SizeGateRequest)(nil).ProtoReflect().Descriptor()
	late := `{"gate": {"leaves": [{"rail_heights_mm": [` + strings.Repeat("1,", 500_000) + `"x"]}]}}`
	if e := explainJSON([]byte(late), message, nil); len(e.Violations) != 0 || !strings.Contains(e.Message, "doesn't fit SizeGateRequest") {
		t.Errorf("a list wrong at its very end: %v", e)
	}
	many := `{"` + strings.Repeat(`a": 1, "`, 100_000) + `a": 1}`
	if e := explainJSON([]byte(many), message, nil); e.Metadata["violation_count"] != strconv.Itoa(maxValues) {
		t.Errorf("many unknown names: %v", e.Metadata)
	}
}

// Every call of the contract has a route, and every route is served.
func TestEveryRouteIsServed(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	methods, err := methodsOf(serviceNames(s.names))
	if err != nil {
		t.Fatal(err)
	}
	routes, err := routesOf(methods)
	if err != nil || len(routes) != len(methods) || len(routes) < 4 {
		t.Fatalf("%d routes for %d methods: %v", len(routes), len(methods), err)
	}
	for path, verbs := range routes {
		if got := s.send(t, verbs[0], path, "{}"); got.status == 404 || got.status == 405 {
			t.Errorf("%s %s answers %d", verbs[0], path, got.status)
		}
	}
}

// explainJSON has a word for every body that protojson refuses, whatever it is.
func FuzzExplainJSON(f *testing.F) {
	for _, seed := range []string{
		soundJSON, `{"gate": {"leaves": [null]}}`, `{"gate": 1}`, `{"view": 7, "view": 8}`, "[", `"x"`, "{}{}", `{"gate":{"site":{"x":1}}}`, "nul", "\xff",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		request := new(leafmomentv1.SizeGateRequest)
		err := protojson.Unmarshal(content, request)
		if err == nil {
			return
		}
		e := explainJSON(content, request.ProtoReflect().Descriptor(), err)
		if e.Message == "" || e.Reason != "MALFORMED_BODY" {
			t.Errorf("%q is explained as %v", content, e)
		}
		if st := e.GRPCStatus(); st.Code() != e.Reason.Code() {
			t.Errorf("%q gives status %v", content, st)
		}
	})
}
