#!/usr/bin/env bash
# A PostgreSQL server with PostGIS for the tests, in a folder of its own, on a free port of loopback.
#   tests/postgis_server.sh start FOLDER   makes it in FOLDER, which must not exist; prints two lines: its address and
#                                          the password of its owner
#   tests/postgis_server.sh halt FOLDER    ends it at once, as a failure of the power would
#   tests/postgis_server.sh stop FOLDER    ends it and removes the folder
set -euo pipefail
programs=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -1)
folder=$(realpath -m "$2")
cd / # where every account may stand

# The server refuses to run as root.
as_owner() {
    if [ "$(id -u)" -eq 0 ]; then
        setpriv --reuid=postgres --regid=postgres --clear-groups env HOME=/ "$@"
    else
        "$@"
    fi
}

free_port() {
    local port
    for _ in $(seq 100); do
        port=$((20000 + RANDOM % 20000))
        (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null || { echo "$port"; return; }
    done
    return 1
}

start() {
    mkdir "$folder"
    [ "$(id -u)" -ne 0 ] || chown postgres "$folder"
    local password port
    password=$(od -An -N16 -tx1 /dev/urandom | tr -d ' \n')
    (
        umask 077
        echo "$password" >"$folder/password"
        [ "$(id -u)" -ne 0 ] || chown postgres "$folder/password"
    )
    as_owner "$programs/initdb" -D "$folder/data" -U keeper -A scram-sha-256 --pwfile="$folder/password" \
        --encoding=UTF8 --locale=C.UTF-8 --no-sync >"$folder/initdb.log"
    for _ in 1 2 3; do
        port=$(free_port)
        # Nothing that a test writes need outlive the machine.
        as_owner "$programs/pg_ctl" -D "$folder/data" -l "$folder/server.log" -w -s \
            -o "-p $port -c listen_addresses=127.0.0.1 -c unix_socket_directories=$folder -c fsync=off \
                -c full_page_writes=off -c synchronous_commit=off -c max_connections=40" start && break
        port=
    done
    [ -n "$port" ] || { cat "$folder/server.log" >&2; return 1; }
    PGPASSWORD=$password psql -X -q -h 127.0.0.1 -p "$port" -U keeper -d postgres -c "CREATE DATABASE land"
    PGPASSWORD=$password psql -X -q -h 127.0.0.1 -p "$port" -U keeper -d land -c "CREATE EXTENSION postgis"
    echo "postgresql://keeper@127.0.0.1:$port/land"
    echo "$password"
}

case $1 in
start) start ;;
halt) as_owner "$programs/pg_ctl" -D "$folder/data" -m immediate -w -s stop ;;
stop)
    as_owner "$programs/pg_ctl" -D "$folder/data" -m immediate -w -s stop || true
    rm -rf "$folder"
    ;;
*) echo "See the head of this file." >&2; exit 2 ;;
esac
