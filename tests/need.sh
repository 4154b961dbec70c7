# shellcheck shell=bash
# Installs what a fresh machine lacks. Sourced by tests/run and .ci/run.

say() {
    printf '\n== %s\n' "$*"
}

# need COMMAND PACKAGE...: installs the packages when the command is not there.
need() {
    local command=$1
    shift
    command -v "$command" >/dev/null || install "$@"
}

# Python's venv module is a package of its own on some systems.
need_venv() {
    python3 -c 'import venv, ensurepip' 2>/dev/null || install python3-venv
}

install() {
    if [ "$(id -u)" -ne 0 ] || ! command -v apt-get >/dev/null; then
        echo "missing: install $*, then run this again" >&2
        exit 1
    fi
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@"
}
