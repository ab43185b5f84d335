"""The order of work, done step by step with plain sets. What cannot be done is noted, and done all the same.

It answers one question: can it be done as written (`wrong` is empty), and if so, would a careful builder
hesitate somewhere (`doubts`)?
"""

from __future__ import annotations

from itertools import combinations
from typing import Any

import numpy as np

from seqviz.sequence.tables import Fixing
from tests.mutations.bench import Facts, Lying, names_of
from tests.mutations.read import Entry, Line, holes_of, lines_of, listed
from tests.mutations.state import Held, Moment, Open, Outcome, State

__all__ = ["Outcome", "simulate"]


def simulate(facts: Facts, file: Entry) -> Outcome:
    """Do all steps of a sequence file."""
    bench = _Bench(facts, file)
    for line in lines_of(file):
        bench.step(line)
    bench.end()
    return bench.told


class _Bench(State):
    def step(self, line: Line) -> None:
        self.now = line
        entry, work = line.entry, line.work
        if work not in self.lying:
            told, main = line.around or {}, self.lying[None]
            bench = told.get("bench", "flat" if main.flat else "trestles")
            up = self.side(told["up"]) if "up" in told else main.up
            self.lying[work] = self.laid(up, bench, listed(told.get("over the edge")))
        done: tuple[set[str], set[int]] = (set(), set())
        for word, act in (
            ("place", self.place),
            ("take off", self.take_off),
            ("rivet", self.fill),
            ("bolt", self.fill),
            ("drill", self.drill),
            ("leave open", self.leave_open),
            ("open no longer", self.open_no_longer),
            ("turn over", self.turn),
            ("prime", self.prepare),
            ("seal", self.prepare),
            ("deburr", self.prepare),
        ):
            if word in entry:
                done = act(entry, work) or done
        if "check" in entry or "inspect" in entry:
            self.unchecked.pop(work, None)
        self.told.did[id(entry)] = done
        brings = (work or "") if "place" in entry and done[0] else None
        moment = Moment({w: self.there(w) for w in set(self.where.values())}, brings)
        moment.pinned = self.unchecked.get(work, False) if brings is not None else False
        if "place" in entry and "pins" in entry and self.pins_of_step:
            self.unchecked[work] = True
        self.moments.append(moment)

    def place(self, entry: Entry, work: str | None) -> Any:
        new: list[str] = []
        for name in listed(entry["place"]):
            for piece in self.pieces(name, work):
                self.way_in(piece, work)
                for part in piece:
                    self.where[part] = work
                    self.came.add((part, work))
                if self.is_apart(name):
                    self.members[name] = list(piece)
                    self.came.add((name, work))
                new += piece
        self.open = [one for one in self.open if not self.has_come(one)]
        stacks = self.put_pins(new, entry, work)
        return set(new), set(stacks)

    def is_apart(self, name: str) -> bool:
        return any(line.work == name for line in self.lines)

    def pieces(self, name: str, work: str | None) -> list[tuple[str, ...]]:
        if self.is_apart(name):
            if name in self.members:
                self.wrong(f"{name} is there already")
            joined = tuple(self.there(name))
            return [joined] if joined and name != work else []
        found: list[tuple[str, ...]] = []
        for part in names_of(self.assembly, name):
            if part in self.where:
                self.wrong(f"{part} is there already")
            else:
                found.append((part,))
        return found

    def has_come(self, one: Open) -> bool:
        return bool(one.waits_for) and all(
            any((name, work) in self.came for work in (one.work, None)) for name in one.waits_for
        )

    def way_in(self, piece: tuple[str, ...], work: str | None) -> None:
        fixings, there, moving = self.fixings(work), self.there(work), set(piece)
        own = {k for part in piece for k in self.assembly.stacks_of_part[part]}
        others = frozenset(f for f in fixings if f.stack not in own)
        heads = {
            f for part in piece for f in self.facts.tables.heads_under(part, others) if f.kind == "fastener"
        }
        self.covered |= {f.stack for f in heads}
        clamped = [
            k
            for part in piece
            for k in self.facts.clamped(
                part, there | moving, {k: h.parts for k, h in self.set.items() if k not in self.loose_nuts}
            )
            if self.set[k].parts & there
        ]
        if heads:
            self.wrong(f"{piece[0]} lies over the heads of {sorted(self.name(f.stack) for f in heads)}")
        elif clamped:
            self.wrong(f"{piece[0]} goes between what {self.name(clamped[0])} holds together")
        elif any(f.stack in own and f.kind == "pin" for f in fixings):
            self.doubt(f"pins hold the place of {piece[0]}")
        else:
            self.way(piece, there, others - heads, "in", work)

    def way(
        self,
        piece: tuple[str, ...],
        there: frozenset[str],
        stay: frozenset[Fixing],
        sense: str,
        work: str | None,
    ) -> None:
        closed = self.facts.way_of(piece, there - set(piece), stay, self.lying[work])
        if closed == "pins":
            self.doubt(f"pins close the way {sense} of {piece[0]}")
        elif closed:
            self.wrong(f"no way {sense} for {piece[0]}: {closed}")

    def put_pins(self, new: list[str], entry: Entry, work: str | None) -> list[int]:
        there = self.there(work)
        told, wanted = entry.get("pins"), []
        if isinstance(told, str) and told.startswith("ends"):
            pitch = int("".join(c for c in told if c.isdigit()))
            for part in new:
                wanted += [k for row in self.shared_rows(part, there) for k in [*row[::pitch], row[-1]]]
        else:
            wanted = holes_of(self.assembly, told)
        side = np.array(self.side(entry["pins from"]) if "pins from" in entry else self.lying[work].up)
        self.pins_of_step = []
        for k in dict.fromkeys(wanted):
            if k not in self.pins and k not in self.set and not self.solid(k, there):
                self.put_pin(k, side, there, work)
        return self.pins_of_step

    def shared_rows(self, part: str, there: frozenset[str]) -> list[list[int]]:
        rows: dict[str, list[tuple[int, int]]] = {}
        for hole in self.assembly.placed[part].holes:
            k = self.assembly.stack_of.get(f"{part}.{hole.name}")
            if k is not None and len(set(self.facts.stack(k)) & there) > 1:
                rows.setdefault(hole.row, []).append((hole.number, k))
        return [[k for _, k in sorted(row)] for row in rows.values()]

    def put_pin(self, k: int, side: Any, there: frozenset[str], work: str | None) -> None:
        stack = self.assembly.stacks[k]
        end = -1 if stack.axis @ side < -1e-6 else 1
        held = frozenset(stack.parts) & there
        self.pins[k] = Held(end, held, self.now.number)
        self.pins_of_step.append(k)
        self.pinned_pairs |= {frozenset(pair) for pair in combinations(stack.parts, 2)}
        (met,) = self.facts.tables.pins_meet([Fixing(stack=k, kind="pin", end=end)], there)
        if met or self.lying[work].closes(stack.axis * end, frozenset(stack.parts)):
            self.doubt(f"no room for the pin in {self.name(k)}")

    def fill(self, entry: Entry, work: str | None) -> Any:
        bolt = "bolt" in entry
        named, by_hand = entry["bolt" if bolt else "rivet"], entry.get("finger tight") == "yes"
        if named == "everything ready":
            chosen = [k for k in range(len(self.assembly.stacks)) if self.is_ready(k, work, bolt, by_hand)]
        else:
            chosen = holes_of(self.assembly, named)
            self.twice(named, bolt)
        if "size" in entry:
            chosen = [k for k in chosen if self.assembly.stacks[k].size == entry["size"]]
        new = [k for k in chosen if k not in self.set]
        self.pin_gaps(new)
        for k in new:
            end = self.fill_one(k, entry, work, by_hand) or self.told_end(k, entry) or 1
            self.set[k] = Held(end, frozenset(self.facts.stack(k)) & self.there(work), self.now.number)
        tight = [k for k in chosen if bolt and not by_hand and k in self.loose_nuts]
        self.loose_nuts.difference_update(tight)
        self.loose_nuts.update(new if by_hand else ())
        self.join({*new, *tight} - self.loose_nuts)
        for k in new:
            self.pins.pop(k, None)
        return set(), {*new, *tight}

    def prepare(self, entry: Entry, work: str | None) -> Any:
        """Prime, seal or deburr whole parts: it counts between those that are apart."""
        del work
        what = next(iter(entry))
        parts = {name for name in listed(entry[what]) if "." not in name}
        done = {part for name in parts for part in names_of(self.assembly, name)}
        for asked in self.facts.asked:
            if asked.what == what and asked.pair & done and not self.together(asked.pair):
                self.prepared.add(asked)
        return done, set()

    def together(self, pair: frozenset[str]) -> bool:
        works = [self.where.get(part, "nowhere") for part in pair]
        return pair <= self.where.keys() and len(set(works)) == 1

    def join(self, stacks: set[int]) -> None:
        for asked in self.facts.asked - self.prepared:
            if any(asked.pair <= set(self.facts.stack(k)) for k in stacks):
                self.doubt(f"nothing between {sorted(asked.pair)}: {asked.what}")

    def is_ready(self, k: int, work: str | None, bolt: bool, by_hand: bool) -> bool:
        there, parts = self.there(work), set(self.facts.stack(k))
        if k in self.set:
            return bolt and not by_hand and k in self.loose_nuts and bool(self.set[k].parts & there)
        return (
            len(parts) > 1
            and parts <= there
            and not self.solid(k, there)
            and not any(one.stack == k for one in self.open)
            and (self.fastener(k) in self.facts.bolts) == bolt
        )

    def twice(self, named: Any, bolt: bool) -> None:
        for one in listed(named):
            mine = holes_of(self.assembly, one)
            full = [k for k in mine if k in self.set and not (bolt and k in self.loose_nuts)]
            if full and (one.count(".") == 2 or len(full) == len(mine)):
                self.doubt(f"{self.name(full[0])} is filled already")

    def told_end(self, k: int, entry: Entry) -> int | None:
        if "head" not in entry:
            return None
        along = float(self.assembly.stacks[k].axis @ np.array(self.side(entry["head"])))
        return None if abs(along) < 1e-6 else 1 if along > 0 else -1

    def fill_one(self, k: int, entry: Entry, work: str | None, by_hand: bool) -> int | None:
        there, parts = self.there(work), frozenset(self.facts.stack(k))
        if any(one.stack == k for one in self.open):
            self.wrong(f"{self.name(k)} is to stay open")
        elif parts - there:
            self.wrong(f"{self.name(k)} is filled without {sorted(parts - there)}")
        elif self.solid(k, there):
            self.wrong(f"{self.name(k)} is not drilled")
        elif not by_hand:
            end = self.facts.reached(k, there, self.lying[work], self.told_end(k, entry))
            if end is None:
                self.wrong(f"no tool reaches {self.name(k)}")
            return end
        return None

    def pin_gaps(self, new: list[int]) -> None:
        """Doubt runs of more than ten holes without pin or rivet, where pins were used on those parts."""
        rows = {(self.name(k).rpartition(".")[0], frozenset(self.facts.stack(k))) for k in new}
        for row, parts in rows:
            if any(frozenset(pair) in self.pinned_pairs for pair in combinations(parts, 2)):
                line = [k for k in holes_of(self.assembly, row) if len(parts & set(self.facts.stack(k))) > 1]
                marks = "".join("x" if k in self.pins or k in self.set else "o" for k in line)
                starts = np.cumsum([0, *(len(run) + 1 for run in marks.split("x"))])
                for run, start in zip(marks.split("x"), starts, strict=False):
                    if len(run) > 10 and set(new) & set(line[start : start + len(run)]):
                        self.doubt(f"too few pins along {row}")

    def drill(self, entry: Entry, work: str | None) -> Any:
        stacks, there = holes_of(self.assembly, entry["drill"]), self.there(work)
        template = entry["through"].split(".")[0] if "through" in entry else None
        if template and template not in there:
            self.wrong(f"{template} is not there to drill through")
        for k in stacks:
            if not set(self.facts.stack(k)) & there:
                self.wrong(f"nothing is there to drill at {self.name(k)}")
            self.drilled |= {(k, part) for part in self.facts.stack(k) if part in there}
        return set(), set(stacks)

    def take_off(self, entry: Entry, work: str | None) -> Any:
        gone: set[str] = set()
        for part in self.all_names(entry["take off"]):
            if self.where.get(part, "-") != work:
                self.doubt(f"{part} is not there to be taken off")
                continue
            there, own = self.there(work), set(self.assembly.stacks_of_part[part])
            if any(k in self.set and self.set[k].parts - {part} for k in own):
                self.wrong(f"{part} is taken off though fasteners hold it")
            stay = frozenset(f for f in self.fixings(work) if f.stack not in own)
            self.way((part,), there, stay, "out", work)
            del self.where[part]
            gone.add(part)
        return gone, set()

    def leave_open(self, entry: Entry, work: str | None) -> Any:
        stacks = holes_of(self.assembly, entry["leave open"])
        reason = entry.get("for", "")
        waits = frozenset(names_of(self.assembly, reason) or ([reason] if self.is_apart(reason) else []))
        self.open += [Open(k, work, waits) for k in stacks]
        self.open = [one for one in self.open if not self.has_come(one)]
        return set(), set(stacks)

    def open_no_longer(self, entry: Entry, work: str | None) -> Any:
        del work
        stacks = holes_of(self.assembly, entry["open no longer"])
        self.open = [one for one in self.open if one.stack not in stacks]
        return set(), set(stacks)

    def turn(self, entry: Entry, work: str | None) -> Any:
        told, before = entry["turn over"], self.lying[work]
        down = tuple(-x for x in before.up)
        words = told if isinstance(told, dict) else {}
        bench = words.get("bench", "flat" if before.flat else "trestles")
        up = self.side(words["up"]) if "up" in words else down
        self.lying[work] = self.laid(up, bench, listed(words.get("over the edge")))  # type: ignore[arg-type]
        there = self.there(work)
        for part in there - {self.assembly.base}:
            joints = [
                k for k in self.assembly.stacks_of_part[part] if set(self.facts.stack(k)) & (there - {part})
            ]
            some = [one for k in joints for one in (self.pins.get(k), self.set.get(k)) if one]
            held = [one for one in some if part in one.parts and len(one.parts) > 1]
            if len(held) < min(2, len(joints)) and not self.assembly.placed[part].part.tool:
                self.doubt(f"{part} is loose when the work is turned")
        if self.lying[work].flat and self.facts.stands_on_edges(there, np.array(self.lying[work].up)):
            self.doubt("it stands on thin edges")
        return set(), set()

    # The end, and what can only be told from there.

    def end(self) -> None:
        self.now = Line(0, {}, None, None)
        there = self.there(None)
        for part, placed in self.assembly.placed.items():
            if part not in there and not placed.part.tool:
                self.wrong(f"{part} is not placed")
        for stack in self.assembly.stacks:
            if len(stack.parts) > 1 and stack.index not in self.set and set(stack.parts) <= there:
                self.wrong(f"{self.name(stack.index)} is never filled")
        for asked in self.facts.asked - self.prepared:
            if self.together(asked.pair):
                self.doubt(f"nothing between {sorted(asked.pair)}: {asked.what}")
        for k in self.loose_nuts:
            self.wrong(f"the nut of {self.name(k)} is never tightened")
        for one in self.open:
            if one.stack not in self.set:
                self.wrong(f"{self.name(one.stack)} is left open for ever")
        for number, moment in enumerate(self.moments, start=1):
            if moment.pinned:
                self.shut_unchecked(number, moment.brings or None)

    def shut_unchecked(self, number: int, work: str | None) -> None:
        after, before = self.moments[number - 1 :], self.moments[number - 2]
        for k, held in self.set.items():
            here = self.facts.stack(k)[0] in after[0].there.get(work, ())
            if held.step < number and here and k not in self.covered and self.facts.is_checked(k):
                # Most are seen to the end: that is asked first.
                shut = not any(self.seen(k, moment) for moment in reversed(after))
                if shut and self.seen(k, before) and set(self.facts.stack(k)) <= self.there(None):
                    self.now = Line(number, {}, None, None)
                    self.doubt(f"{self.name(k)} is closed in unchecked")

    def seen(self, k: int, moment: Moment) -> bool:
        parts = set(self.facts.stack(k))
        free = Lying((0.0, 0.0, 1.0), flat=False)
        return any(
            parts <= there and self.facts.reached(k, there, free, None) is not None
            for there in moment.there.values()
        )
