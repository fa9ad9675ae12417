// Package casefile loads the reference cases under testdata/reference for
// tests. A case holds what goes in, what an outside source says comes out, the
// tolerance, and where the figure is from; a file with a stray field, a case
// without a source or a tolerance, or the same id twice fails to load.
package casefile

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// Basis says what kind of authority stands behind a case.
type Basis string

// The four kinds of authority a reference value may have.
const (
	Published      Basis = "published"       // a printed figure, named in source
	CommonPractice Basis = "common practice" // what the trade does; no source
	Memory         Basis = "memory"          // recalled, not looked up
	Computed       Basis = "computed"        // made by the library or program that source names
)

// Case is one outside check value or a few that belong together. In and Want
// carry their units in their names.
type Case struct {
	ID       string             `json:"id"`
	Model    string             `json:"model"` // which function or model the case is for
	In       map[string]float64 `json:"in"`
	Option   string             `json:"option,omitempty"` // a named choice among variants of the model
	Want     map[string]float64 `json:"want"`
	Relative float64            `json:"relative,omitempty"` // tolerance as a share of the wanted value
	Absolute float64            `json:"absolute,omitempty"` // tolerance in the unit of the wanted value
	Source   string             `json:"source"`
	Basis    Basis              `json:"basis"`
	Note     string             `json:"note,omitempty"`
}

type file struct {
	Topic string `json:"topic"`
	Cases []Case `json:"cases"`
}

// Load reads testdata/reference/name and fails the test where the file is not
// strictly well formed.
func Load(t testing.TB, name string) []Case {
	t.Helper()
	f, err := os.Open(Path(name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	cases, err := decode(f)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return cases
}

// Path is the path of a file under testdata/reference.
func Path(name string) string { return Testdata(filepath.Join("reference", name)) }

// Testdata is the path of a file under the repository's testdata folder.
func Testdata(name string) string {
	_, self, _, ok := runtime.Caller(0)
	if !ok {
		panic("casefile: no caller information")
	}
	return filepath.Join(filepath.Dir(self), "..", "..", "testdata", name)
}

// ByModel returns the cases of one model and fails the test when there is none,
// so that a renamed model can't drop its checks silently.
func ByModel(t testing.TB, cases []Case, model string) []Case {
	t.Helper()
	var out []Case
	for _, c := range cases {
		if c.Model == model {
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		t.Fatalf("no reference case for model %q", model)
	}
	return out
}

// Check compares got with the case's wanted value of that name.
func (c Case) Check(t testing.TB, name string, got float64) {
	t.Helper()
	want, ok := c.Want[name]
	if !ok {
		t.Fatalf("%s: the case has no wanted value %q", c.ID, name)
	}
	allowed := math.Max(c.Absolute, c.Relative*math.Abs(want))
	if !(math.Abs(got-want) <= allowed) {
		t.Errorf("%s: %s = %.8g, want %.8g within %.3g (%s; %s)", c.ID, name, got, want, allowed, c.Basis, c.Source)
	}
}

// Value returns the input of that name and fails the test where it is missing.
func (c Case) Value(t testing.TB, name string) float64 {
	t.Helper()
	v, ok := c.In[name]
	if !ok {
		t.Fatalf("%s: the case has no input %q", c.ID, name)
	}
	return v
}

func decode(r io.Reader) ([]Case, error) {
	d := json.NewDecoder(r)
	d.DisallowUnknownFields()
	var f file
	if err := d.Decode(&f); err != nil {
		return nil, err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("something follows the cases")
	}
	seen := map[string]bool{}
	for i, c := range f.Cases {
		if err := c.complete(); err != nil {
			return nil, fmt.Errorf("case %d (%s): %w", i, c.ID, err)
		}
		if seen[c.ID] {
			return nil, fmt.Errorf("case id %s stands twice", c.ID)
		}
		seen[c.ID] = true
	}
	return f.Cases, nil
}

func (c Case) complete() error {
	switch {
	case c.ID == "" || c.Model == "":
		return errors.New("id and model are required")
	case len(c.Want) == 0:
		return errors.New("no wanted value")
	case c.Relative <= 0 && c.Absolute <= 0:
		return errors.New("no tolerance")
	case c.Source == "":
		return errors.New("no source")
	}
	switch c.Basis {
	case Published, CommonPractice, Memory, Computed:
		return nil
	}
	return fmt.Errorf("unknown basis %q", c.Basis)
}
