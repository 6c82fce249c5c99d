"""Which rule packs may run: those the user allowed, outside of any repository.

A pack is code. A `hts.toml` that names one may come from anybody, with a pull request as well, so
it is no consent. The user consents by name: on the command line, or in the `hts.toml` of their own
folder of settings.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from hts.base.text.reading import Unreadable, read_text, root_of
from hts.checking.configuration.configuration import ConfigurationError

FILE = "hts.toml"
KEY = "allow-packs"

#: Named for this process: by an option, or by the program that uses the library.
_named: set[str] = set()
_without: list[bool] = []


def allow(*packs: str) -> None:
    """Lets rule packs of these names run in this process, wherever settings name them."""
    _named.update(packs)


def run_none() -> None:
    """Lets no rule pack run in this process; settings that name one are no error then."""
    _without.append(True)


@contextmanager
def without_packs() -> Iterator[None]:
    """Within, settings are read for what no pack has a part in, and none is asked about."""
    _without.append(True)
    try:
        yield
    finally:
        _without.pop()


def none_runs() -> bool:
    """Whether the user wants no pack at all."""
    return bool(_without)


def users_file() -> str:
    """The file of the user's own settings."""
    # Only settings that name a pack pay for it.
    import platformdirs

    return os.path.join(platformdirs.user_config_dir("hts", appauthor=False), FILE)


def allowed(settings: str) -> frozenset[str]:
    """The packs that may run where a file of settings names them. Raises ConfigurationError."""
    own = users_file()
    if not os.path.isfile(own):
        return frozenset(_named)
    root = os.path.join(os.path.realpath(root_of(settings)), "")
    if os.path.realpath(own).startswith(root):
        # A home folder within the repository: whoever writes there writes this file, too.
        return frozenset(_named)
    return frozenset(_named) | _read(own)


def _read(path: str) -> frozenset[str]:
    import tomllib

    try:
        data = tomllib.loads(read_text(path))
    except (Unreadable, ValueError) as error:
        raise ConfigurationError(path, f"these settings cannot be read: {error}") from None
    packs = data.get(KEY, [])
    if set(data) - {KEY} or not (
        isinstance(packs, list) and all(isinstance(pack, str) for pack in packs)
    ):
        raise ConfigurationError(
            path, f"the user's own settings hold one key, `{KEY}`", f'write {KEY} = ["tern"]'
        )
    return frozenset(packs)


def forbidden(packs: Iterable[str], settings: str) -> list[str]:
    """Those of the packs that may not run. Raises ConfigurationError."""
    may = allowed(settings)
    return [pack for pack in packs if pack not in may]
