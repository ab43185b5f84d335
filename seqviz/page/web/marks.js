/** The signs on the holes of a step, and those round chosen ones. */

import { material } from "bench/bodies";
import { MARK } from "bench/shaders";
import { KINDS, drawSymbol } from "bench/symbols";

const CELL = 168; // pixels of a sign's picture: seven times its half width, so that a flying pin has room
const LARGEST = 13; // page's pixels, half width

/** @param {object} shared uniforms of the parts */
export function createMarks(shared) {
  const { THREE } = globalThis;
  const signs = { value: picture() };
  const group = new THREE.Group();
  const ofStep = layer(0, 7);
  const ofChoice = layer(1, 9);
  ofChoice.points.material.depthTest = false;

  function layer(always, order) {
    const geometry = new THREE.BufferGeometry();
    const uniforms = { ...shared, signs, radius: { value: LARGEST }, apart: { value: 10 }, kinds: { value: KINDS.length }, always: { value: always } };
    const points = new THREE.Points(geometry, material(MARK, uniforms, { transparent: true }));
    points.frustumCulled = false;
    points.renderOrder = order;
    points.visible = false;
    group.add(points);
    return { geometry, uniforms, points };
  }

  function put({ geometry, points }, marks) {
    points.visible = marks.length > 0;
    if (!marks.length) return;
    geometry.dispose();
    const set = (name, wide, of) => geometry.setAttribute(name, new THREE.BufferAttribute(new Float32Array(marks.flatMap(of)), wide));
    set("position", 3, (mark) => mark.at);
    set("outward", 3, (mark) => mark.out);
    set("look", 2, (mark) => [mark.part, KINDS.indexOf(mark.kind)]);
  }

  return {
    group,
    /** @param {object[]} marks of a step */
    set(marks) {
      const known = marks.filter((mark) => KINDS.includes(mark.kind));
      put(ofStep, known);
      ofStep.uniforms.apart.value = apartOf(known.map((mark) => mark.at));
    },
    /** @param {{at: number[], out: number[], part: number}[]} holes that were tapped, or that a finding is about */
    choose(holes) {
      put(ofChoice, holes.map((hole) => ({ ...hole, kind: "chosen" })));
      ofChoice.uniforms.apart.value = Math.max(8, apartOf(holes.map((hole) => hole.at)));
    },
  };
}

function picture() {
  const { THREE } = globalThis;
  const canvas = document.createElement("canvas");
  canvas.width = CELL * KINDS.length;
  canvas.height = CELL;
  const draw = canvas.getContext("2d");
  KINDS.forEach((kind, k) => drawSymbol(draw, kind, (k + 0.5) * CELL, CELL / 2, CELL / 7));
  const texture = new THREE.CanvasTexture(canvas);
  texture.flipY = false;
  texture.generateMipmaps = false;
  texture.minFilter = THREE.LinearFilter;
  return texture;
}

/** How far neighbours are apart, mm: nine in ten are at least so far. A large lot is judged by some of it. */
export function apartOf(points) {
  if (points.length < 2) return 1e6;
  const some = points.filter((_, k) => k % Math.ceil(points.length / 200) === 0);
  const nearest = some.map((p) => {
    let least = Infinity;
    for (const q of points) if (q !== p) least = Math.min(least, (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2);
    return Math.sqrt(least);
  });
  nearest.sort((a, b) => a - b);
  return nearest[Math.floor(nearest.length / 10)];
}
