# shellcheck shell=bash
# shellcheck disable=SC2034 # the lists are for whoever sources this
# The Debian 12 packages that the program is built and tested with. Sourced by tests/run.sh, tests/check.sh and
# sample_data/demo.sh; nothing is fetched from anywhere else.

build_packages=(g++ cmake ninja-build ccache libsqlitecpp-dev libsqlite3-dev libboost-dev libfmt-dev libexpected-dev
  libcli11-dev nlohmann-json3-dev libtomlplusplus-dev libeigen3-dev libpugixml-dev pkg-config libpango1.0-dev libcairo2-dev)
test_packages=(doctest-dev librapidcheck-dev binutils python3 python3-jsonschema sqlite3 git libxml2-utils librsvg2-bin
  poppler-utils qpdf chromium mandoc zsh fish strace dpkg-dev fonts-ebgaramond fonts-dejavu-core
  clang libclang-rt-14-dev llvm-14 lld)
check_packages=(clang-tidy-14 clang-format-14 shellcheck cppcheck gcovr)
bench_packages=(libbenchmark-dev python3 chromium)

# ensure_packages NAME...: installs those that are missing; needs root or sudo only then.
ensure_packages() {
  local missing=() name
  for name in "$@"; do
    dpkg-query -W -f='${db:Status-Abbrev}' "$name" 2>/dev/null | grep -q '^ii' || missing+=("$name")
  done
  ((${#missing[@]})) || return 0
  local as_root=()
  if (($(id -u) != 0)); then
    if ! command -v sudo >/dev/null; then
      printf 'These packages are missing, and there is neither root nor sudo to install them:\n  %s\n' "${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  printf 'Installing: %s\n' "${missing[*]}" >&2
  "${as_root[@]}" apt-get update -qq >&2
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
}
