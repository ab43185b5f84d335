"""``python -m seqviz`` does what the command ``seqviz`` does."""

from seqviz.cli import main

if __name__ == "__main__":
    main()
