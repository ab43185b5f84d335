/**
 * The work as it stands in the page: both texts unpacked, the JSON parsed.
 *
 * @typedef {object} Body  one shape, in its part's frame
 * @property {Float32Array} points  three a corner, mm
 * @property {Uint32Array} faces  three corners a triangle
 * @property {Uint32Array} edges  two corners a line
 * @property {number[]} low
 * @property {number[]} high  the corners of its box
 */

/**
 * @param {Document} page
 * @returns {Promise<object>} what stands in `#work`, with `bodies`: one `Body` a shape, out of `#meshes`
 */
export async function readWork(page) {
  const told = await unpack(page.getElementById("work").textContent.trim());
  const work = JSON.parse(new TextDecoder().decode(told));
  const bytes = await unpack(page.getElementById("meshes").textContent.trim());
  work.bodies = bodiesOf(work, bytes);
  return work;
}

/** @param {string} text base64 of gzip @returns {Promise<ArrayBuffer>} */
export async function unpack(text) {
  if (!text) return new ArrayBuffer(0);
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let k = 0; k < binary.length; k++) bytes[k] = binary.charCodeAt(k);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

/**
 * @param {{shapes: object[], meshes: object}} work
 * @param {ArrayBuffer} bytes
 * @returns {Body[]}
 */
export function bodiesOf(work, bytes) {
  const { vertices, faces, edges } = work.meshes;
  const corners = summed(new Uint16Array(bytes, vertices[0], vertices[1] / 2), 3);
  const triangles = summed(new Uint32Array(bytes, faces[0], faces[1] / 4), 3);
  const lines = summed(new Uint32Array(bytes, edges[0], edges[1] / 4), 2);
  return work.shapes.map((shape) => {
    const points = pointsOf(shape, corners);
    return {
      points,
      faces: triangles.subarray(3 * shape.faces[0], 3 * (shape.faces[0] + shape.faces[1])),
      edges: lines.subarray(2 * shape.edges[0], 2 * (shape.edges[0] + shape.edges[1])),
      ...boxOf(points),
    };
  });
}

/** Each row stands in the page as its difference to the row before; what runs over counts from 0 again. */
function summed(numbers, wide) {
  for (let k = wide; k < numbers.length; k++) numbers[k] += numbers[k - wide];
  return numbers;
}

function pointsOf(shape, corners) {
  const [first, count] = shape.vertices;
  const points = new Float32Array(3 * count);
  for (let k = 0; k < points.length; k++) points[k] = shape.low[k % 3] + shape.grain[k % 3] * corners[3 * first + k];
  return points;
}

function boxOf(points) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < points.length; k++) {
    low[k % 3] = Math.min(low[k % 3], points[k]);
    high[k % 3] = Math.max(high[k % 3], points[k]);
  }
  return points.length ? { low, high } : { low: [0, 0, 0], high: [0, 0, 0] };
}
