from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

from seqviz.geometry.lines import Fit, fit_lines
from seqviz.geometry.pose import Array, Pose, frozen, turn_about, unit
from tests.geometry.prisms import random_poses

X, Y, Z = np.eye(3)
SLOPING = np.array([0.0, np.sin(np.radians(7.0)), np.cos(np.radians(7.0))])
TURNS = [frozen(np.diag(signs)) for signs in ([1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1])]


def _row(count: int, y: float, z: float, pitch: float = 20.0) -> Array:
    return np.array([[20.0 + pitch * k, y, z] for k in range(count)])


def _fit(points: Array, axes: Array, targets: Array, target_axes: Array) -> Fit:
    return fit_lines(np.asarray(points), np.asarray(axes), np.asarray(targets), np.asarray(target_axes))


# (points, axes, how many motions stay free)
PATTERNS = {
    "one hole": ([[3.0, 4.0, 5.0]], [Z], 2),
    "two holes in line on one axis": ([[3, 4, 5], [3, 4, 50]], [Z, Z], 2),
    "two parallel holes": ([[3, 4, 5], [100, 4, 5]], [Z, Z], 1),
    "two holes that point apart": ([[3, 4, 5], [100, 4, 5]], [Z, -Z], 1),
    "a straight row": (_row(30, 10.0, 0.0), [Z] * 30, 1),
    "floor and web": (np.concatenate([_row(30, 10, 0), _row(30, 1, 10)]), [Z] * 30 + [Y] * 30, 0),
    "one hole in floor and web each": ([[20, 10, 0], [50, 1, 10]], [Z, Y], 0),
    "sloping by 7 degrees": (np.concatenate([_row(5, 10, 0), _row(5, 30, 10)]), [Z] * 5 + [SLOPING] * 5, 0),
    "one hole in each of two such faces": ([[20, 10, 0], [50, 30, 10]], [Z, SLOPING], 0),
    "three square axes": ([[20, 10, 0], [20, 50, 10], [0, 9, 40]], [X, Y, Z], 0),
    "two axes through one point": ([[20, 10, 0], [20, 10, 0]], [Z, Y], 0),
}  # fmt: skip


@pytest.mark.parametrize("name", PATTERNS)
def test_exact_patterns_are_found_exactly_in_any_pose(name: str) -> None:
    points, axes, free = (np.asarray(each, dtype=np.float64) for each in PATTERNS[name])
    rng = np.random.default_rng(41)
    poses = [
        *random_poses(rng, 40, 3000.0),
        *(Pose(rotation=turn, translation=np.array([5.0, 6.0, 7.0])) for turn in TURNS),
    ]
    for pose in poses:
        # The target's holes lie elsewhere on the same lines: centre to centre would be wrong.
        along = axes * rng.uniform(-8.0, 8.0, (len(points), 1))
        fit = _fit(points, axes, pose.points(points + along), pose.vectors(axes))
        assert fit.residuals.max() < 1e-9
        assert fit.tilts.max() < 1e-9
        assert np.linalg.det(fit.pose.rotation) == pytest.approx(1.0, abs=1e-12)
        assert fit.freedoms.shape == (int(free), 6)
        if free == 0:
            np.testing.assert_allclose(fit.pose.rotation, pose.rotation, atol=1e-11)
            np.testing.assert_allclose(fit.pose.translation, pose.translation, atol=1e-8)
        np.testing.assert_allclose(fit.freedoms @ fit.freedoms.T, np.eye(int(free)), atol=1e-9)


def test_a_row_may_shift_along_its_axes_and_its_middle_lies_on_the_middle() -> None:
    points = np.array([[0.0, 0.0, 1.0], [50.0, 0.0, 3.0]])
    targets = np.array([[10.0, 7.0, 100.0], [60.0, 7.0, 104.0]])
    fit = _fit(points, np.array([Z, Z]), targets, np.array([Z, Z]))
    np.testing.assert_allclose(np.abs(fit.freedoms), [[0, 0, 0, 0, 0, 1]], atol=1e-9)
    # Middles: z = 2 and z = 102.
    np.testing.assert_allclose(fit.pose.translation, [10, 7, 100], atol=1e-9)
    np.testing.assert_allclose(fit.pose.rotation, np.eye(3), atol=1e-9)


