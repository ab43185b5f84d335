/** All parts as one mesh and one set of lines, whatever stands where: four calls a frame. */

import { sorted } from "bench/fineness";
import { BODY, LINE, WHO } from "bench/shaders";
import { placed } from "bench/space";

const CELLS = 2; // of the texture, a part: where and how it is drawn; colour and pattern
const PRESENCE = { hidden: 0, shown: 1, ghost: 2 };

/**
 * @param {object} work with its bodies
 * @param {{size: object, dense: object}} screen uniforms shared by all
 */
export function createBodies(work, screen) {
  const { THREE } = globalThis;
  const rows = Math.max(1, work.parts.length);
  const table = new Float32Array(4 * CELLS * rows);
  const texture = new THREE.DataTexture(table, CELLS, rows, THREE.RGBAFormat, THREE.FloatType);
  const shared = { ...screen, parts: { value: texture } };
  const spans = [];
  const positions = joined(work, spans);
  const faces = drawer(positions, spans.reduce((sum, span) => sum + span.faces.corners.length, 0));
  const edges = drawer(positions, spans.reduce((sum, span) => sum + span.edges.corners.length, 0));

  const whole = material(BODY, { ...shared, hatch: { value: new THREE.Color() }, opacity: { value: 1 } });
  const ghostly = material(BODY, { ...whole.uniforms, opacity: { value: 0.16 } }, { transparent: true, depthWrite: false });
  const lines = material(LINE, { ...shared, line: { value: new THREE.Color() }, lineNew: { value: new THREE.Color() }, opacity: { value: 1 } });
  const ghostLines = material(LINE, { ...lines.uniforms, opacity: { value: 0.45 } }, { transparent: true, depthWrite: false });
  const who = material(WHO, shared);
  const group = new THREE.Group();
  const [solid, ghost] = [whole, ghostly].map((one, k) => add(new THREE.Mesh(faces.geometries[k], one)));
  add(new THREE.LineSegments(edges.geometries[0], lines));
  add(new THREE.LineSegments(edges.geometries[1], ghostLines));
  ghost.renderOrder = 3;

  let drawn = "";

  function add(object) {
    object.frustumCulled = false;
    group.add(object);
    return object;
  }

  /** @param {("shown"|"ghost"|"hidden")[]} presence one a part */
  function setPresence(presence) {
    presence.forEach((one, k) => (table[4 * CELLS * k + 3] = PRESENCE[one]));
    texture.needsUpdate = true;
    const now = presence.map((one) => PRESENCE[one]).join("");
    if (now === drawn) return;
    drawn = now;
    const [shown, ghosts] = ["shown", "ghost"].map((name) => spans.filter((_, k) => presence[k] === name));
    faces.fill(shown, ghosts, "faces");
    edges.fill(shown, ghosts, "edges");
  }

  return {
    group,
    shared,
    presence: (k) => table[4 * CELLS * k + 3],
    offset: (k) => [0, 1, 2].map((axis) => table[4 * CELLS * k + axis]),
    setPresence,
    /** Lines of a part, where it belongs, base frame. */
    outline: (part) => ({ points: spans[part].points, edges: spans[part].edges.corners, part }),
    /** Leave out what would be smaller than a pixel or two. @param {boolean} fine */
    setFine(fine) {
      faces.setFine(fine);
      edges.setFine(fine);
    },
    setLines: (visible) => group.children.slice(2).forEach((child) => (child.visible = visible)),
    /** @param {Float32Array} off three a part, mm */
    setOffsets(off) {
      for (let k = 0; k < work.parts.length; k++) for (let axis = 0; axis < 3; axis++) table[4 * CELLS * k + axis] = off[3 * k + axis];
      texture.needsUpdate = true;
    },
    /** @param {(part: number) => {fill: number[], pattern: number, fresh: boolean}} lookOf */
    setLooks(lookOf) {
      for (let k = 0; k < work.parts.length; k++) {
        const { fill, pattern, fresh } = lookOf(k);
        table.set([...fill, pattern + (fresh ? 32 : 0)], 4 * (CELLS * k + 1));
      }
      texture.needsUpdate = true;
    },
    setInks(ink) {
      whole.uniforms.hatch.value.fromArray(ink.ink);
      lines.uniforms.line.value.fromArray(ink.line);
      lines.uniforms.lineNew.value.fromArray(ink.freshLine);
    },
    /** While `draw` runs, whole parts alone, each in a colour that says which it is. */
    asWho(draw) {
      const seen = group.children.map((child) => child.visible);
      group.children.forEach((child) => (child.visible = child === solid));
      solid.material = who;
      draw();
      solid.material = whole;
      group.children.forEach((child, k) => (child.visible = seen[k]));
    },
  };
}

/** @param {{vertex: string, fragment: string}} shader */
export function material(shader, uniforms, options = {}) {
  const { THREE } = globalThis;
  return new THREE.RawShaderMaterial({
    glslVersion: THREE.GLSL3,
    vertexShader: shader.vertex,
    fragmentShader: shader.fragment,
    uniforms,
    side: THREE.DoubleSide,
    ...options,
  });
}

/** Corners of all parts behind each other; `spans` gets each part's first corner, faces and edges. */
function joined(work, spans) {
  const { THREE } = globalThis;
  const empty = { points: [], faces: [], edges: [] };
  const bodies = work.parts.map((part) => (part.shape === null ? empty : work.bodies[part.shape]));
  const all = bodies.reduce((sum, body) => sum + body.points.length / 3, 0);
  const points = new Float32Array(3 * all);
  const owner = new Float32Array(all);
  const known = new Map();
  let first = 0;
  bodies.forEach((body, k) => {
    if (!known.has(body)) known.set(body, sorted(body));
    const count = body.points.length / 3;
    for (let n = 0; n < count; n++) points.set(placed(work.parts[k].pose, body.points.subarray(3 * n, 3 * n + 3)), 3 * (first + n));
    owner.fill(k, first, first + count);
    spans.push({ first, points: points.subarray(3 * first, 3 * (first + count)), ...known.get(body) });
    first += count;
  });
  return { position: new THREE.BufferAttribute(points, 3), part: new THREE.BufferAttribute(owner, 1) };
}

/** Two geometries over the same corners, of what is whole (large pieces, then fine ones) and of what is a ghost. */
function drawer({ position, part }, most) {
  const { THREE } = globalThis;
  const index = new THREE.BufferAttribute(new Uint32Array(Math.max(1, most)), 1);
  index.setUsage(THREE.DynamicDrawUsage);
  const ends = [0, 0, 0]; // of large, fine, ghosts
  let allFine = true;
  const geometries = [0, 1].map(() => {
    const geometry = new THREE.BufferGeometry();
    return geometry.setAttribute("position", position).setAttribute("part", part).setIndex(index);
  });

  function setFine(fine) {
    allFine = fine;
    geometries[0].setDrawRange(0, ends[fine ? 1 : 0]);
    geometries[1].setDrawRange(ends[1], ends[2] - ends[1]);
  }

  /** @param {"faces"|"edges"} name */
  function fill(shown, ghosts, name) {
    let end = 0;
    const put = ({ first, [name]: { corners } }, from, to) => {
      for (let n = from; n < to; n++) index.array[end++] = corners[n] + first;
    };
    for (const span of shown) put(span, 0, span[name].large);
    ends[0] = end;
    for (const span of shown) put(span, span[name].large, span[name].corners.length);
    ends[1] = end;
    for (const span of ghosts) put(span, 0, span[name].corners.length);
    ends[2] = end;
    index.needsUpdate = true;
    setFine(allFine);
  }
  return { geometries, fill, setFine };
}
