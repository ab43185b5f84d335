"""A little work for the bench: a sheet, a bar on it, and a cap on the bar; made by hand."""

from __future__ import annotations

from typing import Any

__all__ = ["work"]


def _part(no: int, shape: int, at: list[float], first: int, **more: Any) -> dict[str, Any]:
    pose = [1, 0, 0, at[0], 0, 1, 0, at[1], 0, 0, 1, at[2]]
    told = {"name": f"part {no}", "no": no, "shape": shape, "pose": pose, "layer": None, "first": first}
    return {**told, "on": [], "under": [], "stacks": [], "tool": False, **more}


def _step(no: int, there: list[int], **more: Any) -> dict[str, Any]:
    told = {
        "no": no,
        "title": f"Step {no}.",
        "work": None,
        "up": [0, 0, 1],
        "up_name": "upper side",
        "turn": None,
    }
    lists: dict[str, Any] = {"moves": [], "fixed_before": [], "fixed": [], "marks": []}
    return {**told, **lists, "there": there, **more}


def _way(part: int, path: list[list[float]], **more: Any) -> dict[str, Any]:
    return {"part": part, "piece": f"part {part + 1}", "path": path, "leaves": False, **more}


def _steps() -> list[dict[str, Any]]:
    rest: list[float] = [0, 0, 0]
    place = {
        "marks": [{"stack": 0, "part": 1, "kind": "set", "at": [20, 10, 12], "out": [0, 0, 1], "wide": 4}]
    }
    return [
        _step(1, [0], moves=[_way(0, [rest])]),
        _step(2, [0, 1], moves=[_way(1, [[0, -30, 40], [0, 0, 40], rest])], fixed=[[0, 0]]),
        _step(3, [0, 1], fixed_before=[[0, 0]], fixed=[[1, 2]], **place),
        _step(4, [0, 1, 2], moves=[_way(2, [[0, 0, 50], rest])], fixed_before=[[1, 2]], fixed=[[1, 2]]),
        _step(
            5,
            [0, 1, 2],
            up=[0, 0, -1],
            turn={"axis": [1, 0, 0], "before": [0, 0, 1]},
            fixed_before=[[1, 2]],
            fixed=[[1, 2]],
        ),
        _step(
            6,
            [0, 1, 2],
            up=[0, 0, -1],
            moves=[_way(2, [[0, 0, 50], rest], leaves=True)],
            fixed_before=[[1, 2]],
            fixed=[[2, 2]],
        ),
    ]


def work() -> dict[str, Any]:
    """Return it: 200 x 100 x 2, on it 200 x 20 x 10, on that 20 x 20 x 5.

    Two holes of 4 go through sheet and bar; the bodies have none.
    """
    rest: list[float] = [0, 0, 0]
    up = {"axis": [0, 0, 1], "diameter": 4, "lines": [], "section": None}
    fixing = {"part": 1, "out": [0, 0, 1], "wide": 6, "high": 2}
    return {
        "title": "Little work",
        "up": [0, 0, 1],
        "forward": [1, 0, 0],
        "box": [[0, 0, 0], [200, 100, 17]],
        "boxes": [[200, 100, 2], [200, 20, 10], [20, 20, 5]],
        "parts": [
            _part(1, 0, [0, 0, 0], 1, layer=2, stacks=[0, 1]),
            _part(2, 1, [0, 0, 2], 2, layer=1, stacks=[0, 1]),
            _part(3, 2, [0, 0, 12], 3),
        ],
        "stacks": [
            {"name": "part 2.foot.1", "at": [20, 10, 12], **up},
            {"name": "part 2.foot.2", "at": [180, 10, 12], **up},
        ],
        "fixings": [
            {"stack": 0, "kind": "pin", "at": [20, 10, 12], **fixing},
            {"stack": 0, "kind": "head", "at": [20, 10, 12], **fixing},
            {"stack": 1, "kind": "head", "at": [180, 10, 12], **fixing},
        ],
        "steps": _steps(),
        "findings": [
            {
                "kind": "no-way-in",
                "step": 4,
                "parts": [2],
                "stacks": [0],
                "blockers": [1],
                "tool": None,
                "spot": [20, 10, 12],
                "path": [[0, 0, 50], rest],
            }
        ],
    }
