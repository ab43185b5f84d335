/** The bench: a plain top under the work. From underneath it is not there, so that one can look up at the work. */

import { material } from "bench/bodies";
import { PLAIN } from "bench/shaders";

export function createTable() {
  const { THREE } = globalThis;
  const group = new THREE.Group();
  const square = new Float32Array([-1, -1, 0, 1, -1, 0, 1, 1, 0, -1, 1, 0]);
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(square, 3)).setIndex([0, 1, 2, 0, 2, 3]);
  const top = { fill: { value: new THREE.Color() }, opacity: { value: 1 } };
  const edge = { fill: { value: new THREE.Color() }, opacity: { value: 1 } };
  const plate = new THREE.Mesh(geometry, material(PLAIN, top, { side: THREE.FrontSide }));
  const border = new THREE.Mesh(geometry, material(PLAIN, edge, { side: THREE.FrontSide }));
  plate.frustumCulled = border.frustumCulled = false;
  border.renderOrder = -2;
  plate.renderOrder = -1;
  group.add(border, plate);

  return {
    group,
    /** @param {number} wide @param {number} deep mm, of the work */
    setSize(wide, deep) {
      const room = 0.16 * Math.hypot(wide, deep);
      const under = -0.002 * Math.hypot(wide, deep) - 0.2;
      plate.scale.set(wide / 2 + room, deep / 2 + room, 1);
      border.scale.set(wide / 2 + room * 1.07, deep / 2 + room * 1.07, 1);
      plate.position.z = under;
      border.position.z = under - 0.3 - 0.003 * Math.hypot(wide, deep);
    },
    setInks(ink) {
      top.fill.value.fromArray(ink.bench);
      edge.fill.value.fromArray(ink.benchLine);
    },
  };
}
