/** From where a spot is seen. Pure. */

import { axesOf } from "bench/camera";
import { dot, length, minus, plus, times, turnedBack } from "bench/space";

const FAR = 1e5; // mm, outside of everything
const NEAR = 4; // mm before the spot that may be met: the face that it is on

/**
 * @param {{hit: Function}} picker
 * @param {{turn: number[]}} lie how the work lies
 * @param {number[]} spot base frame, mm
 * @param {{round: number, high: number}} now
 * @returns {{round: number, high: number}} the side nearest to now from which nothing hides the spot; else the one
 *   from which least does
 */
export function clearSide(picker, lie, spot, now) {
  const eye = axesOf(now).eye;
  const sides = [{ round: now.round, high: now.high }];
  for (const high of [38, 62, 14, 88, -38, -75]) for (let round = 0; round < 360; round += 45) sides.push({ round: now.round + round, high });
  const away = (side) => 1 - dot(axesOf(side).eye, eye) + (side.high < 0 ? 2 : 0);
  sides.sort((a, b) => away(a) - away(b));
  let best = { side: sides[0], open: -1 };
  for (const side of sides) {
    const way = turnedBack(lie.turn, axesOf(side).eye);
    const from = plus(spot, times(way, FAR));
    const met = picker.hit(from, times(way, -1));
    const open = met ? length(minus(met.point, from)) : Infinity;
    if (open > FAR - NEAR) return side;
    if (open > best.open) best = { side, open };
  }
  return best.side;
}
