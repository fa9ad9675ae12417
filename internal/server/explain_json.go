package server

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/dynamicpb"

	"leafmoment.example/leafmoment/internal/rpcerr"
)

// explainJSON says why protojson refused a body: where its syntax breaks, or else
// every member that doesn't fit the message. protojson itself stops at the first
// and says so in words that aren't meant to be stable.
func explainJSON(content []byte, message protoreflect.MessageDescriptor, refusal error) *rpcerr.Error {
	if detail := brokenSyntax(content); detail != "" {
		return rpcerr.MalformedBody(detail, refusal)
	}
	search := misfits{left: maxValues}
	search.object(content, message, "")
	if len(search.found) == 0 {
		return rpcerr.MalformedBody("it doesn't fit "+string(message.Name()), refusal)
	}
	return rpcerr.UnreadableFields(search.found, refusal)
}

// brokenSyntax says where content stops being one JSON value; "" where it is one.
func brokenSyntax(content []byte) string {
	decoder := json.NewDecoder(bytes.NewReader(content))
	var value json.RawMessage
	err := decoder.Decode(&value)
	offset := decoder.InputOffset()
	if err == nil {
		rest := bytes.TrimLeft(content[offset:], " \t\r\n")
		if len(rest) == 0 {
			return ""
		}
		return position(content, int64(len(content)-len(rest))) + ": something follows the end of the JSON value"
	}
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		return position(content, syntax.Offset-1) + ": " + syntax.Error()
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
		return position(content, int64(len(content))) + ": it ends too early"
	}
	return position(content, offset)
}

// position is the line and column, in bytes from 1, of an offset.
func position(content []byte, offset int64) string {
	before := content[:max(0, min(offset, int64(len(content))))]
	line := 1 + bytes.Count(before, []byte{'\n'})
	column := len(before) - bytes.LastIndexByte(before, '\n')
	return fmt.Sprintf("line %d, column %d", line, column)
}

// maxValues is the most values of a body that are looked at; the fullest sound gate
// has some 2,000. It keeps a wrong body from costing much more than a right one.
const maxValues = 5000

// misfits looks for the members of a JSON body that its message can't take.
type misfits struct {
	found []rpcerr.Violation
	left  int // values that may still be looked at
}

func (m *misfits) add(field, rule, format string, args ...any) {
	m.found = append(m.found, rpcerr.Violation{Field: field, Rule: rule, Description: fmt.Sprintf(format, args...)})
}

func (m *misfits) spend() bool {
	m.left--
	return m.left >= 0
}

// object walks a JSON object along its message. Its depth is the message's, which
// the contract bounds.
func (m *misfits) object(raw json.RawMessage, message protoreflect.MessageDescriptor, path string) {
	decoder := json.NewDecoder(bytes.NewReader(raw))
	if start, _ := decoder.Token(); start != json.Delim('{') {
		m.add(path, "JSON_KIND", "must be an object")
		return
	}
	seen := map[protoreflect.FieldNumber]bool{}
	for decoder.More() && m.spend() {
		token, err := decoder.Token()
		if err != nil {
			return
		}
		var value json.RawMessage
		if err := decoder.Decode(&value); err != nil {
			return
		}
		name, _ := token.(string)
		field := message.Fields().ByJSONName(name)
		if field == nil {
			field = message.Fields().ByTextName(name)
		}
		switch {
		case field == nil:
			m.unknown(path, name, message)
		case seen[field.Number()]:
			m.add(join(path, string(field.Name())), "JSON_TWICE", "is given twice")
		default:
			seen[field.Number()] = true
			m.member(value, field, join(path, string(field.Name())))
		}
	}
}

// unknown names a member that isn't a field. Where its name can't stand in a
// path, the object that holds it is named instead.
func (m *misfits) unknown(path, name string, message protoreflect.MessageDescriptor) {
	if protoreflect.Name(name).IsValid() && len(name) <= 64 {
		m.add(join(path, name), "JSON_UNKNOWN_FIELD", "isn't a field of %s", message.Name())
		return
	}
	if len(name) > 64 {
		name = name[:64]
	}
	m.add(path, "JSON_UNKNOWN_FIELD", "%s has no field %q", message.Name(), name)
}

func (m *misfits) member(value json.RawMessage, field protoreflect.FieldDescriptor, path string) {
	if string(value) == "null" {
		return
	}
	if !field.IsList() {
		m.single(value, field, path)
		return
	}
	var items []json.RawMessage
	if err := json.Unmarshal(value, &items); err != nil {
		m.add(path, "JSON_KIND", "must be a list")
		return
	}
	for i, item := range items {
		if !m.spend() {
			return
		}
		m.single(item, field, fmt.Sprintf("%s[%d]", path, i))
	}
}

// single checks one value, that of a field or an item of its list.
func (m *misfits) single(value json.RawMessage, field protoreflect.FieldDescriptor, path string) {
	if field.Message() != nil {
		m.object(value, field.Message(), path)
		return
	}
	// protojson itself says whether it takes the value.
	probe := fmt.Sprintf("{%q:%s}", field.JSONName(), value)
	if field.IsList() {
		probe = fmt.Sprintf("{%q:[%s]}", field.JSONName(), value)
	}
	if err := protojson.Unmarshal([]byte(probe), dynamicpb.NewMessage(field.ContainingMessage())); err != nil {
		m.add(path, "JSON_KIND", "must be %s", kindName(field))
	}
}

// maxNames is the most names of an enum that an error lists.
const maxNames = 12

func kindName(field protoreflect.FieldDescriptor) string {
	switch field.Kind() {
	case protoreflect.StringKind:
		return "a string in UTF-8"
	case protoreflect.BoolKind:
		return "true or false"
	case protoreflect.DoubleKind, protoreflect.FloatKind:
		return "a number"
	case protoreflect.EnumKind:
		values := field.Enum().Values()
		if values.Len() > maxNames {
			return fmt.Sprintf("a value of %s", field.Enum().Name())
		}
		names := make([]string, values.Len())
		for i := range names {
			names[i] = string(values.Get(i).Name())
		}
		return "one of " + strings.Join(names, ", ")
	case protoreflect.BytesKind:
		return "base64"
	}
	return "a whole number within " + field.Kind().String()
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

func isUTF8(charset string) bool { return strings.EqualFold(charset, "utf-8") }
