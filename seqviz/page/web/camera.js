/**
 * Where the eye is. It goes round a spot on the bench: `round` degrees to the right of who stands before it, `high`
 * degrees above the bench (below 0: from underneath), `far` mm away.
 *
 * @typedef {{spot: number[], round: number, high: number, far: number}} View  bench's frame
 */

import { cross, dot, minus, plus, times, turned, unit } from "bench/space";

const OPENING = 24; // degrees, of the picture's height
const HALF = Math.tan((OPENING / 2) * (Math.PI / 180));
const FLIGHT = 450; // ms
const RIM = 0.92; // of the picture is used when all is in view
const START = { round: 28, high: 38 };

const calm = matchMedia("(prefers-reduced-motion: reduce)");
const rad = (degrees) => (degrees * Math.PI) / 180;

/** The picture's right, up, and the way to the eye. */
export function axesOf({ round, high }) {
  const right = [Math.cos(rad(round)), Math.sin(rad(round)), 0];
  const eye = [Math.cos(rad(high)) * Math.sin(rad(round)), -Math.cos(rad(high)) * Math.cos(rad(round)), Math.sin(rad(high))];
  return { right, up: cross(eye, right), eye };
}

/** The view from a direction, bench's frame. */
export function viewAlong(eye, before) {
  const high = (Math.asin(Math.max(-1, Math.min(1, unit(eye)[2]))) * 180) / Math.PI;
  const round = Math.abs(high) > 89 ? before : (Math.atan2(eye[0], -eye[1]) * 180) / Math.PI;
  return { round, high };
}

/** @param {() => void} changed asks for a new picture */
export function createCamera(changed) {
  const { THREE } = globalThis;
  const camera = new THREE.PerspectiveCamera(OPENING, 1, 1, 1000);
  camera.matrixAutoUpdate = false;
  let view = { spot: [0, 0, 0], far: 1000, ...START };
  let limits = { low: 5, high: 1e5, reach: 1000 };
  let flight = 0;

  function land() {
    cancelAnimationFrame(flight);
    flight = 0;
  }

  function set(next) {
    const far = Math.max(limits.low, Math.min(limits.high, next.far));
    view = { ...next, far, high: Math.max(-90, Math.min(90, next.high)) };
    changed();
  }

  function fly(next) {
    land();
    if (calm.matches) return set(next);
    const from = { ...view, round: next.round + ((((view.round - next.round) % 360) + 540) % 360) - 180 };
    const start = performance.now();
    const tick = (now) => {
      const u = Math.min(1, Math.max(0, now - start) / FLIGHT);
      const share = u * u * (3 - 2 * u);
      const mix = (a, b) => a + (b - a) * share;
      set({
        spot: [0, 1, 2].map((k) => mix(from.spot[k], next.spot[k])),
        far: Math.exp(mix(Math.log(from.far), Math.log(next.far))),
        round: mix(from.round, next.round),
        high: mix(from.high, next.high),
      });
      flight = u < 1 ? requestAnimationFrame(tick) : 0;
    };
    flight = requestAnimationFrame(tick);
  }

  const mmHigh = () => 2 * HALF * view.far; // of the picture, at the spot

  return {
    camera,
    land,
    fly,
    set,
    get view() {
      return view;
    },
    get flying() {
      return flight !== 0;
    },
    perPixel: (height, far = view.far) => (2 * HALF * far) / height,
    setReach(reach) {
      limits = { low: Math.max(3, reach * 0.01), high: reach * 30, reach };
    },
    /** Put the library's camera where the view is. */
    place(aspect) {
      const { right, up, eye } = axesOf(view);
      const at = plus(view.spot, times(eye, view.far));
      const rows = [0, 1, 2].map((k) => [right[k], up[k], eye[k], at[k]]);
      camera.matrix.set(...rows.flat(), 0, 0, 0, 1);
      camera.matrixWorldNeedsUpdate = true;
      camera.aspect = aspect;
      const away = Math.hypot(...view.spot) + 2 * limits.reach;
      camera.near = Math.max(view.far * 0.04, view.far - away);
      camera.far = view.far + away;
      camera.updateProjectionMatrix();
    },
    turn(right, up) {
      land();
      set({ ...view, round: view.round + right, high: view.high + up });
    },
    shift(right, up) {
      land();
      const axes = axesOf(view);
      set({ ...view, spot: plus(view.spot, times(plus(times(axes.right, right), times(axes.up, up)), mmHigh())) });
    },
    /** `at`: what stays where it is in the picture, -1 .. 1 to the right and up. */
    nearer(factor, at = [0, 0], aspect = 1) {
      land();
      const axes = axesOf(view);
      const before = view.far;
      set({ ...view, far: view.far / factor });
      const share = (before - view.far) * HALF;
      set({ ...view, spot: plus(view.spot, plus(times(axes.right, at[0] * aspect * share), times(axes.up, at[1] * share))) });
    },
    /** Through a place in the picture, -1 .. 1 to the right and up: from the eye, bench's frame. */
    ray([x, y], aspect) {
      const { right, up, eye } = axesOf(view);
      const way = plus(plus(times(right, x * aspect * HALF), times(up, y * HALF)), times(eye, -1));
      return { from: plus(view.spot, times(eye, view.far)), way: unit(way) };
    },
    /** The view from a side that has all of these points in it. */
    around(points, side, aspect) {
      if (!points.length) return { ...view, ...side };
      const axes = axesOf(side);
      const spans = [axes.right, axes.up, axes.eye].map((axis) => points.map((point) => dot(axis, point)));
      const ends = spans.map((values) => [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))]);
      const middle = ends.map(([low, high]) => (low + high) / 2);
      const spot = [0, 1, 2].map((k) => axes.right[k] * middle[0] + axes.up[k] * middle[1] + axes.eye[k] * middle[2]);
      const far = points.reduce((most, point) => {
        const off = minus(point, spot);
        const wide = Math.max(Math.abs(dot(axes.right, off)) / aspect, Math.abs(dot(axes.up, off)));
        return Math.max(most, wide / (HALF * RIM) + dot(axes.eye, off));
      }, 10);
      return { ...side, spot, far };
    },
    farFor: (radius) => radius / (HALF * RIM),
  };
}

/** A side of the structure as a direction, base frame. */
export function sideOf(side, up, forward) {
  const left = cross(up, forward);
  const ways = { upper: up, lower: times(up, -1), forward, aft: times(forward, -1), left, right: times(left, -1) };
  return ways[side] ?? up;
}

export const toBench = (lie, point) => plus(turned(lie.turn, point), lie.move);
