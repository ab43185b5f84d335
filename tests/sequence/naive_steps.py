"""What each action does in the naive replay."""

from __future__ import annotations

from typing import Any

from tests.sequence.naive import DOWN, UP, CaseStack, Moment, Naive, Told, Vector, Where, dot


class Steps(Naive):
    def run(self) -> Told:
        for number, (work, word, *rest) in enumerate(self.case.steps, start=1):
            self.up.setdefault(work, self.up[None])
            self.told.states.append((word, getattr(self, word)(number, work, *rest)))
            self.moments.append(Moment(dict(self.where.of), dict(self.up)))
        self.told.open_since = [(window[1], window[0], window[4]) for window in self.open]
        self.told.finger_tight = [(number, k) for k, number in self.run_on.items()]
        self.told.closing = self.closings()
        self.told.last_chance = [] if self.case.finished else self.last_chances()
        return self.told

    def place(self, number: int, work: str | None, names: list[str], every: int | str, side: Any) -> Any:
        new, ways = [], []
        for name in names:
            piece = self.where.coming(name, work)
            if not piece:
                if self.where.is_there(name):
                    self.told.placed_twice.append((number, name, self.where.since.get(name, 0)))
                continue
            way = self.way_in(number, work, name, piece)
            new += piece
            ways += [way] * len(piece)
            self.where.put(name, piece, work, number)
        self.shut(number)
        return new, ways, self.pin(number, work, new, every, side)

    def pin(
        self, number: int, work: str | None, parts: list[str], every: Any, side: Vector | None
    ) -> list[int]:
        pinned = []
        for part in parts:
            through = [k for k, s in enumerate(self.case.stacks) if part in s.parts]
            joint = [k for k in through if len(self.parts_there(k, work)) > 1]
            shared = [k for k in joint if (part, True) in self.case.stacks[k].layers]
            if every == "all":
                wanted = joint
            elif every == "none" or not shared:
                wanted = []
            else:
                wanted = [k for i, k in enumerate(shared) if i % int(every) == 0 or i == len(shared) - 1]
            for k in wanted:
                there = self.parts_there(k, work)
                solid = any(p in there and not self.has_hole(k, p, d) for p, d in self.case.stacks[k].layers)
                if k not in self.pins and k not in self.set and not solid:
                    self.put_pin(number, work, k, side or self.up[work])
                    pinned.append(k)
        return pinned

    def put_pin(self, number: int, work: str | None, k: int, side: Vector) -> None:
        self.pins[k] = (self.end(k, side), self.parts_there(k, work), work)
        looks = DOWN if self.case.stacks[k].turned else UP
        out = looks if self.pins[k][0] > 0 else tuple(-x for x in looks)
        if self.calm(k) and self.bench(out, work, self.up[work]):  # type: ignore[arg-type]
            self.told.pin_out_of_reach.append((number, k))

    def way_in(self, number: int, work: str | None, name: str, piece: list[str]) -> Any:
        if set(piece) <= self.case.muted:
            return None
        own = {k for k, s in enumerate(self.case.stacks) if s.parts & set(piece)}
        rivets = {k for k, h in self.set.items() if self.calm(k) and self.in_work(h, work)} - own
        pins = {k for k, h in self.pins.items() if self.calm(k) and self.in_work(h, work)}
        under: set[int] = set()
        for part in piece:
            mine = set() if part in self.case.muted else rivets & self.case.under[part]
            if mine:
                self.told.under.append((number, part, sorted(mine)))
            under |= mine
        way, trouble = self.look(work, piece, (rivets - under, pins - own, pins & own))
        if way is None and not under:
            self.told.no_way.append((number, name, *trouble))
        return way

    def look(self, work: str | None, piece: list[str], fixings: tuple[set[int], ...]) -> Any:
        """Return the best free way, or None and why there is none."""
        rivets, pins, through = fixings
        moving = [p for p in piece if p not in self.case.muted]
        solid = set(self.where.there(work)) - self.case.muted - set(piece)
        ends = {(k, self.pins[k][0]) for k in pins}

        def met(moves: Any) -> Any:
            ways = [self.case.meets[part, moves] for part in moving]
            return (
                set().union(*(way.parts & solid for way in ways)),
                set().union(*(way.rivets & rivets for way in ways)),
                set().union(*({k for k, _ in way.pins & ends} for way in ways)) | through,
                any(self.bench(d, work, self.up[work]) for d in moves if d is not None),
            )

        straight = list(dict.fromkeys((None, out) for part in moving for out in self.case.ways[part]))
        free = [moves for moves in straight if not any(met(moves))]
        if free:
            return max(free, key=lambda m: (dot(m[1], UP), dot(m[1], self.up[work]))), None
        for moves in (one for part in moving for one in self.case.bent[part]):
            if not any(met(moves)):
                return moves, None
        found = [met(moves) for moves in straight]
        if any(not (a or b or c) for a, b, c, _ in found):
            return None, ("bench", [])
        if any(not (a or b) for a, b, _, _ in found):
            return None, ("pins", min((len(c), sorted(c)) for a, b, c, _ in found if not (a or b))[1])
        closed = [(a, {k for k in b if not self.set[k][1] or self.set[k][1] - a}) for a, b, _, _ in found]
        since = [min([self.where.came[p] for p in a] + [self.there_since(k) for k in b]) for a, b in closed]
        last = [one for one, step in zip(closed, since, strict=True) if step == max(since)]
        least = min(len(a) + len(b) for a, b in last)
        return None, ("parts", [(a, b) for a, b in last if len(a) + len(b) == least])

    def there_since(self, k: int) -> int:
        """Return the step since which a set fastener is where it is."""
        return max([self.set_at[k], *(self.where.came[p] for p in self.set[k][1])])

    def take_off(self, number: int, work: str | None, names: list[str]) -> Any:
        gone, ways, pulled = [], [], []
        for name in names:
            piece = self.where.going(name, work)
            if not piece:
                continue
            ways += [self.way_out(number, work, name, piece)] * len(piece)
            stay = set(self.where.there(work)) - set(piece)
            for k, (_, parts, _) in sorted(self.pins.items()):
                both = parts & set(piece) and parts & stay
                if both or (name not in self.case.subs and parts == set(piece)):
                    pulled.append(k)
                    del self.pins[k]
            gone += piece
            self.where.remove(name, piece)
        return gone, ways, pulled

    def way_out(self, number: int, work: str | None, name: str, piece: list[str]) -> Any:
        if set(piece) <= self.case.muted:
            return None
        own = {k for k, s in enumerate(self.case.stacks) if s.parts & set(piece)}
        stay = set(self.where.there(work)) - set(piece)
        rivets = {k for k, h in self.set.items() if self.calm(k) and self.in_work(h, work)}
        joining = sorted(k for k in rivets if self.set[k][1] & set(piece) and self.set[k][1] & stay)
        if joining:
            fresh = [k for k in joining if k not in self.gone_when_set]
            if fresh:
                self.told.off_when_set.append((number, name, fresh, [self.set_at[k] for k in fresh]))
            self.gone_when_set |= set(joining)
            return None
        pins = {k for k, h in self.pins.items() if self.calm(k) and self.in_work(h, work)}
        rivets = {k for k in rivets if not self.set[k][1] or self.set[k][1] & stay}
        pins = {k for k in pins if not self.pins[k][1] or self.pins[k][1] & stay}
        rivets -= {k for _, part, stacks in self.told.under if part in piece for k in stacks}
        way, trouble = self.look(work, piece, (rivets - own, pins - own, pins & own))
        if way is None:
            self.told.no_way_out.append((number, name, *trouble))
        return way

    def rivet(self, number: int, work: str | None, named: list[int] | None, head: str | None) -> Any:
        return self.filling(number, work, named, (head, False, False))

    def bolt(
        self, number: int, work: str | None, named: list[int] | None, head: str | None, loose: bool
    ) -> Any:
        return self.filling(number, work, named, (head, True, loose))

    def filling(self, number: int, work: str | None, named: list[int] | None, how: tuple[Any, ...]) -> Any:
        head, bolt, loose = how
        asked = self.ready(work, bolt, loose) if named is None else list(dict.fromkeys(named))
        new = [k for k in asked if k not in self.set]
        tight = [k for k in asked if bolt and k in self.run_on]
        for k in asked if named is not None else []:
            if k in self.set and k not in tight and k not in self.gone_when_set:
                self.told.set_twice.append((number, k, self.set_at[k]))
        heads = {}
        for k in new:
            heads[k] = self.fill(number, work, k, head, loose)
            self.set[k] = (heads[k], self.parts_there(k, work), work)
            self.set_at[k] = number
        for k in [] if loose else tight:
            if self.calm(k):
                # The head is where the bolt was put in, whatever the step says.
                self.fill(number, work, k, self.set[k][0], False)
            del self.run_on[k]
        if loose:
            self.run_on.update(dict.fromkeys(new, number))
        pulled = [k for k in new if self.pins.pop(k, None) is not None]
        return new, heads, pulled, [] if loose else tight

    def ready(self, work: str | None, bolt: bool, loose: bool) -> list[int]:
        there = set(self.where.there(work))
        found = []
        for k, stack in enumerate(self.case.stacks):
            if k in self.set:
                if bolt and not loose and k in self.run_on and self.in_work(self.set[k], work):
                    found.append(k)
            elif (
                stack.fastener == ("bolt" if bolt else "rivet")
                and len(stack.layers) > 1
                and all(part in there and self.has_hole(k, part, d) for part, d in stack.layers)
                and k not in self.case.later
                and not self.kept_open(k)
            ):
                found.append(k)
        return found

    def fill(self, number: int, work: str | None, k: int, head: str | int | None, by_hand: bool) -> int:
        stack, there = self.case.stacks[k], set(self.where.there(work))
        wanted = self.end(k, UP if head == "upper" else DOWN) if isinstance(head, str) else head
        if not self.calm(k):
            return wanted or 1
        if self.kept_open(k):
            self.told.filled_open.append((number, k, self.kept_open(k)[0]))
            return wanted or 1
        if stack.parts - there:
            late = [p for p, d in stack.layers if (d or self.drilled_at(k, p)) and p not in there]
            late = [p for p in dict.fromkeys(late) if self.ever_placed(p) or not self.case.finished]
            if late:
                comes = [self.comes(p, work, number) for p in late]
                self.told.too_early.append((number, k, late, comes))
            return wanted or 1
        solid = [p for p, d in stack.layers if not self.has_hole(k, p, d) and self.drilled_at(k, p)]
        if solid:
            after = [[n for n in self.drilled_at(k, p) if n > number] for p in solid]
            self.told.not_drilled.append((number, k, solid, [n[0] if n else None for n in after]))
            return wanted or 1
        if len(stack.layers) < 2 or not stack.heads or by_hand:
            return wanted or 1
        now = Moment(dict(self.where.of), dict(self.up))
        for side in (1, -1):
            if wanted in (None, side) and self.reached(stack, side, now):
                return side
        self.told.stopped.append((number, k, *self.why(number, stack, wanted)))
        return wanted or 1

    def why(self, number: int, stack: CaseStack, wanted: int | None) -> tuple[str, Any, int | None]:
        sides = [side for side in (1, -1) if wanted in (None, side)]
        work = self.where.of[stack.layers[0][0]]
        there, last = set(self.where.there(work)), None
        for k in range(number):
            if any(self.reached(stack, side, self.moments[k]) for side in sides):
                last = k
        for side in sides:
            if all(any(not (blockers & there) for blockers, _ in end) for end in stack.heads[side]):
                return "bench", [], last
        sets = []
        for side in sides:
            unions: list[frozenset[str]] = [frozenset()]
            for end in stack.heads[side]:
                unions = [u | (blockers & there) for u in unions for blockers, _ in end]
            sets.extend(unions)
        return "parts", [s for s in sets if len(s) == min(len(one) for one in sets)], last

    def drill(self, number: int, work: str | None, stacks: list[int]) -> Any:
        del number
        self.made |= {(k, part) for k in stacks for part in self.parts_there(k, work)}
        return list(dict.fromkeys(stacks))

    def drill_out(self, number: int, work: str | None, stacks: list[int]) -> Any:
        del number, work
        out = [k for k in dict.fromkeys(stacks) if k in self.set]
        for k in out:
            del self.set[k]
            self.run_on.pop(k, None)
            self.gone_when_set.discard(k)
        return out

    def leave_open(self, number: int, work: str | None, stacks: list[int], waits_for: str | None) -> Any:
        self.open.extend([k, number, waits_for, work, None] for k in dict.fromkeys(stacks))
        self.shut(number)
        return list(dict.fromkeys(stacks))

    def shut(self, number: int) -> None:
        for window in self.open:
            if window[4] is None and window[2] is not None and self.has_come(window[2], window[3], number):
                window[4] = number

    def has_come(self, name: str, work: str | None, number: int) -> bool:
        """Say whether ``name`` was brought, by a step up to this one, into the work or one around it."""
        base = self.case.parts[0]
        where, brought = Where(self.case), {(base, None)} if base in Where(self.case).of else set()
        for k, (at, word, *rest) in enumerate(self.case.steps[:number], start=1):
            for one in rest[0] if word in ("place", "take_off") else ():
                piece = where.coming(one, at) if word == "place" else where.going(one, at)
                if piece and word == "place":
                    where.put(one, piece, at, k)
                    brought |= {(part, at) for part in [one, *piece]}
                elif piece:
                    where.remove(one, piece)
        return any((name, one) in brought for one in self.around(work))

    def open_no_longer(self, number: int, work: str | None, stacks: list[int]) -> Any:
        del work
        for window in self.open:
            if window[0] in stacks and window[4] is None:
                window[4] = number

    def pull(self, number: int, work: str | None, stacks: list[int]) -> Any:
        del number, work
        return [k for k in dict.fromkeys(stacks) if self.pins.pop(k, None) is not None]

    def move(self, number: int, work: str | None, stacks: list[int], side: Vector) -> Any:
        for k in dict.fromkeys(stacks):
            if k in self.pins:
                self.put_pin(number, work, k, side)

    def turn(self, number: int, work: str | None) -> Any:
        self.up[work] = DOWN if self.up[work] == UP else UP
        for part in sorted(set(self.where.there(work)) - self.case.muted - {self.case.parts[0]}):
            joints = [k for k, s in enumerate(self.case.stacks) if part in s.parts]
            joints = [k for k in joints if len(self.parts_there(k, work)) > 1]
            held = {
                k
                for d in (self.pins, self.set)
                for k, h in d.items()
                if k in joints and part in h[1] and len(h[1]) > 1
            }
            if len(held) < min(2, len(joints)):
                self.told.loose.append((number, part, sorted(held)))

    def check(self, number: int, work: str | None) -> Any:
        del number, work

    def last_reach(self, k: int) -> int | None:
        """Return the last step after which a tool reaches it, benches left out; None: never, or still."""
        stack = self.case.stacks[k]
        if not self.calm(k) or not stack.heads or not all(drilled for _, drilled in stack.layers):
            return None
        works = {self.where.of.get(part, "-") for part in stack.parts}
        if len(works) != 1 or "-" in works:
            return None
        free = [
            n
            for n, then in enumerate(self.moments)
            if any(self.reached(stack, s, then, False) for s in (1, -1))
        ]
        return None if not free or free[-1] == len(self.moments) - 1 else free[-1]

    def closings(self) -> list[Any]:
        pinned: dict[str | None, int] = {}
        found: list[Any] = []
        for number, ((work, word, *_), (_, done)) in enumerate(
            zip(self.case.steps, self.told.states, strict=True), 1
        ):
            if word == "check":
                pinned.pop(work, None)
            if word == "place" and done[0] and work in pinned:
                covered = {k for at, _, stacks in self.told.under if at == number for k in stacks}
                shut = [
                    k
                    for k in sorted(self.set)
                    if self.last_reach(k) == number - 1
                    and self.set_at[k] < number
                    and self.ahead[number].get(self.case.stacks[k].layers[0][0], "-") == work
                    and k not in covered
                ]
                found += [(number, shut, pinned[work])] if shut else []
            if word == "place" and done[2]:
                pinned[work] = number
        return found

    def last_chances(self) -> list[Any]:
        found: dict[int, list[int]] = {}
        for k, stack in enumerate(self.case.stacks):
            last = self.last_reach(k) if k not in self.set and k not in self.case.later else None
            if last is not None and len(stack.layers) > 1:
                word, done = self.told.states[last]
                if word == "place" and done[0]:
                    found.setdefault(last + 1, []).append(k)
        return sorted(found.items())
