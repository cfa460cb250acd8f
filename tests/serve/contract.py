"""Every row of docs/internals/page-storage.md, and what must not be answered. Usage: contract.py PROGRAM SOURCE_DIR"""
import http.client
import json
import os
import re
import socket
import sys
import time

from server import PAGE, Scratch, Server, run_tests

program, source = sys.argv[1:3]


def check(got, wanted, what=""):
    assert got == wanted, "%r instead of %r: %s" % (got, wanted, what)


def status(*args, **kw):
    return s.ask(*args, **kw)[0]


def why(answer):
    code, headers, data = answer
    said = json.loads(data)
    assert said["error"] and headers["Content-Type"] == "application/json"
    return code, said["why"]


# ---- the page ----

def the_page_is_told_where_it_is():
    code, headers, data = s.ask("GET", "/", token=None)
    check(code, 200)
    text = data.decode()
    assert '<head><meta name="bowlwright-store" content="api"><meta name="bowlwright-token" content="%s">' % s.token in text
    check(re.sub(r'<meta name="bowlwright-[^>]*>', "", text), PAGE)
    check(headers["Cache-Control"], "no-store")
    check(headers["Content-Type"], "text/html; charset=utf-8")
    assert re.fullmatch(r"[A-Za-z0-9_-]{43}", s.token)
    check(s.ask("GET", "/index.html", token=None)[2], data)


def files_of_the_page():
    wanted = {"/sw.js": ("text/javascript; charset=utf-8", "no-cache"),
              "/icon.svg": ("image/svg+xml", "no-cache"),
              "/manifest.webmanifest": ("application/manifest+json", "no-cache"),
              "/assets/index-1a2b.js": ("text/javascript; charset=utf-8", "public, max-age=31536000, immutable"),
              "/assets/core-3c4d.wasm": ("application/wasm", "public, max-age=31536000, immutable"),
              "/assets/table-5e6f.packed": ("application/octet-stream", "public, max-age=31536000, immutable")}
    for path, (kind, cache) in wanted.items():
        code, headers, data = s.ask("GET", path, token=None)
        check((code, headers["Content-Type"], headers["Cache-Control"]), (200, kind, cache), path)
        with open(os.path.join(scratch.page, path[1:]), "rb") as f:
            check(data, f.read(), path)
        check(status("GET", path, headers={"If-None-Match": headers["ETag"]}, token=None), 304)
        check(status("GET", path, headers={"If-None-Match": '"other"'}, token=None), 200)


def every_answer_is_guarded():
    for method, path, token in [("GET", "/", None), ("GET", "/sw.js", None), ("GET", "/nothing", None), ("GET", "/api/texts", ""),
                                ("GET", "/api/texts", None), ("PUT", "/", None), ("GET", "/api/token", None),
                                ("DELETE", "/api/texts/never", "")]:
        code, h, _ = s.ask(method, path, headers={"If-Match": '"1"'}, token=token)
        policy = h["Content-Security-Policy"]
        assert "'unsafe-inline'" not in policy and "'unsafe-eval'" not in policy and "default-src 'none'" in policy
        assert "frame-ancestors 'none'" in policy, (method, path, code)
        check((h["X-Content-Type-Options"], h["Referrer-Policy"], h["Cross-Origin-Opener-Policy"]),
              ("nosniff", "no-referrer", "same-origin"))
        check(h["Cross-Origin-Resource-Policy"], "same-origin")
        assert "Access-Control-Allow-Origin" not in h


def the_policy_is_the_one_of_the_page():
    with open(os.path.join(source, "page/index.html"), encoding="utf-8") as f:
        written = re.search(r'http-equiv="Content-Security-Policy"\s+content="([^"]*)"', f.read()).group(1)
    served = s.ask("GET", "/", token=None)[1]["Content-Security-Policy"]
    check(sorted(p.strip() for p in served.split(";")), sorted([p.strip() for p in written.split(";")] + ["frame-ancestors 'none'"]))