def test_the_middle_lies_on_the_middle_also_where_holes_are_off() -> None:
    rng = np.random.default_rng(44)
    for pose in random_poses(rng, 20, 2000.0):
        points = rng.uniform(-200.0, 200.0, (8, 3))
        targets = pose.points(points + rng.normal(size=(8, 3)))
        fit = _fit(points, np.tile(Z, (8, 1)), targets, np.tile(pose.vectors(Z), (8, 1)))
        assert fit.freedoms.shape == (1, 6)
        np.testing.assert_allclose(fit.pose.points(points.mean(axis=0)), targets.mean(axis=0), atol=1e-9)


def test_one_hole_may_shift_and_turn_about_its_axis() -> None:
    fit = _fit(np.array([[1.0, 2.0, 3.0]]), np.array([Z]), np.array([[10.0, 20.0, 30.0]]), np.array([X]))
    np.testing.assert_allclose(np.abs(fit.freedoms), [[0, 0, 0, 1, 0, 0], [1, 0, 0, 0, 0, 0]], atol=1e-9)
    np.testing.assert_allclose(fit.pose.points(np.array([1.0, 2.0, 3.0])), [10, 20, 30], atol=1e-9)


def test_what_is_free_is_turned_as_little_as_possible() -> None:
    fit = _fit(np.array([[1.0, 2.0, 3.0]]), np.array([Z]), np.array([[0.0, 0.0, 0.0]]), np.array([Z]))
    np.testing.assert_allclose(fit.pose.rotation, np.eye(3), atol=1e-6)


def test_an_angle_that_joins_two_faces_has_no_false_residual() -> None:
    # Floor: holes 0.5 above and below the sheet's middle; web likewise: lines agree, centres are 1.25 off.
    own = np.concatenate([_row(6, 10.0, 0.5), _row(6, 0.5, 10.0)])
    target = np.concatenate([_row(6, 10.0, -0.4), _row(6, -0.8, 10.0)])
    axes = np.array([Z] * 6 + [Y] * 6)
    fit = _fit(own, axes, target, axes)
    assert fit.residuals.max() < 1e-10
    np.testing.assert_allclose(fit.pose.translation, 0.0, atol=1e-9)
    assert fit.freedoms.shape == (0, 6)


def test_a_web_row_that_is_high_lifts_the_angle_and_fits() -> None:
    # Only the web's lines hold the height: 0.3 higher there is 0.3 off the floor, and no residual.
    own = np.concatenate([_row(6, 10.0, 0.0), _row(6, 0.0, 10.0)])
    axes = np.array([Z] * 6 + [Y] * 6)
    target = own + np.array([[0.0, 0.0, 0.0]] * 6 + [[0.0, 0.0, 0.3]] * 6)
    fit = _fit(own, axes, target, axes)
    assert fit.residuals.max() < 1e-9
    np.testing.assert_allclose(fit.pose.translation, [0, 0, 0.3], atol=1e-9)


def test_two_holes_at_the_wrong_distance_share_the_misfit() -> None:
    # 100.0 on 100.4: 0.2 each.
    fit = _fit(
        np.array([[0.0, 0.0, 0.0], [100.0, 0.0, 0.0]]),
        np.array([Z, Z]),
        np.array([[0.0, 0.0, 0.0], [100.4, 0.0, 0.0]]),
        np.array([Z, Z]),
    )
    np.testing.assert_allclose(fit.residuals, [0.2, 0.2], atol=1e-9)


