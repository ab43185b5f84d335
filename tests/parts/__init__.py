"""Tests of seqviz.parts."""
