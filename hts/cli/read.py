"""What commands read: specifications, and values of options as the language has them."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from hts.base.quantities import TIME, Quantity, QuantityError

if TYPE_CHECKING:
    from hts.language.model import Spec
    from hts.language.model.defaults import Defaults


def time_of(
    shortest: Quantity, longest: Quantity | None = None
) -> Callable[[click.Context, click.Parameter, str | None], Quantity | None]:
    """The callback of an option that is a time with its unit, within bounds; None where it is
    not given."""

    def read(ctx: click.Context, param: click.Parameter, text: str | None) -> Quantity | None:
        if text is None:
            return None
        try:
            time = Quantity.read(text, TIME)
        except QuantityError as error:
            raise click.BadParameter(str(error), ctx, param) from None
        if time < shortest:
            raise click.BadParameter(f"at least {shortest}", ctx, param)
        if longest is not None and time > longest:
            raise click.BadParameter(f"at most {longest}", ctx, param)
        return time

    return read


def spec_at(path: str, defaults: Defaults) -> Spec:
    """The specification at a path; says why and ends the program where there is none to read."""
    from hts.checking.report.terminal import printable
    from hts.language.model import Loader, Spec
    from hts.language.model.load import Unreadable, root_of

    loader = Loader(root_of(path))
    try:
        return Spec(loader.read(path), loader, defaults)
    except Unreadable as error:
        click.echo(f"cannot read {printable(path)}: {error}", err=True)
        sys.exit(2)