def test_a_hole_out_of_line_is_shared_out_by_least_squares() -> None:
    # The middle hole of three is 0.3 aside: the row shifts by 0.1, leaving 0.1, 0.2, 0.1.
    own = _row(3, 0.0, 0.0)
    target = own + np.array([[0.0, 0.0, 0.0], [0.0, 0.3, 0.0], [0.0, 0.0, 0.0]])
    fit = _fit(own, np.array([Z] * 3), target, np.array([Z] * 3))
    np.testing.assert_allclose(fit.residuals, [0.1, 0.2, 0.1], atol=1e-9)
    np.testing.assert_allclose(fit.pose.translation[1], 0.1, atol=1e-9)


def test_axes_that_open_too_wide_share_the_tilt() -> None:
    # Two faces at 90 degrees against holes at 92: nothing else decides, so each axis is 1 degree off.
    opened = np.array([Z, turn_about(X, -92.0) @ Z])
    fit = _fit(
        np.array([[0.0, 0, 0], [9.0, 0, 0]]), np.array([Z, Y]), np.array([[0.0, 0, 0], [9.0, 0, 0]]), opened
    )
    np.testing.assert_allclose(fit.tilts, [1.0, 1.0], atol=1e-9)


def test_the_other_way_up_is_not_a_fit() -> None:
    # Axes are directed: with three holes in an uneven triangle only a reflection would do both.
    own = np.array([[0.0, 0.0, 0.0], [60.0, 0.0, 0.0], [0.0, 25.0, 0.0]])
    fit = _fit(own, np.array([Z] * 3), own * [1.0, -1.0, 1.0], np.array([Z] * 3))
    assert fit.residuals.max() > 5.0
    turned = _fit(own, np.array([-Z] * 3), own * [1.0, -1.0, 1.0], np.array([Z] * 3))
    assert turned.residuals.max() < 1e-9


def test_a_mirrored_pattern_is_never_reflected() -> None:
    own = np.array([[0.0, 0.0, 0.0], [60.0, 0.0, 0.0], [0.0, 25.0, 0.0], [10.0, 3.0, 0.0]])
    fit = _fit(own, np.array([Z] * 4), own * [-1.0, 1.0, 1.0], np.array([Z] * 4))
    assert np.linalg.det(fit.pose.rotation) == pytest.approx(1.0, abs=1e-12)
    assert fit.residuals.max() > 5.0


def test_nearly_symmetrical_rows_come_the_right_way_round() -> None:
    # Only the last pitch differs, by 1 mm over 600: the wrong way round is off by no more than half of it.
    own = _row(31, 0.0, 0.0)
    own[-1, 0] += 1.0
    for pose in random_poses(np.random.default_rng(42), 20, 500.0):
        fit = _fit(own, np.array([Z] * 31), pose.points(own), np.tile(pose.vectors(Z), (31, 1)))
        assert fit.residuals.max() < 1e-9


