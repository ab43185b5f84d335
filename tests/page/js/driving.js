/** Drives a stage for the tests, and tells what its picture shows. */

import { createStage } from "bench/stage";
import { withBodies } from "try/little_work";

const view = () => document.getElementById("view");
const wait = (time) => new Promise((ok) => setTimeout(ok, time));
export const picks = [];
let frames = 0;
let stage = null;

export async function start(work) {
  stage = createStage(view(), withBodies(work));
  stage.onFrame(() => (frames += 1));
  stage.onPick((pick) => picks.push(pick));
  await still();
  return stage;
}

export const drawnSoFar = () => frames;

/** Until nothing was drawn for a while. */
export async function still() {
  for (let before = -1; before !== frames; await wait(450)) before = frames;
}

/** As it was at the start. */
export async function reset() {
  stage.showConflict(null);
  stage.showAll();
  stage.setShading("plain");
  stage.pullApart(0);
  stage.select(null);
  stage.show(-1);
  stage.fit();
  picks.length = 0;
  await still();
}

/** @returns {Promise<Record<string, number>>} how many pixels are blue, orange, near to black */
export async function colours() {
  const gl = view().getContext("webgl2");
  const pixels = new Uint8Array(4 * gl.drawingBufferWidth * gl.drawingBufferHeight);
  await new Promise((ok) => {
    const undo = stage.onFrame(() => {
      undo();
      gl.readPixels(0, 0, gl.drawingBufferWidth, gl.drawingBufferHeight, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
      ok();
    });
    stage.turn(0, 0);
  });
  const many = { blue: 0, orange: 0, black: 0 };
  for (let k = 0; k < pixels.length; k += 4) {
    const [r, g, b] = pixels.subarray(k, k + 3);
    if (r - b > 90) many.orange += 1;
    else if (b - r > 40) many.blue += 1;
    else if (r + g + b < 120) many.black += 1;
  }
  return many;
}

/** @param {string} kind of pointer */
export function point(name, x, y, kind = "mouse", id = 1) {
  view().dispatchEvent(new PointerEvent(name, { pointerId: id, clientX: x, clientY: y, pointerType: kind }));
}

export function tap(x, y) {
  point("pointerdown", x, y);
  point("pointerup", x, y);
  return picks.at(-1);
}

export async function loseAndRegain() {
  const told = [];
  const undo = stage.onContext((state) => told.push(state));
  const loss = view().getContext("webgl2").getExtension("WEBGL_lose_context");
  loss.loseContext();
  await wait(300);
  loss.restoreContext();
  await wait(800);
  undo();
  return told;
}
