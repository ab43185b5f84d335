/**
 * What stands under a finger: the nearest part along a ray, and the hole next to it on the face that is seen. Pure.
 *
 * @typedef {object} Hit
 * @property {number} part
 * @property {number} far  mm from where the ray starts
 * @property {number[]} point  base frame, where the part is drawn
 * @property {number[]} normal  of the face, base frame
 */

import { cross, dot, inPart, length, minus, plus, times, turnedInPart, unit } from "bench/space";

const SMALLEST = 3.5; // page's pixels: a hole that is seen smaller cannot be meant
const ALONG = 60; // mm that a stack may reach from where it is told to be

/**
 * @param {object} work with its bodies
 * @param {{presence: (part: number) => number, offset: (part: number) => number[]}} state 1: whole
 */
export function createPicker(work, state) {
  const owners = work.stacks.map(() => []); // the parts that each stack goes through
  work.parts.forEach((part, k) => part.stacks.forEach((stack) => owners[stack].push(k)));
  const parts = [...work.parts.keys()].filter((k) => work.parts[k].shape !== null);

  /** @returns {Hit|null} the first whole part that a ray meets, base frame */
  function hit(from, way, furthest = Infinity) {
    let best = null;
    for (const k of parts) {
      if (state.presence(k) !== 1) continue;
      const { pose, shape } = work.parts[k];
      const start = inPart(pose, minus(from, state.offset(k)));
      const along = turnedInPart(pose, way);
      const found = meets(work.bodies[shape], start, along, best ? best.far : furthest);
      if (found) best = { part: k, ...found };
    }
    if (!best) return null;
    const { pose } = work.parts[best.part];
    const normal = unit([0, 4, 8].map((row) => pose[row] * best.normal[0] + pose[row + 1] * best.normal[1] + pose[row + 2] * best.normal[2]));
    return { ...best, normal, point: plus(from, times(way, best.far)) };
  }

  /** The hole of the part whose rim is nearest to where its face was met. `{stack, away}`, mm. */
  function holeAt(found, perPixel) {
    const point = minus(found.point, state.offset(found.part));
    let best = null;
    for (const stack of work.parts[found.part].stacks) {
      const { at, axis, diameter } = work.stacks[stack];
      if (!at || diameter / perPixel < SMALLEST || Math.abs(dot(axis, found.normal)) < 0.5) continue;
      const off = minus(point, at);
      const up = dot(off, axis);
      if (Math.abs(up) > ALONG) continue;
      const away = length(minus(off, times(axis, up)));
      if (!best || away < best.away) best = { stack, away, rim: away - diameter / 2 };
    }
    return best;
  }

  /** The nearest hole that a ray goes through, or into, before it meets anything. */
  function holeThrough(from, way, first, perPixel) {
    const met = first ? first.far : Infinity;
    let best = null;
    work.stacks.forEach(({ at, axis, diameter }, stack) => {
      const there = owners[stack].filter((k) => state.presence(k) === 1);
      const part = there.includes(first?.part) ? first.part : there[0];
      const steep = at && there.length ? dot(axis, way) : 0;
      if (Math.abs(steep) < 0.3) return;
      const middle = plus(at, state.offset(part));
      const far = dot(axis, minus(middle, from)) / steep;
      const point = plus(from, times(way, far));
      if (far <= 0 || far > met + 1 || far > (best?.far ?? Infinity) || diameter / perPixel(far) < SMALLEST) return;
      if (length(minus(point, middle)) <= diameter / 2) best = { stack, part, far, point };
    });
    return best;
  }

  /**
   * @param {(off: number[]) => {from: number[], way: number[]}} rayAt a ray beside the finger, page's pixels
   * @param {number} finger half its width, page's pixels
   * @param {(far: number) => number} perPixel mm at a distance
   * @returns {{part: number|null, stack: number|null, point: number[]|null}}
   */
  function under(rayAt, finger, perPixel) {
    const middle = rayAt([0, 0]);
    const first = hit(middle.from, middle.way);
    const through = holeThrough(middle.from, middle.way, first, perPixel);
    if (through) return { part: through.part, stack: through.stack, point: minus(through.point, state.offset(through.part)) };
    const meant = [];
    const look = (found, reach) => {
      if (!found) return;
      const one = perPixel(found.far);
      const hole = holeAt(found, one);
      if (hole && hole.rim <= reach * one) meant.push({ ...hole, found });
    };
    look(first, finger);
    for (let k = 0; k < 8 && !meant.length; k++) {
      const off = [Math.cos((k * Math.PI) / 4), Math.sin((k * Math.PI) / 4)].map((share) => (share * finger) / 2);
      const { from, way } = rayAt(off);
      look(hit(from, way), finger / 2);
    }
    meant.sort((a, b) => a.rim - b.rim);
    const found = meant[0]?.found ?? first;
    if (!found) return { part: null, stack: null, point: null };
    return { part: found.part, stack: meant[0]?.stack ?? null, point: minus(found.point, state.offset(found.part)) };
  }

  return { hit, under };
}

/** The first triangle of a body that a ray meets: how far, and its normal. */
function meets(body, start, way, furthest) {
  if (!throughBox(body, start, way, furthest)) return null;
  const { points, faces } = body;
  let best = null;
  let far = furthest;
  for (let k = 0; k < faces.length; k += 3) {
    const [i, j, m] = [3 * faces[k], 3 * faces[k + 1], 3 * faces[k + 2]];
    const ax = points[j] - points[i], ay = points[j + 1] - points[i + 1], az = points[j + 2] - points[i + 2];
    const bx = points[m] - points[i], by = points[m + 1] - points[i + 1], bz = points[m + 2] - points[i + 2];
    const px = way[1] * bz - way[2] * by, py = way[2] * bx - way[0] * bz, pz = way[0] * by - way[1] * bx;
    const det = ax * px + ay * py + az * pz;
    if (det > -1e-12 && det < 1e-12) continue;
    const sx = start[0] - points[i], sy = start[1] - points[i + 1], sz = start[2] - points[i + 2];
    const u = (sx * px + sy * py + sz * pz) / det;
    if (u < 0 || u > 1) continue;
    const qx = sy * az - sz * ay, qy = sz * ax - sx * az, qz = sx * ay - sy * ax;
    const v = (way[0] * qx + way[1] * qy + way[2] * qz) / det;
    if (v < 0 || u + v > 1) continue;
    const t = (bx * qx + by * qy + bz * qz) / det;
    if (t <= 1e-6 || t >= far) continue;
    far = t;
    best = [[ax, ay, az], [bx, by, bz]];
  }
  return best ? { far, normal: cross(best[0], best[1]) } : null;
}

function throughBox({ low, high }, start, way, furthest) {
  let [near, far] = [0, furthest];
  for (let axis = 0; axis < 3; axis++) {
    if (Math.abs(way[axis]) < 1e-12) {
      if (start[axis] < low[axis] || start[axis] > high[axis]) return false;
      continue;
    }
    const a = (low[axis] - start[axis]) / way[axis];
    const b = (high[axis] - start[axis]) / way[axis];
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near <= far + 1e-9;
}
