/** The little work of the tests with its bodies: plain boxes. */

const box = (wide, deep, high) => {
  const corner = (k) => [k & 1 ? wide : 0, k & 2 ? deep : 0, k & 4 ? high : 0];
  return {
    points: Float32Array.from([0, 1, 2, 3, 4, 5, 6, 7].flatMap(corner)),
    faces: Uint32Array.from([
      0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5,
    ]),
    edges: Uint32Array.from([0, 1, 1, 3, 3, 2, 2, 0, 4, 5, 5, 7, 7, 6, 6, 4, 0, 4, 1, 5, 2, 6, 3, 7]),
    low: [0, 0, 0],
    high: [wide, deep, high],
  };
};

export const withBodies = (work) => ({ ...work, bodies: work.boxes.map((size) => box(...size)) });
