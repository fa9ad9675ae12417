package server

import (
	"encoding/json"
	"net/http"

	"go.uber.org/zap"
)

// Version says what is running.
type Version struct {
	Build           string `json:"build"` // version and commit of the binary
	Engine          string `json:"engine"`
	CatalogRevision string `json:"catalog_revision"`
	Supplier        string `json:"supplier"`
}

// operations serves metrics, probes and the version, apart from the service's own
// ports so that they are never shown to its callers.
func (s *Server) operations(version Version) http.Handler {
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", s.metrics.Handler())
	mux.HandleFunc("GET /livez", func(w http.ResponseWriter, _ *http.Request) {
		s.say(w, http.StatusOK, "alive\n")
	})
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, _ *http.Request) {
		if !s.ready.Load() {
			s.say(w, http.StatusServiceUnavailable, "not ready\n")
			return
		}
		s.say(w, http.StatusOK, "ready\n")
	})
	mux.HandleFunc("GET /version", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/json")
		if err := json.NewEncoder(w).Encode(version); err != nil {
			s.log.Debug("version not sent", zap.Error(err))
		}
	})
	return mux
}

func (s *Server) say(w http.ResponseWriter, status int, text string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	if _, err := w.Write([]byte(text)); err != nil {
		s.log.Debug("probe not answered", zap.Error(err))
	}
}
