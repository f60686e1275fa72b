#!/bin/sh
# Rebuilds ../echarts.min.js.gz from the locked packages and compares SHA-256 sums.
#
#   ./build.sh           build aside, compare with bundle.sha256 and with the file in the tree
#   ./build.sh --write   also replace the file and the sum (after changing entry.js or a version)
#
# Needs node with npm, gzip and sha256sum. The sum is that of the script itself, not of the
# .gz: another gzip may pack the same bytes differently.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
packed=$here/../echarts.min.js.gz
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cp "$here/entry.js" "$here/package.json" "$here/package-lock.json" "$here/.npmrc" "$work/"
cd "$work"
npm ci --ignore-scripts --silent

# --legal-comments=none drops the notices from the script; they stand in LICENSE-echarts and
# NOTICE-echarts. The last newline goes, so that the page's hash is that of these bytes.
node_modules/.bin/esbuild entry.js --bundle --minify --format=iife --global-name=echarts \
  --target=es2017 --charset=ascii --legal-comments=none --log-level=warning \
  "--define:process.env.NODE_ENV=\"production\"" --outfile=bundle.js
printf %s "$(cat bundle.js)" > echarts.min.js

built=$(sha256sum < echarts.min.js | cut -d' ' -f1)
echo "built    $built"
if [ "${1:-}" = --write ]; then
  gzip -9 -n -c echarts.min.js > "$packed"
  echo "$built  echarts.min.js" > "$here/bundle.sha256"
fi

want=$(cut -d' ' -f1 < "$here/bundle.sha256")
tree=$(gzip -dc "$packed" | sha256sum | cut -d' ' -f1)
echo "recorded $want"
echo "in tree  $tree"
if [ "$built" = "$want" ] && [ "$tree" = "$want" ]; then
  echo same
else
  echo DIFFERENT >&2
  exit 1
fi
