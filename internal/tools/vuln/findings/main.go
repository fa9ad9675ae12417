// Command findings judges a govulncheck report (its JSON, from standard input): a
// vulnerability in a module the project requires fails, even where the code in
// question isn't called; one in the standard library is reported, since a newer Go
// mends it and the project can't.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"maps"
	"os"
	"slices"
)

const standardLibrary = "stdlib"

// message is the part of a govulncheck message that is looked at.
type message struct {
	Config  *struct{} `json:"config"`
	OSV     *osv      `json:"osv"`
	Finding *finding  `json:"finding"`
}

type osv struct {
	ID      string `json:"id"`
	Summary string `json:"summary"`
}

type finding struct {
	OSV   string  `json:"osv"`
	Fixed string  `json:"fixed_version"`
	Trace []frame `json:"trace"`
}

// frame is a place on the way from the vulnerable code (first) to the project's
// (last). Package and function are empty where the code isn't imported or called.
type frame struct {
	Module   string `json:"module"`
	Version  string `json:"version"`
	Package  string `json:"package"`
	Function string `json:"function"`
}

func main() {
	log.SetFlags(0)
	log.SetPrefix("findings: ")
	inModules, err := judge(os.Stdin, os.Stdout)
	if err != nil {
		log.Fatal(err)
	}
	if inModules > 0 {
		log.Fatalf("%d vulnerabilities in modules", inModules)
	}
}

// judge prints a line for each vulnerability and returns how many are in modules.
func judge(report io.Reader, out io.Writer) (int, error) {
	var (
		complete  bool
		summaries = map[string]string{}
		worst     = map[string]finding{}
	)
	for decoder := json.NewDecoder(report); ; {
		var m message
		err := decoder.Decode(&m)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return 0, fmt.Errorf("report: %w", err)
		}
		if m.Config != nil {
			complete = true
		}
		if m.OSV != nil {
			summaries[m.OSV.ID] = m.OSV.Summary
		}
		if f := m.Finding; f != nil && len(f.Trace) > 0 {
			key := f.OSV + " " + f.Trace[0].Module
			if known, ok := worst[key]; !ok || f.reach() > known.reach() {
				worst[key] = *f
			}
		}
	}
	if !complete || len(summaries) == 0 {
		return 0, errors.New("report holds no vulnerability of the database: was it read?")
	}
	inModules := 0
	for _, key := range slices.Sorted(maps.Keys(worst)) {
		f := worst[key]
		if f.Trace[0].Module != standardLibrary {
			inModules++
		}
		fmt.Fprintf(out, "%s %s@%s %s, fixed in %q: %s\n", f.OSV, f.Trace[0].Module,
			f.Trace[0].Version, []string{"required", "imported", "called"}[f.reach()], f.Fixed, summaries[f.OSV])
	}
	fmt.Fprintf(out, "%d vulnerabilities, %d of them in modules\n", len(worst), inModules)
	return inModules, nil
}

// reach is how near the vulnerable code is: 0 required, 1 imported, 2 called.
func (f finding) reach() int {
	switch {
	case f.Trace[0].Function != "":
		return 2
	case f.Trace[0].Package != "":
		return 1
	}
	return 0
}
