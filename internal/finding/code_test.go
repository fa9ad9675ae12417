package finding

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// TestRegistryHoldsEveryConstant reads the constants from the source, so that a
// new code can't be left out of the registry.
func TestRegistryHoldsEveryConstant(t *testing.T) {
	constants := codeConstants(t)
	if len(constants) != len(registry) {
		t.Errorf("%d constants, %d registry entries", len(constants), len(registry))
	}
	registered := map[Code]entry{}
	names := map[string]Code{}
	for _, e := range registry {
		if _, twice := registered[e.code]; twice {
			t.Errorf("code %d is registered twice", e.code)
		}
		if other, twice := names[e.name]; twice {
			t.Errorf("the name %s is registered for %d and %d", e.name, other, e.code)
		}
		registered[e.code] = e
		names[e.name] = e.code
	}
	numbers := map[Code]string{}
	for constant, number := range constants {
		if other, twice := numbers[number]; twice {
			t.Errorf("%s and %s are both %d", constant, other, number)
		}
		numbers[number] = constant
		if got, want := registered[number].name, screaming(constant); got != want {
			t.Errorf("%s (%d) is registered as %q, want %q", constant, number, got, want)
		}
	}
}

func TestRegistryEntriesAreComplete(t *testing.T) {
	name := regexp.MustCompile(`^[A-Z]+(_[A-Z]+)*$`)
	for i, c := range Codes() {
		e := registry[i]
		if c != e.code {
			t.Errorf("Codes()[%d] is %d, the registry has %d", i, c, e.code)
		}
		if c.String() != e.name || !name.MatchString(e.name) {
			t.Errorf("code %d is named %q, registered as %q", c, c, e.name)
		}
		if c.Severity() != e.severity || e.severity < Advice || e.severity > Blocker {
			t.Errorf("%s has severity %d, registered with %d", c, c.Severity(), e.severity)
		}
		if m := c.Meaning(); m != e.meaning || len(m) < 10 || !strings.HasSuffix(m, ".") {
			t.Errorf("%s means %q, which is no sentence", c, m)
		}
	}
}

func TestUnregisteredCode(t *testing.T) {
	for _, c := range []Code{0, 17, 29, 255, 256, 65535} {
		if c.Severity() != 0 || c.String() != "UNREGISTERED" || c.Meaning() != "" {
			t.Errorf("code %d is registered: %s, severity %d, %q", c, c, c.Severity(), c.Meaning())
		}
	}
}

// codeConstants lists the constants of type Code in code.go.
func codeConstants(t *testing.T) map[string]Code {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "code.go", nil, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]Code{}
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok || group.Tok != token.CONST {
			continue
		}
		for _, s := range group.Specs {
			spec := s.(*ast.ValueSpec)
			if typ, ok := spec.Type.(*ast.Ident); !ok || typ.Name != "Code" {
				t.Fatalf("%s is no Code with its number written out", spec.Names[0])
			}
			literal, ok := spec.Values[0].(*ast.BasicLit)
			if !ok {
				t.Fatalf("%s has no number written out", spec.Names[0])
			}
			number, err := strconv.ParseUint(literal.Value, 10, 16)
			if err != nil {
				t.Fatalf("%s: %v", spec.Names[0], err)
			}
			out[spec.Names[0].Name] = Code(number)
		}
	}
	if len(out) == 0 {
		t.Fatal("found no constants in code.go")
	}
	return out
}

// screaming turns LatchToRemove into LATCH_TO_REMOVE.
func screaming(camel string) string {
	var b strings.Builder
	for i, r := range camel {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToUpper(r))
	}
	return b.String()
}
