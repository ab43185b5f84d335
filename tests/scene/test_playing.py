"""What is there at any time of a step, how the work lies, which steps are of one work."""

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import build
from seqviz.scene.film import film_of
from seqviz.scene.film_types import Film
from seqviz.scene.playing import benches_of, instant, lies_of, seconds_of
from tests.scene.tray import tray

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def film() -> Film:
    return film_of(tray())


@pytest.fixture(scope="module")
def bay() -> Film:
    return film_of(build(str(ROOT / "sequences" / "float_bay.yaml")))


def test_parts_come_one_after_the_other(film: Film) -> None:
    # Step 2 places both side angles and pins them: they move in 0.7 of its time, each in half of that.
    there = [set(instant(film, 1, time).offsets) for time in (0.0, 0.2, 0.36, 1.0)]
    both = {"bottom", "side angle left", "side angle right"}
    assert there == [{"bottom"}, {"bottom", "side angle left"}, both, both]
    assert instant(film, 1, 0.2).offsets["side angle left"].any()
    assert not instant(film, 1, 0.36).offsets["side angle left"].any()
    assert all(not offset.any() for offset in instant(film, 1, 1.0).offsets.values())


def test_a_part_goes_along_its_path_slowly_at_both_ends(film: Film) -> None:
    move = film.moments[1].moves[0]
    # Half of its time: half of its way. A tenth: 3 x 0.01 - 2 x 0.001 = 0.028 of it.
    half, early = (instant(film, 1, 0.35 * share).offsets[move.part] for share in (0.5, 0.1))
    assert half == pytest.approx(move.path[0] / 2)
    assert early == pytest.approx(move.path[0] * (1 - 0.028))


def test_pins_appear_when_the_parts_are_there(film: Film) -> None:
    # 8 pins in the last 0.3: at 0.85 half of them.
    assert [len(instant(film, 1, time).fixed) for time in (0.0, 0.7, 0.851, 1.0)] == [0, 0, 4, 8]


def test_rivets_take_the_place_of_pins_one_by_one(film: Film) -> None:
    # Step 5 pulls 16 rivets, those in the 8 pinned holes first: a head and a tail for each pin.
    told = [instant(film, 4, time).fixed for time in (0.0, 0.251, 0.501, 1.0)]
    kinds = [[film.fixed[k].kind for k in some] for some in told]
    assert [[some.count(kind) for kind in ("pin", "head", "tail")] for some in kinds] == [
        [8, 0, 0],
        [4, 4, 4],
        [0, 8, 8],
        [0, 16, 16],
    ]
    assert told[0] == film.moments[4].fixed_before
    assert told[3] == film.moments[4].fixed
    # Nobody moves: rivets are set from the beginning.
    assert {film.fixed[k].stack for k in told[2]} == {film.fixed[k].stack for k in told[0]}


def test_what_stands_on_a_part_comes_with_it(bay: Film) -> None:
    # Step 27 brings two bulkhead sets with what was riveted in them.
    early = instant(bay, 26, 0.2)
    assert all(bay.fixed[k].part in early.offsets for k in early.fixed)
    moving = [k for k in early.fixed if early.offsets[bay.fixed[k].part].any()]
    assert len(moving) > 20


def test_taken_off_goes_away(bay: Film) -> None:
    # Step 22 takes the drill template off.
    there = ["drill template" in instant(bay, 21, time).offsets for time in (0.0, 0.5, 0.999, 1.0)]
    assert there == [True, True, True, False]
    assert not instant(bay, 21, 0.0).offsets["drill template"].any()
    assert instant(bay, 21, 0.9).offsets["drill template"].any()


def test_what_faces_up_is_up_on_the_bench_in_every_step(bay: Film) -> None:
    for lie, moment in zip(lies_of(bay), bay.moments, strict=True):
        assert lie.after @ moment.scene.up == pytest.approx([0.0, 0.0, 1.0])
        assert lie.after @ lie.after.T == pytest.approx(np.eye(3))
        assert np.linalg.det(lie.after) == pytest.approx(1.0)


def test_a_turn_begins_as_the_work_lay(film: Film) -> None:
    lies = lies_of(film)
    # Step 10 turns the tray over sideways: half a turn about forward.
    assert film.moments[9].scene.turn is not None
    assert lies[9].at(0.0) == pytest.approx(lies[8].after)
    assert lies[9].at(1.0) == pytest.approx(lies[9].after)
    assert abs(lies[9].degrees) == pytest.approx(180.0)
    # Half-way it stands on its side: what was up is level.
    assert (lies[9].at(0.5) @ film.moments[8].scene.up)[2] == pytest.approx(0.0)
    # Nothing turns it after that.
    assert lies[12].at(0.3) == pytest.approx(lies[9].after)


def test_steps_of_one_work_have_one_number(bay: Film) -> None:
    benches = benches_of(bay)
    # Between steps of the main work two bulkhead sets (steps 11-15 and 16-26) and the deck (43-47) apart.
    # In steps 1 and 2 nothing lies there yet: parts are deburred and primed.
    assert benches[:10] == [0] * 10
    assert benches[10:15] == [benches[10]] * 5
    assert benches[15:26] == [benches[15]] * 11
    assert benches[26:42] == [0] * 16
    assert benches[42:47] == [benches[42]] * 5
    assert benches[47:] == [0] * 4
    assert len(set(benches)) == 4


def test_side_trips_change_nothing(bay: Film) -> None:
    lies = lies_of(bay)
    assert lies[47].after == pytest.approx(lies[41].after)


def test_how_long_steps_last(film: Film) -> None:
    # Two parts and pins 2 x 1.2 + 1; leaving holes open 1 at least; a turn 1.8.
    assert [seconds_of(film, k) for k in (1, 2, 9)] == pytest.approx([3.4, 1.0, 1.8])
