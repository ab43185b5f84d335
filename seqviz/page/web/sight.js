/** From where a spot is seen. Pure. */

import { axesOf } from "bench/camera";
import { dot, minus, plus, times, turnedBack } from "bench/space";

const FAR = 1e5; // mm, outside of everything
const NEAR = 4; // mm before the spot that may be met: the face that it is on
const UNDERNEATH = 2; // how unwelcome a side is from which one looks from under the bench
const THROUGH = 1.5; // and one from which one looks through parts

/**
 * @param {{hit: Function}} picker
 * @param {{turn: number[]}} lie how the work lies
 * @param {number[]} spot base frame, mm
 * @param {{round: number, high: number}} now
 * @param {(part: number) => boolean} [glassy] whether a part may be made like glass to look through it
 * @returns {{side: {round: number, high: number}, through: number[]}} the side nearest to now from which nothing hides
 *   the spot but glassy parts, and which those are; else the one from which least does
 */
export function clearSide(picker, lie, spot, now, glassy = () => false) {
  const eye = axesOf(now).eye;
  const sides = [{ round: now.round, high: now.high }];
  for (const high of [38, 62, 14, 88, -38, -75]) for (let round = 0; round < 360; round += 45) sides.push({ round: now.round + round, high });
  const away = (side) => 1 - dot(axesOf(side).eye, eye) + (side.high < 0 ? UNDERNEATH : 0);
  sides.sort((a, b) => away(a) - away(b));
  let best = { side: sides[0], through: [], open: -1, cost: Infinity };
  for (const side of sides) {
    if (best.open > FAR - NEAR && best.cost <= away(side)) break;
    const seen = along(picker, spot, turnedBack(lie.turn, axesOf(side).eye), glassy);
    const clear = seen.open > FAR - NEAR;
    const cost = away(side) + (seen.through.length ? THROUGH : 0);
    if (clear ? cost < best.cost : best.cost === Infinity && seen.open > best.open) best = { side, ...seen, cost: clear ? cost : Infinity };
  }
  return { side: best.side, through: best.through };
}

/** How far one sees towards a spot, mm, and through which parts. */
function along(picker, spot, way, glassy) {
  const through = new Set();
  let open = 0;
  while (open <= FAR - NEAR) {
    const met = picker.hit(plus(spot, times(way, FAR - open)), times(way, -1));
    open = met ? FAR - dot(minus(met.point, spot), way) : Infinity;
    if (open > FAR - NEAR || !glassy(met.part)) break;
    through.add(met.part);
    open += 0.01;
  }
  return { open, through: [...through] };
}
