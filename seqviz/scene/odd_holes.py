"""The odd hole: which holes tell how a piece lies, in words; and what looks the same however it is turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seqviz.assembly.kinds import Kind
from seqviz.geometry.pose import Array
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.formed import FORMED
from seqviz.parts.likeness import SAME_SIZE, Feature, Look, Motion, motions, same_body, unmatched
from seqviz.scene.lengths import length_text
from seqviz.scene.phrases import listed, runs, sentence

__all__ = ["OddGroup", "how_it_lies", "odd_groups", "odd_under", "seen_words", "way_words"]

_SLACK = 0.1  # mm: what a piece may differ from itself when it is turned


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OddGroup:
    """Holes of one row and size, or one opening (``numbers`` empty).

    ``place`` is the middle of them from the middle of the piece, (2,) or (3,) mm; ``size`` in mm; ``whole``:
    the row has no other holes. ``axes`` are those along which it shows how the piece lies.
    """

    name: str
    numbers: tuple[int, ...]
    size: float
    place: Array
    whole: bool
    axes: tuple[bool, ...]

    def called(self, units: str) -> str:
        """Return ``foot 5-8 (4.1)``, ``cable hole (80 wide)``."""
        size = length_text(self.size, units)
        if not self.numbers:
            return f"{self.name} ({size} wide)"
        if self.whole and len(self.numbers) > 1:
            return f"row {self.name} ({size})"
        return f"{self.name} {runs(sorted(set(self.numbers)))} ({size})"


def how_it_lies(
    kind: Kind, look: Look, openings: Sequence[str], forward: str | None, units: str
) -> tuple[str, ...]:
    """Return sentences: which odd holes show how the piece lies, and what looks the same turned.

    Parameters
    ----------
    kind, look
        The piece.
    openings
        Names of its openings; too few or too many: they are all called opening.
    forward
        ``+x`` and so on for the base, whose sides have bench words; None: as seen on its flat pattern.
    units
        ``mm`` or ``in``.
    """
    turned = _turned(look)
    if not turned:
        return ("Its shape tells how it lies.",)
    out = _same([motion for motion, missing in turned if not missing], len(turned))
    broken = [(motion, missing) for motion, missing in turned if missing]
    groups = _telling(look, broken, openings)
    if groups:
        placed = [f"{group.called(units)}, {way_words(group, look, kind, forward)}" for group in groups]
        one = len(groups) == 1 and len(groups[0].numbers) <= 1
        seen = seen_words(kind, forward) if any(map(_off_the_middle, placed)) else ""
        out.insert(0, sentence(f"odd hole{'' if one else 's'}: {'; '.join(placed)}{seen}"))
    return tuple(out)


def odd_under(look: Look, motion: Motion, openings: Sequence[str]) -> list[OddGroup]:
    """Return what shows that the piece was moved by ``motion``, the most telling first."""
    return odd_groups(look, unmatched(look.features, look.features, motion), [motion], openings)


def odd_groups(
    look: Look, missing: Sequence[Feature], moved: Sequence[Motion], openings: Sequence[str]
) -> list[OddGroup]:
    """Return ``missing`` features as groups: big ones first, of like ones the fewest.

    A hole that only meets a bigger one in the place where it would come to lie is not the odd one.
    """
    bigger = [
        feature
        for feature in missing
        if not any(_met_by_bigger(feature, look.features, motion) for motion in moved)
    ]
    names = _opening_names(look, openings)
    found: dict[tuple[str, float], list[Feature]] = {}
    for feature in bigger or missing:
        row = feature.name.rpartition(".")[0] if feature.name else names[id(feature)]
        found.setdefault((row, round(feature.size, 3)), []).append(feature)
    groups = [
        OddGroup(
            name=row,
            numbers=tuple(int(one.name.rpartition(".")[2]) for one in holes if one.name),
            size=size,
            place=np.mean([one.place for one in holes], axis=0),
            axes=tuple(any(motion.matrix[k, k] < 0.5 for motion in moved) for k in range(len(look.size))),
            whole=len(holes) == sum((one.name or "").rpartition(".")[0] == row for one in look.features),
        )
        for (row, size), holes in found.items()
    ]
    return sorted(groups, key=lambda group: (bool(group.numbers), -group.size, len(group.numbers)))


def way_words(group: OddGroup, look: Look, kind: Kind, forward: str | None) -> str:
    """Return ``left of the middle``, ``aft of the middle``, ``on leg 2``, ``in the middle``."""
    place = group.place * np.array(group.axes)
    if len(place) == 3:
        pairs = (("front", "back"), ("left", "right"), ("top", "bottom"))
        words = [_end(place[k], look.size[k], pair) for k, pair in enumerate(pairs)]
        return f"towards {listed([word for word in words if word])}" if any(words) else "in the middle"
    if forward is not None:
        return _bench_way(place, look, forward)
    x, y = place * (-1.0 if _upside_down(kind) else 1.0)
    words = [_end(x, look.size[0], ("right of", "left of"))]
    bent = len(kind.part.flats) > 1 and bool(look.bends)
    if bent and group.numbers and not words[0]:
        return f"on {_flat_of(group, kind)}"
    if not bent:
        words.append(_end(y, look.size[1], ("above", "below")))
    return _off(words)


def seen_words(kind: Kind, forward: str | None) -> str:
    """Return how one has to look at the piece for the words of `way_words`; begins with a comma."""
    pattern = flat_pattern(kind.part)
    if pattern is None or forward is not None:
        return ""
    below = f" with {pattern.seen_flat} below" if _along_x(kind) else ""
    return f", seen from the {pattern.seen_from}{below}"


def _flat_of(group: OddGroup, kind: Kind) -> str:
    name = f"{group.name}.{group.numbers[0]}"
    return next(hole.flat for hole in kind.part.holes if hole.name == name)


def _turned(look: Look) -> list[tuple[Motion, tuple[Feature, ...]]]:
    """Return the motions that leave the shape as it is, each with the features that it does not."""
    found = []
    for motion in motions(look):
        if motion.still or not (motion.proper or look.bends or look.curved):
            continue
        if same_body(look, look, motion, _SLACK):
            found.append((motion, unmatched(look.features, look.features, motion)))
    return found


def _telling(
    look: Look, broken: Sequence[tuple[Motion, Sequence[Feature]]], openings: Sequence[str]
) -> list[OddGroup]:
    """Return few groups that together tell every one of the ``broken`` motions."""
    left = list(broken)
    chosen: list[OddGroup] = []
    while left:
        # The motion that least of the piece tells is the hardest to see: its odd hole often tells others too.
        motion, missing = min(left, key=lambda pair: len(pair[1]))
        group = odd_groups(look, missing, [motion], openings)[0]
        chosen.append(group)
        names = {f"{group.name}.{number}" for number in group.numbers}
        left = [
            (other, features)
            for other, features in left
            if other is not motion and not any(_of(group, names, feature) for feature in features)
        ]
    return chosen


def _of(group: OddGroup, names: set[str], feature: Feature) -> bool:
    if feature.name is not None:
        return feature.name in names
    return not group.numbers and bool(np.allclose(feature.place, group.place))


def _same(same: Sequence[Motion], of: int) -> list[str]:
    """Return sentences about the motions that change nothing, out of ``of`` that leave the shape."""
    turns = list(dict.fromkeys(_turn_words(motion) for motion in same if motion.proper))
    if len(turns) > 2 and len(same) == of:
        turns = ["however it is turned"]
    out = [f"It looks the same {listed(turns)}."] if turns else []
    if not all(motion.proper for motion in same):
        out.append("It is its own mirror image: one piece does for both hands.")
    return out


def _turn_words(motion: Motion) -> str:
    if abs(float(motion.matrix[0, 0])) < 0.5:
        return "turned by a quarter"
    x, y = float(motion.matrix[0, 0]), float(motion.matrix[1, 1])
    if x < 0 and y < 0:
        return "turned end for end"
    return "turned over end over end" if x < 0 else "turned over sideways"


def _met_by_bigger(feature: Feature, others: Sequence[Feature], motion: Motion) -> bool:
    place = motion.matrix @ feature.place
    return any(
        other.size > feature.size + SAME_SIZE and float(np.linalg.norm(other.place - place)) < 1.0
        for other in others
    )


def _opening_names(look: Look, openings: Sequence[str]) -> dict[int, str]:
    cut = [feature for feature in look.features if feature.name is None]
    names = openings if len(openings) == len(cut) else ["opening"] * len(cut)
    return {id(feature): name for feature, name in zip(cut, names, strict=True)}


def _upside_down(kind: Kind) -> bool:
    """Say whether the pattern has its first flat on top: the other hand of a bent part."""
    return kind.part.mirrored and _along_x(kind)


def _along_x(kind: Kind) -> bool:
    """Say whether its flats follow each other across x, the first one below."""
    return kind.part.shape in FORMED.values()


def _end(value: float, size: float, words: tuple[str, str]) -> str:
    """Return which way off the middle, nothing where it is hardly off."""
    if abs(float(value)) < max(1.0, 0.01 * float(size)):
        return ""
    return words[0] if value > 0 else words[1]


def _bench_way(place: Array, look: Look, forward: str) -> str:
    """Return the words of the bench for the base: forward is where the model says."""
    axis = "xy".index(forward[-1])
    sign = -1.0 if forward[0] == "-" else 1.0
    # Left is a quarter turn to the left of forward, seen from above.
    left = place[1] * sign if axis == 0 else -place[0] * sign
    ahead = _end(place[axis] * sign, look.size[axis], ("forward of", "aft of"))
    side = _end(left, look.size[1 - axis], ("left of", "right of"))
    return _off([ahead, side])


def _off(words: Sequence[str]) -> str:
    """Return ``aft of the middle and left of it``; empty words do not count."""
    told = [word for word in words if word]
    if not told:
        return "in the middle"
    return " and ".join([f"{told[0]} the middle", *(f"{word} it" for word in told[1:])])


def _off_the_middle(words: str) -> bool:
    return "the middle" in words and "in the middle" not in words
