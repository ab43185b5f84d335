/**
 * The bench in 3D: what others call. Everything is drawn on demand; nothing runs while nothing changes.
 *
 * @typedef {{part: number}|{stack: number}} Chosen  index in `work.parts`, or in `work.stacks`
 *
 * @typedef {object} Pick  what a tap met
 * @property {number|null} part   the part under the finger, null: the bench or nothing
 * @property {number|null} stack  the hole under the finger; null where none is near or it would be seen too small
 * @property {number[]|null} point  base frame, mm: where the part was met, at its final place
 *
 * @typedef {"plain"|"layer"|"step"} Shading
 * @typedef {"shown"|"ghost"|"hidden"} Presence
 * @typedef {"upper"|"lower"|"forward"|"aft"|"left"|"right"} Side  of the structure: the one that faces you
 *
 * @typedef {object} Stage
 * @property {(step: number, t?: number) => void} show  index in `work.steps`, t 0 (before) .. 1 (after, the default);
 *   -1: the whole structure. The camera stays where hands put it, else it keeps all in view
 * @property {() => {step: number, t: number}} now
 * @property {(step: number) => number} seconds  how long a step takes to play at a steady pace
 * @property {(name: Shading) => {number: string, text: string, swatch: string}[]} setShading
 *   returns the key: what each look means, with its colour and pattern as the URL of a little picture
 * @property {(part: number, presence: Presence) => void} setHidden
 * @property {(part: number) => Presence} hidden  what was said of it
 * @property {() => void} showAll  forgets what was hidden and ghosted
 * @property {(factor: number) => void} pullApart  0 (together) .. 1, along the ways in
 * @property {(to: {spot: number[], step?: number, radius?: number, from?: number[], glassy?: (part: number) => boolean})
 *   => number[]} flyTo
 *   shows the step (after it) and looks at a spot (base frame, mm) with `radius` mm around it; `from`: the way to the
 *   eye (base frame); left out, a side from which the spot is seen, if need be through parts that may be `glassy`. Those
 *   are like glass until another step or finding is shown; returns them
 * @property {(finding: number|null) => void} showConflict  index in `work.findings`: shows its step, tool, what is in
 *   the way, the barred way; null: away with it. Does not move the camera: `flyTo` its spot
 * @property {(chosen: Chosen|null) => void} select  outlines a part, or puts a mark round a hole
 * @property {() => void} viewFromUp  down on what faces up in this step
 * @property {(side: Side) => void} viewFrom
 * @property {() => object} view  where the eye is now, for `setView`: plain data
 * @property {(view: object) => void} setView  puts it there, at once
 * @property {() => void} fit  all that is there in view; from now on it is kept so, until hands move the camera
 * @property {(right: number, up: number) => void} turn  degrees: the eye goes round to the right, and higher
 * @property {(right: number, up: number) => void} shift  the eye, by shares of the picture's height
 * @property {(factor: number) => void} nearer  above 1: nearer
 * @property {(callback: (pick: Pick) => void) => () => void} onPick  taps; returns the undoing
 * @property {(callback: () => void) => () => void} onFrame  after each picture; returns the undoing
 * @property {(callback: (state: "lost"|"back") => void) => () => void} onContext  the graphics fail for a while
 * @property {() => void} size  the canvas changed its size (seen by itself, too)
 * @property {() => void} end  lets go of everything
 */

import { createCamera, sideOf, toBench, viewAlong } from "bench/camera";
import { createDrawer } from "bench/drawer";
import { listenToHands } from "bench/hands";
import { onInks } from "bench/inks";
import { listeners } from "bench/listeners";
import { createPicker } from "bench/pick";
import { createProps } from "bench/props";
import { clearSide } from "bench/sight";
import { minus, turned, turnedBack } from "bench/space";

/**
 * @param {HTMLCanvasElement} canvas  its parent must be positioned; number tags are laid over it there
 * @param {object} work  of `readWork` (bench/data)
 * @returns {Stage}
 * @throws {Error} where the browser has no WebGL 2: fall back to words and pictures
 */
