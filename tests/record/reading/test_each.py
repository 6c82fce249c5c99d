"""Logs that are read together are read as each by itself."""

from pathlib import Path

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading import Options, Wished, read, read_each
from tests.record.reading.formats import FORMATS
from tests.record.reading.short_log import TAGS, table
from tests.record.reading.test_damaged import BITS
from tests.record.reading.test_formats import REFUSED

PLAIN = table(("Time", "T1", "T2", "T3", "T4"))
ENDS = (PLAIN[:-1], PLAIN[:-9], PLAIN + "\n\n", PLAIN + "\r", PLAIN.replace("\n", "\r\n")[:-1])


def contents() -> list[bytes]:
    """Some of each kind: few suffice, for it is the way of reading that is tried."""
    texts = [content for content, *_ in list(FORMATS.values())[::4]]
    texts += [text for text, _ in list(REFUSED.values())[::4]]
    texts += [*ENDS, PLAIN]
    for bit in BITS[::2]:
        at = len(PLAIN) // 2 + len(texts)
        texts.append(PLAIN[:at] + bit + PLAIN[at + 2 :])
    return [one if isinstance(one, bytes) else one.encode() for one in texts]


def test_read_together_or_each_by_itself(tmp_path: Path) -> None:
    options = Options(unit="degC")
    paths = []
    for number, content in enumerate(contents()):
        paths.append(str(tmp_path / f"{number}.csv"))
        Path(paths[-1]).write_bytes(content)
    runs = [[path] for path in paths] + [paths[:2], [paths[0], str(tmp_path / "none.csv")]]
    together = list(read_each([Wished(run, TAGS) for run in runs], options))
    read_alike = 0
    for run, found in zip(runs, together, strict=True):
        try:
            alone = read(run, TAGS, options)
        except RecordError as error:
            assert str(found) == str(error)
        else:
            np.testing.assert_equal(found, alone)
            read_alike += 1
    assert read_alike > 15
