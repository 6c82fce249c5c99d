"""`python -m hts`."""

from hts.cli.main import start

start()
