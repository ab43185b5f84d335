"""seqviz: shows and checks the order of work for riveted sheet-metal structures."""

__version__ = "0.1.0"
__all__ = ["__version__"]
