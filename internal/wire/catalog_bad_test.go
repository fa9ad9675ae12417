package wire

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
)

// Each document under testdata/catalogs/bad breaks one rule, or a few told at
// once, and the text beside it is the whole error.
func TestBadCatalogs(t *testing.T) {
	files, err := filepath.Glob(casefile.Testdata("catalogs/bad/*.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no bad catalogs: %v", err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) {
			document, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			want, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".txt")
			if err != nil {
				t.Fatal(err)
			}
			c, err := DecodeCatalog(document)
			if err == nil {
				t.Fatalf("decoded to revision %s", c.Revision)
			}
			if got := err.Error() + "\n"; got != string(want) {
				t.Errorf("error\n%swant\n%s", got, want)
			}
		})
	}
}