@pytest.mark.parametrize(("degrees", "free"), [(0.1, 0), (1e-3, 0), (1e-5, 1)])
def test_axes_hardly_out_of_parallel_still_hold(degrees: float, free: int) -> None:
    # A shift along them changes the fit by the sine: 1.7e-5 at a thousandth of a degree, 1.7e-7 at 1e-5.
    points = np.array([[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [0.0, 30.0, 0.0], [100.0, 30.0, 0.0]])
    tilted = turn_about(X, degrees) @ Z
    axes = np.array([Z, Z, tilted, tilted])
    assert len(_fit(points, axes, points, axes).freedoms) == free


@pytest.mark.parametrize(("degrees", "count", "slide"), [(7.0, 2, 5.0), (1.0, 3, 100.0)])
def test_axes_measured_badly_are_fitted_as_well_as_can_be(degrees: float, count: int, slide: float) -> None:
    # Each axis is off by about a degree: the turn about axes that are hardly apart is easily got wrong.
    rng = np.random.default_rng(46)
    axes = np.array([Z, turn_about(X, degrees) @ Z])[np.arange(count) % 2]
    for pose in random_poses(rng, 30, 500.0):
        points = rng.uniform(0.0, [300.0, 40.0, 3.0], (count, 3))
        targets = pose.points(points + axes * rng.uniform(-slide, slide, (count, 1)))
        lines = pose.vectors(axes) + rng.normal(size=(count, 3)) * 0.02
        lines /= np.linalg.norm(lines, axis=1)[:, None]
        fit = _fit(points, axes, targets, lines)
        assert fit.freedoms.shape == (0, 6)
        best = _best_of_random_starts(rng, 3, points, axes, targets, lines)
        assert _squares(fit.pose, points, axes, targets, lines) <= best * (1.0 + 1e-4) + 1e-12


def test_holes_that_do_not_fit_are_fitted_nearly_as_well_as_can_be() -> None:
    # Mirrored patterns on floor and web have several local minima; none is a fit.
    rng = np.random.default_rng(45)
    for _ in range(3):
        points = rng.uniform(-100.0, 100.0, (5, 3))
        axes = np.array([Z, Y, Z, Y, Z])
        targets, lines = points * [1.0, -1.0, 1.0], axes * [1.0, -1.0, 1.0]
        fit = _fit(points, axes, targets, lines)
        best = _best_of_random_starts(rng, 6, points, axes, targets, lines)
        assert _squares(fit.pose, points, axes, targets, lines) <= best * 1.1


def _best_of_random_starts(
    rng: np.random.Generator, count: int, points: Array, axes: Array, targets: Array, lines: Array
) -> float:
    """Return the least sum of squares that another library's least squares finds from ``count`` starts."""
    length = max(10.0, float(np.sqrt(np.mean(np.sum((targets - targets.mean(axis=0)) ** 2, axis=1)))))

    def errors(six: Array) -> Array:
        turn = Rotation.from_rotvec(six[:3]).as_matrix()
        gaps = np.cross(points @ turn.T + six[3:] - targets, lines)
        return np.concatenate([gaps, length * (axes @ turn.T - lines)]).ravel()

    starts = [
        np.concatenate([rng.normal(size=3) * 2.0, targets.mean(axis=0) + rng.normal(size=3) * 50.0])
        for _ in range(count)
    ]
    return float(min(2.0 * least_squares(errors, start).cost for start in starts))


def test_no_small_move_fits_better() -> None:
    # At the minimum of the sum of squares every small rigid move makes it worse.
    rng = np.random.default_rng(43)
    for pose in random_poses(rng, 30, 500.0):
        count = int(rng.integers(3, 20))
        points, axes = (
            rng.uniform(-100, 100, (count, 3)),
            np.array([Z, SLOPING, Y])[rng.integers(0, 3, count)],
        )
        targets = pose.points(points + rng.normal(size=(count, 3)) * 0.3)
        fit = _fit(points, axes, targets, pose.vectors(axes))
        least = _squares(fit.pose, points, axes, targets, pose.vectors(axes))
        for k in range(12):
            axis = unit(np.asarray(rng.normal(size=3)))
            turn = turn_about(axis, 1e-4 if k % 2 else 0.0)
            shift = np.asarray(rng.normal(size=3)) * (0.0 if k % 2 else 1e-4)
            middle = targets.mean(axis=0)
            moved = Pose(
                rotation=turn @ fit.pose.rotation,
                translation=turn @ (fit.pose.translation - middle) + middle + shift,
            )
            assert _squares(moved, points, axes, targets, pose.vectors(axes)) > least


def _squares(pose: Pose, points: Array, axes: Array, targets: Array, target_axes: Array) -> float:
    """Return what the fit makes least, written out pair by pair."""
    length = max(10.0, float(np.sqrt(np.mean(np.sum((targets - targets.mean(axis=0)) ** 2, axis=1)))))
    total = 0.0
    for point, axis, target, line in zip(points, axes, targets, target_axes, strict=True):
        gap = np.cross(pose.points(point) - target, line)
        tilt = pose.vectors(axis) - line
        total += float(gap @ gap) + length**2 * float(tilt @ tilt)
    return total
