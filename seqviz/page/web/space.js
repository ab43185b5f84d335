/** Points and turnings as plain arrays: vectors of three, matrices of nine, row by row. */

export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a, factor) => [a[0] * factor, a[1] * factor, a[2] * factor];
export const length = (a) => Math.hypot(a[0], a[1], a[2]);
export const between = (a, b, share) => plus(a, times(minus(b, a), share));
export const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

export function unit(a) {
  const size = length(a);
  return size > 0 ? times(a, 1 / size) : [0, 0, 1];
}

/** A unit vector across `a`, as near to `wanted` as it can be. */
export function across(a, wanted) {
  const rest = minus(wanted, times(a, dot(a, wanted)));
  if (length(rest) > 1e-3) return unit(rest);
  const least = Math.abs(a[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  return unit(minus(least, times(a, dot(a, least))));
}

/** Turn a point by a matrix. */
export const turned = (m, p) => [
  m[0] * p[0] + m[1] * p[1] + m[2] * p[2],
  m[3] * p[0] + m[4] * p[1] + m[5] * p[2],
  m[6] * p[0] + m[7] * p[1] + m[8] * p[2],
];

/** Turn it back. */
export const turnedBack = (m, p) => [
  m[0] * p[0] + m[3] * p[1] + m[6] * p[2],
  m[1] * p[0] + m[4] * p[1] + m[7] * p[2],
  m[2] * p[0] + m[5] * p[1] + m[8] * p[2],
];

/** First `b`, then `a`. */
export function after(a, b) {
  const product = [];
  for (let row = 0; row < 9; row += 3)
    for (let column = 0; column < 3; column++)
      product.push(a[row] * b[column] + a[row + 1] * b[column + 3] + a[row + 2] * b[column + 6]);
  return product;
}

/** The turning about a unit vector by an angle in radians. */
export function turning([x, y, z], angle) {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const d = 1 - c;
  return [
    c + x * x * d, x * y * d - z * s, x * z * d + y * s,
    y * x * d + z * s, c + y * y * d, y * z * d - x * s,
    z * x * d - y * s, z * y * d + x * s, c + z * z * d,
  ];
}

/** A point of a part's frame in the base's; `pose`: 3 by 4, row by row. */
export const placed = (pose, p) => [
  pose[0] * p[0] + pose[1] * p[1] + pose[2] * p[2] + pose[3],
  pose[4] * p[0] + pose[5] * p[1] + pose[6] * p[2] + pose[7],
  pose[8] * p[0] + pose[9] * p[1] + pose[10] * p[2] + pose[11],
];

/** The other way: a direction (`turn` only) or a point of the base's frame in the part's. */
export const inPart = (pose, p) => turnedInPart(pose, [p[0] - pose[3], p[1] - pose[7], p[2] - pose[11]]);
export const turnedInPart = (pose, p) => [
  pose[0] * p[0] + pose[4] * p[1] + pose[8] * p[2],
  pose[1] * p[0] + pose[5] * p[1] + pose[9] * p[2],
  pose[2] * p[0] + pose[6] * p[1] + pose[10] * p[2],
];

/** The eight corners of a box. */
export const corners = (low, high) =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k) => [k & 1 ? high[0] : low[0], k & 2 ? high[1] : low[1], k & 4 ? high[2] : low[2]]);
