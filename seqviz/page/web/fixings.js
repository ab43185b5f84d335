/** Heads, tails and pins in the holes, each kind in one call. Their shapes tell them apart, not only their colours. */

import { material } from "bench/bodies";
import { FIXING } from "bench/shaders";

/** Outlines to be turned round, [half width, height, share of an edge line], widest and highest are 1. */
const PROFILES = {
  head: { sides: 12, rings: [[1, 0, 1], [1, 0.3, 1], [0.7, 1, 0.6], [0.26, 1, 0.2], [0.22, 1, 1], [0, 0.9, 1]] },
  tail: { sides: 8, rings: [[0.78, 0, 1], [1, 0.3, 0.4], [1, 0.6, 0.4], [0.72, 0.8, 1], [0.3, 0.8, 1], [0.3, 1, 1], [0, 1, 0]] },
  pin: { sides: 6, rings: [[0.62, 0, 1], [0.62, 0.5, 0.4], [1, 0.52, 1], [1, 0.86, 1], [0.5, 1, 1], [0, 1, 0]] },
};
const KINDS = Object.keys(PROFILES);

/** @param {object} work @param {object} shared uniforms of the parts */
export function createFixings(work, shared) {
  const { THREE } = globalThis;
  const group = new THREE.Group();
  const kinds = Object.fromEntries(KINDS.map((kind) => [kind, lotOf(kind)]));

  function lotOf(kind) {
    const most = work.fixings.reduce((count, fixing) => count + (fixing.kind === kind ? 1 : 0), 0);
    const geometry = shapeOf(PROFILES[kind]);
    const data = [3, 3, 4].map((wide) => new THREE.InstancedBufferAttribute(new Float32Array(wide * Math.max(1, most)), wide));
    ["spot", "outward", "look"].forEach((name, k) => geometry.setAttribute(name, data[k].setUsage(THREE.DynamicDrawUsage)));
    const uniforms = { ...shared };
    for (const name of ["fill", "fillNew", "rimInk"]) uniforms[name] = { value: new THREE.Color() };
    const mesh = new THREE.Mesh(geometry, material(FIXING, uniforms));
    mesh.frustumCulled = false;
    group.add(mesh);
    return { geometry, data, uniforms, mesh };
  }

  return {
    group,
    /** @param {number[]} fixed indices into `work.fixings` @param {number} news that many at the end are new */
    set(fixed, news) {
      const counts = Object.fromEntries(KINDS.map((kind) => [kind, 0]));
      fixed.forEach((index, n) => {
        const fixing = work.fixings[index];
        const [spot, outward, look] = kinds[fixing.kind].data;
        const k = counts[fixing.kind]++;
        spot.array.set(fixing.at, 3 * k);
        outward.array.set(fixing.out, 3 * k);
        look.array.set([fixing.wide, fixing.high, fixing.part, n >= fixed.length - news ? 1 : 0], 4 * k);
      });
      for (const kind of KINDS) {
        const { geometry, data, mesh } = kinds[kind];
        geometry.instanceCount = counts[kind];
        mesh.visible = counts[kind] > 0;
        for (const one of data) one.needsUpdate = true;
      }
    },
    setInks(ink) {
      for (const kind of KINDS) {
        const { fill, fillNew, rimInk } = kinds[kind].uniforms;
        fill.value.fromArray(kind === "pin" ? ink.pin : ink.fixing);
        fillNew.value.fromArray(ink.alarm);
        rimInk.value.fromArray(ink.rim);
      }
    },
  };
}

function shapeOf({ sides, rings }) {
  const { THREE } = globalThis;
  const points = [];
  const rims = [];
  const faces = [];
  rings.forEach(([half, high, rim], ring) => {
    for (let k = 0; k < sides; k++) {
      const angle = (2 * Math.PI * k) / sides;
      points.push(half * Math.cos(angle), half * Math.sin(angle), high);
      rims.push(rim);
      if (!ring) continue;
      const [a, b] = [ring * sides + k, ring * sides + ((k + 1) % sides)];
      faces.push(a - sides, b - sides, b);
      if (half) faces.push(a - sides, b, a);
    }
  });
  const geometry = new THREE.InstancedBufferGeometry();
  geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(points), 3));
  geometry.setAttribute("edge", new THREE.BufferAttribute(new Float32Array(rims), 1));
  geometry.setIndex(faces);
  return geometry;
}
