/**
 * Heads, tails and pins in the holes, each kind in one call. Their shapes tell them apart, not only their colours.
 * Where they would be a few pixels wide, they are dots: round heads, square tails, pins on their corners.
 */

import { material } from "bench/bodies";
import { DOT, FIXING } from "bench/shaders";

/** Outlines to be turned round, [half width, height, share of an edge line], widest and highest are 1. */
const PROFILES = {
  head: { sides: 12, rings: [[1, 0, 1], [1, 0.3, 1], [0.7, 1, 0.6], [0.26, 1, 0.2], [0.22, 1, 1], [0, 0.9, 1]] },
  tail: { sides: 8, rings: [[0.78, 0, 1], [1, 0.3, 0.4], [1, 0.6, 0.4], [0.72, 0.8, 1], [0.3, 0.8, 1], [0.3, 1, 1], [0, 1, 0]] },
  pin: { sides: 6, rings: [[0.62, 0, 1], [0.62, 0.5, 0.4], [1, 0.52, 1], [1, 0.86, 1], [0.5, 1, 1], [0, 1, 0]] },
};
const KINDS = Object.keys(PROFILES);
const MANY = 1500; // from so many on, those out of view are sorted out before each picture

/** @param {object} work @param {object} shared uniforms of the parts */
export function createFixings(work, shared) {
  const { THREE } = globalThis;
  const group = new THREE.Group();
  const kinds = Object.fromEntries(KINDS.map((kind) => [kind, lotOf(kind)]));

  let lots = []; // kind -> what is there: rows of spot, outward, look
  let near = null;
  const dots = new THREE.Points(new THREE.BufferGeometry(), material(DOT, { ...shared, ...colours() }));
  dots.frustumCulled = false;
  group.add(dots);

  function lotOf(kind) {
    const most = work.fixings.reduce((count, fixing) => count + (fixing.kind === kind ? 1 : 0), 0);
    const geometry = shapeOf(PROFILES[kind]);
    const data = [3, 3, 4].map((wide) => new THREE.InstancedBufferAttribute(new Float32Array(wide * Math.max(1, most)), wide));
    ["spot", "outward", "look"].forEach((name, k) => geometry.setAttribute(name, data[k].setUsage(THREE.DynamicDrawUsage)));
    const uniforms = { ...shared, ...colours() };
    const mesh = new THREE.Mesh(geometry, material(FIXING, uniforms));
    mesh.frustumCulled = false;
    group.add(mesh);
    return { geometry, data, uniforms, mesh };
  }

  function colours() {
    return Object.fromEntries(["fill", "fillPin", "fillNew", "rimInk"].map((name) => [name, { value: new THREE.Color() }]));
  }

  /** Bring those for which `seen` holds to the graphics. */
  function put(kind, seen) {
    const { geometry, data, mesh } = kinds[kind];
    let count = 0;
    for (const row of lots[kind] ?? []) {
      if (!seen(row)) continue;
      data[0].array.set(row.spot, 3 * count);
      data[1].array.set(row.outward, 3 * count);
      data[2].array.set(row.look, 4 * count++);
    }
    geometry.instanceCount = count;
    mesh.visible = count > 0;
    for (const one of data) one.needsUpdate = true;
  }

  function putDots() {
    const rows = KINDS.flatMap((kind, k) => (lots[kind] ?? []).map((row) => ({ ...row, kind: k })));
    dots.geometry.dispose();
    const set = (name, wide, of) => dots.geometry.setAttribute(name, new THREE.BufferAttribute(new Float32Array(rows.flatMap(of)), wide));
    set("position", 3, (row) => row.spot);
    set("outward", 3, (row) => row.outward);
    set("look", 4, (row) => row.look);
    set("kind", 1, (row) => row.kind);
  }

  return {
    group,
    /** @param {number[]} fixed indices into `work.fixings` @param {number} news that many at the end are new */
    set(fixed, news) {
      lots = Object.fromEntries(KINDS.map((kind) => [kind, []]));
      fixed.forEach((index, n) => {
        const { kind, at, out, wide, high, part } = work.fixings[index];
        lots[kind]?.push({ spot: at, outward: out, look: [wide, high, part, n >= fixed.length - news ? 1 : 0] });
      });
      near = null;
    },
    /**
     * Before each picture.
     * @param {boolean} asDots
     * @param {(point: number[], part: number) => boolean} inView
     */
    prepare(asDots, inView) {
      const many = KINDS.some((kind) => lots[kind]?.length > MANY);
      if (near === !asDots && !(many && near)) return;
      if (near !== !asDots && asDots) putDots();
      near = !asDots;
      dots.visible = asDots && dots.geometry.attributes.position?.count > 0;
      for (const kind of KINDS) {
        if (asDots) kinds[kind].mesh.visible = false;
        else put(kind, many ? (row) => inView(row.spot, row.look[2]) : () => true);
      }
    },
    setInks(ink) {
      for (const { uniforms } of [...Object.values(kinds), { uniforms: dots.material.uniforms }]) {
        uniforms.fill.value.fromArray(ink.fixing);
        uniforms.fillPin.value.fromArray(ink.pin);
        uniforms.fillNew.value.fromArray(ink.alarm);
        uniforms.rimInk.value.fromArray(ink.rim);
      }
      kinds.pin.uniforms.fill.value.fromArray(ink.pin);
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
