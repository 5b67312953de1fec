# A PostgreSQL server for the tests alone: its own folder, its own port, gone afterwards.

start_postgres() {
  PG_BIN=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)
  PG_DIR=$(mktemp -d)
  PG_PORT=$((20000 + RANDOM % 20000))
  trap stop_postgres EXIT
  if [ "$(id -u)" = 0 ]; then chown postgres "$PG_DIR"; fi
  as_postgres "$PG_BIN/initdb" -D "$PG_DIR/data" -U giornata --auth=trust -E UTF8 >/dev/null
  as_postgres "$PG_BIN/pg_ctl" -D "$PG_DIR/data" -w -l "$PG_DIR/log" \
    -o "-p $PG_PORT -k $PG_DIR -c listen_addresses=127.0.0.1 -c fsync=off" start >/dev/null
  POSTGRES_URL="postgres://giornata@127.0.0.1:$PG_PORT/postgres"
}

# PostgreSQL refuses to run as root.
as_postgres() {
  if [ "$(id -u)" = 0 ]; then (cd "$PG_DIR" && setpriv --reuid=postgres --regid=postgres --clear-groups "$@"); else "$@"; fi
}

stop_postgres() {
  trap - EXIT
  as_postgres "$PG_BIN/pg_ctl" -D "$PG_DIR/data" -m immediate stop >/dev/null 2>&1 || true
  rm -rf "$PG_DIR"
}
