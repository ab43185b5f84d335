"""Chooses from where a step is looked at: new part and holes are seen, and the view stays as it was."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.render.seen import Seen, Survey
from seqviz.render.view import View
from seqviz.scene.picture import Scene
from seqviz.scene.views import angle_between, first_view, views

__all__ = ["choose_for_run", "good_enough", "score"]

# Project choice; a step picture must show half of a new part at least.
_SEEN, _HOLES = 0.6, 0.9
_STEADY = 0.6
_TRIED = 6
_FLAT_ARROW = 25.0


def choose_for_run(surveys: Callable[[int], Survey], frames: Sequence[Callable[[Array], View]]) -> list[Seen]:
    """Return what is seen of each step between two turns of the work, with few changes of view.

    Parameters
    ----------
    surveys
        Gives the survey of a step by its place in the run.
    frames
        For each step the view for a direction.

    Notes
    -----
    A step that cannot be seen from where the one before was asks all directions. The best of them that serve
    the steps before as well are taken for all: then the view did not change.
    """
    chosen: list[Seen] = []
    start = 0
    for k, frame in enumerate(frames):
        survey = surveys(k)
        first = first_view(survey.scene.up, survey.scene.forward)
        before = chosen[-1].view.towards if chosen else first
        ranked = _ranked(survey, frame, before)
        earlier = _for_earlier(ranked, surveys, frames, (start, k)) if _changed(ranked, before) else None
        if earlier is not None:
            chosen[start:] = earlier
        elif _changed(ranked, before):
            start = k
        chosen.append(ranked[0])
    return chosen


def _changed(ranked: Sequence[Seen], before: Array) -> bool:
    return angle_between(ranked[0].view.towards, before) > 0.01


def _ranked(survey: Survey, frame: Callable[[Array], View], before: Array) -> list[Seen]:
    """Return what is seen from ``before`` if that is good enough, else from everywhere, the best first."""
    seen = survey.seen(frame(before))
    if good_enough(survey.scene, seen):
        return [seen]
    everywhere = [survey.seen(frame(towards)) for towards in views(survey.scene.up, survey.scene.forward)]
    return sorted([seen, *everywhere], key=lambda one: -score(survey.scene, one, before))


def _for_earlier(
    ranked: list[Seen],
    surveys: Callable[[int], Survey],
    frames: Sequence[Callable[[Array], View]],
    steps: tuple[int, int],
) -> list[Seen] | None:
    """Find a good view that also serves the earlier ``steps``; put it first, return what it sees of them."""
    for one in ranked[:_TRIED]:
        found: list[Seen] = []
        for j in range(*steps):
            survey = surveys(j)
            found.append(survey.seen(frames[j](one.view.towards)))
            if not good_enough(survey.scene, found[-1]):
                break
        else:
            ranked.remove(one)
            ranked.insert(0, one)
            return found
    return None


def good_enough(scene: Scene, seen: Seen) -> bool:
    """Say whether a view may stay: new parts and holes are seen, and no way in points at the eye."""
    return (
        min(_shares(scene, seen), default=1.0) >= _SEEN
        and seen.holes >= _HOLES
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
        + 1.5 * seen.holes
        + min(0.5, 5 * size)
        + 0.5 * min(1.0, flat)
        - _STEADY * change
    )


def _shares(scene: Scene, seen: Seen) -> list[float]:
    return [seen.share(k) for k, item in enumerate(scene.items) if item.role == "new"]


def _arrow_angles(scene: Scene, seen: Seen) -> list[float]:
    found = []
    for arrow in scene.arrows:
        angle = angle_between(arrow.way / np.linalg.norm(arrow.way), seen.view.towards)
        found.append(min(angle, 180.0 - angle))
    return found
