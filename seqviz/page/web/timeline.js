/** The clock: which step is at hand and how far it has come. Knows nothing of the page or of 3D. */

const FURTHEST_JUMP = 1; // seconds that one frame may last, so that a slow machine still gets there
const REST = 1.1; // seconds between two steps

/**
 * @typedef {{index: number, t: number, playing: boolean}} At  the step at hand (from 0), 0 before it and 1 after it
 *
 * @param {number} count how many steps there are
 * @param {{draw: (index: number, t: number) => void, seconds: (index: number) => number, calm: () => boolean}} hands
 *   `seconds` a step takes at the steady pace; `calm`: nothing may move on the page
 */
export function createTimeline(count, { draw, seconds, calm }) {
  const last = count - 1;
  let index = 0;
  let t = 1;
  let running = "no"; // "no", "one step" or "all"
  let rest = 0;
  let pace = 1;
  let before = 0;
  let ticking = 0;
  const listeners = [];

  const tell = (what) => listeners.forEach((listener) => listener({ index, t, playing: running === "all" }, what));

  function put(toIndex, toT) {
    const moved = toIndex !== index;
    index = Math.max(0, Math.min(last, toIndex));
    t = toT;
    draw(index, t);
    if (moved) tell("step");
  }

  function stop() {
    cancelAnimationFrame(ticking);
    const was = running;
    running = "no";
    if (was === "all") tell("play");
  }

  function run(how) {
    stop();
    running = how;
    rest = 0;
    before = performance.now();
    ticking = requestAnimationFrame(frame);
    if (how === "all") tell("play");
  }

  function frame(now) {
    const passed = Math.min(Math.max(now - before, 0) / 1000, FURTHEST_JUMP) * pace;
    before = now;
    advance(passed);
    if (running !== "no") ticking = requestAnimationFrame(frame);
  }

  function advance(passed) {
    if (t < 1) {
      put(index, Math.min(1, t + (calm() ? 1 : passed / seconds(index))));
      rest = calm() ? 2 * REST : REST;
    } else if (running === "one step") stop();
    else if (rest > 0) rest -= passed;
    else if (index < last) put(index + 1, 0);
    else stop();
  }

  return {
    get at() {
      return { index, t, playing: running === "all" };
    },
    get last() {
      return last;
    },
    /** Put a step down as done, without moving. */
    set(toIndex) {
      stop();
      put(toIndex, 1);
    },
    /** Let one step happen. */
    act(toIndex) {
      stop();
      put(toIndex, calm() ? 1 : 0);
      if (!calm()) run("one step");
    },
    play() {
      if (last < 0) return;
      if (index === last && t === 1) put(0, 0);
      run("all");
    },
    pause: stop,
    setPace: (factor) => (pace = factor),
    onChange: (listener) => listeners.push(listener),
  };
}
