"""Fitting holes as lines: the rigid motion that lays axes on axes, and what it leaves free."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.geometry.pose import Array, Pose, frozen

__all__ = ["Fit", "fit_lines"]

_LEAST_LENGTH = 10.0
# A motion that changes the fit by less than this share of what the stiffest motion changes is free.
_FREE = 1e-6
_ROUNDS = 60
# mm, root of the sum of squares: no other start can do better than this.
_EXACT = 1e-9
# Steps shorter than this share of the pattern's size are rounding.
_STILL = 1e-13
# A start within about 5 degrees of a fit leads to the same place: trace of the rotation between them.
_ALIKE = 2.99


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """How holes land on holes.

    Attributes
    ----------
    pose
        The motion that was found; never a reflection.
    residuals
        ``(n,)`` mm: distance of each moved point from its target line.
    tilts
        ``(n,)`` degrees between each moved axis and its target axis.
    freedoms
        ``(k, 6)`` orthonormal rows: what may still move without changing the fit to first order; three
        numbers for the rotation about the middle of the target points, three for the translation. Lines
        leave nothing free, or the shift along their common direction, or that and the turn about their
        common line. (Two lines less than about a degree out of parallel leave a screw of long pitch.)
    """

    pose: Pose
    residuals: Array
    tilts: Array
    freedoms: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Task:
    """The pairs, and what every step asks of them.

    ``length`` in mm makes a radian of tilt comparable with a mm of distance; ``own_middle`` and ``middle``
    are the means of both kinds of points; ``draw`` ``(3, 3)`` turns the sum of the gaps into the best shift.
    """

    points: Array
    axes: Array
    targets: Array
    target_axes: Array
    length: float
    own_middle: Array
    middle: Array
    draw: Array


def fit_lines(points: Array, axes: Array, target_points: Array, target_axes: Array) -> Fit:
    """Find the rigid motion that lays lines on lines in the sense of least squares.

    What is squared is each moved point's distance from its target line, and each axis's deviation (the chord
    between the unit vectors, for small angles the angle) times the spread of the target points, at least
    10 mm: a tilt counts as much as what it moves at the rim of the pattern. Along what is free, the middle of
    the points is laid on the middle of the targets, and the part is turned as little as possible.

    Parameters
    ----------
    points, axes
        ``(n, 3)`` mm and unit vectors: holes of the part, in its frame.
    target_points, target_axes
        ``(n, 3)``: the lines on which they shall lie; the moved axis points the same way as the target's.
    """
    task = _task_of(points, axes, target_points, target_axes)
    return _told(task, _best(task))


def _task_of(points: Array, axes: Array, targets: Array, target_axes: Array) -> _Task:
    middle = targets.mean(axis=0)
    spread = float(np.sqrt(((targets - middle) ** 2).sum(axis=1).mean()))
    across = len(targets) * np.eye(3) - target_axes.T @ target_axes
    return _Task(
        points=points,
        axes=axes,
        targets=targets,
        target_axes=target_axes,
        length=max(_LEAST_LENGTH, spread),
        own_middle=points.mean(axis=0),
        middle=middle,
        draw=np.asarray(np.linalg.pinv(across, rcond=_FREE**2, hermitian=True), dtype=np.float64),
    )


def _best(task: _Task) -> Pose:
    """Refine the start that the axes suggest; where that is not exact, the one that all suggest too.

    Of exact data the first start is the answer: axes in two or more directions decide by themselves,
    parallel ones leave a turn that the points across them decide. Axes that are hardly out of parallel decide
    it badly: then the second is near.
    """
    own, target = task.points - task.own_middle, task.targets - task.middle
    from_axes = task.length**2 * task.target_axes.T @ task.axes
    across = _across_most(target, task.target_axes).T @ _across_most(own, task.axes)
    by_axes = _shifted(task, _nearest_rotation(1e6 * from_axes + across))
    if _cost(task, by_axes) < _EXACT**2:
        # One step takes away what is left of the start's own rounding.
        return _turned(task, by_axes, _step(task, by_axes, 0.0))
    best = _refined(task, by_axes)
    if _cost(task, best) < _EXACT**2:
        return best
    by_all = _shifted(task, _nearest_rotation(from_axes + across))
    if float(np.trace(best.rotation.T @ by_all.rotation)) > _ALIKE:
        return best
    other = _refined(task, by_all)
    return other if _cost(task, other) < _cost(task, best) else best


def _across_most(vectors: Array, axes: Array) -> Array:
    """Return ``(n, 3)`` vectors without their part along the direction that most of the axes share."""
    return _across(np.linalg.svd(axes, full_matrices=False)[2][0], vectors)


def _nearest_rotation(moments: Array) -> Array:
    """Return the rotation R that makes ``trace(R.T @ moments)`` greatest; undecided turns stay small."""
    size = float(np.abs(moments).max())
    u, _, v = np.linalg.svd(moments + 1e-10 * size * np.eye(3))
    return np.asarray(u @ np.diag([1.0, 1.0, np.linalg.det(u @ v)]) @ v)


def _shifted(task: _Task, rotation: Array) -> Pose:
    """Return ``rotation`` with its best translation: middle on middle, then the least move that fits best."""
    start = Pose(rotation=rotation, translation=task.middle - rotation @ task.own_middle)
    gaps = _across(task.target_axes, start.points(task.points) - task.targets)
    return Pose(rotation=rotation, translation=start.translation - task.draw @ gaps.sum(axis=0))


def _errors(task: _Task, pose: Pose) -> Array:
    """Return ``(2n, 3)`` mm: gaps across the target axes, then axis deviations times the length."""
    gaps = _across(task.target_axes, pose.points(task.points) - task.targets)
    return np.concatenate([gaps, task.length * (pose.vectors(task.axes) - task.target_axes)])


def _cost(task: _Task, pose: Pose) -> float:
    return float((_errors(task, pose) ** 2).sum())


def _across(axes: Array, vectors: Array) -> Array:
    return np.asarray(vectors - axes * (axes * vectors).sum(axis=-1, keepdims=True))


def _slopes(task: _Task, pose: Pose) -> Array:
    """Return the ``(6n, 6)`` slopes of the errors by (rotation about the middle x length, translation)."""
    arms = pose.points(task.points) - task.middle
    turn = np.concatenate([_cross_matrices(arms) / -task.length, -_cross_matrices(pose.vectors(task.axes))])
    move = np.concatenate([np.tile(np.eye(3), (len(arms), 1, 1)), np.zeros((len(arms), 3, 3))])
    both = np.concatenate([turn, move], axis=2)
    n = len(arms)
    both[:n] -= task.target_axes[:, :, None] * np.einsum("ni,nij->nj", task.target_axes, both[:n])[:, None]
    return both.reshape(-1, 6)


def _cross_matrices(vectors: Array) -> Array:
    """Return ``(n, 3, 3)`` matrices M with M @ w = vector x w."""
    x, y, z = vectors.T
    zero = np.zeros_like(x)
    return np.array([[zero, -z, y], [z, zero, -x], [-y, x, zero]]).transpose(2, 0, 1)


def _refined(task: _Task, pose: Pose) -> Pose:
    """Improve ``pose`` by damped Newton steps until they are as small as rounding."""
    cost, damping = _cost(task, pose), 0.0
    for _ in range(_ROUNDS):
        step = _step(task, pose, damping)
        trial = _turned(task, pose, step)
        cost_then = _cost(task, trial)
        small = float(np.abs(step).max()) < _STILL * task.length
        if cost_then <= cost * (1.0 + 1e-12) or small:
            pose, cost, damping = trial, cost_then, damping / 100.0
        else:
            damping = max(1e-3, damping * 10.0)
        if small:
            break
    return pose


def _step(task: _Task, pose: Pose, damping: float) -> Array:
    """Return the next step, mm; downhill also where the cost curves the wrong way, none where all is free."""
    slopes, errors = _slopes(task, pose), _errors(task, pose)
    curves = slopes.T @ slopes
    arms = np.concatenate([pose.points(task.points) - task.middle, task.length * pose.vectors(task.axes)])
    twist = errors.T @ arms / task.length**2
    curves[:3, :3] += (twist + twist.T) / 2.0 - np.trace(twist) * np.eye(3)
    values, ways = np.linalg.eigh(curves)
    sizes = np.abs(values)
    stiff = sizes > _FREE**2 * sizes.max()
    pull = ways[:, stiff].T @ (slopes.T @ errors.ravel())
    return np.asarray(-ways[:, stiff] @ (pull / (sizes[stiff] + damping * sizes.max())))


def _turned(task: _Task, pose: Pose, step: Array) -> Pose:
    """Turn ``pose`` about the middle of the targets and shift it, by a step in mm."""
    turn = _rotation_of(step[:3] / task.length)
    arm = turn @ (pose.translation - task.middle) + task.middle
    return Pose(rotation=turn @ pose.rotation, translation=arm + step[3:])


def _rotation_of(vector: Array) -> Array:
    """Return the ``(3, 3)`` rotation by the rotation vector, radians."""
    angle = float(np.linalg.norm(vector))
    cross = _cross_matrices(vector[None])[0]
    first = np.sinc(angle / np.pi)
    second = 0.5 * np.sinc(angle / (2.0 * np.pi)) ** 2
    return np.asarray(np.eye(3) + first * cross + second * (cross @ cross))


def _freedoms(task: _Task, pose: Pose) -> Array:
    """Return ``(k, 6)`` orthonormal rows, pure shifts first."""
    _, sizes, rows = np.linalg.svd(_slopes(task, pose), full_matrices=False)
    free = rows[sizes <= _FREE * sizes[0]]
    if not len(free):
        return np.zeros((0, 6))
    # Of all mixtures of the free motions take first those that turn least.
    mix, _, _ = np.linalg.svd(free[:, :3])
    free = mix.T[::-1] @ free
    free[:, :3] /= task.length
    return np.asarray(free / np.linalg.norm(free, axis=1, keepdims=True))


def _told(task: _Task, pose: Pose) -> Fit:
    moved = pose.vectors(task.axes)
    sines = np.linalg.norm(np.cross(moved, task.target_axes), axis=1)
    gaps = _across(task.target_axes, pose.points(task.points) - task.targets)
    return Fit(
        pose=Pose(rotation=frozen(pose.rotation), translation=frozen(pose.translation)),
        residuals=frozen(np.linalg.norm(gaps, axis=1)),
        tilts=frozen(np.degrees(np.arctan2(sines, (moved * task.target_axes).sum(axis=1)))),
        freedoms=frozen(_freedoms(task, pose)),
    )
