#!/usr/bin/env bash
# Records the contract as released: from then on `buf breaking` holds every change
# against proto/released/contract.binpb. Run it when a contract is released, never
# to make a breaking change pass.
set -euo pipefail
cd "$(dirname "$0")/../.."
internal/tools/generate.sh
internal/tools/buf/run build proto --exclude-source-info -o proto/released/contract.binpb
