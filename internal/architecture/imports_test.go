package architecture

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const (
	module = "leafmoment.example/leafmoment/"
	root   = "../.."
)

// source is a Go file: the package it belongs to (below the module), and what it
// imports and takes from there.
type source struct {
	file    string
	pkg     string
	imports []string
	// uses has an entry such as "time.Now" for each exported name taken from an
	// import; the import's whole path stands before the name.
	uses []string
}

var majorVersion = regexp.MustCompile(`^v[0-9]+$`)

// read parses a file; text is nil to read it from disk.
func read(file, pkg string, text any) (source, error) {
	parsed, err := parser.ParseFile(token.NewFileSet(), file, text, 0)
	if err != nil {
		return source{}, err
	}
	s := source{file: file, pkg: pkg}
	byName := map[string]string{}
	for _, spec := range parsed.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return source{}, err
		}
		s.imports = append(s.imports, imported)
		name := path.Base(imported)
		if majorVersion.MatchString(name) {
			name = path.Base(path.Dir(imported))
		}
		if spec.Name != nil {
			name = spec.Name.Name
		}
		byName[name] = imported
	}
	ast.Inspect(parsed, func(node ast.Node) bool {
		if selector, ok := node.(*ast.SelectorExpr); ok {
			// Obj is set where the name is a local variable that hides the import.
			if x, ok := selector.X.(*ast.Ident); ok && x.Obj == nil && byName[x.Name] != "" {
				s.uses = append(s.uses, byName[x.Name]+"."+selector.Sel.Name)
			}
		}
		return true
	})
	return s, nil
}

// breaches says which rules the file breaks.
func (s source) breaches() []string {
	var found []string
	for _, rule := range []func(source) []string{unplaced, order, domainImports, domainUses, statuses, bothWorlds} {
		for _, breach := range rule(s) {
			found = append(found, s.file+": "+breach)
		}
	}
	return found
}

// unplaced finds a package that the order says nothing about.
func unplaced(s source) []string {
	if place(s.pkg) < 0 {
		return []string{fmt.Sprintf("package %s has no place in the order", s.pkg)}
	}
	return nil
}

// order finds imports of packages that don't come earlier.
func order(s source) []string {
	var found []string
	for _, imported := range s.imports {
		below, ours := strings.CutPrefix(imported, module)
		if !ours || strings.HasPrefix(below, "api/") {
			continue
		}
		if layer(below) != layer(s.pkg) && (place(below) < 0 || place(below) >= place(s.pkg)) {
			found = append(found, fmt.Sprintf("%s imports %s, which doesn't come before it", s.pkg, below))
		}
	}
	return found
}

// domainImports finds domain code that imports more than the domain and the pure
// part of the standard library.
func domainImports(s source) []string {
	if !isDomain(s.pkg) {
		return nil
	}
	var found []string
	for _, imported := range s.imports {
		below, ours := strings.CutPrefix(imported, module)
		if (!ours && !slices.Contains(pure, imported)) || (ours && !isDomain(below)) {
			found = append(found, fmt.Sprintf("domain package %s imports %s", s.pkg, imported))
		}
	}
	return found
}

// domainUses finds domain code that reads the clock, writes to standard output or
// draws unseeded random numbers through a package it may otherwise import.
func domainUses(s source) []string {
	if !isDomain(s.pkg) {
		return nil
	}
	var found []string
	for _, use := range s.uses {
		name, random := strings.CutPrefix(use, "math/rand/v2.")
		if slices.Contains(impure, use) || (random && !slices.Contains(seeded, name)) {
			found = append(found, fmt.Sprintf("domain package %s uses %s", s.pkg, use))
		}
	}
	return found
}

// statuses finds gRPC statuses made, or read, in a package that shouldn't.
func statuses(s source) []string {
	if s.pkg == statusMaker {
		return nil
	}
	var found []string
	const status = "google.golang.org/grpc/status"
	if slices.Contains(s.imports, status) && !slices.Contains(statusReaders, layer(s.pkg)) {
		found = append(found, fmt.Sprintf("%s imports %s: %s makes statuses", s.pkg, status, statusMaker))
	}
	for _, use := range s.uses {
		if name, ok := strings.CutPrefix(use, status+"."); ok && !slices.Contains(statusReads, name) {
			found = append(found, fmt.Sprintf("%s uses status.%s: %s makes statuses", s.pkg, name, statusMaker))
		}
	}
	return found
}

