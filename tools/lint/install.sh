#!/usr/bin/env bash
# Builds the lint tools of tools/lint/go.mod into .tools/bin and fetches the
# vulnerability database for offline use into .tools/osv. Needs only Go and its
# module proxy. Does nothing when both are there already.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
into=$root/.tools

# The database is a Go module too. The hash pins its content.
database=golang.org/x/vulndb@v0.0.0-20261105234957-e22db6528018
hash=h1:mfngRv0Yoh0VApsXKEN82CjD99kl7mtparN3bs3JnqI=

mkdir -p "$into/bin"

stamp=$into/stamp
want=$(cat "$here/go.mod" "$here/go.sum" "$here/install.sh" | cksum; go version)
if [ "$(cat "$stamp" 2>/dev/null)" = "$want" ] && [ -d "$into/osv/" ]; then
	exit 0
fi

echo "building the lint tools into .tools (once)"
GOFLAGS='' go build -C "$here" -mod=readonly -trimpath -o "$into/bin/" tool

said=$(cd "$here" && GOFLAGS='' go mod download -json "$database")
field() { printf '%s\n' "$said" | sed -n 's/^[[:space:]]*"'"$1"'": "\(.*\)",\{0,1\}$/\1/p'; }
if [ "$(field Sum)" != "$hash" ]; then
	echo "vulnerability database: hash is $(field Sum), expected $hash" >&2
	exit 1
fi
ln -sfn "$(field Dir)/data/osv" "$into/osv"
printf '%s' "$want" >"$stamp"
