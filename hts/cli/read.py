"""Values of options, read as the language reads them."""

from __future__ import annotations

from collections.abc import Callable

import click

from hts.quantities import TIME, Quantity, QuantityError


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
