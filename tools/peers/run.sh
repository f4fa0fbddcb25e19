#!/bin/sh
# Sets the stiff integrator beside CVODE (C, -O2) and SciPy's Radau at matched
# errors. Needs Debian 12 or like it; installs what is missing when run as root.
# Everything that is built goes to a temporary folder. Takes some minutes and
# wants an idle machine.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

if [ ! -f /usr/include/cvode/cvode.h ] || ! /usr/bin/python3 -c 'import scipy' 2>/dev/null; then
	apt-get install -y libsundials-dev python3-scipy >&2
fi
gcc -O2 -o "$work/cvode" "$here/cvode.c" -lsundials_cvode -lsundials_nvecserial \
	-lsundials_sunlinsoldense -lsundials_sunmatrixdense -lm
(cd "$here/../.." && go build -o "$work/peers" ./tools/peers/compare)
"$work/cvode" >"$work/cvode.csv"
# Debian's own Python, the one that has SciPy, and one thread for its algebra.
OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 /usr/bin/python3 "$here/radau.py" >"$work/radau.csv"
"$work/peers" "$work/cvode.csv" "$work/radau.csv" 2>"$work/ours.csv"
if [ "${KEEP:-}" ]; then
	mkdir -p "$KEEP" && cp "$work"/*.csv "$KEEP"
fi
