package wire

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"buf.build/go/protoyaml"
	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/proto"
)

// largestDocument bounds a YAML document, bytes: 2,000 parts and 500 kits with
// room for comments. The densest document of that size takes some 250 MB to
// parse.
const largestDocument = 2 << 20

// mostNodes bounds a document's keys, values, lists and mappings: as many as
// 2,000 parts and 500 kits have. Field rules cost the most where every one of
// them breaks: then some 2 s and 400 MB.
const mostNodes = 120_000

// longestLine bounds a line of it, bytes: protoyaml quotes the line in every
// error, and a request may come as JSON in one line.
const longestLine = 64 << 10

// UnmarshalYAML reads strict YAML or JSON in the shape of a message of the
// contract and holds it to the contract's field rules. file names it in the
// error, a DocumentError with everything that is wrong and its lines.
//
// Strict means: one document, valid UTF-8, every key once and known, every key
// with a value, no aliases, no tags, whole numbers written out.
func UnmarshalYAML(document []byte, file string, m proto.Message) error {
	_, problems := unmarshalYAML(document, m)
	return documentError(file, problems)
}

// unmarshalYAML returns the document's root as well, for the lines of problems
// found later.
func unmarshalYAML(document []byte, m proto.Message) (*yaml.Node, []DocumentProblem) {
	root, err := parseYAML(document)
	if err != nil {
		return nil, []DocumentProblem{{Text: err.Error()}}
	}
	c := collector{at: map[place]bool{}}
	c.strict(root, m.ProtoReflect().Descriptor())
	if len(c.problems) <= mostProblems {
		c.read(document, m)
	}
	if len(c.problems) <= mostProblems {
		c.fieldRules(root, m)
	}
	return root, c.problems
}

// parseYAML parses a document's text. yaml.Unmarshal stops at the first
// document's end and ignores whatever follows; a decoder can be asked for more.
func parseYAML(document []byte) (*yaml.Node, error) {
	if len(document) > largestDocument {
		return nil, fmt.Errorf("%d bytes are more than the %d a document may have", len(document), largestDocument)
	}
	if err := checkText(document); err != nil {
		return nil, err
	}
	var root, more yaml.Node
	d := yaml.NewDecoder(bytes.NewReader(document))
	switch err := d.Decode(&root); {
	case errors.Is(err, io.EOF):
		return nil, errors.New("the document is empty")
	case err != nil:
		return nil, err
	}
	if err := d.Decode(&more); !errors.Is(err, io.EOF) {
		return nil, errors.New("something follows the end of the document")
	}
	if countNodes(&root) > mostNodes {
		return nil, fmt.Errorf("the document has more than the %d keys and values one may have", mostNodes)
	}
	return root.Content[0], nil
}

func countNodes(n *yaml.Node) int {
	count := 1
	for _, child := range n.Content {
		count += countNodes(child)
	}
	return count
}

// checkText refuses what YAML and its readers count as lines differently, so
// that line numbers hold: protoyaml looks lines up by line feeds alone.
func checkText(document []byte) error {
	if !utf8.Valid(document) {
		return errors.New("the document is not valid UTF-8")
	}
	number := 0
	for line := range strings.Lines(string(document)) {
		number++
		line = strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r")
		if len(line) > longestLine {
			return fmt.Errorf("line %d has %d bytes, more than the %d a line may have", number, len(line), longestLine)
		}
		if strings.ContainsAny(line, "\r\u0085\u2028\u2029") {
			return fmt.Errorf("line %d has a line break other than a line feed", number)
		}
	}
	return nil
}

// collector gathers a document's problems.
type collector struct {
	problems []DocumentProblem
	at       map[place]bool // places of values that can't be read
}

type place struct{ line, column int }

// read reads a parsed document into m. What the strict walk refused already
// isn't told twice.
func (c *collector) read(document []byte, m proto.Message) {
	err := protoyaml.Unmarshal(document, m)
	if err == nil {
		return
	}
	var joined interface{ Unwrap() []error }
	if !errors.As(err, &joined) {
		c.problems = append(c.problems, DocumentProblem{Text: err.Error()})
		return
	}
	for i, e := range joined.Unwrap() {
		if i > mostProblems {
			break
		}
		p := placed(e)
		if at := (place{p.Line, p.Column}); !c.at[at] {
			c.problems = append(c.problems, p)
			c.at[at] = !strings.HasPrefix(p.Text, "unknown field")
		}
	}
}

// placed reads the place of one of protoyaml's errors from its text, path:line:
// column and the cause, with an empty path; it has no other way to tell.
func placed(err error) DocumentProblem {
	cause := errors.Unwrap(err)
	if cause == nil {
		return DocumentProblem{Text: err.Error()}
	}
	p := DocumentProblem{Text: cause.Error()}
	if _, scanErr := fmt.Sscanf(err.Error(), ":%d:%d ", &p.Line, &p.Column); scanErr != nil {
		p.Line, p.Column = 0, 0
	}
	return p
}
