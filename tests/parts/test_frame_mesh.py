from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from seqviz.findings import Finding
from seqviz.geometry.polygons import facets
from seqviz.geometry.volume import volume_of
from seqviz.parts.frame import frame_body
from seqviz.parts.hand import other_hand
from seqviz.parts.mesh import Mesh, mesh_of
from seqviz.parts.part import Part
from seqviz.records.model import FrameShape, Points
from tests.parts.frames import flange, frame, lip, made, opening
from tests.parts.samples import at, row


def checked(mesh: Mesh) -> tuple[float, float]:
    """Return volume and area of a mesh that must be watertight and turned outside out."""
    import trimesh

    body = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    return float(body.volume), float(body.area)


def volume(body: Part) -> float:
    return sum(volume_of(piece) for piece in body.pieces)


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("side", ["inside", "outside"])
@pytest.mark.parametrize("radius", [2.0, 0.0])
def test_volume_and_holes(mirrored: bool, side: str, radius: float) -> None:
    rows = (
        row(Points(points=((30, 10), (50, 10))), "a", flat="flange left"),
        row(Points(points=((30, 20),)), "b", flat="web", size="big"),
    )
    shape = frame(
        flange("left edge", side=side), flange("2", 2, angle=80.0), openings=(opening(),), radius=radius
    )
    body = made(shape, *rows)
    body = other_hand(body) if mirrored else body
    # Polygons of 16 corners through 1 mm: 2 d2 sin(2 pi / 16) each.
    cut = sum(2 * d**2 * math.sin(math.pi / 8) for d in (3.3, 3.3, 4.1))
    assert checked(mesh_of(body))[0] == pytest.approx(volume(body) - cut)


def test_area_of_a_flanged_sheet() -> None:
    body = made(frame(flange("right edge")))
    # Round the section: web 57 and flange 17 on both faces, the facets, two ends of 1; and the section twice.
    count = facets(3.0, 90.0)
    chords = 2 * (3 + 2) * count * math.sin(math.pi / 4 / count)
    section = 57 + 17 + count * 0.5 * (9 - 4) * math.sin(math.pi / 2 / count)
    found = checked(mesh_of(body))
    assert found[0] == pytest.approx(100 * section)
    assert found[1] == pytest.approx(100 * (2 * (57 + 17) + chords + 2) + 2 * section)


def test_a_hole_that_reaches_into_the_bend_is_cut_from_both() -> None:
    holes = row(Points(points=((30, 4),)), flat="flange left", diameter=6.0, size=None)
    body = made(frame(flange("left edge")), holes)
    lost = volume(body) - checked(mesh_of(body))[0]
    # In the bend of 2 to 3 mm the middle of the sheet is cut as it would be flat.
    assert lost == pytest.approx(2 * 36 * math.sin(math.pi / 8), rel=0.01)


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize(("side", "angle"), [("inside", 90.0), ("outside", 45.0), ("inside", 110.0)])
def test_lips(mirrored: bool, side: str, angle: float) -> None:
    body = made(frame(flange("left edge"), openings=(opening(lip=lip(side=side, angle=angle)),)))
    body = other_hand(body) if mirrored else body
    assert checked(mesh_of(body))[0] == pytest.approx(volume(body))


@settings(max_examples=25, deadline=None)
@given(
    spokes=st.lists(st.floats(60, 200), min_size=3, max_size=7),
    turned=st.booleans(),
    choice=st.lists(
        st.tuples(
            st.booleans(),
            st.floats(8, 22),
            st.sampled_from(["inside", "outside"]),
            st.sampled_from([90.0, 85.0, 60.0, 100.0]),
        ),
        min_size=7,
        max_size=7,
    ),
)
def test_any_frame_is_watertight_and_as_large_as_its_pieces(
    spokes: list[float], turned: bool, choice: list[tuple[bool, float, str, float]]
) -> None:
    ways = np.arange(len(spokes)) * 2 * math.pi / len(spokes)
    outline = tuple((r * math.cos(w), r * math.sin(w)) for r, w in zip(spokes, ways, strict=True))
    flanges = [
        flange(str(k), k, width=width, side=side, angle=angle)
        for k, (there, width, side, angle) in enumerate(choice[: len(spokes)], start=1)
        if there
    ]
    shape: FrameShape = replace(frame(*flanges), outline=outline[:: -1 if turned else 1])
    body = frame_body("p", shape, at(), "+x")
    assume(not isinstance(body, Finding))
    part = made(shape)
    for hand in (part, other_hand(part)):
        assert checked(mesh_of(hand))[0] == pytest.approx(volume(part))
