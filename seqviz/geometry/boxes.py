"""The broad phase: which of many bodies have boxes that come near each other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.solids import Solids

__all__ = ["near_pairs"]


def near_pairs(bodies: Sequence[Solids], margin: float = 0.0) -> NDArray[np.int64]:
    """Return ``(k, 2)`` pairs of bodies whose axis-parallel boxes, ``margin`` mm apart at most, touch.

    The first index is the smaller one; pairs come in ascending order. A body without pieces is near nothing.
    """
    solid = [k for k, body in enumerate(bodies) if len(body)]
    if len(solid) < 2:
        return np.zeros((0, 2), dtype=np.int64)
    low = np.array([bodies[k].low.min(axis=0) for k in solid]) - margin / 2
    high = np.array([bodies[k].high.max(axis=0) for k in solid]) + margin / 2
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    first, second = tree.query(tree.geometries, predicate="intersects")
    upright = (low[first, 2] <= high[second, 2]) & (low[second, 2] <= high[first, 2])
    pairs = np.column_stack([first, second])[upright & (first < second)]
    return np.asarray(np.array(solid)[pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))]], dtype=np.int64)
