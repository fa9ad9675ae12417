#!/usr/bin/env bash
# Checks the project and its modules against the Go vulnerability database, which
# comes as a pinned Go module. To bring it up to date:
#   go -C internal/tools/vuln get golang.org/x/vulndb@latest && go -C internal/tools/vuln mod tidy
set -euo pipefail
cd "$(dirname "$0")/../../.."
tools=internal/tools/vuln/go.mod
database=$(mktemp -d)
trap 'rm -rf "$database"' EXIT

go mod download -modfile=$tools golang.org/x/vulndb
entries=$(go list -modfile=$tools -m -f '{{.Dir}}' golang.org/x/vulndb)/data/osv
go tool -modfile=$tools indexdb -vulns "$entries" -out "$database"
go tool -modfile=$tools govulncheck -db "file://$database" -format json ./... |
  go run -C internal/tools/vuln ./findings
