"""What a step's picture holds; the tray's sheets are 0.8 thick."""

import numpy as np

from seqviz.scene.picture import Mark, MarkKind, Scene
from tests.scene.tray import scene, tray


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
    # 0.12 of the diagonal of the work: 324 x 234 and about 20.8 high, 400 mm: 48 mm.
    diagonal = np.sqrt(324**2 + 234**2 + 20.8**2)
    for item, arrow in zip(picture.items[1:], picture.arrows, strict=True):
        way = replay.states[1].ways[item.name]
        assert way is not None
        assert np.isclose(np.linalg.norm(item.shift), 0.12 * diagonal, atol=0.1)
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
