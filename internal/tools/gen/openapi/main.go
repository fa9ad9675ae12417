// Command openapi finishes the merged OpenAPI document. The generator leaves error
// responses out, and every operation answers an error with the same Problem; and it
// writes JSON names where the service writes the contract's own.
//
// It reads the document from standard input and writes it to standard output. Its
// argument is an image (a FileDescriptorSet, as `buf build -o` writes it).
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log"
	"os"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protodesc"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/descriptorpb"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("openapi: ")
	if len(os.Args) != 2 {
		log.Fatal("the image is its one argument")
	}
	image, err := os.ReadFile(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	if err := finish(image, os.Stdin, os.Stdout); err != nil {
		log.Fatal(err)
	}
}

func finish(image []byte, in io.Reader, out io.Writer) error {
	var document map[string]json.RawMessage
	if err := json.NewDecoder(in).Decode(&document); err != nil {
		return err
	}
	var paths map[string]map[string]map[string]any
	if err := json.Unmarshal(document["paths"], &paths); err != nil {
		return fmt.Errorf("paths: %w", err)
	}
	for path, operations := range paths {
		for method, operation := range operations {
			responses, ok := operation["responses"].(map[string]any)
			if !ok {
				return fmt.Errorf("%s %s has no responses", method, path)
			}
			responses["default"] = map[string]string{"$ref": "#/components/responses/Problem"}
		}
	}
	text, err := json.Marshal(paths)
	if err != nil {
		return err
	}
	document["paths"] = text
	if document["components"], err = contractNames(image, document["components"]); err != nil {
		return fmt.Errorf("components: %w", err)
	}
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(document)
}

// contractNames renames each property of a message's schema, and its entry in the
// list of required ones, from its JSON name to its name in the contract.
func contractNames(image []byte, components json.RawMessage) (json.RawMessage, error) {
	var set descriptorpb.FileDescriptorSet
	if err := proto.Unmarshal(image, &set); err != nil {
		return nil, fmt.Errorf("image: %w", err)
	}
	files, err := protodesc.NewFiles(&set)
	if err != nil {
		return nil, fmt.Errorf("image: %w", err)
	}
	var all struct {
		Responses json.RawMessage           `json:"responses,omitempty"`
		Schemas   map[string]map[string]any `json:"schemas"`
	}
	decoder := json.NewDecoder(bytes.NewReader(components))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&all); err != nil {
		return nil, err
	}
	for name, schema := range all.Schemas {
		descriptor, err := files.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			continue // written by hand
		}
		if message, ok := descriptor.(protoreflect.MessageDescriptor); ok {
			rename(schema, message.Fields())
		}
	}
	return json.Marshal(all)
}

// rename goes through a schema's properties and its alternatives, which hold the
// members of a oneof.
func rename(schema map[string]any, fields protoreflect.FieldDescriptors) {
	if properties, ok := schema["properties"].(map[string]any); ok {
		renamed := make(map[string]any, len(properties))
		for name, property := range properties {
			renamed[contractName(name, fields)] = property
		}
		schema["properties"] = renamed
	}
	if required, ok := schema["required"].([]any); ok {
		for i, name := range required {
			required[i] = contractName(name.(string), fields)
		}
	}
	for _, keyword := range []string{"allOf", "anyOf", "oneOf"} {
		alternatives, _ := schema[keyword].([]any)
		for _, alternative := range alternatives {
			if inner, ok := alternative.(map[string]any); ok {
				rename(inner, fields)
			}
		}
	}
}

func contractName(name string, fields protoreflect.FieldDescriptors) string {
	if field := fields.ByJSONName(name); field != nil {
		return string(field.Name())
	}
	return name
}
