/** Lines with a width: the outline of what is chosen, of what is new, of a tool. A light rim keeps them readable. */

import { material } from "bench/bodies";
import { STROKE } from "bench/shaders";

/**
 * @param {object} shared uniforms of the parts
 * @param {{wide: number, rim?: number, through?: number}} looks page's pixels; `through`: how strongly it shows
 *   through what stands before it, 0 .. 1
 */
export function createStrokes(shared, { wide, rim = 0, through = 0 }) {
  const { THREE } = globalThis;
  const geometry = new THREE.InstancedBufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0]), 3));
  geometry.setIndex([0, 1, 2, 0, 2, 3]);
  const group = new THREE.Group();
  const layers = [];
  const layer = (width, opacity, pull, options) => {
    const uniforms = { ...shared, wide: { value: width }, pull: { value: pull }, opacity: { value: opacity }, colour: { value: new THREE.Color() } };
    const mesh = new THREE.Mesh(geometry, material(STROKE, uniforms, { transparent: opacity < 1, ...options }));
    mesh.frustumCulled = false;
    mesh.renderOrder = 4 + layers.length;
    group.add(mesh);
    layers.push(uniforms.colour.value);
    return mesh;
  };
  if (through) layer(wide, through, 0.35, { depthTest: false, depthWrite: false });
  if (rim) layer(wide + 2 * rim, 1, 0.35, { depthWrite: false });
  layer(wide, 1, 0.4, {});
  group.visible = false;

  return {
    group,
    /** @param {{points: ArrayLike<number>, edges: ArrayLike<number>, part: number}[]} bodies */
    set(bodies) {
      const count = bodies.reduce((sum, body) => sum + body.edges.length / 2, 0);
      group.visible = count > 0;
      if (!count) return;
      geometry.dispose();
      const ends = [new Float32Array(3 * count), new Float32Array(3 * count)];
      const part = new Float32Array(count);
      let n = 0;
      for (const body of bodies)
        for (let k = 0; k < body.edges.length; k += 2, n++) {
          for (let axis = 0; axis < 3; axis++) {
            ends[0][3 * n + axis] = body.points[3 * body.edges[k] + axis];
            ends[1][3 * n + axis] = body.points[3 * body.edges[k + 1] + axis];
          }
          part[n] = body.part;
        }
      geometry.setAttribute("from", new THREE.InstancedBufferAttribute(ends[0], 3));
      geometry.setAttribute("to", new THREE.InstancedBufferAttribute(ends[1], 3));
      geometry.setAttribute("part", new THREE.InstancedBufferAttribute(part, 1));
      geometry.instanceCount = count;
    },
    /** @param {number[]} colour @param {number[]} rimColour */
    setInks(colour, rimColour) {
      const last = layers.length - 1;
      layers.forEach((one, k) => one.fromArray(rim && k === last - 1 ? rimColour : colour));
    },
  };
}
