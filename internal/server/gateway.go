package server

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"runtime/debug"
	"strings"

	"github.com/fullstorydev/grpchan/inprocgrpc"
	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/middleware"
	"leafmoment.example/leafmoment/internal/rpcerr"
)

// newGateway serves the contract's routes as JSON. Each becomes a call on the
// channel, which passes the same interceptors as one over the wire.
func newGateway(channel *inprocgrpc.Channel, routes routeTable, problems *problems) (http.Handler, error) {
	marshaler := newJSONMarshaler()
	mux := runtime.NewServeMux(
		runtime.WithMarshalerOption(runtime.MIMEWildcard, marshaler),
		runtime.WithIncomingHeaderMatcher(incomingHeader),
		runtime.WithOutgoingHeaderMatcher(noHeader),
		runtime.WithOutgoingTrailerMatcher(noHeader),
		runtime.WithDisableHTTPMethodOverride(),
		runtime.WithDisablePathLengthFallback(),
		runtime.WithWriteContentLength(),
		runtime.WithMiddlewares(problems.readRequest),
		runtime.WithErrorHandler(problems.answerError),
		runtime.WithRoutingErrorHandler(problems.answerRoutingError(routes)),
	)
	ctx := context.Background()
	err := errors.Join(
		leafmomentv1.RegisterSizingServiceHandlerClient(ctx, mux, leafmomentv1.NewSizingServiceClient(channel)),
		leafmomentv1.RegisterConfigurationServiceHandlerClient(ctx, mux, leafmomentv1.NewConfigurationServiceClient(channel)),
		leafmomentv1.RegisterPartsListServiceHandlerClient(ctx, mux, leafmomentv1.NewPartsListServiceClient(channel)),
		leafmomentv1.RegisterCatalogServiceHandlerClient(ctx, mux, leafmomentv1.NewCatalogServiceClient(channel)),
	)
	if err != nil {
		return nil, err
	}
	return problems.edge(mux), nil
}

// incomingHeader lets through what the chain reads and nothing else.
func incomingHeader(name string) (string, bool) {
	if strings.EqualFold(name, middleware.RequestIDHeader) {
		return middleware.RequestIDHeader, true
	}
	return "", false
}

func noHeader(string) (string, bool) { return "", false }

// edge stands outside of the routes: it gives the request its id, sets the
// headers of every answer, and catches what breaks on the way to a call.
func (p *problems) edge(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		id := middleware.AcceptRequestID(r.Header.Get(middleware.RequestIDHeader))
		r.Header.Set(middleware.RequestIDHeader, id)
		// The gateway would take any time limit from it; the chain has the limit.
		r.Header.Del("Grpc-Timeout")
		header := w.Header()
		header.Set(middleware.RequestIDHeader, id)
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Cache-Control", "no-store")
		defer func() {
			if caught := recover(); caught != nil {
				p.refuse(w, r, rpcerr.Internal(fmt.Errorf("panic: %v\n%s", caught, debug.Stack())))
			}
		}()
		next.ServeHTTP(w, r)
	})
}

// readRequest runs once a route is found, so that a wrong path is called just
// that whatever it came with.
func (p *problems) readRequest(next runtime.HandlerFunc) runtime.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request, path map[string]string) {
		if err := refuseQuery(r); err != nil {
			p.refuse(w, r, err)
			return
		}
		if r.Method == http.MethodPost {
			body, err := readBody(w, r)
			if err != nil {
				p.refuse(w, r, err)
				return
			}
			r.Body = body
		}
		next(w, r, path)
	}
}

// refuseQuery refuses parameters in the address, which no route takes: one that
// is dropped without a word is a wish that nobody heard.
func refuseQuery(r *http.Request) error {
	if r.URL.RawQuery == "" {
		return nil
	}
	return rpcerr.InvalidFields([]rpcerr.Violation{{
		Description: "this route takes no parameters in its address; put them in the body",
		Rule:        "QUERY_NOT_TAKEN",
	}})
}

// answerError answers for a call that failed or that the gateway couldn't make.
func (p *problems) answerError(_ context.Context, _ *runtime.ServeMux, _ runtime.Marshaler, w http.ResponseWriter, r *http.Request, err error) {
	if body, ok := r.Body.(*jsonBody); ok && body.failure != nil {
		p.refuse(w, r, body.failure)
		return
	}
	var called *rpcerr.Error
	if errors.As(err, &called) {
		p.write(w, r, called)
		return
	}
	p.refuse(w, r, err)
}

func (p *problems) answerRoutingError(routes routeTable) runtime.RoutingErrorHandlerFunc {
	return func(_ context.Context, _ *runtime.ServeMux, _ runtime.Marshaler, w http.ResponseWriter, r *http.Request, status int) {
		if status != http.StatusMethodNotAllowed {
			p.refuse(w, r, rpcerr.RouteNotFound(r.URL.Path))
			return
		}
		allowed := routes.allow(r.URL.Path)
		w.Header().Set("Allow", allowed)
		p.refuse(w, r, rpcerr.MethodNotAllowed(r.Method, allowed))
	}
}
