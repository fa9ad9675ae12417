package server

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"runtime"
	"time"
)

// Config is what can be chosen about a server. Start from DefaultConfig.
type Config struct {
	GRPCAddress string // host:port; port 0 takes a free one, here and below
	RESTAddress string
	OpsAddress  string // metrics, probes, version

	AllowRemote bool // listen where other machines can reach
	Reflection  bool // describe the services to tools such as grpcurl

	InFlight   int           // most calls answered at once
	Timeout    time.Duration // longest that a call may take
	DrainDelay time.Duration // between saying not ready and closing, for balancers to notice
}

// The limits of a request, the same over gRPC and REST. The fullest gate of the
// contract is some 50 KB.
const (
	maxRequestBytes = 1 << 20
	maxHeaderBytes  = 16 << 10
)

// turnWait is how long a call over the in-flight limit waits for its turn: some
// dozen calls' worth.
const turnWait = 20 * time.Millisecond

// DefaultConfig listens on this machine only, on the usual ports. Eight calls
// for each processor keep it busy; more of them add a little throughput and
// double the slowest answers.
func DefaultConfig() Config {
	return Config{
		GRPCAddress: "127.0.0.1:9090",
		RESTAddress: "127.0.0.1:8080",
		OpsAddress:  "127.0.0.1:9091",
		Reflection:  true,
		InFlight:    8 * runtime.GOMAXPROCS(0),
		Timeout:     2 * time.Second,
	}
}

// check names everything that is wrong with the configuration.
func (c Config) check() error {
	var problems []error
	for _, a := range []struct{ name, address string }{
		{"gRPC", c.GRPCAddress}, {"REST", c.RESTAddress}, {"ops", c.OpsAddress},
	} {
		host, _, err := net.SplitHostPort(a.address)
		switch {
		case err != nil:
			problems = append(problems, fmt.Errorf("%s address: %w", a.name, err))
		case !c.AllowRemote && !loopback(host):
			problems = append(problems, fmt.Errorf(
				"%s address %s can be reached from other machines, and calls are neither authenticated nor encrypted; "+
					"put something before the service that does both, and allow remote callers explicitly", a.name, a.address))
		}
	}
	if c.InFlight < 1 {
		problems = append(problems, fmt.Errorf("in-flight limit %d: at least 1 is needed", c.InFlight))
	}
	if c.Timeout <= 0 {
		problems = append(problems, fmt.Errorf("timeout %v: it must be positive", c.Timeout))
	}
	if c.DrainDelay < 0 {
		problems = append(problems, fmt.Errorf("drain delay %v: it must not be negative", c.DrainDelay))
	}
	return errors.Join(problems...)
}

func loopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}
