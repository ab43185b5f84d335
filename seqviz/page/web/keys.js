/** Keys for the whole page. They can be switched off, because a screen reader may have its own use for them. */

const STORE = "seqviz keys";

/** @param {EventTarget | null} target */
function typing(target) {
  return target instanceof HTMLElement && target.closest("input, select, textarea, [contenteditable]") !== null;
}

function remembered() {
  try {
    return localStorage.getItem(STORE) !== "off";
  } catch {
    return true;
  }
}

/**
 * Listen for keys. Escape always works; letters only while they are switched on and no field has the focus.
 * @param {Record<string, () => void>} actions by key, as `KeyboardEvent.key` names it
 * @param {HTMLInputElement} control the tick box that switches them
 */
export function listenForKeys(actions, control) {
  control.checked = remembered();
  control.addEventListener("change", () => {
    try {
      localStorage.setItem(STORE, control.checked ? "on" : "off");
    } catch {
      // storage refused: the choice lasts as long as the page is open
    }
  });
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const action = actions[key];
    if (!action || (key !== "Escape" && (!control.checked || (typing(event.target) && !isTick(event.target))))) return;
    event.preventDefault();
    action();
  });
}

/** A tick box or a slider takes no letters, so letters stay keys there. */
function isTick(target) {
  return target instanceof HTMLInputElement && ["checkbox", "radio", "range"].includes(target.type);
}

const TURN = 10; // degrees a press
const SHIFT = 0.08; // of the picture's height a press
const NEARER = 1.2;
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/**
 * Keys for the bench while it has the focus: arrows walk round it, with Shift they shift it, + and - go nearer.
 * @param {HTMLCanvasElement} canvas
 * @param {object} stage
 */
export function listenOnBench(canvas, stage) {
  const others = { "+": () => stage.nearer(NEARER), "=": () => stage.nearer(NEARER), "-": () => stage.nearer(1 / NEARER), Home: () => stage.fit() };
  canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const arrow = ARROWS[event.key];
    if (!arrow && !others[event.key]) return;
    event.preventDefault();
    if (!arrow) others[event.key]();
    else if (event.shiftKey) stage.shift(SHIFT * arrow[0], SHIFT * arrow[1]);
    else stage.turn(TURN * arrow[0], TURN * arrow[1]);
  });
}
