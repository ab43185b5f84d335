/** Which faces and edges of a body are so small that from afar they may be left out: walls and rims of holes. Pure. */

const FINE = 3; // mm, the longest side
const MOST_AREA = 0.05; // of a body may be left out: one that is finely meshed all over stays whole

/**
 * @param {{points: Float32Array, faces: Uint32Array, edges: Uint32Array}} body
 * @returns {{faces: {corners: Uint32Array, large: number}, edges: {corners: Uint32Array, large: number}}}
 *   `corners`: large ones first; `large`: how many of its numbers they take
 */
export function sorted({ points, faces, edges }) {
  const side = (i, j) => Math.hypot(points[3 * i] - points[3 * j], points[3 * i + 1] - points[3 * j + 1], points[3 * i + 2] - points[3 * j + 2]);
  const apart = split(edges, 2, (k) => side(edges[k], edges[k + 1]) < FINE);
  let [all, left] = [0, 0];
  const together = split(faces, 3, (k) => {
    const [a, b, c] = [side(faces[k], faces[k + 1]), side(faces[k + 1], faces[k + 2]), side(faces[k + 2], faces[k])];
    const half = (a + b + c) / 2;
    const area = Math.sqrt(Math.max(0, half * (half - a) * (half - b) * (half - c)));
    const fine = Math.max(a, b, c) < FINE;
    all += area;
    if (fine) left += area;
    return fine;
  });
  if (left > MOST_AREA * all) return { faces: { corners: faces, large: faces.length }, edges: { corners: edges, large: edges.length } };
  return { faces: together, edges: apart };
}

function split(numbers, wide, isFine) {
  const corners = new Uint32Array(numbers.length);
  let [large, fine] = [0, numbers.length];
  for (let k = 0; k < numbers.length; k += wide) {
    const to = isFine(k) ? (fine -= wide) : (large += wide) - wide;
    for (let n = 0; n < wide; n++) corners[to + n] = numbers[k + n];
  }
  return { corners, large };
}