def nothing_outside_the_page():
    for path in ["/../secret.txt", "/assets/../../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/assets/..%5c..%5csecret.txt",
                 "//secret.txt", "/./sw.js", "/assets/../sw.js", "/%73w.js", "/sw.js%00", "/%", "/%zz", "/%u0041", "/assets", "/assets/",
                 "/index.html/", "/sw.js/", "/\\..\\secret.txt", "/etc/passwd", "/api", "/api/", "/api/texts/", "/api/texts/../texts",
                 "/api/texts/%2e%2e", "/api/texts/a%2Fversions", "/api/texts/a/versions/", "/api/texts/a/b", "/api/bundle/x", "/API/texts",
                 "/api/texts/" + "a" * 101, "/api/texts/a_b", "/api/texts/\xc3\xa4"]:
        request = "GET %s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nX-Bowlwright-Token: %s\r\nConnection: close\r\n\r\n" % (path, s.port, s.token)
        answer = s.raw(request.encode("latin-1"))
        assert answer.startswith(b"HTTP/1.1 404 "), (path, answer[:80])
        assert b"outside the page" not in answer and b"root:" not in answer


# ---- who may ask ----

API = [("GET", "/api/texts"), ("GET", "/api/texts/a"), ("GET", "/api/texts/a/versions"), ("GET", "/api/bundle"), ("GET", "/api/changes"),
       ("PUT", "/api/texts/a"), ("DELETE", "/api/texts/a"), ("POST", "/api/bundle"), ("GET", "/api/nothing")]


def nobody_without_the_token():
    for method, path in API:
        for token in [None, "wrong", s.token[:-1], s.token + "A", s.token.swapcase()]:
            check(why(s.ask(method, path, b"{}", {"If-Match": '"0"'}, token=token)), (403, "token"), (method, path, token))
        check(why(s.ask(method, path + "?token=" + s.token, b"{}", token=None)), (403, "token"))


def no_foreign_names():
    good = ["127.0.0.1:%d" % s.port, "localhost:%d" % s.port, "LOCALHOST:%d" % s.port, "[::1]:%d" % s.port]
    bad = ["elsewhere.example:%d" % s.port, "elsewhere.example", "127.0.0.1", "127.0.0.1:%d" % (s.port - 1), "127.0.0.1.elsewhere.example:%d" % s.port,
           "localhost.:%d" % s.port, "0.0.0.0:%d" % s.port, "192.0.2.7:%d" % s.port, "127.0.0.1:%d0" % s.port, ":%d" % s.port,
           "127.0.0.1:", "x@127.0.0.1:%d" % s.port, "127.0.0.1:0%d" % s.port, "127.0.0.1:+%d" % s.port, ""]
    for host in good:
        for method, path in [("GET", "/"), ("GET", "/api/texts")]:
            check(status(method, path, headers={"Host": host}), 200, host)
    for host in bad:
        for method, path in [("GET", "/"), ("GET", "/sw.js"), ("GET", "/api/token")] + API:
            code, headers, data = s.ask(method, path, headers={"Host": host})
            check(code, 403, (host, path))
            assert s.token.encode() not in data
    answer = s.raw(b"GET / HTTP/1.0\r\n\r\n")
    assert b" 403 " in answer[:20] or b" 400 " in answer[:20], answer[:40]
    assert s.token.encode() not in answer


