#!/usr/bin/env bash
# Looks for known vulnerabilities that the program really calls, offline,
# against the database that install.sh fetched. The database folder is read as
# the flat list of reports it is, so that no index has to be built first.
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
cd "$root"
osv=$(cd .tools/osv/ && pwd -P)
count=$(find "$osv" -name 'GO-*.json' | wc -l)
if [ "$count" -lt 4000 ]; then
	echo "vulnerability database: $count reports in $osv, at least 4000 expected" >&2
	exit 1
fi
exec .tools/bin/govulncheck -db "file://$osv" ./...
