#!/bin/sh
# The sheet as PDF, read back by poppler. Usage: sheet_pdf_test.sh BUILD_DIR SOURCE_DIR      77: not set up
[ -x "$1/bowlwright-sheet" ] || exit 77
for tool in pdftotext pdffonts pdfinfo pdftoppm; do command -v $tool >/dev/null || exit 77; done
exec python3 "$2/tests/sheet/pdf.py" "$1" "$2"
