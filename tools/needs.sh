#!/usr/bin/env bash
# Installs the Debian packages that tests use beyond Go: a C compiler for the
# race detector, and independent readers of DXF and PDF files for the drawings. On
# other systems, or without the right to install, it says what is missing; the
# tests that need it skip and say so.
set -euo pipefail

missing=()
need() { # package, command that shows it is there
	if ! eval "$2" >/dev/null 2>&1; then missing+=("$1"); fi
}
need gcc 'command -v gcc'
need libc6-dev 'test -e /usr/include/stdlib.h || [ "$(uname)" != Linux ]'
need poppler-utils 'command -v pdftoppm'
need python3-ezdxf '/usr/bin/python3 -c "import ezdxf"'

if [ ${#missing[@]} = 0 ]; then exit 0; fi
if command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; then
	export DEBIAN_FRONTEND=noninteractive
	apt-get update -qq
	apt-get install -y -qq --no-install-recommends "${missing[@]}"
else
	echo "not installed: ${missing[*]}; tests that need them will be skipped"
fi
