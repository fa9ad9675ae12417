// Command openapi finishes the merged OpenAPI document: the generator leaves error
// responses out, and every operation answers an error with the same Problem.
//
// It reads the document from standard input and writes it to standard output.
package main

import (
	"encoding/json"
	"fmt"
	"io"
	"log"
	"os"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("openapi: ")
	if err := finish(os.Stdin, os.Stdout); err != nil {
		log.Fatal(err)
	}
}

func finish(in io.Reader, out io.Writer) error {
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
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(document)
}
