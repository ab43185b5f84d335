/** Fingers, pen and mouse on the bench. One finger or the left button turns, two fingers or the right button shift. */

const STILL = { mouse: 5, pen: 9, touch: 12 }; // page's pixels that a tap may slip
const TURN = 200; // degrees for a stroke as long as the picture is high
const WHEEL = 0.0016; // of the logarithm, a pixel rolled

/**
 * @param {HTMLCanvasElement} canvas
 * @param {{turn: Function, shift: Function, nearer: Function, tap: Function}} hands  `nearer(factor, [x, y])` and
 *   `tap([x, y], finger)`: -1 .. 1 to the right and up; `finger`: half its width, page's pixels
 * @returns {() => void} the undoing
 */
export function listenToHands(canvas, hands) {
  const down = new Map(); // pointer -> where it is
  let start = null; // of a tap that may become one
  const quit = new AbortController();
  const on = (name, heard, options = {}) => canvas.addEventListener(name, heard, { signal: quit.signal, ...options });
  canvas.style.touchAction = "none";

  const at = (event) => {
    const box = canvas.getBoundingClientRect();
    return [((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2];
  };

  function middle() {
    const all = [...down.values()];
    const sum = all.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 });
    const apart = all.length > 1 ? Math.hypot(all[0].x - all[1].x, all[0].y - all[1].y) : 0;
    return { x: sum.x / all.length, y: sum.y / all.length, apart };
  }

  on("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    start = down.size === 1 && event.button === 0 ? { x: event.clientX, y: event.clientY } : null;
  });

  on("pointermove", (event) => {
    if (!down.has(event.pointerId)) return;
    const before = middle();
    if (start && Math.hypot(event.clientX - start.x, event.clientY - start.y) > (STILL[event.pointerType] ?? 9)) start = null;
    if (start) return;
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const now = middle();
    const high = canvas.clientHeight || 1;
    const [right, up] = [(now.x - before.x) / high, (before.y - now.y) / high];
    if (down.size === 1 && !(event.buttons & 2) && !event.shiftKey) return hands.turn(-right * TURN, -up * TURN);
    hands.shift(-right, -up);
    if (before.apart > 0 && now.apart > 0) hands.nearer(now.apart / before.apart, at({ clientX: now.x, clientY: now.y }));
  });

  on("pointerup", (event) => {
    if (start && down.size === 1) hands.tap(at(event), event.pointerType === "mouse" ? 9 : 18);
    down.delete(event.pointerId);
    start = null;
  });
  on("pointercancel", (event) => {
    down.delete(event.pointerId);
    start = null;
  });
  on("contextmenu", (event) => event.preventDefault());
  on(
    "wheel",
    (event) => {
      event.preventDefault();
      const lines = event.deltaMode === 1 ? 24 : event.deltaMode === 2 ? 400 : 1;
      hands.nearer(Math.exp(-Math.max(-300, Math.min(300, event.deltaY * lines)) * WHEEL), at(event));
    },
    { passive: false },
  );
  return () => quit.abort();
}
