"""Entries of ``placed``: which part, on which holes, and how it lies."""

from __future__ import annotations

from seqviz.records.holes import HoleText, MatchPairs
from seqviz.records.kinds import Choice, Length, Text
from seqviz.records.lists import Entries, NameList, Numbers, OneName, Word
from seqviz.records.model import FixedPose, Placed
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values, by_name

__all__ = ["PLACED"]

_WAYS = ("forward", "aft", "left", "right", "up", "down")
_WAY = Choice(words=_WAYS, label="a direction")
_BENCH_WAY = Word(of=Choice(words=(*_WAYS, "inboard", "outboard"), label="a direction"))
_FACING = {
    "standing leg": "On which side of a leg, flange or foot that lies down the next flat stands: the other "
    "leg, the web.",
    "web faces": "Which way the outside of the web looks; of a channel that is the side without flanges.",
    "flange faces": "Which way the flanges reach from the web; the one that lies down is not asked.",
}
_OPPOSITE = {"forward": "aft", "left": "right", "up": "down", "aft": "forward", "right": "left", "down": "up"}


def _placed(reading: Reading, values: Values) -> Placed | None:
    if values.failed or not _one_thing(reading, values) or not _one_way(reading, values):
        return None
    if not _own_rows(reading, values) or not _words_of_used(reading, values):
        return None
    if not _along_words(reading, values):
        return None
    pose = _pose(reading, values) if values.has("at") else None
    if values.has("at") and pose is None:
        return None
    if not _side_of_base(reading, values):
        return None
    match_at = values.keys["match"] if values.has("match") else values.place
    return Placed(
        name=values.name,
        part=values.get("part"),
        stock=values.get("stock"),
        match=values.get("match", ()),
        match_at=reading.at(match_at),
        along=values.get("along"),
        pose=pose,
        face=values.get("face"),
        side=values.get("side"),
        standing_leg=values.get("standing leg"),
        web_faces=values.get("web faces"),
        flange_faces=values.get("flange faces"),
        over=values.get("over", ()),
        under=values.get("under", ()),
        both_sides=values.get("both sides"),
        at=reading.at(values.place),
        row_on=values.get("row on"),
        row_in=values.get("row in"),
        ends=values.get("ends"),
        uses=values.get("uses"),
    )


def _one_of(reading: Reading, values: Values, words: tuple[str, ...], why: str) -> str | None:
    """Return the one of ``words`` that is written, None (with a finding) where it is none or several."""
    said = [word for word in values.keys if word in words]
    if len(said) == 1:
        return said[0]
    if said:
        reading.bad(
            values.keys[said[1]], f"`{said[1]}` does not go with `{said[0]}`.", why, "Keep one of them."
        )
    else:
        shown = " or ".join(f"`{word}`" for word in words)
        reading.report("missing-word", values.place, f"{shown} is missing.", why, f"Add {shown}.")
    return None


def _one_thing(reading: Reading, values: Values) -> bool:
    return (
        _one_of(
            reading,
            values,
            ("part", "stock", "uses"),
            "Placed is one kind of part, a piece of stock, or another model as one piece (uses).",
        )
        is not None
    )


def _own_rows(reading: Reading, values: Values) -> bool:
    """Say whether ``P.R.N``, a hole within a piece, is written of a piece that uses another model only."""
    within = [pair for pair in values.get("match", ()) if "." in pair.row]
    if not within or values.has("uses"):
        return True
    reading.bad(
        within[0].at,
        f"`{within[0].row}.{within[0].number}` is no hole of the part itself.",
        "Before the colon stands `ROW.N` of the part itself, behind it the hole on which it lies.",
        "Write `ROW.N: PLACED.ROW.N`.",
    )
    return False


def _words_of_used(reading: Reading, values: Values) -> bool:
    """Say whether a piece that uses another model hangs on holes or stands at a point."""
    if not values.has("uses"):
        return True
    loose = [word for word in ("along", *_FACING) if values.has(word)]
    if loose:
        reading.bad(
            values.keys[loose[0]],
            f"`{loose[0]}` does not go with `uses`.",
            "Another model as one piece hangs on its holes (match), or stands at a point (at). "
            "Which way its parts face is said in that model.",
            "Delete it.",
        )
    elif not values.has("match") and not values.has("at"):
        reading.report(
            "missing-word",
            values.place,
            "`match` or `at` is missing.",
            "Another model as one piece hangs on its holes (match), or stands at a point (at).",
            "Add `match: {PLACED.ROW.N: ..}` with holes of that model before the colons.",
        )
    return not loose and (values.has("match") or values.has("at"))


def _one_way(reading: Reading, values: Values) -> bool:
    if values.has("stock"):
        why = "A piece of stock takes its length and its holes from the row that it lies along."
        way = _one_of(reading, values, ("along",), why)
        if way is not None and not values.has("match") and not values.has("at"):
            return True
        wrong = next((word for word in ("match", "at") if values.has(word)), None)
        if way is not None and wrong is not None:
            reading.bad(values.keys[wrong], f"`{wrong}` does not go with `stock`.", why, "Keep `along` only.")
        return False
    if not any(values.has(word) for word in ("match", "along", "at")):
        # A part without dimensions has neither; whether `rows` name it is known once all is read.
        return True
    why = "A part hangs on its holes (match), takes them from a row (along), or stands at a point "
    why += "(at, x along, y along)."
    return _one_of(reading, values, ("match", "along", "at"), why) is not None


