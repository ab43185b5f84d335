"""The commands; the only place that prints."""

from seqviz.cli.program import main

__all__ = ["main"]
