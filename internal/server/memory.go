package server

import (
	"io/fs"
	"math"
	"os"
	"runtime/debug"
	"strconv"
	"strings"

	"go.uber.org/zap"
)

// collectEvery is GOGC where the environment doesn't set it. The service keeps
// little between calls and makes much garbage in each, so the usual 100 collects
// some hundred times a second; 400 nearly doubles the calls answered a second for
// a few megabytes, and the memory limit holds where they would be too many.
const collectEvery = 400

// limitShare is how much of the container's memory the Go runtime may fill; the
// rest is for stacks of threads, the binary and what the kernel counts in.
const limitShare = 0.8

// TuneMemory sets how often the garbage collector runs and how much memory it
// may let stand, unless GOGC and GOMEMLIMIT say so already. It is for main:
// the settings are the whole process's.
func TuneMemory(log *zap.Logger) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectEvery)
		log.Info("garbage collector", zap.Int("gogc", collectEvery))
	}
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	limit, ok := containerMemory(os.DirFS("/"))
	if !ok {
		log.Info("no memory limit: neither GOMEMLIMIT nor the container sets one")
		return
	}
	soft := int64(limitShare * float64(limit))
	debug.SetMemoryLimit(soft)
	log.Info("memory limit", zap.Int64("container_bytes", limit), zap.Int64("limit_bytes", soft))
}

// containerMemory reads the memory limit of the process's control group, version
// 2, in bytes; false where there is none.
func containerMemory(root fs.FS) (int64, bool) {
	text, err := fs.ReadFile(root, "sys/fs/cgroup/memory.max")
	if err != nil {
		return 0, false
	}
	limit, err := strconv.ParseInt(strings.TrimSpace(string(text)), 10, 64)
	// "max" isn't a number, and means none.
	if err != nil || limit <= 0 || limit == math.MaxInt64 {
		return 0, false
	}
	return limit, true
}
