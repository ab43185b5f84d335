"""What was chosen and why, at length, with the sources; and the way out where nothing fits."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.trade.bolts import bolt_rules
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choice_words import allowance, nearest_words, plain, range_name, span, washer_words
from seqviz.trade.fasteners import BOLT, SOLID_RIVET
from seqviz.trade.formed_heads import formed_head_figures
from seqviz.trade.solid_rivets import allowances
from seqviz.units import length_text

__all__ = ["reasons", "way_out"]

_THREADS = "threads beyond the nut, at least"


def reasons(choice: LengthChoice, units: str) -> tuple[str, ...]:
    """Return sentences: why this one, what belongs to it, and where each figure comes from."""
    return tuple(_reasons(choice, units))


def way_out(choice: LengthChoice, units: str) -> str:
    """Return what to do where no length fits: a washer under the tail, another fastener, other data."""
    thing = "bolt" if choice.kind == BOLT else "rivet"
    told = []
    if choice.above is not None:
        least, most = choice.above.low - choice.grip, choice.above.high - choice.grip
        name = range_name(choice.above, units)
        where = "under the nut" if choice.kind == BOLT else "under the tail"
        told.append(f"Put a washer or a shim of {span(least, most, units)} {where} and take {name}")
    if choice.kind == SOLID_RIVET and choice.wanted is not None:
        told.append(f"cut a longer rivet to {plain(choice.wanted, units)} (grip + {allowance()} D)")
    told.append(f"take another {thing}")
    told.append("or list the lengths that its maker has for it under hardware, if there are more")
    words = ", ".join(told)
    return f"{words[0].upper()}{words[1:]}."


def _reasons(choice: LengthChoice, units: str) -> Iterator[str]:
    if choice.taken is not None:
        yield from _range_reasons(choice, units)
    elif choice.verdict == "out of range":
        yield from _nothing_fits(choice, units)
    elif choice.kind == BOLT:
        yield from _bolt_reasons(choice, units)
    elif choice.kind == SOLID_RIVET:
        yield from _rule_reasons(choice, units)
    else:
        yield "No table in seqviz lists this rivet. List its lengths with their grips under hardware."
    if choice.target is not None and choice.minimum is not None:
        yield from _formed_head(choice, units)


def _range_reasons(choice: LengthChoice, units: str) -> Iterator[str]:
    one = choice.taken
    assert one is not None
    name = range_name(one, units)
    grips = span(one.low, one.high, units)
    if choice.between and choice.below is not None:
        lower = range_name(choice.below, units)
        yield (
            f"The grip of {length_text(choice.grip, units)} lies between {lower} and {name} ({grips}): they "
            f"are printed to 0.001 in and leave no grip out, so the longer one counts ({one.source})."
        )
    else:
        yield (
            f"The grip of {length_text(choice.grip, units)} is within {grips}, the grips of {name} "
            f"({one.source})."
        )


def _rule_reasons(choice: LengthChoice, units: str) -> Iterator[str]:
    wanted = plain(choice.wanted or 0.0, units)
    sum_words = (
        f"The grip of {length_text(choice.grip, units)} and {allowance()} D of "
        f"{length_text(choice.diameter, units)} are {wanted}"
    )
    if choice.verdict != "fits":
        yield f"{sum_words} ({choice.source}); nobody says in which lengths this rivet is made."
        yield "List its lengths under hardware, or cut it to that length."
        return
    which = "the next of the lengths in the model" if choice.makers else f"the next, {choice.number}"
    yield f"{sum_words}; {plain(choice.length or 0.0, units)} is {which} ({choice.source})."
    others = [rule for rule in allowances() if rule.value != allowances()[0].value]
    if others:
        named = " and ".join(rule.citation for rule in others)
        yield f"{named} print {others[0].value:g} D instead: too short to form a head."


def _formed_head(choice: LengthChoice, units: str) -> Iterator[str]:
    target, minimum = choice.target, choice.minimum
    assert target is not None
    assert minimum is not None
    yield (
        f"Formed head: {_size(target.width, target.height, units)} ({target.citation}); at least "
        f"{_size(minimum.width, minimum.height, units)} ({minimum.citation})."
    )
    for figure in formed_head_figures(choice.diameter):
        yield f"Printed for this size: {_size(figure.width, figure.height, units)} ({figure.citation})."


def _size(width: float, height: float, units: str) -> str:
    return f"{plain(width, units)} wide and {plain(height, units)} high"


def _nothing_fits(choice: LengthChoice, units: str) -> Iterator[str]:
    grip = length_text(choice.grip, units)
    if choice.longest is not None:
        wanted, longest = plain(choice.wanted or 0.0, units), plain(choice.longest, units)
        yield f"The grip of {grip} and {allowance()} D are {wanted}, and the longest is {longest}."
    else:
        yield f"No length is made for a grip of {grip}: {nearest_words(choice, units)} ({choice.source})."
    yield way_out(choice, units)


def _bolt_reasons(choice: LengthChoice, units: str) -> Iterator[str]:
    if choice.verdict == "not listed":
        yield (
            f"The table in seqviz ends with {choice.number}, grip {plain(choice.longest or 0.0, units)} "
            f"({choice.source}). Look the bolt up, and list it under hardware."
        )
        return
    if choice.bolt_grip is None:
        yield "No table in seqviz lists this bolt. List its lengths with their grips under hardware."
        return
    length, grip = plain(choice.length or 0.0, units), length_text(choice.grip, units)
    over = choice.bolt_grip - choice.grip
    own = plain(choice.bolt_grip, units)
    yield f"{choice.number} has a grip of {own} for a stack of {grip}, and is {length} long."
    names = " and ".join(dict.fromkeys(washer.name for washer in choice.washers))
    thick = plain(sum(washer.thickness for washer in choice.washers), units)
    yield (
        f"Put {washer_words(choice.washers)} ({names}, together {thick}) under the end that is turned, "
        f"usually the nut: {_taken_up(over, units)}."
    )
    if choice.threads_in_hole:
        most = bolt_rules("threads in the hole, at most")[0]
        yield (
            f"{choice.threads_in_hole:.1f} threads lie in the hole; at most {most.value:g} may, and only in "
            f"the thicker part ({most.citation})."
        )
    yield from _threads(choice, units)
    yield f"Sources: {choice.source}."


def _taken_up(over: float, units: str) -> str:
    if over > 0.0005:
        return f"the {plain(over, units)} of shank that stand out do not stop the nut"
    return "the nut does not turn on the sheet"


def _threads(choice: LengthChoice, units: str) -> Iterator[str]:
    if choice.nut is None or choice.threads_showing is None:
        return
    asked = [f"{rule.citation} asks for {rule.value:g}" for rule in bolt_rules(_THREADS)]
    short = [rule for rule in bolt_rules(_THREADS) if choice.threads_showing < rule.value - 1e-6]
    verdict = ", which is not enough for the last" if short else ""
    yield (
        f"With {choice.nut.name}, {plain(choice.nut.height, units)} high, {choice.threads_showing:.1f} "
        f"threads show: {', '.join(asked)}{verdict}."
    )