// bothWorlds finds code that knows the messages and the domain where it shouldn't.
func bothWorlds(s source) []string {
	if slices.Contains(translators, layer(s.pkg)) {
		return nil
	}
	messages := slices.ContainsFunc(s.imports, func(imported string) bool {
		return strings.HasPrefix(imported, module+"api/")
	})
	domain := slices.ContainsFunc(s.imports, func(imported string) bool {
		below, ours := strings.CutPrefix(imported, module)
		return ours && isDomain(below)
	})
	if messages && domain {
		return []string{fmt.Sprintf("%s imports both the messages and the domain", s.pkg)}
	}
	return nil
}

func TestImports(t *testing.T) {
	seen := map[string]bool{}
	for _, top := range []string{"internal", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(file string, entry fs.DirEntry, err error) error {
			if top == "cmd" && os.IsNotExist(err) {
				return nil
			}
			if err != nil {
				return err
			}
			pkg, err := filepath.Rel(root, filepath.Dir(file))
			if err != nil {
				return err
			}
			pkg = filepath.ToSlash(pkg)
			if entry.IsDir() && slices.Contains(apart, filepath.ToSlash(filepath.Join(pkg, entry.Name()))) {
				return filepath.SkipDir
			}
			if entry.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
				return nil
			}
			s, err := read(file, pkg, nil)
			if err != nil {
				return err
			}
			seen[layer(pkg)] = true
			for _, breach := range s.breaches() {
				t.Error(breach)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if !seen["internal/units"] || !seen["internal/gate"] {
		t.Errorf("the walk missed the domain; it saw %v", seen)
	}
}

// Each rule sees the breach it is there for, and only that.
func TestBreachesAreSeen(t *testing.T) {
	for name, c := range map[string]struct {
		pkg, text string
		want      string
	}{
		"clean domain":     {"internal/wind", `import ("math"; "leafmoment.example/leafmoment/internal/units")`, ""},
		"no place":         {"internal/gadget", ``, "no place in the order"},
		"domain backwards": {"internal/units", `import "leafmoment.example/leafmoment/internal/gate"`, "doesn't come before it"},
		"service to server": {"internal/service", `import "leafmoment.example/leafmoment/internal/server"`,
			"doesn't come before it"},
		"domain to edge":    {"internal/gate", `import "leafmoment.example/leafmoment/internal/wire"`, "doesn't come before it"},
		"domain to message": {"internal/gate", `import "leafmoment.example/leafmoment/api/leafmoment/v1"`, "imports leafmoment"},
		"domain to file":    {"internal/sun", `import "os"`, "imports os"},
		"domain to log":     {"internal/sun", `import "log/slog"`, "imports log/slog"},
		"old random":        {"internal/sun", `import "math/rand"`, "imports math/rand"},
		"clock":             {"internal/sun", `import "time"; var now = time.Now()`, "uses time.Now"},
		"clock renamed":     {"internal/sun", `import clock "time"; var now = clock.Now`, "uses time.Now"},
		"a month":           {"internal/sun", `import "time"; var m = time.June`, ""},
		"local name":        {"internal/sun", `import "time"; var _ = time.June; func f(time struct{ Now int }) int { return time.Now }`, ""},
		"unseeded":          {"internal/sun", `import "math/rand/v2"; var x = rand.Float64()`, "uses math/rand/v2.Float64"},
		"seeded":            {"internal/sun", `import "math/rand/v2"; var x = rand.New(rand.NewPCG(1, 2))`, ""},
		"output":            {"internal/sun", `import "fmt"; func f() { fmt.Println() }`, "uses fmt.Println"},
		"status in service": {"internal/service", `import "google.golang.org/grpc/status"`, "makes statuses"},
		"status read":       {"internal/middleware", `import "google.golang.org/grpc/status"; var c = status.Code(nil)`, ""},
		"status made": {"internal/middleware", `import "google.golang.org/grpc/status"; var e = status.Error(0, "")`,
			"uses status.Error"},
		"status in its place": {"internal/rpcerr", `import "google.golang.org/grpc/status"; var e = status.Error(0, "")`, ""},
		"both worlds": {"internal/telemetry", `import (
			"leafmoment.example/leafmoment/api/leafmoment/v1"
			"leafmoment.example/leafmoment/internal/finding"
		)`, "both the messages and the domain"},
		"translator": {"internal/wire", `import (
			"leafmoment.example/leafmoment/api/leafmoment/v1"
			"leafmoment.example/leafmoment/internal/finding"
		)`, ""},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := read("x.go", c.pkg, "package x\n"+c.text)
			if err != nil {
				t.Fatal(err)
			}
			got := strings.Join(s.breaches(), "\n")
			if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
				t.Errorf("breaches %q, want one with %q", got, c.want)
			}
		})
	}
}
