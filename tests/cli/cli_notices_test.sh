#!/bin/sh
# Everything that the page and the food library are built from has its notice: the packages that are pinned, with their versions, and
# what is compiled into the WebAssembly module. Usage: cli_notices_test.sh BUILD_DIR SOURCE_DIR
set -eu
cd "$2"
python3 - <<'END'
import json
notices = open("packaging/NOTICES.txt", encoding="ascii").read()
missing = []
for folder in ("page", "library"):
    lock = json.load(open(folder + "/package-lock.json"))["packages"]
    todo, seen = list(lock[""]["dependencies"]), set()
    while todo:
        name = todo.pop()
        if name in seen:
            continue
        seen.add(name)
        row = lock["node_modules/" + name]
        if folder == "page":
            todo += row.get("dependencies", {})
        spoken = {"preact": "Preact"}.get(name, name)
        if spoken + " " + row["version"] not in notices:
            missing.append("%s %s (%s)" % (name, row["version"], row.get("license")))
for said in ("xxHash", "wasi-libc", "musl", "compiler-rt", "SQLite", "libmicrohttpd", "jansson", "SIL OPEN FONT LICENSE Version 1.1",
             "Permission is hereby granted, free of charge", "Redistributions in binary form must reproduce"):
    if said not in notices:
        missing.append(said)
assert not missing, "packaging/NOTICES.txt does not tell of " + ", ".join(missing)
END