def _along_words(reading: Reading, values: Values) -> bool:
    """Say whether what says how a row lies on a part is written of a part along a row."""
    written = [word for word in ("row on", "row in", "ends") if values.has(word)]
    if not written or (values.has("along") and values.has("part")):
        return True
    reading.bad(
        values.keys[written[0]],
        f"`{written[0]}` goes with `part` and `along` only.",
        "It says where the holes of the row beneath come to lie on the part. Stock says this itself.",
        "Delete it.",
    )
    return False


def _side_of_base(reading: Reading, values: Values) -> bool:
    """Say whether ``upper`` and ``lower`` are said of the base, where they are said."""
    targets = [pair.target for pair in values.get("match", ())]
    targets += [values.get("along")] if values.has("along") else []
    others = [choice.placed for choice in targets if choice.placed != reading.base]
    if values.get("side") not in ("upper", "lower") or not others or reading.base is None:
        return True
    reading.bad(
        values.nodes["side"],
        f"`{values.get('side')}` is no side of `{others[0]}`.",
        "Upper and lower are said of the base only, because other parts may lie any way.",
        "Write outside or inside: the inside is the hollow side of a bend.",
    )
    return False


def _pose(reading: Reading, values: Values) -> FixedPose | None:
    missing = [word for word in ("x along", "y along") if not values.has(word)]
    for word in missing:
        reading.report(
            "missing-word",
            values.place,
            f"`{word}` is missing.",
            "A part placed at a point says where its own x and y run.",
            f"Add `{word}: ` and a direction, such as forward.",
        )
    loose = [word for word in ("face", "side") if values.has(word)]
    for word in loose:
        reading.bad(
            values.keys[word],
            f"`{word}` does not go with `at`.",
            "`at`, `x along` and `y along` leave nothing free.",
            "Delete it.",
        )
    if missing or loose:
        return None
    x_along, y_along = values.get("x along"), values.get("y along")
    if y_along in (x_along, _OPPOSITE[x_along]):
        reading.bad(
            values.nodes["y along"],
            f"x and y cannot run {x_along} and {y_along}.",
            "The part's own x and y are square to each other.",
            "Choose another direction for one of them.",
        )
        return None
    return FixedPose(
        point=values.get("at"), x_along=x_along, y_along=y_along, at=reading.at(values.nodes["at"])
    )


_PLACED = Record(
    title="a placed part",
    help="One occurrence of a part in the structure. The base stands already and has no entry.",
    fields=(
        Field(word="part", kind=OneName, help="A name in `parts`."),
        Field(word="stock", kind=OneName, help="A name in `stock`, instead of a part."),
        Field(
            word="uses",
            kind=Word(of=Text(label="a path")),
            help="Another model, or a sequence for one, as one piece instead of a part: the path, seen from "
            "this file. Hole 3 of row `web` of its placed part `keel` is `NAME.keel.web.3`, in `match` "
            "`keel.web.3`. Up to 5 within each other.",
        ),
        Field(
            word="match",
            kind=MatchPairs(),
            help="Holes of the part, and the holes on which they lie.",
        ),
        Field(
            word="along",
            kind=HoleText(several=False, only="run"),
            help="The row that it lies along; it gets a hole over each, in a row of its own called like it. "
            "For stock, and for a part without holes on the flat that lies down.",
        ),
        Field(
            word="row on",
            kind=OneName,
            help="Of a part along a row: the flat that takes the holes; left out: its first.",
        ),
        Field(
            word="row in",
            kind=Length(above=0.0),
            help="Of a part along a row: how far the row is from the outer corner, of a plate from its right "
            "edge; left out: in the middle of the flat.",
        ),
        Field(
            word="ends",
            kind=Length(low=0.0),
            help="Of a part along a row: from its end to the first hole; left out: as much at both ends.",
        ),
        Field(
            word="at",
            kind=Numbers(count=3, label="a point [x, y, z]"),
            help="For parts without holes: where its origin stands in the base's frame.",
        ),
        Field(word="x along", kind=_WAY, help="With `at`: where its own x runs."),
        Field(word="y along", kind=_WAY, help="With `at`: where its own y runs."),
        Field(
            word="face",
            kind=Choice(words=("outside", "inside"), label="a face"),
            help="The face that lies down. Left out: outside; of skins and plates inside.",
        ),
        Field(
            word="side",
            kind=Choice(words=("outside", "inside", "upper", "lower"), label="a side"),
            help="The target's face that it lies on: outside, inside; of the base upper, lower. Left out: "
            "upper or outside. A rail's foot lies with its outside down: what goes on top of it says "
            "`side: inside`.",
        ),
        *(Field(word=word, kind=_BENCH_WAY, help=text) for word, text in _FACING.items()),
        Field(
            word="over", kind=NameList, help="Placed parts that lie under this one; the target does anyway."
        ),
        Field(word="under", kind=NameList, help="Placed parts that lie over this one."),
        Field(
            word="both sides",
            kind=Choice(words=("other hand", "same part"), label="a way to make two"),
            help="Makes `NAME left` as described and `NAME right` as the other hand (the reverse where only "
            "that fits), or the same part twice.",
        ),
    ),
    build=_placed,
    not_yet=("turn", "measured to"),
)

PLACED = Entries(entry=by_name(_PLACED), value=_PLACED, label="placed parts by name")
"""``placed``."""
