package architecture

import (
	"slices"
	"strings"
)

// domain has the pure packages. Each imports only those before it.
var domain = []string{
	"internal/units",
	"internal/finding",
	"internal/gate",
	"internal/catalog",
	"internal/wind",
	"internal/leaf",
	"internal/linkage",
	"internal/room",
	"internal/motion",
	"internal/supply",
	"internal/battery",
	"internal/sun",
	"internal/rules",
	"internal/partslist", // before sizing: options are ranked by what they cost
	"internal/sizing",
	"internal/order",
	"internal/lead",
	"internal/drawing",
}

// edge has the packages that know the world outside, in the same order after the
// domain's, the command last.
var edge = []string{
	"internal/config",
	"internal/demo",
	"internal/console",
	"internal/rpcerr",
	"internal/telemetry",
	"internal/wire",
	"internal/fitstatement",
	"internal/service",
	"internal/page",
	"internal/middleware",
	"internal/server",
	"cmd/leafmoment",
}

// apart are folders that the program isn't made of: tools have modules of their
// own, the others serve tests.
var apart = []string{"internal/tools", "internal/casefile", "internal/architecture"}

// pure is the part of the standard library that the domain may import.
var pure = []string{
	"bytes", "cmp", "container/heap", "context", "encoding/binary", "encoding/hex", "crypto/sha256",
	"errors", "fmt", "hash", "hash/fnv", "html", "iter", "maps", "math", "math/bits", "math/cmplx",
	"math/rand/v2", "slices", "sort", "strconv", "strings", "sync", "time", "unicode", "unicode/utf8",
}

// impure are names of pure packages that reach the clock or standard output.
var impure = []string{
	"time.Now", "time.Since", "time.Until", "time.Sleep", "time.After", "time.AfterFunc", "time.Tick",
	"time.NewTimer", "time.NewTicker", "time.Local", "time.LoadLocation",
	"fmt.Print", "fmt.Printf", "fmt.Println",
}

// seeded are the names of math/rand/v2 whose numbers follow from a seed.
var seeded = []string{"New", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "PCG", "ChaCha8", "Zipf"}

const statusMaker = "internal/rpcerr"

// statusReaders may look at a gRPC status, for logs, metrics and problem details.
var statusReaders = []string{"internal/middleware", "internal/server", "cmd/leafmoment"}

var statusReads = []string{"Code", "Convert", "FromError", "Status"}

// translators may know the messages and the domain at once: wire turns one into the
// other, and service decodes, calls and encodes.
var translators = []string{"internal/wire", "internal/service"}

// topLevel is all that stands at the top of the repository, dotfiles aside.
var topLevel = []string{
	"api", "cmd", "internal", "proto", "deploy", "testdata",
	"buf.yaml", "go.mod", "go.sum", "README.md", "DEVELOPERS.md",
}

// layer is the entry of the order a package belongs to: internal/wind/tables counts
// as internal/wind.
func layer(pkg string) string {
	parts := strings.SplitN(pkg, "/", 3)
	return strings.Join(parts[:min(2, len(parts))], "/")
}

func isDomain(pkg string) bool { return slices.Contains(domain, layer(pkg)) }

// place is a package's position in the order, or -1.
func place(pkg string) int {
	if i := slices.Index(domain, layer(pkg)); i >= 0 {
		return i
	}
	if i := slices.Index(edge, layer(pkg)); i >= 0 {
		return len(domain) + i
	}
	return -1
}
