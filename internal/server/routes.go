package server

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

// methodsOf finds the contract's description of every method of the services,
// in the order of their names.
func methodsOf(services map[string]grpc.ServiceInfo) ([]protoreflect.MethodDescriptor, error) {
	var methods []protoreflect.MethodDescriptor
	for _, name := range slices.Sorted(maps.Keys(services)) {
		found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			return nil, fmt.Errorf("service %s: %w", name, err)
		}
		service, ok := found.(protoreflect.ServiceDescriptor)
		if !ok {
			return nil, fmt.Errorf("%s isn't a service", name)
		}
		for i := range service.Methods().Len() {
			method := service.Methods().Get(i)
			if method.IsStreamingClient() || method.IsStreamingServer() {
				return nil, fmt.Errorf("%s streams, and the interceptor chain is for single calls", method.FullName())
			}
			methods = append(methods, method)
		}
	}
	return methods, nil
}

func requestsOf(methods []protoreflect.MethodDescriptor) []protoreflect.MessageDescriptor {
	requests := make([]protoreflect.MessageDescriptor, len(methods))
	for i, m := range methods {
		requests[i] = m.Input()
	}
	return requests
}

// A routeTable holds the HTTP methods that each path answers, by the contract.
type routeTable map[string][]string

func routesOf(methods []protoreflect.MethodDescriptor) (routeTable, error) {
	routes := routeTable{}
	for _, m := range methods {
		rule, ok := proto.GetExtension(m.Options(), annotations.E_Http).(*annotations.HttpRule)
		if !ok || rule == nil {
			return nil, fmt.Errorf("%s has no route", m.FullName())
		}
		var method, path string
		switch pattern := rule.GetPattern().(type) {
		case *annotations.HttpRule_Get:
			method, path = http.MethodGet, pattern.Get
		case *annotations.HttpRule_Post:
			method, path = http.MethodPost, pattern.Post
		default:
			return nil, fmt.Errorf("%s has a route that is neither GET nor POST", m.FullName())
		}
		if strings.Contains(path, "{") {
			return nil, fmt.Errorf("%s has a variable in its path %s, and paths are matched whole", m.FullName(), path)
		}
		routes[path] = append(routes[path], method)
	}
	return routes, nil
}

// allow is the value of the Allow header of a path.
func (r routeTable) allow(path string) string { return strings.Join(r[path], ", ") }
