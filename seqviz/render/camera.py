"""Chooses from where a step is looked at: new part and holes are seen, and the view stays as it was."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.render.seen import Seen, Survey, seen_end
from seqviz.render.view import View
from seqviz.scene.picture import Scene
from seqviz.scene.views import angle_between, first_view, views

__all__ = ["choose_direction", "good_enough", "score"]

# Project choice; a step picture must show half of a new part at least.
_SEEN, _HOLES, _TOUCHED = 0.6, 0.75, 0.004
_STEADY = 0.6
_FLAT_ARROW = 25.0


def choose_direction(
    survey: Survey, view_from: Callable[[Array], View], previous: Array | None
) -> tuple[Array, Seen]:
    """Return the direction towards the eye, and what is seen from there.

    Parameters
    ----------
    survey
        The scene, ready to be measured.
    view_from
        Gives the view for a direction.
    previous
        The direction of the step before, or None after the work was turned.
    """
    scene = survey.scene
    start = first_view(scene.up, scene.forward) if previous is None else previous
    seen = survey.seen(view_from(start))
    if good_enough(scene, seen):
        return start, seen
    best, best_seen, most = start, seen, score(scene, seen, start)
    for towards in views(scene.up, scene.forward):
        other = survey.seen(view_from(towards))
        points = score(scene, other, start)
        if points > most + 1e-9:
            best, best_seen, most = towards, other, points
    return best, best_seen


def good_enough(scene: Scene, seen: Seen) -> bool:
    """Say whether a view may stay: new parts and holes are seen, and no way in points at the eye."""
    return (
        min(_shares(scene, seen), default=1.0) >= _SEEN
        and _holes(scene, seen) >= _HOLES
        and min(_arrow_angles(scene, seen), default=90.0) >= _FLAT_ARROW
    )


def score(scene: Scene, seen: Seen, before: Array) -> float:
    """Return how good a view is: parts and holes seen, size in the picture, arrow; less for a change."""
    shares = [min(1.0, share / 0.7) for share in _shares(scene, seen)]
    size = sum(seen.pixels(k) for k in seen.alone) / seen.ids.size
    flat = min((angle / 35.0 for angle in _arrow_angles(scene, seen)), default=1.0)
    change = angle_between(seen.view.towards, before) / 180.0
    return (
        1.5 * min(shares, default=1.0)
        + 1.5 * _holes(scene, seen)
        + min(0.5, 5 * size)
        + 0.5 * min(1.0, flat)
        - _STEADY * change
    )


def _shares(scene: Scene, seen: Seen) -> list[float]:
    return [seen.share(k) for k, item in enumerate(scene.items) if item.role == "new"]


def _holes(scene: Scene, seen: Seen) -> float:
    marks = [mark for mark in scene.marks if mark.kind != "still open"]
    if not marks:
        return 1.0
    return float(np.mean([seen_end(seen.view, seen.depth, mark) is not None for mark in marks]))


def _arrow_angles(scene: Scene, seen: Seen) -> list[float]:
    found = []
    for arrow in scene.arrows:
        angle = angle_between(arrow.way / np.linalg.norm(arrow.way), seen.view.towards)
        found.append(min(angle, 180.0 - angle))
    return found
