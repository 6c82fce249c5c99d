"""What a wiring fault does to the reading.

A circuit has three places: the measuring junction, the head where the couple meets its
extension cable, and the instrument, which adds E(instrument) for its own terminals. Wired
right, E(junction) - E(head) + E(head) - E(instrument) + E(instrument) = E(junction). Each
function below changes one term of that sum. All temperatures are in degC.

Every function raises UnknownName for an unknown type and OutOfRange where a temperature is
outside the reference function or the faulty emf drives the instrument off scale. Basis:
derived from the sum above and the reference functions.
"""

from __future__ import annotations

from hts.science.thermocouples.reference import emf, temperature


def reversed_once(type: str, junction: float, instrument: float) -> float:
    """Reading with both legs swapped once, at the instrument or in the whole loop.

    The reading falls as the part gets hotter, so a controller runs away to full power.
    """
    return temperature(type, 2 * emf(type, instrument) - emf(type, junction))


def extension_reversal_emf(type: str, head: float, instrument: float) -> float:
    """Emf error in mV of an extension pair reversed at both its ends."""
    return -2 * emf(type, head, instrument)


def extension_reversed(type: str, junction: float, head: float, instrument: float) -> float:
    """Reading with the extension pair reversed at both its ends.

    The sign looks right, but with the head warmer than the instrument the reading is low and
    the part is overheated; there is no error where both stand at one temperature.
    """
    return temperature(type, emf(type, junction) + extension_reversal_emf(type, head, instrument))


def copper_extension(type: str, junction: float, head: float, instrument: float) -> float:
    """Reading with plain copper in place of the extension cable."""
    return temperature(type, emf(type, junction) - emf(type, head, instrument))


def wrong_extension(
    type: str, extension: str, junction: float, head: float, instrument: float
) -> float:
    """Reading with the extension cable of another type, `extension`."""
    error = emf(extension, head, instrument) - emf(type, head, instrument)
    return temperature(type, emf(type, junction) + error)


def wrong_input(wire: str, input: str, junction: float, terminals: float) -> float:
    """Reading of a couple and cable of type `wire` on an instrument set to type `input`."""
    return temperature(input, emf(wire, junction, terminals), terminals)
