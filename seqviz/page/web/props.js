/** All that stands on the bench, brought to where a step has it. */

import { createBodies } from "bench/bodies";
import { toBench } from "bench/camera";
import { createConflict } from "bench/conflict";
import { createFixings } from "bench/fixings";
import { inks } from "bench/inks";
import { createLying } from "bench/lying";
import { createMarks } from "bench/marks";
import { createPlay } from "bench/play";
import { createShades } from "bench/shades";
import { length, minus, plus } from "bench/space";
import { createStrokes } from "bench/strokes";
import { createTable } from "bench/table";

const FINE = 1.5; // mm a pixel: from there on walls and rims of holes are left out
const DOTS = 1.2; // mm a pixel: from there on heads, tails and pins are dots

/** @param {object} work with its bodies @param {object} screen uniforms shared by all */
export function createProps(work, screen) {
  const { THREE } = globalThis;
  const play = createPlay(work);
  const lying = createLying(work);
  const shades = createShades(work);
  const bodies = createBodies(work, screen);
  const fixings = createFixings(work, bodies.shared);
  const marks = createMarks(bodies.shared);
  const news = createStrokes(bodies.shared, { wide: 1.8 });
  const chosen = createStrokes(bodies.shared, { wide: 3, rim: 1.5, through: 0.35 });
  const conflict = createConflict(work, bodies.shared);
  const table = createTable();
  const lies = new THREE.Group(); // the base's frame
  lies.matrixAutoUpdate = false;
  lies.add(bodies.group, fixings.group, news.group, chosen.group, conflict.group, marks.group);
  const group = new THREE.Group().add(table.group, lies);

  const reach = Math.max(10, length(minus(work.box[1], work.box[0])) / 2);
  const said = new Map(); // part -> what hands said of it
  const state = { step: -1, t: 1, shading: "plain", apart: 0, finding: null, glass: [] };
  let choice = {};
  let moment = null;
  let lie = null;
  let done = {}; // what each of the props was last brought to

  const step = () => work.steps[state.step];
  const finding = () => (state.finding === null ? null : work.findings[state.finding]);
  const once = (name, key, change) => {
    if (done[name] === key) return;
    done[name] = key;
    change();
  };

  /** @returns {{step: boolean, work: boolean}} whether the step is another, and what is worked on */
  function set(change) {
    const before = { ...state };
    const workBefore = step()?.work;
    Object.assign(state, change);
    if (before.step !== state.step && change.finding === undefined) state.finding = null;
    if (before.step !== state.step || before.finding !== state.finding) state.glass = change.glass ?? [];
    update();
    return { step: before.step !== state.step, work: before.step !== state.step && (step()?.work ?? null) !== (workBefore ?? null) };
  }

  function update() {
    moment = play.at(state.step, state.t);
    lie = lying.at(state.step, moment);
    const [turn, move] = [lie.turn, lie.move];
    lies.matrix.set(turn[0], turn[1], turn[2], move[0], turn[3], turn[4], turn[5], move[1], turn[6], turn[7], turn[8], move[2], 0, 0, 0, 1);
    lies.matrixWorldNeedsUpdate = true;
    bodies.setPresence(Array.from(moment.there, (there, k) => (there ? (said.get(k) ?? (state.glass.includes(k) ? "ghost" : "shown")) : "hidden")));
    bodies.setOffsets(offsets());
    once("looks", `${state.step} ${state.shading} ${state.finding}`, relook);
    once("fixings", `${state.step} ${moment.news} ${moment.fixed.length}`, () => fixings.set(moment.fixed, moment.news));
    once("marks", `${state.step}`, () => marks.set(step()?.marks ?? []));
    once("news", `${state.step}`, () => news.set(outlines([...moment.fresh.keys()].filter((k) => moment.fresh[k]))));
    once("conflict", `${state.finding}`, putConflict);
    once("table", `${step()?.work ?? ""}`, putTable);
  }

  function offsets() {
    const off = play.apart(state.step, state.apart);
    moment.off.forEach((value, k) => (off[k] += value));
    const barred = finding()?.path;
    if (barred?.length > 1) off.set(shortened(barred)[0], 3 * finding().parts[0]);
    return off;
  }

  /** A barred way is shown from no farther than the work is wide. */
  function shortened(path) {
    const far = length(path[0]);
    return path.map((off) => off.map((value) => value * Math.min(1, reach / Math.max(1, far))));
  }

  function relook() {
    const how = { shading: state.shading, fresh: moment.fresh, finding: finding() };
    bodies.setLooks((part) => shades.look(part, how));
  }

  function putConflict() {
    const found = finding();
    conflict.set(found, found?.path && found.spot ? shortened(found.path).map((off) => plus(found.spot, off)) : []);
    putChoice();
  }

  /** Outlines what was chosen, and rings the holes of the finding that is shown. */
  function putChoice() {
    const stacks = new Set([...(finding()?.stacks ?? []), ...("stack" in choice ? [choice.stack] : [])]);
    const holes = [...stacks].filter((stack) => work.stacks[stack].at);
    const on = (stack) => work.parts.findIndex((part) => part.stacks.includes(stack));
    marks.choose(holes.map((stack) => ({ at: work.stacks[stack].at, out: work.stacks[stack].axis, part: on(stack) })));
    chosen.set("part" in choice ? outlines([choice.part]) : []);
  }

  function putTable() {
    const how = lying.at(state.step, play.at(state.step, 1));
    const points = work.parts.flatMap((_, k) => lying.boxes[k].map((point) => toBench(how, point)));
    const spans = [0, 1].map((axis) => 2 * points.reduce((most, point) => Math.max(most, Math.abs(point[axis])), 20));
    table.setSize(...spans);
  }

  const outlines = (parts) => parts.map(bodies.outline);

  /** The corners of the boxes of what is there after the step, and while it is turned over, bench's frame. */
  function inView() {
    const after = play.at(state.step, 1);
    const apart = play.apart(state.step, state.apart);
    const there = [...after.there.keys()].filter((k) => after.there[k]);
    const turns = state.t < 1 && step()?.turn ? [0, 0.25, 0.5, 0.75, 1] : [1];
    return turns.flatMap((turn) => {
      const how = lying.at(state.step, { ...after, turn });
      return there.flatMap((k) => lying.boxes[k].map((point) => toBench(how, plus(point, apart.subarray(3 * k, 3 * k + 3)))));
    });
  }

  /**
   * Before each picture: as fine as can be seen.
   * @param {object} camera the library's @param {number} perPixel mm at the work @param {boolean} hasty
   */
  function prepare(camera, perPixel, hasty) {
    lies.updateMatrixWorld(true);
    const all = new THREE.Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse).multiply(lies.matrixWorld);
    const m = all.elements;
    bodies.setFine(perPixel < FINE);
    bodies.setLines(!hasty);
    fixings.prepare(perPixel > DOTS, ([x, y, z], part) => {
      const [dx, dy, dz] = bodies.offset(part);
      const row = (k) => m[k] * (x + dx) + m[k + 4] * (y + dy) + m[k + 8] * (z + dz) + m[k + 12];
      const w = row(3) * 1.1 + 10;
      return w > 0 && Math.abs(row(0)) < w && Math.abs(row(1)) < w;
    });
  }

  return {
    group,
    bodies,
    prepare,
    reach,
    set,
    inView,
    now: () => ({ step: state.step, t: state.t }),
    lie: () => lie,
    up: () => step()?.up ?? work.up,
    indexOf: (no) => work.steps.findIndex((one) => one.no === no),
    legend: (name) => shades.legend(name),
    textOf: (part) => shades.look(part, { shading: state.shading, fresh: moment.fresh, finding: finding() }).tag,
    seconds: play.seconds,
    setPresence(part, presence) {
      said.set(part, presence);
      update();
    },
    hidden: (part) => said.get(part) ?? "shown",
    showAll() {
      said.clear();
      update();
    },
    select(what) {
      choice = what ?? {};
      putChoice();
    },
    /** While `draw` runs, parts alone, each in a colour that says which it is. */
    alone(draw) {
      const hidden = [table.group, ...lies.children].filter((child) => child !== bodies.group && child.visible);
      hidden.forEach((child) => (child.visible = false));
      bodies.asWho(draw);
      hidden.forEach((child) => (child.visible = true));
    },
    /** Colours by day or by night. */
    restyle(drawer) {
      const ink = inks();
      for (const one of [bodies, fixings, conflict, table]) one.setInks(ink);
      news.setInks(ink.freshLine);
      chosen.setInks(ink.ink, ink.paper);
      drawer.setAir(ink.air);
      done = {};
      update();
    },
  };
}
