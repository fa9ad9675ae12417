package service_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/encoding/protowire"

	"leafmoment.example/leafmoment/internal/rpcerr"
)

// apiCase is one call and its answer, the same over gRPC and REST.
type apiCase struct {
	Name    string
	RPC     string // method's name
	Gate    string // file of testdata/gates, put in as the request's gate
	Request string // JSON text
	Padding int    // bytes added: spaces over REST, an unknown field over gRPC

	REST struct { // where only HTTP can put it so; gRPC isn't called then
		Only                bool
		Method, Path, Media string
	}

	Code, Reason     string
	GRPCReasonAbsent bool `yaml:"grpc_reason_absent"` // the library refuses before the chain
	Status           int
	Violations       []string       // "field RULE", all of them in order
	Holds            map[string]any // value at a path of the answer, such as options.0.drive_sku
	Findings         []string       // codes that stand somewhere in the answer, without FINDING_CODE_
	Silent           []string       // codes that don't
}

func loadCases(t testing.TB) []apiCase {
	t.Helper()
	files, err := filepath.Glob("../../testdata/api/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	var all []apiCase
	names := map[string]bool{}
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		d := yaml.NewDecoder(f)
		d.KnownFields(true)
		var cases []apiCase
		if err := d.Decode(&cases); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if err := d.Decode(new(any)); !errors.Is(err, io.EOF) {
			t.Fatalf("%s: more than one document", file)
		}
		_ = f.Close()
		for _, c := range cases {
			if c.Name == "" || names[c.Name] || c.Code == "" || c.Status == 0 || (c.Code == "OK") != (c.Reason == "") {
				t.Fatalf("%s: case %q is incomplete, or its name is taken", file, c.Name)
			}
			if c.Code == "OK" && len(c.Holds)+len(c.Findings) == 0 {
				t.Fatalf("%s: case %q expects nothing of its answer", file, c.Name)
			}
			names[c.Name] = true
			all = append(all, c)
		}
	}
	return all
}

