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
 * @property {(step: number) => number} seconds  how long a step takes to play at usual speed
 * @property {(step: number, options?: {from?: number, speed?: number, done?: () => void}) => void} play
 *   plays one step from t = `from` (0); `done` is called at its end, not when stopped
 * @property {() => void} stop  where it is
 * @property {() => {step: number, t: number, playing: boolean}} now
 * @property {(name: Shading) => {number: number, text: string, swatch: string}[]} setShading
 *   returns the key: each number that is there with its colour and pattern, as the URL of a little picture
 * @property {(part: number, presence: Presence) => void} setHidden
 * @property {(part: number) => Presence} hidden  what was said of it
 * @property {() => void} showAll  forgets what was hidden and ghosted
 * @property {(factor: number) => void} pullApart  0 (together) .. 1, along the ways in
 * @property {(to: {spot: number[], step?: number, radius?: number, from?: number[]}) => void} flyTo
 *   shows the step (after it) and looks at a spot (base frame, mm) with `radius` mm around it, along `-from` (base
 *   frame) or from where it is seen
 * @property {(finding: number|null) => void} showConflict  index in `work.findings`: tool, blockers, barred way
 * @property {(chosen: Chosen|null) => void} select  outlines a part, rings a hole
 * @property {() => void} viewFromUp  down on what faces up in this step
 * @property {(side: Side) => void} viewFrom
 * @property {() => void} fit  all that is there in view; from now on it is kept so, until hands move the camera
 * @property {(right: number, up: number) => void} turn  degrees: round the work, and higher
 * @property {(right: number, up: number) => void} shift  shares of the picture's height
 * @property {(factor: number) => void} nearer  above 1: nearer
 * @property {(callback: (pick: Pick) => void) => () => void} onPick  taps; returns the undoing
 * @property {(callback: () => void) => () => void} onFrame  after each picture; returns the undoing
 * @property {(state: "lost"|"back") => void} [onContext]  set it to be told when the graphics fail for a while
 * @property {() => void} size  call it when the canvas changed its size (also seen by itself)
 * @property {() => void} end  lets go of everything
 */

/**
 * @param {HTMLCanvasElement} canvas  its parent must be positioned; number tags are laid over it there
 * @param {object} work  of `readWork` (bench/data)
 * @returns {Stage}
 * @throws {Error} where the browser has no WebGL 2: fall back to words and pictures
 */
export function createStage(canvas, work) {
  throw new Error(`not built yet: ${canvas} ${work}`);
}
