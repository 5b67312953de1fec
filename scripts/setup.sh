# Shared by run and test: what the machine must have, and the locked Python packages.
# Source it from the project's folder.

say() { printf '%s\n' "$*"; }

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

# Install Debian packages, after saying what for.
system_packages() {
  say "Installing $2 ($1)."
  export DEBIAN_FRONTEND=noninteractive
  as_root apt-get update -qq
  # shellcheck disable=SC2086
  as_root apt-get install -qq -y --no-install-recommends $1 >/dev/null
}

has_library() { ldconfig -p 2>/dev/null | grep -q "$1"; }

need_python() {
  python3 -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null || {
    say "Giornata needs python3, version 3.11 or newer."
    exit 1
  }
  python3 -c 'import ensurepip, venv' 2>/dev/null ||
    system_packages "python3-venv" "Python's virtual environments"
}

need_pango() {
  if ! has_library libpangoft2-1.0 || ! has_library libharfbuzz-subset; then
    system_packages "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" \
      "Pango, which sets the text of the PDFs"
  fi
}

# Packages with their hashes; nothing is done when the lock file has not changed.
python_packages() {
  local lock="requirements/$1.txt" stamp=".venv/installed-$1"
  [ -x .venv/bin/python ] || python3 -m venv .venv
  if ! cmp -s "$lock" "$stamp"; then
    say "Installing the Python packages of $lock."
    .venv/bin/python -m pip install -q --require-hashes -r requirements/install.txt
    .venv/bin/uv pip install -q --python .venv/bin/python --require-hashes -r "$lock"
    cp "$lock" "$stamp"
  fi
}

# A secret key of this installation's own, made once.
secret_key() {
  local file="$GIORNATA_VAR/secret-key"
  mkdir -p "$GIORNATA_VAR"
  [ -s "$file" ] || (umask 077 && python3 -c 'import secrets; print(secrets.token_urlsafe(48))' >"$file")
  cat "$file"
}