// body is the request's JSON.
func (c *apiCase) body(t testing.TB) string {
	t.Helper()
	if c.Gate == "" {
		return c.Request
	}
	gate, err := protojson.Marshal(readGate(t, "../../testdata/gates/"+c.Gate))
	if err != nil {
		t.Fatal(err)
	}
	members := map[string]json.RawMessage{}
	if c.Request != "" {
		if err := json.Unmarshal([]byte(c.Request), &members); err != nil {
			t.Fatal(err)
		}
	}
	members["gate"] = gate
	text, err := json.Marshal(members)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestAPI(t *testing.T) {
	s, all := serveDemo(t), contract(t)
	for _, c := range loadCases(t) {
		t.Run(c.Name, func(t *testing.T) {
			r, ok := all[c.RPC]
			if !ok {
				t.Fatalf("the contract has no %q", c.RPC)
			}
			overREST := c.overREST(t, s, r)
			if overREST.status != c.Status {
				t.Errorf("REST answers %d, want %d", overREST.status, c.Status)
			}
			c.check(t, "REST", overREST)
			if c.REST.Only {
				return
			}
			overGRPC := c.overGRPC(t, s, r)
			c.check(t, "gRPC", overGRPC)
			if c.Padding == 0 && !reflect.DeepEqual(overGRPC.body, overREST.body) {
				t.Error("gRPC and REST answer differently")
			}
		})
	}
}

func (c *apiCase) overREST(t *testing.T, s *served, r rpc) outcome {
	t.Helper()
	method, path, media, body := r.method, r.path, "application/json", c.body(t)
	if c.REST.Method != "" {
		method = c.REST.Method
	}
	if c.REST.Path != "" {
		path = c.REST.Path
	}
	if c.REST.Media != "" {
		media = c.REST.Media
	}
	if method == http.MethodGet {
		media, body = "", ""
	}
	return s.callREST(t, method, path, media, body+strings.Repeat(" ", c.Padding))
}

func (c *apiCase) overGRPC(t *testing.T, s *served, r rpc) outcome {
	t.Helper()
	request := newMessage(t, r.in)
	if body := c.body(t); body != "" {
		if err := protojson.Unmarshal([]byte(body), request); err != nil {
			t.Fatal(err)
		}
	}
	if c.Padding > 0 {
		request.ProtoReflect().SetUnknown(unknownField(c.Padding))
	}
	return s.callGRPC(t, r, request)
}

func (c *apiCase) check(t *testing.T, over string, got outcome) {
	t.Helper()
	reason := c.Reason
	if over == "gRPC" && c.GRPCReasonAbsent {
		reason = ""
	}
	if !strings.EqualFold(strings.ReplaceAll(got.code, "_", ""), c.Code) || got.reason != reason {
		t.Errorf("%s answers %s %s, want %s %s; names %q", over, got.code, got.reason, c.Code, reason, got.violations)
	}
	if !slices.Equal(got.violations, c.Violations) {
		t.Errorf("%s names\n%s\nwant\n%s", over, strings.Join(got.violations, "\n"), strings.Join(c.Violations, "\n"))
	}
	if c.Code != "OK" || got.body == nil {
		return
	}
	for path, want := range c.Holds {
		if value := at(got.body, path); fmt.Sprint(value) != fmt.Sprint(want) {
			t.Errorf("%s: %s is %v, want %v", over, path, value, want)
		}
	}
	codes := map[string]bool{}
	collectCodes(got.body, codes)
	if ignored := codes["FINDING_CODE_UNKNOWN_FIELDS_IGNORED"]; ignored != (over == "gRPC" && c.Padding > 0) {
		t.Errorf("%s: unknown fields ignored %v", over, ignored)
	}
	for _, want := range c.Findings {
		if !codes["FINDING_CODE_"+want] {
			t.Errorf("%s: no finding %s", over, want)
		}
	}
	for _, unwanted := range c.Silent {
		if codes["FINDING_CODE_"+unwanted] {
			t.Errorf("%s: finding %s", over, unwanted)
		}
	}
}

// at is the value at a path of member names and indices; "#" counts a list.
func at(v any, path string) any {
	for step := range strings.SplitSeq(path, ".") {
		switch node := v.(type) {
		case map[string]any:
			v = node[step]
		case []any:
			i, err := strconv.Atoi(step)
			switch {
			case step == "#":
				v = len(node)
			case err != nil || i >= len(node):
				return nil
			default:
				v = node[i]
			}
		default:
			return nil
		}
	}
	return v
}

func collectCodes(v any, into map[string]bool) {
	switch node := v.(type) {
	case map[string]any:
		if code, ok := node["code"].(string); ok {
			into[code] = true
		}
		for _, member := range node {
			collectCodes(member, into)
		}
	case []any:
		for _, item := range node {
			collectCodes(item, into)
		}
	}
}

// unknownField is a field number that no message of the contract has, of size
// bytes.
func unknownField(size int) []byte {
	return protowire.AppendBytes(protowire.AppendTag(nil, 18999, protowire.BytesType), bytes.Repeat([]byte{'x'}, size))
}

// Reasons that no request's content alone brings about; the server's own tests
// bring them about.
var elsewhere = []rpcerr.Reason{
	rpcerr.ReasonNotImplemented, rpcerr.ReasonOverloaded, rpcerr.ReasonDeadlineExceeded, rpcerr.ReasonCanceled, rpcerr.ReasonInternal,
}

// TestEveryRPCAndReasonHasACase holds that nothing is added to the contract
// without a call that is answered and, where it takes a body, one that is refused.
func TestEveryRPCAndReasonHasACase(t *testing.T) {
	answered, refused, reasons := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, c := range loadCases(t) {
		if c.Code == "OK" {
			answered[c.RPC] = true
		} else {
			refused[c.RPC] = true
		}
		reasons[c.Reason] = true
	}
	for name := range contract(t) {
		if !answered[name] || !refused[name] {
			t.Errorf("%s: answered %v, refused %v; both are needed", name, answered[name], refused[name])
		}
	}
	for _, r := range rpcerr.Reasons() {
		if known := slices.Contains(elsewhere, r); reasons[string(r)] == known {
			t.Errorf("reason %s: has a case %v, belongs elsewhere %v", r, reasons[string(r)], known)
		}
	}
}
