"""Tests of seqviz.trade."""
