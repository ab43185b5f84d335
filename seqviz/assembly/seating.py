"""Seating a part whose holes lean too little to tell its height: the faces that lie down tell it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seqviz.assembly.fitting import Pair, Placing, freedom, judged
from seqviz.geometry.lines import fit_lines
from seqviz.geometry.pose import Array, Pose, cross, unit
from seqviz.geometry.separation import TOLERANCE
from seqviz.parts.part import Part

__all__ = ["face_points", "seated"]

LEANING = 30.0
"""degrees: holes that lean from their mean by no more tell heights badly. Between two ends that lean by 5
degrees each way 0.1 mm of length is more than 0.5 mm of height (project choice)."""

CLEAR = 0.5
"""mm: heights that are wrong by more come of no play; then the holes are off (project choice)."""


def seated(part: Part, pairs: list[Pair], placing: Placing) -> Placing:
    """Return the placing with the lying faces on their targets, where the holes alone decide it badly.

    Every rivet pulls a kinked stringer down onto its skin: a tenth of play along it must not lift it off, nor
    sink it in.
    """
    if placing.turned or freedom(pairs, placing.fit) != "nothing" or not _lean_little(pairs):
        return placing
    off = _off_faces(part, pairs, placing.fit.pose)
    if off <= TOLERANCE:
        return placing
    other = _on_faces(part, pairs, placing.fit.pose)
    better = _off_faces(part, pairs, other.fit.pose) < off and (other.good or off > CLEAR)
    return other if better else placing


def face_points(part: Part, pairs: list[Pair], pose: Pose) -> tuple[Array, Array]:
    """Return ``(n, 3)`` mm, base frame: where the axes meet the faces that lie down, and those beneath."""
    own = [pose.points(p.own.centre + p.down * part.thickness_at(p.own) / 2) for p in pairs]
    beneath = [p.spot + p.outward * p.target_part.part.thickness_at(p.target) / 2 for p in pairs]
    return np.array(own), np.array(beneath)


def _lean_little(pairs: list[Pair]) -> bool:
    outward = np.array([p.outward for p in pairs])
    total = outward.sum(axis=0)
    return bool((outward @ total).min() > np.cos(np.radians(LEANING)) * np.linalg.norm(total))


def _off_faces(part: Part, pairs: list[Pair], pose: Pose) -> float:
    """Return how far the worst lying face is above or under the one it lies on, at its hole, mm."""
    own, beneath = face_points(part, pairs, pose)
    return float(np.abs(((own - beneath) * np.array([p.outward for p in pairs])).sum(axis=1)).max())


def _on_faces(part: Part, pairs: list[Pair], pose: Pose) -> Placing:
    """Fit the holes, and with them lines that lie in the faces: a line in a face is fitted in height too."""
    outward = np.array([p.outward for p in pairs])
    across = cross(outward.sum(axis=0), _longest(np.array([p.spot for p in pairs])))
    lines = np.array([unit(cross(across, axis)) for axis in outward])
    own, beneath = face_points(part, pairs, pose)
    back = pose.inverse()
    count = len(pairs)
    fit = fit_lines(
        np.concatenate([[p.own.centre for p in pairs], back.points(own)]),
        np.concatenate([[p.down for p in pairs], back.vectors(lines)]),
        np.concatenate([[p.spot for p in pairs], beneath]),
        np.concatenate([-outward, lines]),
    )
    return judged(pairs, replace(fit, residuals=fit.residuals[:count], tilts=fit.tilts[:count]), turned=False)


def _longest(spots: Array) -> Array:
    """Return the direction in which holes, ``(n, 3)`` mm, lie farthest apart."""
    return np.asarray(np.linalg.svd(spots - spots.mean(axis=0))[2][0])