export function createStage(canvas, work) {
  const drawer = createDrawer(canvas);
  const { THREE } = globalThis;
  const camera = createCamera(drawer.ask);
  const props = createProps(work, drawer.screen);
  const picker = createPicker(work, props.bodies);
  const picked = listeners();
  let kept = true; // all in view, until hands move the camera

  drawer.start({ camera, props, scene: new THREE.Scene().add(props.group) });
  props.restyle(drawer);
  camera.setReach(props.reach);
  show(-1);
  refit();

  function show(step, t = 1) {
    const index = Math.max(-1, Math.min(work.steps.length - 1, step));
    const other = props.set({ step: index, t: Math.max(0, Math.min(1, t)) });
    drawer.ask();
    if (other.work || (kept && other.step)) keepInView(other.work);
  }

  /** Flies only where something would be out of view, or far too small. */
  function keepInView(always) {
    const view = camera.around(props.inView(), camera.view, drawer.aspect());
    const off = Math.hypot(...minus(view.spot, camera.view.spot));
    if (always || view.far > camera.view.far * 1.02 || view.far < camera.view.far * 0.6 || off > 0.15 * view.far) camera.fly(view);
  }

  function fit() {
    kept = true;
    camera.fly(camera.around(props.inView(), camera.view, drawer.aspect()));
  }

  /** The picture has another size: all is in view as before, from the same side. */
  function refit() {
    if (kept) camera.set(camera.around(props.inView(), camera.view, drawer.aspect()));
  }

  function setView(view) {
    kept = view.kept !== false;
    camera.land();
    camera.set(view);
    refit();
  }

  function look(way) {
    const side = viewAlong(turned(props.lie().turn, way), 0);
    camera.fly(camera.around(props.inView(), side, drawer.aspect()));
  }

  /** From the eye through a place in the picture, base frame. */
  function ray(at) {
    const { from, way } = camera.ray(at, drawer.aspect());
    const { turn, move } = props.lie();
    return { from: turnedBack(turn, minus(from, move)), way: turnedBack(turn, way) };
  }

  function tap([x, y], finger) {
    const [wide, high] = [canvas.clientWidth / 2, canvas.clientHeight / 2];
    const beside = ([right, down]) => ray([x + right / wide, y - down / high]);
    picked.tell(picker.under(beside, finger, (far) => camera.perPixel(canvas.clientHeight, far)));
  }

  function flyTo({ spot, step, radius = 0.15 * props.reach, from, glassy }) {
    if (step !== undefined) show(step);
    kept = false;
    const lie = props.lie();
    props.set({ glass: [] });
    const seen = from ? { side: viewAlong(turned(lie.turn, from), camera.view.round), through: [] } : clearSide(picker, lie, spot, camera.view, glassy);
    props.set({ glass: seen.through });
    const far = camera.farFor(Math.max(4, radius));
    camera.fly({ ...seen.side, spot: toBench(lie, spot), far: drawer.aspect() < 1 ? far / drawer.aspect() : far });
    return seen.through;
  }

  const byHand = (move) => (...how) => {
    kept = false;
    move(...how);
  };
  const hands = { turn: byHand(camera.turn), shift: byHand(camera.shift), nearer: byHand((factor, at) => camera.nearer(factor, at, drawer.aspect())), tap };
  const undo = [
    listenToHands(canvas, hands),
    onInks(() => props.restyle(drawer)),
    drawer.onSize(refit),
  ];
  const changing = (change) => (...how) => {
    change(...how);
    drawer.ask();
  };

  return {
    show,
    now: props.now,
    seconds: props.seconds,
    setShading(shading) {
      props.set({ shading });
      drawer.ask();
      return props.legend(shading);
    },
    setHidden: changing(props.setPresence),
    hidden: props.hidden,
    showAll: changing(props.showAll),
    pullApart: changing((factor) => {
      props.set({ apart: Math.max(0, Math.min(1, factor)) });
      if (kept) keepInView(false);
    }),
    flyTo,
    showConflict: changing((finding) => {
      if (finding !== null && work.findings[finding].step !== null) show(props.indexOf(work.findings[finding].step));
      props.set({ finding });
    }),
    select: changing(props.select),
    viewFromUp: () => look(props.up()),
    viewFrom: (side) => look(sideOf(side, work.up, work.forward)),
    view: () => ({ ...camera.view, kept }),
    setView,
    fit,
    turn: hands.turn,
    shift: hands.shift,
    nearer: (factor) => hands.nearer(factor),
    onPick: picked.add,
    onFrame: drawer.onFrame,
    onContext: drawer.onContext,
    size: drawer.size,
    end() {
      undo.forEach((one) => one());
      camera.land();
      drawer.end();
    },
  };
}
