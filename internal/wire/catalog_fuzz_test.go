package wire

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/catalog"
)

// Any document decodes to a catalog that keeps its promises or to an error that
// tells something, and never panics.
func FuzzDecodeCatalog(f *testing.F) {
	files, err := filepath.Glob(casefile.Testdata("catalogs/*/*.yaml"))
	if err != nil || len(files) == 0 {
		f.Fatalf("no catalogs: %v", err)
	}
	for _, file := range files {
		document, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(document)
	}
	f.Fuzz(func(t *testing.T, document []byte) {
		c, err := DecodeCatalog(document)
		if err != nil {
			var wrong *DocumentError
			if !errors.As(err, &wrong) || len(wrong.Problems) == 0 || len(wrong.Problems) > mostProblems+1 || err.Error() == "" {
				t.Fatalf("error %#v", err)
			}
			return
		}
		if len(c.Revision) != revisionDigits || len(c.LinearDrives())+len(catalog.Each[catalog.ArmDrive](c)) == 0 {
			t.Errorf("revision %q, no drive sold", c.Revision)
		}
		again, err := DecodeCatalog(document)
		if err != nil || again.Revision != c.Revision {
			t.Errorf("decoded again: %v", err)
		}
		for _, k := range c.Kits() {
			for _, l := range k.Lines {
				if _, ok := c.Part(l.SKU); !ok {
					t.Errorf("kit %s holds %s, which isn't there", k.SKU, l.SKU)
				}
			}
		}
	})
}
