#!/bin/sh
# Makes a Debian package of what 'cmake --install' installs. Usage: deb.sh BUILD_DIR OUT_DIR; prints the package's path.
# The same sources give the same bytes: every time in the package is that of the last commit (or $SOURCE_DATE_EPOCH).
set -eu
build=$1
out=$2
cd "$(dirname "$0")/.."
version=$(sed -n 's/^project(bowlwright VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
when=${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct 2>/dev/null || date +%s)}
export SOURCE_DATE_EPOCH="$when"
architecture=$(dpkg --print-architecture)
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
root=$tree/root
DESTDIR=$root cmake --install "$build" --prefix /usr --strip >/dev/null
doc=$root/usr/share/doc/bowlwright

# What a Debian package has in places of its own.
rm -f "$doc/LICENSE"
gzip -9nf "$root/usr/share/man/man1/bowlwright.1"
{
  printf 'bowlwright (%s) unstable; urgency=medium\n\n  * See CHANGELOG.md.\n\n' "$version"
  printf ' -- Bowlwright makers <makers@bowlwright.invalid>  %s\n' "$(date -u -d "@$when" '+%a, %d %b %Y %H:%M:%S +0000')"
} >"$doc/changelog"
gzip -9nf "$doc/changelog"
mkdir -p "$root/usr/share/zsh/vendor-completions"
mv "$root/usr/share/zsh/site-functions/_bowlwright" "$root/usr/share/zsh/vendor-completions/"
rmdir "$root/usr/share/zsh/site-functions"
{
  echo "Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/"
  echo "Upstream-Name: bowlwright"
  echo "Comment:"
  sed 's/^$/./; s/^/ /' packaging/NOTICES.txt
  echo
  echo "Files: *"
  sed -n 's/^Copyright (c) /Copyright: /p' LICENSE
  echo "License: Expat"
  sed -n '/^Permission is hereby granted/,$p' LICENSE | sed 's/^$/./; s/^/ /'
} >"$doc/copyright"

mkdir -p "$root/DEBIAN" "$tree/debian"
printf 'Source: bowlwright\n\nPackage: bowlwright\nArchitecture: any\n' >"$tree/debian/control"
depends=$(cd "$tree" && dpkg-shlibdeps -O "$root/usr/bin/bowlwright" "$root"/usr/libexec/bowlwright/* 2>"$tree/said" |
  sed -n 's/^shlibs:Depends=//p')
case $depends in
  *libsqlite3*) ;;
  *) # without them "bowlwright serve" would not start where the package is installed
    cat "$tree/said" >&2
    echo "which libraries the package needs cannot be found out: dpkg-shlibdeps (package dpkg-dev) says '$depends'" >&2
    exit 1
    ;;
esac
cat >"$root/DEBIAN/control" <<END
Package: bowlwright
Version: $version
Architecture: $architecture
Maintainer: Bowlwright makers <makers@bowlwright.invalid>
Installed-Size: $(du -sk --exclude=DEBIAN "$root" | cut -f1)
Depends: $depends
Recommends: fonts-dejavu-core
Section: science
Priority: optional
Description: judge and mend home-prepared rations for one adult dog or cat
 Reads a home-prepared recipe as its owner wrote it and says what it gives one
 healthy adult dog or cat beside what that animal needs: energy, every nutrient
 against its allowance, how sure each figure is, what falls short or goes over,
 which food supplies what, and what nobody knows. It finds the change that mends
 the recipe. Not for growing, pregnant, nursing or ill animals.
END
find "$root" -type d -exec chmod 755 {} +
find "$root" -type f -not -path '*/bin/*' -not -path '*/libexec/*' -exec chmod 644 {} +
(cd "$root" && find usr -type f -exec md5sum {} + | sort -k2 >DEBIAN/md5sums)
find "$root" -exec touch -h -d "@$when" {} +
mkdir -p "$out"
package=$out/bowlwright_${version}_$architecture.deb
dpkg-deb --root-owner-group --build "$root" "$package" >/dev/null
echo "$package"