def no_foreign_pages():
    own = "http://127.0.0.1:%d" % s.port
    for method, path in API[:4] + API[5:] + [("GET", "/api/token")]:
        for origin in ["http://elsewhere.example", "null", "https://127.0.0.1:%d" % s.port, "http://127.0.0.1:%d" % (s.port + 1),
                       "http://127.0.0.1", own + "/", "http://localhost:%d" % s.port, ""]:
            check(why(s.ask(method, path, b"{}", {"Origin": origin, "If-Match": '"0"'})), (403, "origin"), (method, path, origin))
        for site in ["cross-site", "same-site", "none", "anything"]:
            check(why(s.ask(method, path, b"{}", {"Sec-Fetch-Site": site, "If-Match": '"0"'})), (403, "origin"), (method, path, site))
    check(status("GET", "/api/texts", headers={"Origin": own, "Sec-Fetch-Site": "same-origin"}), 200)
    # A link from anywhere may open the page; its files may not be used from elsewhere.
    check(status("GET", "/", headers={"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}, token=None), 200)
    check(status("GET", "/", headers={"Sec-Fetch-Site": "none"}, token=None), 200)
    for site in ["cross-site", "same-site"]:
        check(status("GET", "/", headers={"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "no-cors"}, token=None), 403)
    check(status("OPTIONS", "/api/texts/a", headers={"Origin": "http://elsewhere.example"}, token=None), 403)


def methods():
    allowed = {"/": "GET, HEAD", "/sw.js": "GET, HEAD", "/api/texts": "GET, HEAD", "/api/texts/a": "GET, HEAD, PUT, DELETE",
               "/api/texts/a/versions": "GET, HEAD", "/api/bundle": "GET, HEAD, POST", "/api/changes": "GET, HEAD", "/api/token": "GET, HEAD"}
    for path, allow in allowed.items():
        for method in ["GET", "HEAD", "PUT", "POST", "DELETE", "OPTIONS", "TRACE", "PATCH", "FOO"]:
            if method in allow.split(", "):
                continue
            code, headers, _ = s.ask(method, path, b"x")
            check((code, headers["Allow"]), (405, allow), (method, path))
    for path in ["/", "/sw.js", "/api/texts", "/api/bundle", "/api/token"]:
        get, head = s.ask("GET", path), s.ask("HEAD", path)
        check((head[0], head[2], head[1]["Content-Length"]), (200, b"", str(len(get[2]))), path)
        check(head[1]["Content-Type"], get[1]["Content-Type"])


# ---- texts ----

def a_text_over_http():
    check(s.ask("GET", "/api/texts/t1")[0], 404)
    code, one = s.put("t1", "Recipe: Bowl\n\n\u00bd c. rice \U0001f958 \u05d0\n", 0)
    check((code, one["rev"]), (200, 1))
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", one["saved"])
    code, headers, data = s.ask("GET", "/api/texts/t1")
    check((code, headers["ETag"], headers["Cache-Control"]), (200, '"1"', "no-store"))
    check(json.loads(data), {"id": "t1", "kind": "recipe", "body": "Recipe: Bowl\n\n\u00bd c. rice \U0001f958 \u05d0\n", "rev": 1, "saved": one["saved"]})
    check(s.put("t1", "two", 1)[1]["rev"], 2)
    code, said = s.put("t1", "mine", 1)
    check((code, said["theirs"]["body"], said["theirs"]["rev"]), (412, "two", 2))
    check(s.put("t1", "mine", 0)[0], 412)
    check(s.put("never", "mine", 3), (412, {"theirs": None}))
    check([v["body"][:6] for v in s.read("/api/texts/t1/versions")["versions"]], ["Recipe"])
    check(s.read("/api/texts/never/versions"), {"versions": [], "damaged": 0, "more": False})
    check(status("DELETE", "/api/texts/t1", headers={"If-Match": '"1"'}), 412)
    check(s.ask("DELETE", "/api/texts/t1", headers={"If-Match": '"2"'})[::2], (204, b""))
    check(status("DELETE", "/api/texts/t1", headers={"If-Match": '"2"'}), 204)
    check(status("GET", "/api/texts/t1"), 404)
    check([t["body"] for t in s.read("/api/texts?removed=1")["texts"] if t["id"] == "t1"], ["two"])
    check(s.put("t1", "mine", 2), (412, {"theirs": None}))
    check(s.put("t1", "back", 0)[1]["rev"], 3)
    for kind in ["animals", "larder", "foods", "plan", "journal"]:
        check(s.put("t-" + kind, "x", 0, kind)[0], 200)
    listed = s.read("/api/texts")
    check(listed["damaged"], 0)
    assert {"t1", "t-animals", "t-larder", "t-foods"} <= {t["id"] for t in listed["texts"]}
    check(s.put("i" * 100, "longest id", 0)[0], 200)


def versions_in_portions():
    for i in range(6):
        s.put("v", "state %d" % (i + 1), i, keep=i % 2 == 0)
    revs = lambda q: [v["rev"] for v in s.read("/api/texts/v/versions" + q)["versions"]]
    check(revs(""), [4, 2])
    check(revs("?all=1"), [5, 4, 3, 2, 1])
    check(revs("?all=1&before=3"), [2, 1])
    for bad in ["0", "-1", "x", "", "1e3", "99999999999999999999", "%31", "3\""]:
        check(why(s.ask("GET", "/api/texts/v/versions?before=" + bad)), (400, "argument"), bad)
    state = lambda rev: {"id": "many", "kind": "recipe", "body": str(rev), "rev": rev, "saved": "2026-11-01T10:00:00.%03dZ" % rev}
    whole = {"bowlwright": 1, "texts": [state(520)], "versions": [state(rev) for rev in range(1, 520)]}
    check(status("POST", "/api/bundle", json.dumps(whole).encode()), 200)
    said = s.read("/api/texts/many/versions")
    check((len(said["versions"]), said["more"]), (500, True))
    check(len(s.read("/api/texts/many/versions?before=%d" % said["versions"][-1]["rev"])["versions"]), 19)


def words_that_are_no_request():
    bodies = [b"", b"{", b"[]", b"null", b"7", b'"x"', b"{}", b'{"kind":"recipe"}', b'{"body":"x"}', b'{"kind":"poem","body":"x"}',
              b'{"kind":"recipe","body":7}', b'{"kind":"recipe","body":null}', b'{"kind":["recipe"],"body":"x"}',
              b'{"kind":"recipe","body":"x","keep":"yes"}', b'{"kind":"recipe","body":"x","keep":null}',
              b'{"kind":"recipe","body":"x","body":"y"}', b'{"kind":"recipe","body":"x"} {}', b'{"kind":"recipe","body":"x",}',
              b'{"kind":"recipe","body":"\\ud800"}', b'{"kind":"recipe","body":"\\udc00\\ud800"}', b'{"kind":"recipe","body":"a\\u0000b"}',
              b'{"kind":"recipe","body":"a\x00b"}', b'{"kind":"recipe","body":"\xff"}', b'{"kind":"recipe","body":"\xc0\xaf"}',
              b'{"kind":"recipe","body":"\xed\xa0\x80"}', b'{"kind":"recipe\\u0000x","body":"x"}', b"[" * 100000, b'{"a":' * 100000,
              b"\xef\xbb\xbf{}", "{\"kind\":\"recipe\",\"body\":\"x\"}".encode("utf-16")]
    for body in bodies:
        check(why(s.ask("PUT", "/api/texts/bad", body, {"If-Match": '"0"'})), (400, "json"), body[:60])
    for match in ["1", "0", '"x"', 'W/"1"', "*", '"-1"', '"01"', '""', '"1", "2"', '"1', '"99999999999999999"', "\"1 \"", "'1'"]:
        check(why(s.ask("PUT", "/api/texts/bad", b'{"kind":"recipe","body":"x"}', {"If-Match": match})), (400, "rev"), match)
        check(why(s.ask("DELETE", "/api/texts/bad", headers={"If-Match": match})), (400, "rev"), match)
    check(why(s.ask("PUT", "/api/texts/bad", b'{"kind":"recipe","body":"x"}')), (428, "rev"))
    check(why(s.ask("DELETE", "/api/texts/bad")), (428, "rev"))
    check(status("GET", "/api/texts/bad"), 404)
    check(s.put("other-keys", "x", 0)[0], 200)
    check(status("PUT", "/api/texts/other-keys", b'{"kind":"recipe","body":"y","colour":{"deep":[1]}}', {"If-Match": '"1"'}), 200)


def how_long_a_text_may_be():
    most = 4 * 1024 * 1024
    raw = lambda text: json.dumps({"kind": "recipe", "body": text}, ensure_ascii=False).encode()
    put = lambda id, data: s.ask("PUT", "/api/texts/" + id, data, {"If-Match": '"0"'})
    check(put("long", raw("\u00e4" * (most // 2)))[0], 200)  # bytes of UTF-8 count, not characters
    check(why(put("long-0", raw("\u00e4" * (most // 2) + "x"))), (413, "too-long"))
    check(put("long-1", raw("x" * most))[0], 200)
    check(put("long-2", raw("\n" * (most - 100)))[0], 200)  # twice as long as JSON
    check(why(put("long-3", raw("x" * (most + 1)))), (413, "too-long"))
    check(why(put("long-4", raw("x" * 9 * 1024 * 1024))), (413, "too-long"))
    check(len(json.loads(s.ask("GET", "/api/texts/long-1")[2])["body"]), most)
    for id in ["long-0", "long-3", "long-4"]:
        check(status("GET", "/api/texts/" + id), 404)
    # A refusal can be heard although much was sent with it.
    check(why(s.ask("PUT", "/api/texts/a", b"x" * 3000000, {"If-Match": '"0"'}, token="wrong")), (403, "token"))
    check(why(s.ask("POST", "/api/bundle", b" " * (64 * 1024 * 1024 + 1))), (413, "too-long"))
    for id in ["long", "long-1", "long-2"]:
        s.ask("DELETE", "/api/texts/" + id, headers={"If-Match": '"1"'})


def one_file_out_and_in():
    with Scratch() as second:
        other = Server(program, second.path("texts.db"), second.page)
        s.put("b1", "first", 0, "larder")
        s.put("b1", "second", 1, "larder")
        code, headers, data = s.ask("GET", "/api/bundle?all=1")
        check((code, headers["Content-Disposition"]), (200, 'attachment; filename="bowlwright.json"'))
        bundle = json.loads(data)
        check((bundle["bowlwright"], bundle["damaged"], bundle["more"]), (1, 0, False))
        for _ in range(2):
            said = json.loads(other.ask("POST", "/api/bundle", data)[2])
            check((said["texts"], said["ignored"]), (len(bundle["texts"]), 0))
            again = json.loads(other.ask("GET", "/api/bundle?all=1")[2])
            check(again["texts"], bundle["texts"])
            check(again["versions"], bundle["versions"])
        # A file that another edition wrote, some of it unreadable.
        text = {"id": "b1", "kind": "larder", "body": "third", "rev": 7, "saved": "2026-11-01T10:00:00Z"}
        mixed = [text, {**text, "id": "a/b"}, {**text, "id": "b2", "kind": "poem"}, {**text, "id": "b3", "rev": 0}, {**text, "id": "b4", "rev": "1"},
                 {**text, "id": "b5", "saved": "yesterday"}, {**text, "id": "b6", "rev": 10 ** 12}, {**text, "id": "b7", "body": None}, 7, None, []]
        said = json.loads(other.ask("POST", "/api/bundle", json.dumps({"bowlwright": 1, "texts": mixed}).encode())[2])
        check((said["texts"], said["ignored"]), (1, 10))
        check([v["body"] for v in other.read("/api/texts/b1/versions")["versions"]], ["second", "first"])
        check(other.read("/api/texts/b1")["body"], "third")
        for bad in [b"", b"{}", b"[]", b'{"bowlwright":2,"texts":[]}', b'{"bowlwright":1,"texts":{}}', b'{"bowlwright":1,"texts":[7]}',
                    b'{"bowlwright":1,"texts":[],"versions":7}']:
            check(why(other.ask("POST", "/api/bundle", bad)), (400, "json"), bad)
        check(other.stop(), 0)


# ---- clients without manners ----

def clients_without_manners():
    host = b"Host: 127.0.0.1:%d\r\n" % s.port
    half = []
    for data in [b"", b"GET", b"GET / HTTP/1.1\r\n", b"GET / HTTP/1.1\r\n" + host, b"PUT /api/texts/slow HTTP/1.1\r\n" + host +
                 b"X-Bowlwright-Token: " + s.token.encode() + b"\r\nIf-Match: \"0\"\r\nContent-Length: 100\r\n\r\n{\"kind\":"]:
        c = socket.create_connection((s.address, s.port))
        c.sendall(data)
        half.append(c)
    check(status("GET", "/api/texts"), 200)  # nobody waits for them
    for c in half:
        c.close()
    for data in [b"\0" * 100, b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n" + host + b"\r\n", b"\r\n\r\n\r\n", b"GET / HTTP/1.1\r\n" + host + b"X: " + b"y" * 200000 + b"\r\n\r\n",
                 b"GET /" + b"a" * 100000 + b" HTTP/1.1\r\n" + host + b"\r\n", b"PUT / HTTP/1.1\r\n" + host + b"Content-Length: -5\r\n\r\n",
                 b"PUT /api/texts/a HTTP/1.1\r\n" + host + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n", b"GET / HTTP/1.1\r\n" + host + host + b"\r\n"]:
        s.raw(data)
        check(status("GET", "/api/texts"), 200, data[:40])
    check(status("GET", "/api/texts/slow"), 404)


def an_upload_without_end():
    """What is refused is read so that the refusal is heard, but not for ever."""
    with socket.create_connection((s.address, s.port), timeout=60) as c:
        c.sendall(b"PUT /api/texts/a HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nContent-Length: 10000000000\r\n\r\n" % s.port)
        try:
            for _ in range(400):
                c.sendall(b"x" * 1024 * 1024)
        except OSError:
            return
    raise AssertionError("400 MiB were taken in")


def many_connections():
    crowd = []
    for _ in range(150):
        try:
            crowd.append(socket.create_connection((s.address, s.port), timeout=10))
        except OSError:
            break
    for c in crowd:
        c.close()
    for _ in range(400):  # the server may still be busy with seeing them off
        try:
            check(status("GET", "/api/texts"), 200)
            return
        except (OSError, http.client.HTTPException):
            time.sleep(0.05)
    raise AssertionError("nobody is answered any more")


def saying_it_in_pieces():
    """A text that comes in chunks, and several requests on one connection."""
    data = json.dumps({"kind": "recipe", "body": "in pieces"}).encode()
    c = s.connect()
    c.request("PUT", "/api/texts/pieces", body=iter([data[:5], data[5:]]), encode_chunked=True,
              headers={"Transfer-Encoding": "chunked", "If-Match": '"0"', "X-Bowlwright-Token": s.token})
    answer = c.getresponse()
    check(answer.status, 200)
    answer.read()
    check(s.put("pieces", "again", 1, connection=c)[0], 200)
    check(s.ask("GET", "/api/texts", connection=c)[0], 200)
    c.close()


with Scratch() as scratch:
    s = Server(program, scratch.path("texts.db"), scratch.page)
    try:
        run_tests([the_page_is_told_where_it_is, files_of_the_page, every_answer_is_guarded, the_policy_is_the_one_of_the_page,
                   nothing_outside_the_page, nobody_without_the_token, no_foreign_names, no_foreign_pages, methods, a_text_over_http,
                   versions_in_portions, words_that_are_no_request, one_file_out_and_in, how_long_a_text_may_be,
                   clients_without_manners, an_upload_without_end, many_connections, saying_it_in_pieces])
    finally:
        assert s.process.poll() is None, "the server ended: %s" % s.said()
        assert s.stop() == 0
