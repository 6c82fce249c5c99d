"""What the server refuses. Attacks: DNS rebinding, requests from other sites, guessed addresses,
paths that lead out (OWASP Top Ten 2021, A01; the W3C's Fetch Metadata)."""

from __future__ import annotations

import http.client
import os
import socket
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from hts.generate import ROOT
from hts.view.server import Server
from hts.view.shelf import Shelf
from hts.view.site import Site

SPEC = Path(ROOT, "specs/p22-header.hts")


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    made = Server(Site(Shelf(str(SPEC))))
    thread = threading.Thread(target=made.serve_forever, args=(0.05,), daemon=True)
    thread.start()
    yield made
    made.shutdown()
    made.server_close()


def ask(
    server: Server, path: str, method: str = "GET", heads: dict[str, str] | None = None
) -> http.client.HTTPResponse:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=20)
    connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
    for name, value in ({"Host": f"127.0.0.1:{server.server_address[1]}"} | (heads or {})).items():
        connection.putheader(name, value)
    connection.endheaders()
    return connection.getresponse()


def page(server: Server, path: str = "page.css") -> str:
    return server.site.base + path


@pytest.mark.parametrize(
    ("heads", "status"),
    [
        ({}, 200),
        ({"Host": "localhost:{port}"}, 200),
        ({"Origin": "http://127.0.0.1:{port}"}, 200),
        ({"Sec-Fetch-Site": "same-origin"}, 200),
        ({"Sec-Fetch-Site": "none"}, 200),
        ({"Host": "evil.example"}, 421),
        ({"Host": "evil.example:{port}"}, 421),
        ({"Host": "127.0.0.1"}, 421),
        ({"Host": "127.0.0.1:1"}, 421),
        ({"Host": "127.0.0.1:{port}.evil.example"}, 421),
        ({"Host": ""}, 421),
        ({"host": "evil.example", "Host": "evil.example"}, 400),
        ({"Origin": "http://evil.example"}, 403),
        ({"origin": "http://evil.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Origin": "http://127.0.0.1:1"}, 403),
        ({"Origin": "https://127.0.0.1:{port}"}, 403),
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
    ],
)
def test_only_our_own_pages_may_ask(server: Server, heads: dict[str, str], status: int) -> None:
    port = str(server.server_address[1])
    filled = {name: value.replace("{port}", port) for name, value in heads.items()}
    assert ask(server, page(server), heads=filled).status == status


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/", 403),
        ("/page.css", 403),
        ("/{key}x/page.css", 403),
        ("/{short}/page.css", 403),
        ("//{key}/page.css", 200),
        ("/{key}/../page.css", 404),
        ("/{key}/..%2f..%2fetc/passwd", 404),
        ("/{key}/%2e%2e/%2e%2e/etc/passwd", 404),
        ("/{key}/spec/../../../../etc/passwd", 404),
        ("/{key}/spec//etc/passwd", 404),
        ("/{key}/spec/..\\..\\hts.toml", 404),
        ("/{key}/spec/specs/p22-header.hts", 404),
        ("/{key}/spec/0123456789abcdef", 404),
        ("/{key}/server.py", 404),
        ("/{key}/page.css/..", 404),
        ("http://evil.example/{key}/page.css", 403),
    ],
)
def test_no_path_leads_out(server: Server, path: str, status: int) -> None:
    key = server.guard.key
    assert ask(server, path.format(key=key, short=key[:-1])).status == status


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
def test_nothing_can_be_changed(server: Server, method: str) -> None:
    refused = ask(server, page(server), method)
    assert (refused.status, refused.read()) == (405, b"only reading is possible here\n")


def test_other_methods_and_long_requests_get_nothing(server: Server) -> None:
    assert ask(server, page(server), "TRACE").status == 501
    head = ask(server, page(server), "HEAD")
    assert (head.status, head.read()) == (200, b"")
    with pytest.raises((http.client.HTTPException, ConnectionError)):
        ask(server, page(server), heads={"X": "y" * 20_000})


def test_every_answer_shuts_the_page_off(server: Server) -> None:
    for path in ("page.css", server.site.first, "nothing"):
        heads = ask(server, page(server, path)).headers
        policy = heads["Content-Security-Policy"]
        assert policy.startswith("default-src 'none'; script-src 'nonce-")
        assert "frame-ancestors 'none'" in policy and "unsafe" not in policy
        assert heads["X-Content-Type-Options"] == "nosniff"
        assert heads["Referrer-Policy"] == "no-referrer"
        assert heads["Cross-Origin-Resource-Policy"] == "same-origin"
        assert heads["Access-Control-Allow-Origin"] is None
        assert heads["Set-Cookie"] is None


def test_two_starts_have_two_keys_and_the_loopback_alone(server: Server) -> None:
    with Server(Site(Shelf(str(SPEC)))) as other:
        assert other.guard.key != server.guard.key
        assert len(other.guard.key) >= 32
    assert server.socket.getsockname()[0] == "127.0.0.1"
    outside = socket.gethostbyname(socket.gethostname())
    if not outside.startswith("127."):
        with pytest.raises(OSError), socket.socket() as asked:
            asked.settimeout(2)
            asked.connect((outside, server.server_address[1]))


def test_links_out_of_the_repository_are_not_listed(tmp_path: Path) -> None:
    outside, inside = tmp_path / "outside", tmp_path / "inside"
    (inside / ".git").mkdir(parents=True)
    outside.mkdir()
    (outside / "secret.hts").write_text("spec 1\n# secret\n")
    (inside / "own.hts").write_text('spec 1\nuse "../outside/secret.hts"\n')
    os.symlink(outside / "secret.hts", inside / "linked.hts")
    os.symlink(outside, inside / "folder")
    shelf = Shelf(str(inside))
    site = Site(shelf)
    assert [one.name for one in shelf.list(str)] == ["own.hts"]
    assert len(shelf.refused) == 2
    shelf.fill_now()
    own = site.answer(["spec", shelf.keys[0]], {}, "n").body.decode()
    assert "# secret" not in own
    assert len(shelf.keys) == 1 and not shelf.key_of(str(outside / "secret.hts"))
