#!/bin/sh
# The sheet's HTML against a validator and, in a browser, against axe (WCAG 2.2 A and AA) and the width of paper and phone.
# Usage: sheet_html_test.sh BUILD_DIR SOURCE_DIR      77: not set up (tools/setup.sh test)
[ -d "$2/tests/sheet/node_modules" ] || exit 77
[ -x /usr/bin/chromium ] || [ -x /usr/bin/chromium-browser ] || exit 77
exec node "$2/tests/sheet/html.mjs" "$1" "$2"
