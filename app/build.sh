# Sourced by app/run.sh and tests/run.sh: what must be installed, and how it is built.

BUILD_PACKAGES=(g++ cmake ninja-build pkg-config ccache mold
    qt6-base-dev qt6-svg-dev qt6-tools-dev qt6-tools-dev-tools qt6-l10n-tools qt6-translations-l10n libgl1-mesa-dev fonts-dejavu-core
    libgdal-dev libgeos-dev libproj-dev proj-data nlohmann-json3-dev libsqlite3-dev libssl-dev)

# Installs those of the named Debian packages that are missing.
install_packages() {
    local missing=()
    for package in "$@"; do
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return 0
    echo "Installing: ${missing[*]}"
    local as_root=()
    [ "$(id -u)" -eq 0 ] || as_root=(sudo)
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# build TYPE TARGET... builds in build/<type>; sets BUILD_FOLDER.
build() {
    local type=$1
    shift
    BUILD_FOLDER=$PWD/build/${type,,}
    # A clone in another folder finds what this one compiled.
    export CCACHE_BASEDIR=$PWD CCACHE_NOHASHDIR=1
    export CCACHE_SLOPPINESS=pch_defines,time_macros,include_file_mtime,include_file_ctime
    [ -f "$BUILD_FOLDER/build.ninja" ] ||
        cmake -S . -B "$BUILD_FOLDER" -G Ninja -DCMAKE_BUILD_TYPE="$type" >"/tmp/fencewright-configure.$$" ||
        { cat "/tmp/fencewright-configure.$$"; return 1; }
    rm -f "/tmp/fencewright-configure.$$"
    cmake --build "$BUILD_FOLDER" --target "$@"
}
