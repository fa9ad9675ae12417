package server

import (
	"bytes"
	"errors"
	"io"
	"mime"
	"net/http"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"leafmoment.example/leafmoment/internal/rpcerr"
)

// jsonBody is a request's body, read whole. It carries what is wrong with it from
// the decoder to the error handler: the gateway's own code between the two
// flattens the error to text.
type jsonBody struct {
	bytes.Reader
	content []byte
	failure *rpcerr.Error
}

func (*jsonBody) Close() error { return nil }

// readBody reads the body of a request that a route takes, within its limit.
func readBody(w http.ResponseWriter, r *http.Request) (*jsonBody, error) {
	media, params, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if charset, given := params["charset"]; err != nil || media != "application/json" || given && !isUTF8(charset) {
		return nil, rpcerr.UnsupportedMedia("Content-Type", r.Header.Get("Content-Type"))
	}
	if encoding := r.Header.Get("Content-Encoding"); encoding != "" {
		return nil, rpcerr.UnsupportedMedia("Content-Encoding", encoding)
	}
	content, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxRequestBytes))
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return nil, rpcerr.BodyTooLarge(tooLarge.Limit)
	case err != nil:
		return nil, rpcerr.Canceled(err)
	}
	body := &jsonBody{content: content}
	body.Reset(content)
	return body, nil
}

// jsonMarshaler reads and writes the contract's JSON: names as the contract
// spells them, with their units (the lower camel form is read too), fields left
// at zero left out, and a name that the contract doesn't have refused, because a
// misspelled mass would otherwise count as none.
type jsonMarshaler struct {
	runtime.JSONPb
}

func newJSONMarshaler() *jsonMarshaler {
	return &jsonMarshaler{runtime.JSONPb{
		MarshalOptions:   protojson.MarshalOptions{UseProtoNames: true},
		UnmarshalOptions: protojson.UnmarshalOptions{DiscardUnknown: false},
	}}
}

// Marshal writes a message without the copy that the library makes.
func (j *jsonMarshaler) Marshal(v any) ([]byte, error) {
	if m, ok := v.(proto.Message); ok {
		return j.MarshalOptions.Marshal(m)
	}
	return j.JSONPb.Marshal(v)
}

// NewDecoder decodes a body that readBody read: the whole of it, so that what
// follows the JSON value is refused.
func (j *jsonMarshaler) NewDecoder(r io.Reader) runtime.Decoder {
	body, ok := r.(*jsonBody)
	if !ok {
		return j.JSONPb.NewDecoder(r)
	}
	return runtime.DecoderFunc(func(v any) error {
		m, ok := v.(proto.Message)
		if !ok {
			return j.JSONPb.NewDecoder(r).Decode(v)
		}
		if len(bytes.TrimSpace(body.content)) == 0 {
			return io.EOF // the gateway takes it for an empty message, and validation says what is missing
		}
		err := j.UnmarshalOptions.Unmarshal(body.content, m)
		if err != nil {
			body.failure = explainJSON(body.content, m.ProtoReflect().Descriptor(), err)
		}
		return err
	})
}
