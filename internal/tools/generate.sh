#!/usr/bin/env bash
# Generates everything that follows from the contract; run it after any change
# under proto/. Wants Go, and npm for speed.
#   .protodeps/                          the imported protos (ignored by git)
#   api/leafmoment/v1/*.go               messages, services, gateway
#   api/openapi/leafmoment.openapi.json  proto/openapi.json and what the routes say
#   proto/released/routes-and-rules.txt  HTTP bindings and field rules, one a line
set -euo pipefail
cd "$(dirname "$0")/../.."
buf=internal/tools/buf/run

go run -C internal/tools/gen ./protodeps "$PWD/.protodeps"
$buf generate --template proto/buf.gen.yaml

image=$(mktemp)
trap 'rm -f "$image"' EXIT
$buf build proto --exclude-source-info -o "$image#format=binpb"

parts=(api/openapi/leafmoment/v1/*.openapi.json)
go tool -modfile=internal/tools/gen/go.mod openapiv3-merge proto/openapi.json "${parts[@]}" |
  go run -C internal/tools/gen ./openapi "$image" >api/openapi/leafmoment.openapi.json
rm -r api/openapi/leafmoment

go run -C internal/tools/gen ./routes <"$image" >proto/released/routes-and-rules.txt
