"""Pieces that are easily taken for each other, and the difference in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from seqviz.assembly.kinds import Kind
from seqviz.parts.likeness import Feature, Look, Motion, motions, same_body, unmatched
from seqviz.scene.lengths import length_text
from seqviz.scene.odd_holes import OddGroup, odd_under, seen_words, way_words
from seqviz.scene.phrases import counted, listed

__all__ = ["look_alikes"]

_NEAR = 2.0  # mm: pieces this near in size are taken for each other
_SAME = 0.5  # mm: pieces this near in everything are the same piece
_PAIRS = 4  # more pieces of a size than this are told in one sentence
_NAMED = 12  # names that are read in one sentence

Seen = tuple[Kind, Look]


def look_alikes(
    pieces: Sequence[Seen],
    openings: Mapping[str, Sequence[str]],
    materials: Mapping[str, str | None],
    units: str,
) -> tuple[str, ...]:
    """Return sentences: pieces that are the same, mirror images, or differ in holes or material only.

    ``openings`` are the names of the openings of each kind, ``materials`` what it is made of, by its name.
    """
    families: list[list[Seen]] = []
    for piece in pieces:
        made_of = materials.get(piece[0].name)
        family = next(
            (
                one
                for one in families
                if materials.get(one[0][0].name) == made_of and _same_piece(one[0], piece)
            ),
            None,
        )
        if family is None:
            families.append([piece])
        else:
            family.append(piece)
    out = [_one_piece(family) for family in families if len(family) > 1]
    for crowd in _crowds([family[0] for family in families]):
        if len(crowd) > _PAIRS:
            out.append(_many(crowd))
            continue
        for number, one in enumerate(crowd):
            out += [
                _made_of(one, other, materials) or _difference(one, other, openings, units)
                for other in crowd[number + 1 :]
            ]
    return tuple(out)


def _same_piece(one: Seen, other: Seen) -> bool:
    if not _near(one, other, _SAME) or len(one[1].features) != len(other[1].features):
        return False
    return any(motion.proper and _meets(one[1], other[1], motion) for motion in motions(one[1]))


def _made_of(one: Seen, other: Seen, materials: Mapping[str, str | None]) -> str | None:
    """Return the sentence about pieces that only their material tells apart; None where more does."""
    if not _same_piece(one, other):
        return None
    told = (f"{kind.name} {_made(materials.get(kind.name))}" for kind, _ in (one, other))
    return f"{one[0].name} and {other[0].name} differ in their material only: {', '.join(told)}."


def _made(material: str | None) -> str:
    return f"is of {material}" if material else "names none"


def _meets(one: Look, other: Look, motion: Motion) -> bool:
    return (
        same_body(one, other, motion, _SAME)
        and not unmatched(one.features, other.features, motion)
        and len(one.features) == len(other.features)
    )


def _near(one: Seen, other: Seen, slack: float) -> bool:
    """Say whether two pieces agree in size, shape and thickness."""
    if one[0].part.shape != other[0].part.shape or len(one[1].size) != len(other[1].size):
        return False
    sizes = (np.sort(one[1].size), np.sort(other[1].size))
    return bool(np.abs(sizes[0] - sizes[1]).max() <= slack) and abs(_sheet(one) - _sheet(other)) < 0.05


def _sheet(piece: Seen) -> float:
    return next((flat.thickness for flat in piece[0].part.flats.values()), 0.0)


def _crowds(pieces: Sequence[Seen]) -> list[list[Seen]]:
    """Return groups of two or more that look alike but for their holes or hands; each is like the first."""
    left, crowds = list(pieces), []
    while left:
        first, rest = left[0], left[1:]
        like = [piece for piece in rest if _near(first, piece, _NEAR) and _alike(first[1], piece[1])]
        if like:
            crowds.append([first, *like])
        left = [piece for piece in rest if piece not in like]
    return crowds


def _alike(one: Look, other: Look) -> bool:
    return any(same_body(one, other, motion, _NEAR) for motion in motions(one))


def _one_piece(family: Sequence[Seen]) -> str:
    names = _short([kind.name for kind, _ in family])
    which = "either goes in the other's place" if len(names) == 2 else "any of them goes in any of the places"
    return f"{listed(names)} are the same piece: {which}."


def _short(names: list[str]) -> list[str]:
    """Return the names, of a long list the first ones and how many more there are."""
    more = len(names) - _NAMED
    return [*names[:_NAMED], f"{more} more"] if more > 1 else names


def _many(crowd: Sequence[Seen]) -> str:
    told = _short([f"{kind.name} ({counted(len(look.features), 'hole')})" for kind, look in crowd])
    return f"{listed(told)} are of one size and differ in their holes."


def _difference(one: Seen, other: Seen, openings: Mapping[str, Sequence[str]], units: str) -> str:
    names = f"{one[0].name} and {other[0].name}"
    if any(not motion.proper and _meets(one[1], other[1], motion) for motion in motions(one[1])):
        return f"{names} are mirror images{_hands(one, other, openings, units)}."
    counts = [Counter(round(feature.size, 3) for feature in piece[1].features) for piece in (one, other)]
    if counts[0] != counts[1]:
        told = [
            f"{piece[0].name} has {_holes(count, units)}"
            for piece, count in zip((one, other), counts, strict=True)
        ]
        return f"{names} are of one size: {', '.join(told)}."
    return f"{names} are of one size and have the same number of holes, in other places{_stray(one, other)}."


def _hands(one: Seen, other: Seen, openings: Mapping[str, Sequence[str]], units: str) -> str:
    """Return on which end the odd holes of two hands lie; nothing where their shape tells it."""
    kind, look = one
    for motion in motions(look):
        if motion.proper or motion.still or not same_body(look, look, motion, _SAME):
            continue
        groups = odd_under(look, motion, openings.get(kind.name, ()))
        if groups:
            told = [
                f"{way_words(there, piece[1], piece[0], None)} on {piece[0].name}"
                for piece in (one, other)
                if (there := _on(groups[0], piece)) is not None
            ]
            if len(told) == 2:
                return f": {groups[0].called(units)} lies {', '.join(told)}{seen_words(kind, None)}"
    return ""


def _on(group: OddGroup, piece: Seen) -> OddGroup | None:
    """Return the same holes on another piece, None where it calls them something else."""
    names = {f"{group.name}.{number}" for number in group.numbers}
    places = [feature.place for feature in piece[1].features if feature.name in names]
    return replace(group, place=np.mean(places, axis=0)) if places else None


def _holes(count: Counter[float], units: str) -> str:
    if not count:
        return "no holes"
    return listed([f"{number} of {length_text(size, units)}" for size, number in sorted(count.items())])


def _stray(one: Seen, other: Seen) -> str:
    """Return an example of a hole without a partner."""
    best: tuple[Feature, ...] | None = None
    for motion in motions(one[1]):
        if same_body(one[1], other[1], motion, _NEAR):
            missing = unmatched(one[1].features, other[1].features, motion)
            best = missing if best is None or len(missing) < len(best) else best
    named = [feature.name for feature in best or () if feature.name]
    return f": {one[0].name}.{named[0]} has no partner" if named else ""
