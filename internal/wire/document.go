package wire

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// DocumentError is everything that is wrong with a YAML document, by line.
type DocumentError struct {
	File     string // as errors name it; may be empty
	Problems []DocumentProblem
}

// DocumentProblem is one thing that is wrong with a document.
type DocumentProblem struct {
	Line, Column int // from 1; 0 where the problem has no place
	Text         string
}

// mostProblems is how many problems an error tells; a document that is wrong
// all over doesn't fill a log.
const mostProblems = 100

func (e *DocumentError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.at(e.File) + p.Text
	}
	return strings.Join(lines, "\n")
}

func (p DocumentProblem) at(file string) string {
	switch {
	case file == "" && p.Line == 0:
		return ""
	case file == "":
		return fmt.Sprintf("line %d: ", p.Line)
	case p.Line == 0:
		return file + ": "
	}
	return fmt.Sprintf("%s:%d: ", file, p.Line)
}

// documentError is the error of the problems, by place; nil where there is none.
func documentError(file string, problems []DocumentProblem) error {
	if len(problems) == 0 {
		return nil
	}
	slices.SortFunc(problems, func(a, b DocumentProblem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Text, b.Text))
	})
	if len(problems) > mostProblems {
		problems = append(problems[:mostProblems], DocumentProblem{Text: "further problems are not listed"})
	}
	return &DocumentError{File: file, Problems: problems}
}
