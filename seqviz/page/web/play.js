/**
 * What stands where while a step is done. Pure: work in, numbers out; no page, no 3D.
 *
 * Within a step things happen one after the other: what must come out of holes for a part to leave, parts that
 * leave, the turning over, parts that come, what is put into holes.
 *
 * @typedef {object} Moment
 * @property {Uint8Array} there  one a part: 1 where it is to be seen
 * @property {Uint8Array} fresh  one a part: 1 where it comes with this step
 * @property {Float32Array} off  three a part, mm, base frame: how far it is off its place
 * @property {number[]} fixed  indices into `work.fixings`: what is in the holes
 * @property {number} news  that many of them, at the end, came with this step
 * @property {number} turn  0 .. 1, how far the work has been turned over
 */

import { between, length, minus } from "bench/space";

/** Slow, fast, slow. */
export const eased = (u) => u * u * (3 - 2 * u);

/** @param {number[][]} path straight from point to point @param {number} share of its length, 0 .. 1 */
export function along(path, share) {
  const pieces = path.slice(1).map((point, k) => length(minus(point, path[k])));
  let rest = pieces.reduce((sum, piece) => sum + piece, 0) * share;
  for (let k = 0; k < pieces.length; k++) {
    if (rest <= pieces[k] && pieces[k] > 0) return between(path[k], path[k + 1], rest / pieces[k]);
    rest -= pieces[k];
  }
  return path[path.length - 1] ?? [0, 0, 0];
}

/** @param {number[][]} spans first and last of each @returns {number[]} */
export const listed = (spans) => spans.flatMap(([first, last]) => Array.from({ length: last - first + 1 }, (_, k) => first + k));

/**
 * @param {object} work
 * @returns {{at: (step: number, t: number) => Moment, apart: (step: number, factor: number) => Float32Array,
 *   seconds: (step: number) => number}}  `apart`: how far each part is off its place when all is drawn apart, 0 .. 1
 */
export function createPlay(work) {
  const plans = new Map();
  const planOf = (step) => {
    if (!plans.has(step)) plans.set(step, planned(work.steps[step]));
    return plans.get(step);
  };
  return {
    at: (step, t) => (work.steps[step] ? momentOf(work, work.steps[step], planOf(step), t) : wholeOf(work)),
    seconds: (step) => (work.steps[step] ? lasting(planOf(step)) : 1),
    apart: (step, factor) => apart(work, work.steps[step] ? step : work.steps.length - 1, factor),
  };
}

/** All parts in place, and what is in the holes at the end: without steps, nothing. */
function wholeOf(work) {
  const count = work.parts.length;
  const there = Uint8Array.from(work.parts, (part) => (part.tool ? 0 : 1));
  const last = work.steps.findLast((step) => step.work === null);
  return {
    there,
    fresh: new Uint8Array(count),
    off: new Float32Array(3 * count),
    fixed: last ? listed(last.fixed) : [],
    news: 0,
    turn: 1,
  };
}

/** The step's happenings with the share of its time that each takes, `from` and `to` in 0 .. 1. */
function planned(step) {
  const was = listed(step.fixed_before);
  const is = listed(step.fixed);
  const [before, now] = [new Set(was), new Set(is)];
  const holes = {
    stay: is.filter((k) => before.has(k)),
    go: was.filter((k) => !now.has(k)),
    come: is.filter((k) => !before.has(k)),
  };
  const leaving = groups(step.moves.filter((move) => move.leaves));
  const coming = groups(step.moves.filter((move) => !move.leaves));
  const tasks = [];
  const put = (kind, weight, moves = []) => tasks.push({ kind, weight, moves });
  if (leaving.length && holes.go.length) put("out", 0.5);
  leaving.forEach((moves) => put("leave", 1, moves));
  if (step.turn) put("turn", 1.5);
  coming.forEach((moves) => put("come", 1, moves));
  if (holes.come.length || (holes.go.length && !leaving.length)) put("holes", coming.length ? 0.5 : 1);
  return { holes, tasks: timed(tasks) };
}

/** What moves as one piece, together. */
function groups(moves) {
  const found = [];
  for (const move of moves) {
    const last = found.at(-1);
    if (last && last[0].piece === move.piece) last.push(move);
    else found.push([move]);
  }
  return found;
}

function timed(tasks) {
  const whole = tasks.reduce((sum, task) => sum + task.weight, 0);
  let sum = 0;
  return tasks.map((task) => {
    const from = sum / whole;
    sum += task.weight;
    return { ...task, from, to: sum / whole };
  });
}

const lasting = ({ tasks }) => Math.min(9, 0.6 + tasks.reduce((sum, task) => sum + 1.2 * task.weight, 0));

const shareOf = (task, t) => Math.min(1, Math.max(0, (t - task.from) / (task.to - task.from)));

function momentOf(work, step, plan, t) {
  const count = work.parts.length;
  const moment = { there: new Uint8Array(count), fresh: new Uint8Array(count), off: new Float32Array(3 * count) };
  for (const part of step.there) moment.there[part] = 1;
  let turn = 1;
  for (const task of plan.tasks) {
    const share = t >= 1 ? 1 : shareOf(task, t);
    if (task.kind === "turn") turn = eased(share);
    for (const move of task.moves) shift(moment, move, share);
  }
  return { ...moment, ...holesAt(plan, t), turn };
}

/** Set where a part on its way is; one that has not set out yet is not there, nor one that has gone. */
function shift(moment, move, share) {
  if (!move.leaves) moment.fresh[move.part] = 1;
  moment.there[move.part] = (move.leaves ? share < 1 : share > 0) ? 1 : 0;
  moment.off.set(along(move.path, move.leaves ? 1 - eased(share) : eased(share)), 3 * move.part);
}

function holesAt({ holes, tasks }, t) {
  const out = tasks.find((task) => task.kind === "out" || task.kind === "holes");
  const inn = tasks.find((task) => task.kind === "holes");
  const gone = Math.round((out ? shareOf(out, t) : 1) * holes.go.length);
  const came = Math.round((inn ? shareOf(inn, t) : 1) * holes.come.length);
  const fixed = [...holes.stay, ...holes.go.slice(gone), ...holes.come.slice(0, came)];
  return { fixed, news: came };
}

/** How far each part is off its place when what is there is drawn apart; what came later goes farther. */
function apart(work, step, factor) {
  const off = new Float32Array(3 * work.parts.length);
  if (factor <= 0) return off;
  const ways = [];
  for (let k = 0; k <= step; k++) for (const move of work.steps[k].moves) if (!move.leaves) ways.push(move);
  let rank = 0;
  ways.forEach((move, k) => {
    if (k === 0 || ways[k - 1].piece !== move.piece) rank += 1;
    const far = factor * (0.4 + (0.6 * rank) / ways.length);
    along(move.path, 1 - far).forEach((value, axis) => (off[3 * move.part + axis] += value));
  });
  return off;
}
