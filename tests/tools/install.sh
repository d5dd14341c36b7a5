# Sourced by demo/run.sh and tests/run.sh: installs what is missing, or says what to install.
# need_packages NAME...  ends with status 3 where it may not install.

build_packages="g++ cmake ninja-build pkg-config ccache libsqlitecpp-dev libxlsxwriter-dev \
nlohmann-json3-dev libcli11-dev libfmt-dev libzip-dev libexpat1-dev libcairo2-dev \
libpango1.0-dev catch2 libwxgtk3.2-dev \
libgtk-3-dev"
test_packages="xvfb xauth xdotool dbus dbus-x11 at-spi2-core gir1.2-atspi-2.0 python3 python3-gi \
imagemagick fonts-dejavu-core adwaita-icon-theme hicolor-icon-theme librsvg2-common \
libreoffice-calc-nogui python3-openpyxl poppler-utils sqlite3 locales git clang-format-14 \
glpk-utils libglpk-dev coinor-cbc coinor-libcbc-dev valgrind clang-14 libclang-rt-14-dev"

need_packages() {
    missing=""
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
            missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    line="apt-get install -y --no-install-recommends$missing"
    if [ "$(id -u)" = 0 ]; then as=""
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then as="sudo"
    else
        echo "These packages are missing, and installing them needs root. Please run:"
        echo "  sudo $line"
        exit 3
    fi
    echo "Installing:$missing"
    export DEBIAN_FRONTEND=noninteractive
    $as apt-get -q -o DPkg::Lock::Timeout=600 update >/dev/null || true
    # shellcheck disable=SC2086
    $as apt-get -q -o DPkg::Lock::Timeout=600 install -y --no-install-recommends $missing \
        >/tmp/backplate-install.log 2>&1 || {
        echo "Installing failed:"; tail -5 /tmp/backplate-install.log; exit 3; }
}
