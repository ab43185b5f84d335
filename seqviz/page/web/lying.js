/**
 * How the work lies on the bench. Pure. The bench's frame: z up, y away from who stands before it, x to the right,
 * its top in z = 0; what is worked on lies around x = y = 0.
 *
 * @typedef {{turn: number[], move: number[]}} Lie  base frame to the bench's: turn (nine numbers), then move
 */

import { across, after, between, corners, cross, dot, placed, turned, turning } from "bench/space";

/** @param {object} work with its bodies @returns {{at: (step: number, moment: object) => Lie}} */
export function createLying(work) {
  const boxes = work.parts.map((part) => (part.shape === null ? [] : boxOf(part, work.bodies[part.shape])));
  const turns = turnsOf(work);
  const middles = new Map();
  const middleOf = (name) => {
    if (!middles.has(name)) middles.set(name, middle(partsOf(work, name).flatMap((part) => boxes[part])));
    return middles.get(name);
  };

  function at(index, moment) {
    const step = work.steps[index];
    const plan = step ? turns[index] : { before: firstTurn(work, work.up), angle: 0 };
    const turn = plan.angle ? after(plan.before, turning(plan.axis, plan.angle * moment.turn)) : plan.before;
    const centre = turned(turn, middleOf(step ? step.work : null));
    return { turn, move: [-centre[0], -centre[1], -lowest(turn, resting(work, step, moment))] };
  }

  /** What lies there through the whole step; a part on its way does not lift the work. */
  function resting(whole, step, moment) {
    const moving = new Set(step ? step.moves.map((move) => move.part) : []);
    const still = step ? step.there.filter((part) => !moving.has(part)) : whole.parts.keys();
    const points = [...still].flatMap((part) => boxes[part]);
    if (!points.length) return step ? step.there.flatMap((part) => boxes[part]) : [];
    const done = [...moving].filter((part) => moment.there[part] && !moment.off.subarray(3 * part, 3 * part + 3).some(Boolean));
    return points.concat(done.flatMap((part) => boxes[part]));
  }

  return { at, boxes };
}

const boxOf = (part, body) => corners(body.low, body.high).map((point) => placed(part.pose, point));

function partsOf(work, name) {
  const steps = work.steps.filter((step) => step.work === name);
  return steps.length ? [...new Set(steps.flatMap((step) => step.there))] : [...work.parts.keys()];
}

function middle(points) {
  if (!points.length) return [0, 0, 0];
  const ends = [Math.min, Math.max].map((end) => [0, 1, 2].map((axis) => points.reduce((m, p) => end(m, p[axis]), points[0][axis])));
  return between(ends[0], ends[1], 0.5);
}

const lowest = (turn, points) => points.reduce((least, point) => Math.min(least, turned(turn, point)[2]), points.length ? Infinity : 0);

/** How it lies when it comes to the bench with `up` facing up: its forward side away. */
export function firstTurn(work, up) {
  const away = across(up, work.forward);
  return [...cross(away, up), ...away, ...up];
}

/** For each step how the work lay before, and what turns it: axis and angle, base frame. */
function turnsOf(work) {
  const last = new Map(); // work -> how it lies
  return work.steps.map((step) => {
    const { up, turn } = step;
    let before = last.get(step.work);
    const asBefore = turn ? turn.before : up;
    if (!before || dot(before.slice(6), asBefore) < 0.999) before = firstTurn(work, asBefore);
    const plan = { before, axis: turn?.axis, angle: turn ? angleOf(turn, up) : 0 };
    last.set(step.work, plan.angle ? after(before, turning(plan.axis, plan.angle)) : before);
    return plan;
  });
}

/** From what faces up afterwards to what did before: the work is turned the other way round. */
function angleOf({ axis, before }, up) {
  const angle = Math.atan2(dot(axis, cross(up, before)), dot(up, before));
  return Math.abs(angle) > 3.13 ? Math.PI : angle; // a half turn always goes the same way
}
