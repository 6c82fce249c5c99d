"""What may be asked of the server at all: told from the head of a request alone.

A page of another site can make a browser ask anything of this machine, under a name that leads here
(DNS rebinding), from a script or from a link. None of these knows the key, says our Host, or comes
from our own pages.
"""

from __future__ import annotations

import hmac
import secrets
from email.message import Message

#: Bytes of the key in every address.
_KEY_BYTES = 24
#: A request is no longer than this, in bytes.
LONGEST = 8192


class Refused(Exception):
    """A request that gets no page: `status` is that of HTTP."""

    def __init__(self, status: int, why: str) -> None:
        self.status = status
        super().__init__(why)


def new_key() -> str:
    """A key nobody can guess, new at every start."""
    return secrets.token_urlsafe(_KEY_BYTES)


class Guard:
    """`key` is the first step of every path, `port` the one that is listened on."""

    def __init__(self, key: str, port: int) -> None:
        self.key = key
        self.names = (f"127.0.0.1:{port}", f"localhost:{port}")

    def steps(self, method: str, path: str, heads: Message) -> list[str]:
        """The steps of the path behind the key. Raises Refused."""
        if method not in ("GET", "HEAD"):
            raise Refused(405, "only reading is possible here")
        if heads.get("Host", "") not in self.names:
            raise Refused(421, "not a name of this server")
        origin = heads.get("Origin")
        if origin is not None and origin not in [f"http://{name}" for name in self.names]:
            raise Refused(403, "asked from another site")
        # A person who types or opens the address comes from nowhere: `none`.
        if heads.get("Sec-Fetch-Site", "none") not in ("none", "same-origin"):
            raise Refused(403, "asked from another site")
        first, *steps = path.partition("?")[0].lstrip("/").split("/")
        if not hmac.compare_digest(first.encode(), self.key.encode()):
            raise Refused(403, "the address is not complete: open the one hts view has printed")
        if any(step in (".", "..") or "%" in step or "\\" in step for step in steps):
            raise Refused(404, "there is no such page")
        return steps


def heads_of(nonce: str, kind: str) -> dict[str, str]:
    """The heads of every answer."""
    return {
        "Content-Type": kind,
        "Content-Security-Policy": (
            f"default-src 'none'; script-src 'nonce-{nonce}'; style-src 'nonce-{nonce}'; "
            "connect-src 'self'; img-src data:; form-action 'self'; base-uri 'none'; "
            "frame-ancestors 'none'"
        ),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cache-Control": "no-store",
    }
