"""The seal on what is kept between runs: only who has the user's key can have written it.

The key is the text of `HTS_CACHE_KEY`, or a file that is made for the user alone, apart from the
kept files: whoever can bring kept files along (a cache handed from job to job, a folder in a
checkout) still cannot forge one. A key that lies in the checkout is none.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import stat
import sys
from contextlib import suppress
from functools import lru_cache

_LENGTH = 32
_LEAST = 16


def seal(text: bytes, root: str | None = None) -> str | None:
    """What proves that the user wrote a text; None where there is no key, or it lies below `root`,
    where others could have put it."""
    key = _key(os.environ.get("HTS_CACHE_KEY", ""), _place(), root and os.path.realpath(root))
    return hmac.new(key, text, hashlib.sha256).hexdigest() if key else None


def same(told: object, seal: str | None) -> bool:
    """Whether a seal is the one told."""
    return (
        seal is not None
        and isinstance(told, str)
        and hmac.compare_digest(told.encode("utf-8", "replace"), seal.encode("ascii"))
    )


def _place() -> str | None:
    """Where the key is kept (XDG Base Directory Specification), None where nobody can say."""
    if sys.platform == "linux":
        base = os.environ.get("XDG_STATE_HOME", "").strip()
        if not os.path.isabs(base):
            base = os.path.expanduser(os.path.join("~", ".local", "state"))
        folder = os.path.join(base, "hts")
    else:
        import platformdirs

        folder = platformdirs.user_state_dir("hts", appauthor=False)
    return os.path.join(folder, "cache.key") if os.path.isabs(folder) else None


@lru_cache(maxsize=8)
def _key(given: str, place: str | None, root: str | None) -> bytes | None:
    if given:
        return given.encode("utf-8", "surrogateescape") if len(given) >= _LEAST else None
    if place is None or (root is not None and _below(place, root)):
        return None
    return _read(place) or _make(place)


def _below(place: str, root: str) -> bool:
    within = os.path.realpath(place).startswith(os.path.join(root, ""))
    return within and os.path.exists(os.path.join(root, ".git"))


def _read(place: str) -> bytes | None:
    with suppress(OSError):
        plain = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
        handle = os.open(place, os.O_RDONLY | plain)
        with open(handle, "rb") as file:
            state = os.fstat(handle)
            alone = os.name == "nt" or (state.st_uid == os.getuid() and not state.st_mode & 0o077)
            if stat.S_ISREG(state.st_mode) and alone:
                key = file.read(_LENGTH + 1)
                return key if len(key) == _LENGTH else None
    return None


def _make(place: str) -> bytes | None:
    """A new key; of two runs that make one at once, both take the one that came first."""
    temporary = f"{place}.{os.urandom(8).hex()}"
    try:
        os.makedirs(os.path.dirname(place), mode=0o700, exist_ok=True)
        handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with open(handle, "wb") as file:
            file.write(os.urandom(_LENGTH))
    except OSError:
        return None
    with suppress(OSError):
        os.link(temporary, place)
    if not os.path.lexists(place):
        with suppress(OSError):  # a disk without hard links
            os.replace(temporary, place)
    with suppress(OSError):
        os.unlink(temporary)
    return _read(place)
