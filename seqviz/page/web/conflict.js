/** A finding on the bench: the tool where it would have to be, and the way that is barred. Base frame. */

import { material } from "bench/bodies";
import { PLAIN } from "bench/shaders";
import { across, between, cross, length, minus, plus, times, unit } from "bench/space";
import { createStrokes } from "bench/strokes";

const SIDES = 20;

/** @param {object} work with its bodies @param {object} shared uniforms of the parts */
export function createConflict(work, shared) {
  const { THREE } = globalThis;
  const group = new THREE.Group();
  const strokes = createStrokes(shared, { wide: 1.6, rim: 1, through: 0.5 });
  const uniforms = { fill: { value: new THREE.Color() }, opacity: { value: 0.3 } };
  const glass = new THREE.Mesh(new THREE.BufferGeometry(), material(PLAIN, uniforms, { transparent: true, depthWrite: false }));
  const way = new THREE.Mesh(new THREE.BufferGeometry(), material(PLAIN, { ...uniforms, opacity: { value: 0.85 } }, { transparent: true, depthTest: false }));
  for (const [mesh, order] of [[glass, 6], [way, 8]]) {
    mesh.frustumCulled = false;
    mesh.renderOrder = order;
    group.add(mesh);
  }
  group.add(strokes.group);
  group.visible = false;

  function fill(mesh, points, faces) {
    mesh.geometry.dispose();
    mesh.geometry = new THREE.BufferGeometry();
    mesh.geometry.setAttribute("position", new THREE.BufferAttribute(Float32Array.from(points), 3));
    mesh.geometry.setIndex(new THREE.BufferAttribute(Uint32Array.from(faces), 1));
    mesh.visible = faces.length > 0;
  }

  return {
    group,
    /**
     * @param {object|null} finding of the work
     * @param {number[][]} path that is barred, mm
     */
    set(finding, path) {
      group.visible = finding !== null;
      if (!finding) return;
      const tool = finding.tool === null ? { points: [], faces: [], edges: [] } : work.bodies[finding.tool];
      fill(glass, tool.points, tool.faces);
      strokes.set([{ ...tool, part: -1 }]);
      const arrow = path.length > 1 ? arrowAlong(path) : { points: [], faces: [] };
      fill(way, arrow.points, arrow.faces);
    },
    setInks(ink) {
      uniforms.fill.value.fromArray(ink.alarm);
      strokes.setInks(ink.ink, ink.paper);
    },
  };
}

/** A round shaft from point to point, with a head at the end. */
function arrowAlong(path) {
  const whole = path.slice(1).reduce((sum, point, k) => sum + length(minus(point, path[k])), 0);
  const half = Math.min(6, 0.02 * whole + 0.5);
  const mesh = { points: [], faces: [] };
  path.slice(1).forEach((end, k) => {
    const start = path[k];
    const far = length(minus(end, start));
    if (far < 1e-6) return;
    const head = k === path.length - 2 ? Math.min(0.5, (7 * half) / far) : 0;
    const neck = between(start, end, 1 - head);
    frustum(mesh, start, neck, half, half);
    if (head) frustum(mesh, neck, end, 2.6 * half, 0);
  });
  return mesh;
}

function frustum(mesh, start, end, wide, narrow) {
  const axis = unit(minus(end, start));
  const a = across(axis, [0, 0, 1]);
  const b = cross(axis, a);
  const first = mesh.points.length / 3;
  for (let k = 0; k < SIDES; k++) {
    const angle = (2 * Math.PI * k) / SIDES;
    const ring = plus(times(a, Math.cos(angle)), times(b, Math.sin(angle)));
    mesh.points.push(...plus(start, times(ring, wide)), ...plus(end, times(ring, narrow)));
    const [n, m] = [first + 2 * k, first + 2 * ((k + 1) % SIDES)];
    mesh.faces.push(n, m, m + 1, n, m + 1, n + 1, first, m, n);
  }
}
