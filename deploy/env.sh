# Sourced by the other scripts: makes .venv from a pinned, hashed list and installs the project.
# Installs nothing when the list has not changed since the last time.
# The list holds all that is needed, so nothing else is looked up: a newer release of a package that
# another asks for with an extra would otherwise be fetched, and refused for want of a hash.
# What is compiled here need not be at each start of a service that may not write to it.

make_env() {
    install_list "$1" "$2"
    .venv/bin/python -m compileall -q bot engine
}

install_list() {
    local list=$1 stamp=.venv/stamp-$2 sum python
    sum=$(cat "$list" pyproject.toml | cksum)
    if [ -x .venv/bin/caddie ] && [ "$(cat "$stamp" 2>/dev/null)" = "$sum" ]; then
        return
    fi
    echo "Setting up .venv from $list (once; about a minute) ..." >&2
    for python in "${PYTHON:-}" python3 python3.14 python3.13 python3.12 python3.11; do
        if [ -n "$python" ] && "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            break
        fi
        python=
    done
    if [ -z "$python" ]; then
        echo "Python 3.11 or newer is needed; set PYTHON to one." >&2
        exit 1
    fi
    [ -x .venv/bin/python ] || "$python" -m venv .venv
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --require-hashes -r "$list" >&2
    PYTHONWARNINGS=ignore .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps \
        --no-build-isolation --no-index -e . >&2
    .venv/bin/python -m pip --disable-pip-version-check check >&2
    echo "$sum" >"$stamp"
}
