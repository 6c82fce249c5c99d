"""`python -m hts`."""

from hts.cli.main import main

main()
