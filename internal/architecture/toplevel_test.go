package architecture

import (
	"os"
	"slices"
	"strings"
	"testing"
)

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	ignored, err := os.ReadFile(root + "/.gitignore")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		name := entry.Name()
		if strings.HasPrefix(name, ".") || slices.Contains(strings.Split(string(ignored), "\n"), "/"+name) {
			continue
		}
		if !slices.Contains(topLevel, name) {
			t.Errorf("%s stands at the top level, which is for %s and dotfiles", name, strings.Join(topLevel, ", "))
		}
	}
}
