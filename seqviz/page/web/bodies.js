/** All parts as one mesh and one set of lines, whatever stands where: three pictures' worth of calls a frame. */

import { BODY, LINE, WHO } from "bench/shaders";

const CELLS = 5; // of the texture, a part
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
  const faces = drawer(positions, spans.at(-1)?.facesEnd ?? 0, 3);
  const edges = drawer(positions, spans.at(-1)?.edgesEnd ?? 0, 2);

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

  work.parts.forEach((part, k) => table.set(part.pose, 4 * CELLS * k));
  let drawn = "";

  function add(object) {
    object.frustumCulled = false;
    group.add(object);
    return object;
  }

  /** @param {("shown"|"ghost"|"hidden")[]} presence one a part */
  function setPresence(presence) {
    presence.forEach((one, k) => (table[4 * (CELLS * k + 3) + 3] = PRESENCE[one]));
    texture.needsUpdate = true;
    const now = presence.map((one) => PRESENCE[one]).join("");
    if (now === drawn) return;
    drawn = now;
    const [shown, ghosts] = ["shown", "ghost"].map((name) => [...presence.keys()].filter((k) => presence[k] === name && spans[k]));
    faces.fill(shown, ghosts, (k) => [spans[k].body.faces, spans[k].first, spans[k].facesStart]);
    edges.fill(shown, ghosts, (k) => [spans[k].body.edges, spans[k].first, spans[k].edgesStart]);
  }

  return {
    group,
    shared,
    table,
    presence: (k) => table[4 * (CELLS * k + 3) + 3],
    offset: (k) => [0, 1, 2].map((axis) => table[4 * (CELLS * k + 3) + axis]),
    setPresence,
    /** @param {Float32Array} off three a part, mm */
    setOffsets(off) {
      for (let k = 0; k < work.parts.length; k++) for (let axis = 0; axis < 3; axis++) table[4 * (CELLS * k + 3) + axis] = off[3 * k + axis];
      texture.needsUpdate = true;
    },
    /** @param {(part: number) => {fill: number[], pattern: number, fresh: boolean}} lookOf */
    setLooks(lookOf) {
      for (let k = 0; k < work.parts.length; k++) {
        const { fill, pattern, fresh } = lookOf(k);
        table.set([...fill, pattern + (fresh ? 32 : 0)], 4 * (CELLS * k + 4));
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

/** Corners of all parts behind each other; `spans` gets where each part's corners, faces and edges start. */
function joined(work, spans) {
  const { THREE } = globalThis;
  const bodies = work.parts.map((part) => (part.shape === null ? null : work.bodies[part.shape]));
  const count = bodies.reduce((sum, body) => sum + (body ? body.points.length / 3 : 0), 0);
  const points = new Float32Array(3 * count);
  const owner = new Float32Array(count);
  let [first, facesStart, edgesStart] = [0, 0, 0];
  bodies.forEach((body, k) => {
    if (!body) body = { points: [], faces: [], edges: [] };
    points.set(body.points, 3 * first);
    owner.fill(k, first, first + body.points.length / 3);
    const facesEnd = facesStart + body.faces.length;
    const edgesEnd = edgesStart + body.edges.length;
    spans.push({ body, first, facesStart, facesEnd, edgesStart, edgesEnd });
    first += body.points.length / 3;
    [facesStart, edgesStart] = [facesEnd, edgesEnd];
  });
  return { position: new THREE.BufferAttribute(points, 3), part: new THREE.BufferAttribute(owner, 1) };
}

/** Two geometries over the same corners, of what is whole and of what is a ghost. */
function drawer({ position, part }, most) {
  const { THREE } = globalThis;
  const index = new THREE.BufferAttribute(new Uint32Array(Math.max(1, most)), 1);
  index.setUsage(THREE.DynamicDrawUsage);
  const geometries = [0, 1].map(() => {
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", position).setAttribute("part", part).setIndex(index);
    geometry.setDrawRange(0, 0);
    return geometry;
  });
  function fill(shown, ghosts, cornersOf) {
    let end = 0;
    [shown, ghosts].forEach((parts, k) => {
      const start = end;
      for (const part of parts) {
        const [corners, first] = cornersOf(part);
        for (let n = 0; n < corners.length; n++) index.array[end + n] = corners[n] + first;
        end += corners.length;
      }
      geometries[k].setDrawRange(start, end - start);
    });
    index.needsUpdate = true;
  }
  return { geometries, fill };
}
