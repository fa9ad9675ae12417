// Command leafmoment sizes drives for hinged gates: as a service, or offline on
// files.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

const usage = `leafmoment sizes drives for hinged gates.

  leafmoment serve                 answer over gRPC and REST
  leafmoment size FILE             rank the drives that suit a gate
  leafmoment parts FILE            list the parts of the best option
  leafmoment catalog [FILE]        check a catalog and say what it holds

FILE is YAML or JSON, a request as the contract has it: "gate: ..." for size
and parts. Without -catalog the embedded demo supplier is used. Every command
takes -h.
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// command runs one subcommand with its arguments.
type command func(ctx context.Context, args []string, stdout, stderr io.Writer) error

// run returns the exit code: 0 done, 1 couldn't, 2 called wrongly.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(stderr, usage)
		return 2
	}
	var c command
	switch args[0] {
	case "serve":
		c = serve
	case "size":
		c = size
	case "parts":
		c = parts
	case "catalog":
		c = showCatalog
	case "help", "-h", "--help":
		fmt.Fprint(stdout, usage)
		return 0
	default:
		fmt.Fprintf(stderr, "leafmoment: no command %q\n\n%s", args[0], usage)
		return 2
	}
	err := c(ctx, args[1:], stdout, stderr)
	switch {
	case err == nil:
		return 0
	case isUsage(err):
		return 2
	}
	fmt.Fprintln(stderr, "leafmoment:", err)
	return 1
}
