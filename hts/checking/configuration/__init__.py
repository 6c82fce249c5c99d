"""What a team sets once in `hts.toml` or `[tool.hts]`, and the baseline of findings."""

from hts.checking.configuration.configuration import Configuration, ConfigurationError
from hts.checking.configuration.find import load, loader

__all__ = ["Configuration", "ConfigurationError", "load", "loader"]
