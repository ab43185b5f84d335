"""Whole model files with a mesh: what each file is told."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
import shapely
import trimesh

from seqviz.build import Build, build
from seqviz.checks.run import run
from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.parts.hand import other_hand
from seqviz.parts.mesh import mesh_of
from tests.parts.surfaces import BENT, MODEL, ball, box, drilled_foot, pulled, stl, written

MM = "    unit: mm\n"
FOOT = "    flats: {foot: {at: [0, 0, 0], normal: down}}\n"
FEET = "    holes: {feet: {at: [[20, 20], [50, 20]], size: small}}\n"
PLACED = "placed:\n  bracket: {part: bracket, match: {feet.1: skin.row.1, feet.2: skin.row.2}}\n"
UPRIGHT = np.array([[1.0, 0, 0], [0, 0, 1.0], [0, -1.0, 0]])  # the angle's section from x-y to x-z


def angle() -> Array:
    """An angle whose foot is 60 x 50 x 3 on z = 0 and whose wall, 3 thick, goes up to 40 at x = 0."""
    return pulled(shapely.Polygon(BENT), 50.0) @ UPRIGHT + np.array([0.0, 50.0, 0.0])


def model(folder: Path, words: str, file: str = "bracket.stl", placed: str = "") -> Build:
    path = folder / "model.yaml"
    path.write_text(MODEL.format(file=file, words=words) + placed, encoding="utf-8")
    return build(str(path))


def told(built: Build) -> Finding:
    (finding,) = run(built)
    return finding


def place(finding: Finding) -> tuple[str, int, int]:
    return finding.kind, finding.at.line, finding.at.column


@pytest.mark.parametrize("triangles", [angle(), drilled_foot()], ids=["solid", "with its holes"])
def test_a_bracket_riveted_on_a_skin(tmp_path: Path, triangles: Array) -> None:
    written(tmp_path, triangles)
    built = model(tmp_path, MM + FOOT + FEET, placed=PLACED)
    assert list(run(built)) == []
    part = built.parts["bracket"]
    foot = part.flats["foot"]
    assert (foot.thickness, foot.openings, foot.outside) == (pytest.approx(3.0), (), -1)
    assert shapely.Polygon(foot.outline).equals_exact(shapely.box(0, 0, 60, 50), 1e-5, normalize=True)
    assert len(part.pieces) == 2
    # The skin is 1 thick, the foot 3: grip 4, the foot on top.
    for stack in built.assembly.stacks:
        assert [(layer.part, round(layer.top - layer.bottom, 6)) for layer in stack.layers] == [
            ("bracket", 3.0),
            ("skin", 1.0),
        ]
    contact = built.assembly.contacts[0]
    assert (contact.upper, contact.lower, round(contact.area, 3)) == ("bracket", "skin", 3000.0)


def test_a_part_in_the_way_of_the_wall_is_found(tmp_path: Path) -> None:
    """The wall is at x = 10 to 13 of the skin, from y = 20 to 70, up to 41."""
    written(tmp_path, angle())
    lug = "  lug: {{shape: block, length: 10, width: 10, height: 5}}\n"
    for x, kinds in ((0.06, ["parts-interfere"]), (-0.0, [])):
        text = MODEL.replace("parts:\n", "parts:\n" + lug)
        placed = PLACED + f"  lug: {{part: lug, at: [{x}, 40, 20], x along: forward, y along: left}}\n"
        (tmp_path / "model.yaml").write_text(
            text.format(file="bracket.stl", words=MM + FOOT + FEET) + placed, encoding="utf-8"
        )
        assert [finding.kind for finding in run(build(str(tmp_path / "model.yaml")))] == kinds


def test_the_other_hand_and_the_picture(tmp_path: Path) -> None:
    written(tmp_path, angle())
    part = model(tmp_path, MM + FOOT + FEET).parts["bracket"]
    for one in (part, other_hand(part)):
        mesh = mesh_of(one)
        solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
        assert solid.is_watertight
        assert solid.volume == pytest.approx(291 * 50, rel=1e-6)
    assert other_hand(part).holes[0].centre.round(6).tolist() == [20, -20, 1.5]


def test_a_mesh_in_inches(tmp_path: Path) -> None:
    written(tmp_path, angle() / 25.4)
    words = "    unit: in\n" + FOOT + "    holes: {feet: {at: [[20, 20], [50, 20]], size: small}}\n"
    part = model(tmp_path, words).parts["bracket"]
    assert part.flats["foot"].thickness == pytest.approx(3.0, abs=1e-4)
    assert mesh_of(part).vertices.max(axis=0) == pytest.approx([60, 50, 40], abs=1e-4)


def test_the_unit_is_asked_for(tmp_path: Path) -> None:
    written(tmp_path, angle())
    finding = told(model(tmp_path, ""))
    assert place(finding) == ("missing-word", 12, 11)
    assert finding.message == (
        "bracket: `unit` is missing. The part would measure, with its numbers in mm: 60 x 50 x 40 mm; "
        "in: 1524 x 1270 x 1016 mm."
    )


def test_metres_read_as_millimetres(tmp_path: Path) -> None:
    written(tmp_path, angle() / 1000)
    finding = told(model(tmp_path, MM))
    assert place(finding) == ("bad-value", 12, 11)
    assert finding.message == "bracket is 0.06 x 0.05 x 0.04 mm large. Is that its unit?"
    assert "60 x 50 x 40 mm" in finding.fix


def test_an_open_mesh(tmp_path: Path) -> None:
    written(tmp_path, angle()[:-1])
    finding = told(model(tmp_path, MM))
    assert place(finding) == ("bad-value", 12, 11)
    assert finding.message.startswith("bracket: the mesh is open: 3 edges with a triangle on one side only")
    assert "open: yes" in finding.fix
    known = model(tmp_path, MM + "    open: yes\n" + FOOT + FEET, placed=PLACED)
    assert list(run(known)) == []
    assert len(known.parts["bracket"].pieces) > 0


def test_a_surface_without_thickness(tmp_path: Path) -> None:
    written(tmp_path, box((60, 50, 3))[:2])
    assert told(model(tmp_path, MM + "    open: yes\n")).message == "bracket: the mesh encloses no solid."


@pytest.mark.parametrize(
    ("name", "data", "message"),
    [
        ("bracket.stl", b"", "bracket: `bracket.stl` is empty."),
        (
            "bracket.stl",
            b"Dear reader,\nthe bracket comes later.\n",
            "bracket: bracket.stl: this is no STL file, whatever its name says.",
        ),
        ("bracket.stl", stl(np.zeros((0, 3, 3))), "bracket: bracket.stl: there are no triangles in it."),
        (
            "bracket.stl",
            stl(np.full((2, 3, 3), np.nan)),
            "bracket: bracket.stl: 2 of 2 triangles have corners that are no numbers.",
        ),
        ("bracket.obj", b"v 0 0 0\nf 1 2\n", "bracket: bracket.obj: line 2: `f 1 2` is no face."),
        ("bracket.step", b"x", "bracket: `bracket.step` is none of the files that can be read."),
    ],
)
def test_files_that_are_no_mesh(tmp_path: Path, name: str, data: bytes, message: str) -> None:
    (tmp_path / name).write_bytes(data)
    finding = told(model(tmp_path, MM, file=name))
    assert (place(finding), finding.message) == (("bad-value", 12, 11), message)


def test_a_file_that_is_not_there_and_one_that_is_a_folder(tmp_path: Path) -> None:
    written(tmp_path, angle())
    (tmp_path / "folder.stl").mkdir()
    missing = told(model(tmp_path, MM, file="braket.stl"))
    assert missing.message == "bracket: `braket.stl` is not there."
    assert missing.fix == "Did you mean `bracket.stl`?"
    assert told(model(tmp_path, MM, file="folder.stl")).message == "bracket: `folder.stl` is a folder."


def test_a_huge_file_is_not_read(tmp_path: Path) -> None:
    with (tmp_path / "bracket.stl").open("wb") as file:
        file.truncate(300_000_000)
    start = time.perf_counter()
    assert told(model(tmp_path, MM)).message == "bracket: `bracket.stl` has 300 MB."
    assert time.perf_counter() - start < 2.0


def test_files_outside_the_project_are_not_read(tmp_path: Path) -> None:
    models = tmp_path / "project" / "models"
    models.mkdir(parents=True)
    for place_of in (tmp_path, tmp_path / "project", models):
        written(place_of, angle())
    (models / "link.stl").symlink_to(tmp_path / "bracket.stl")
    for file in (str(tmp_path / "bracket.stl"), "../../bracket.stl", "link.stl", "C:/bracket.stl"):
        finding = told(model(models, MM, file=file))
        assert finding.message == f"bracket: `{file}` leads out of the project."
    # Beside a folder `models` is still the project; beside any other folder is not.
    assert list(run(model(models, MM + FOOT + FEET, file="../bracket.stl"))) == []
    finding = told(model(tmp_path / "project", MM, file="../bracket.stl"))
    assert finding.message.endswith("leads out of the project.")


def test_a_flat_where_no_face_is(tmp_path: Path) -> None:
    written(tmp_path, angle())
    finding = told(model(tmp_path, MM + "    flats: {foot: {at: [0, 0, 1], normal: down}}\n"))
    assert finding.message == "Flat foot: no face of the mesh lies there."
    assert finding.fix.startswith("The nearest face that looks this way lies 1 mm farther out.")
    askew = told(model(tmp_path, MM + "    flats: {foot: {at: [0, 0, 0], normal: [0, 1, -1]}}\n"))
    assert place(askew) == ("missing-word", 14, 13)


def test_rows_without_a_flat(tmp_path: Path) -> None:
    written(tmp_path, angle())
    finding = told(model(tmp_path, MM + FEET))
    assert finding.message == "Row feet: this mesh has no flat on which holes could lie."


def test_a_face_of_uneven_thickness_wants_one(tmp_path: Path) -> None:
    """Two bodies side by side, 3 and 8 thick: their undersides are one face."""
    written(tmp_path, np.concatenate([box((30, 50, 3)), box((30, 50, 8), (30, 0, 0))]))
    flat = "    flats: {{foot: {{at: [0, 0, 0], normal: down{}}}}}\n"
    finding = told(model(tmp_path, MM + flat.format("")))
    assert place(finding) == ("missing-word", 14, 13)
    assert finding.message == "Flat foot has no thickness: the mesh is 3 to 8 mm thick there."
    said = model(tmp_path, MM + flat.format(", thickness: 3"))
    assert said.parts["bracket"].flats["foot"].thickness == 3.0


def test_pieces_may_be_given(tmp_path: Path) -> None:
    written(tmp_path, ball(20.0, 30))
    pieces = "    pieces: {core: {shape: block, length: 30, width: 30, height: 30, at: [-15, -15, -15]}}\n"
    built = model(tmp_path, MM + pieces)
    assert list(run(built)) == []
    (piece,) = built.parts["bracket"].pieces
    assert np.asarray(getattr(piece, "frame").translation).tolist() == [-15, -15, -15]  # noqa: B009


TIMED = """
import sys, time
start = time.perf_counter()
from seqviz.cli.program import run
code = run(["check", sys.argv[1]])
print("seconds:", time.perf_counter() - start, "trimesh" in sys.modules, code)
"""


@pytest.mark.parametrize("kind", ["prismatic", "ball"])
def test_200_000_triangles(tmp_path: Path, kind: str) -> None:
    if kind == "ball":
        triangles = ball(50.0, 317)  # 2 x 317 x 316 = 200,344
    else:
        turns = np.linspace(0, 2 * np.pi, 50_000, endpoint=False)
        round_it = 45 + 5 * np.cos(5 * turns)
        star = shapely.Polygon(np.column_stack([round_it * np.cos(turns), round_it * np.sin(turns)]))
        triangles = pulled(star, 7.0)  # twice 49,998 and 100,000 walls
    assert 199_000 < len(triangles) < 201_000
    written(tmp_path, triangles)
    built = model(tmp_path, MM)
    assert [finding.kind for finding in run(built)] == (["meshed-roughly"] if kind == "ball" else [])
    assert 1 <= len(built.parts["bracket"].pieces) <= 400
    done = subprocess.run(
        [sys.executable, "-c", TIMED, str(tmp_path / "model.yaml")],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": os.getcwd()},
    )
    seconds, loaded, code = done.stdout.splitlines()[-1].split()[1:]
    print(kind, seconds)
    # Three seconds on a quiet machine; here others may be at work.
    assert float(seconds) < 15.0
    assert (loaded, code) == ("False", "0")
