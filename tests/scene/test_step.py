"""What a step's picture holds; the tray's sheets are 0.8 thick."""

import numpy as np

from seqviz.scene.picture import Mark, MarkKind, Scene
from tests.scene.tray import scene, stop_scene, tray


def marks(picture: Scene, kind: MarkKind) -> list[Mark]:
    return [mark for mark in picture.marks if mark.kind == kind]


def test_roles() -> None:
    picture = scene(2)
    assert {item.name: item.role for item in picture.items} == {
        "bottom": "there",
        "side angle left": "new",
        "side angle right": "new",
    }
    assert picture.new == ("side angle left", "side angle right")


def test_first_part_lies_where_it_belongs() -> None:
    picture = scene(1)
    assert [item.role for item in picture.items] == ["new"]
    assert not picture.items[0].shift.any()
    assert picture.arrows == ()


def test_new_parts_are_drawn_back_along_their_way_out() -> None:
    picture = scene(2)
    replay = tray().replay
    assert replay is not None
    # 0.15 of the work's length of 324: 48.6 mm.
    for item, arrow in zip(picture.items[1:], picture.arrows, strict=True):
        way = replay.states[1].ways[item.name]
        assert way is not None
        assert np.isclose(np.linalg.norm(item.shift), 48.6)
        assert np.allclose(item.shift, way * np.linalg.norm(item.shift))
        assert np.allclose(arrow.way, -item.shift)
        assert arrow.part == item.name


def test_guides_end_on_the_holes_beneath() -> None:
    arrow = scene(11).arrows[0]
    bottom = tray().assembly.placed["bottom"]
    beneath = bottom.pose.points(np.array([hole.centre for hole in bottom.part.holes]))
    for end in arrow.guides + arrow.way:
        # Half of the pad's 1.0 and half of the sheet's 0.8 lie between the two middles.
        assert np.isclose(np.linalg.norm(beneath - end, axis=1).min(), 0.9)
    # The pad's outermost holes are 90 apart.
    assert np.isclose(np.linalg.norm(arrow.guides[0] - arrow.guides[1]), 90.0)


def test_pins_go_with_the_part_that_they_pin() -> None:
    picture = scene(2)
    pins = marks(picture, "pin in")
    assert len(pins) == 8
    shift = {item.name: item.shift for item in picture.items}
    bottom = tray().assembly.placed["bottom"].solids
    top = float(bottom.high[:, 2].max()) + 0.8
    for pin in pins:
        first, other = pin.ends
        assert first.part.startswith("side angle")
        assert other.part == "bottom"
        assert np.isclose((first.point - shift[first.part])[2], top)
        assert np.allclose(first.outward, [0, 0, 1])
        assert np.allclose(other.outward, [0, 0, -1])


def test_rivet_step_has_nothing_new_and_names_what_stays_open() -> None:
    picture = scene(5)
    assert picture.new == ()
    assert picture.arrows == ()
    assert len(marks(picture, "set")) == 16
    assert len(marks(picture, "still open")) == 6
    # Pins of the holes now riveted are gone.
    assert [fitted for fitted in picture.fitted if fitted.pin] == []


def test_pins_stand_until_their_holes_are_riveted() -> None:
    assert sum(fitted.pin for fitted in scene(4).fitted) == 8
    assert sum(fitted.pin for fitted in scene(6).fitted) == 0


def test_set_rivets_show_heads_and_tails() -> None:
    fitted = scene(6).fitted
    assert len(fitted) == 2 * 16
    upper = [one for one in fitted if one.outward[2] > 0]
    # Heads are on top; a blind rivet's is 2.0 D wide in the pictures' table: 6.4.
    assert {round(one.diameter, 3) for one in upper} == {6.4}
    assert len(upper) == 16


def test_open_again() -> None:
    assert len(marks(scene(6), "open again")) == 4


def test_turn_over() -> None:
    picture = scene(10)
    assert picture.turn is not None
    assert np.allclose(picture.turn.before, [0, 0, 1])
    assert np.allclose(np.abs(picture.turn.axis), [1, 0, 0])
    assert np.allclose(picture.up, [0, 0, -1])
    assert picture.up_name == "lower side"
    assert scene(9).up_name == "upper side"
    assert scene(11).turn is None


def test_labels_name_the_new_and_what_it_touches() -> None:
    labels = {label.part: label.wanted for label in scene(11).labels}
    assert labels["foot pad"] is True
    assert labels["bottom"] is False
    assert "front angle" not in labels


def test_before_the_first_part_the_bench_is_empty() -> None:
    assert stop_scene(1).items == ()


def test_pulled_pin_is_marked_and_the_other_stands() -> None:
    picture = stop_scene(4)
    assert [mark.ends[0].part for mark in marks(picture, "pin out")] == ["stop"]
    assert sum(fitted.pin for fitted in picture.fitted) == 1


def test_moved_pin_is_marked_on_its_new_side_and_stays_there() -> None:
    pins = marks(stop_scene(5), "pin in")
    assert [pin.ends[0].part for pin in pins] == ["bottom"]
    assert np.allclose(pins[0].ends[0].outward, [0, 0, -1])
    assert not any(fitted.pin for fitted in stop_scene(5).fitted)
    stands = [fitted for fitted in stop_scene(6).fitted if fitted.pin]
    assert [fitted.outward[2] for fitted in stands] == [-1.0]


def test_end_over_end_turns_about_the_axis_across() -> None:
    turn = stop_scene(6).turn
    assert turn is not None
    assert np.allclose(np.abs(turn.axis), [0, 1, 0])


def test_a_quarter_turn_goes_the_way_that_brings_the_new_side_up() -> None:
    turn = stop_scene(7).turn
    assert turn is not None
    # The lower side is up, the left side (+y) comes up: +y turned right-handed about the axis is -z.
    assert np.allclose(turn.before, [0, 0, -1])
    assert np.allclose(np.cross(turn.axis, [0, 1, 0]), turn.before)


def test_a_small_part_stays_near_its_place() -> None:
    # The clip is 44 long: 0.8 of that, not 0.15 of 324.
    assert np.isclose(np.linalg.norm(stop_scene(3).items[-1].shift), 35.2)
