// Command routes lists what buf's breaking check does not watch: the HTTP binding
// of every RPC and every validation rule of the contract's own messages.
//
// It reads an image (a FileDescriptorSet, as `buf build -o -` writes it) from
// standard input and prints one sorted line for each binding and each rule, so
// that a change shows as a line in a diff.
package main

import (
	"fmt"
	"io"
	"log"
	"os"
	"slices"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protodesc"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/descriptorpb"
)

const contract = "leafmoment.v1"

func main() {
	log.SetFlags(0)
	log.SetPrefix("routes: ")
	image, err := io.ReadAll(os.Stdin)
	if err != nil {
		log.Fatal(err)
	}
	lines, err := list(image)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(strings.Join(lines, "\n"))
}

func list(image []byte) ([]string, error) {
	var set descriptorpb.FileDescriptorSet
	if err := proto.Unmarshal(image, &set); err != nil {
		return nil, fmt.Errorf("image: %w", err)
	}
	files, err := protodesc.NewFiles(&set)
	if err != nil {
		return nil, fmt.Errorf("image: %w", err)
	}
	var lines []string
	files.RangeFilesByPackage(contract, func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			lines = append(lines, bindings(file.Services().Get(i))...)
		}
		lines = append(lines, rulesOfMessages(file.Messages())...)
		return true
	})
	if len(lines) == 0 {
		return nil, fmt.Errorf("image has nothing in package %s", contract)
	}
	slices.Sort(lines)
	return lines, nil
}

// bindings has a line for each HTTP binding of each RPC, and one that says
// "gRPC only" for an RPC without.
func bindings(service protoreflect.ServiceDescriptor) []string {
	var lines []string
	for i := range service.Methods().Len() {
		method := service.Methods().Get(i)
		head := fmt.Sprintf("rpc %s (%s%s) returns (%s%s)", method.FullName(),
			stream(method.IsStreamingClient()), method.Input().FullName(),
			stream(method.IsStreamingServer()), method.Output().FullName())
		rule := proto.GetExtension(method.Options(), annotations.E_Http).(*annotations.HttpRule)
		if rule == nil {
			lines = append(lines, head+" gRPC only")
			continue
		}
		for _, binding := range append([]*annotations.HttpRule{rule}, rule.AdditionalBindings...) {
			lines = append(lines, head+" "+route(binding))
		}
	}
	return lines
}

func stream(streaming bool) string {
	if streaming {
		return "stream "
	}
	return ""
}

func route(rule *annotations.HttpRule) string {
	var text string
	switch pattern := rule.Pattern.(type) {
	case *annotations.HttpRule_Get:
		text = "GET " + pattern.Get
	case *annotations.HttpRule_Put:
		text = "PUT " + pattern.Put
	case *annotations.HttpRule_Post:
		text = "POST " + pattern.Post
	case *annotations.HttpRule_Delete:
		text = "DELETE " + pattern.Delete
	case *annotations.HttpRule_Patch:
		text = "PATCH " + pattern.Patch
	case *annotations.HttpRule_Custom:
		text = pattern.Custom.Kind + " " + pattern.Custom.Path
	}
	if rule.Body != "" {
		text += " body=" + rule.Body
	}
	if rule.ResponseBody != "" {
		text += " response_body=" + rule.ResponseBody
	}
	return text
}

func rulesOfMessages(messages protoreflect.MessageDescriptors) []string {
	var lines []string
	for i := range messages.Len() {
		message := messages.Get(i)
		lines = append(lines, rules(message, validate.E_Message)...)
		for j := range message.Fields().Len() {
			lines = append(lines, rules(message.Fields().Get(j), validate.E_Field)...)
		}
		for j := range message.Oneofs().Len() {
			lines = append(lines, rules(message.Oneofs().Get(j), validate.E_Oneof)...)
		}
		lines = append(lines, rulesOfMessages(message.Messages())...)
	}
	return lines
}

// rules has a line for each scalar set in the element's validation option.
func rules(element protoreflect.Descriptor, option protoreflect.ExtensionType) []string {
	if !proto.HasExtension(element.Options(), option) {
		return nil
	}
	rule := proto.GetExtension(element.Options(), option).(proto.Message)
	var lines []string
	for _, leaf := range leaves(rule.ProtoReflect(), "") {
		lines = append(lines, fmt.Sprintf("rule %s %s", element.FullName(), leaf))
	}
	return lines
}

func leaves(message protoreflect.Message, prefix string) []string {
	var found []string
	message.Range(func(field protoreflect.FieldDescriptor, value protoreflect.Value) bool {
		name := prefix + string(field.Name())
		if !field.IsList() {
			found = append(found, leaf(field, value, name)...)
			return true
		}
		for i := range value.List().Len() {
			found = append(found, leaf(field, value.List().Get(i), fmt.Sprintf("%s[%d]", name, i))...)
		}
		return true
	})
	if len(found) == 0 {
		return []string{strings.TrimSuffix(prefix, ".") + " = {}"}
	}
	return found
}

func leaf(field protoreflect.FieldDescriptor, value protoreflect.Value, name string) []string {
	switch field.Kind() {
	case protoreflect.MessageKind:
		return leaves(value.Message(), name+".")
	case protoreflect.EnumKind:
		if known := field.Enum().Values().ByNumber(value.Enum()); known != nil {
			return []string{fmt.Sprintf("%s = %s", name, known.Name())}
		}
		return []string{fmt.Sprintf("%s = %d", name, value.Enum())}
	case protoreflect.StringKind, protoreflect.BytesKind:
		return []string{fmt.Sprintf("%s = %q", name, value.Interface())}
	default:
		return []string{fmt.Sprintf("%s = %v", name, value.Interface())}
	}
}
