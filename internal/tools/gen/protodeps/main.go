// Command protodeps prints the .proto files the contract imports into a folder.
//
// They are printed from the descriptors that the Go modules of this tools module
// link, so what buf compiles against and what the service runs with are one
// version. The folder is emptied first and is ignored by git.
package main

import (
	"fmt"
	"log"
	"os"
	"path/filepath"

	_ "buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/jhump/protoreflect/v2/protoprint"
	_ "google.golang.org/genproto/googleapis/api/annotations"
	_ "google.golang.org/genproto/googleapis/api/httpbody"
	_ "google.golang.org/genproto/googleapis/rpc/errdetails"
	_ "google.golang.org/genproto/googleapis/rpc/status"
	"google.golang.org/protobuf/reflect/protoregistry"
)

var imports = []string{
	"buf/validate/validate.proto",
	"google/api/annotations.proto",
	"google/api/field_behavior.proto",
	"google/api/http.proto",
	"google/api/httpbody.proto",
	"google/rpc/error_details.proto",
	"google/rpc/status.proto",
}

func main() {
	log.SetFlags(0)
	log.SetPrefix("protodeps: ")
	if len(os.Args) != 2 {
		log.Fatal("usage: protodeps FOLDER")
	}
	if err := export(os.Args[1]); err != nil {
		log.Fatal(err)
	}
}

func export(folder string) error {
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	printer := &protoprint.Printer{}
	for _, path := range imports {
		file, err := protoregistry.GlobalFiles.FindFileByPath(path)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		text, err := printer.PrintProtoToString(file)
		if err != nil {
			return fmt.Errorf("print %s: %w", path, err)
		}
		target := filepath.Join(folder, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(target, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}
