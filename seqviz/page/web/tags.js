/** Numbers on parts: laid over the picture where a part is seen widest, once the picture stands still. */

const SMALL = 360; // pixels of the picture from which places are read, on its longer side
const MOST = 60;
const NARROWEST = 5; // page's pixels from the tag's middle to the part's edge
const ROOM = 26; // page's pixels between tags

/**
 * @param {HTMLCanvasElement} canvas
 * @param {object} renderer
 */
export function createTags(canvas, renderer) {
  const { THREE } = globalThis;
  const layer = document.createElement("div");
  layer.setAttribute("aria-hidden", "true");
  Object.assign(layer.style, { position: "absolute", pointerEvents: "none", overflow: "hidden" });
  canvas.after(layer);
  let target = null;

  /** @param {(target: object) => void} draw draws each part in a colour that says which it is */
  function read(draw, wide, high) {
    if (!target || target.width !== wide || target.height !== high) {
      target?.dispose();
      target = new THREE.WebGLRenderTarget(wide, high, { minFilter: THREE.NearestFilter, magFilter: THREE.NearestFilter });
    }
    draw(target);
    const pixels = new Uint8Array(4 * wide * high);
    renderer.readRenderTargetPixels(target, 0, 0, wide, high, pixels);
    const who = new Int32Array(wide * high);
    for (let k = 0; k < who.length; k++) who[k] = pixels[4 * k] + 256 * pixels[4 * k + 1] - 1;
    return who;
  }

  return {
    /**
     * @param {(target: object) => void} draw
     * @param {(part: number) => string} textOf "" for none
     */
    put(draw, textOf) {
      const box = { wide: canvas.clientWidth, high: canvas.clientHeight };
      const grain = Math.max(box.wide, box.high) / SMALL;
      const [wide, high] = [Math.max(1, Math.round(box.wide / grain)), Math.max(1, Math.round(box.high / grain))];
      const spots = widest(read(draw, wide, high), wide, high);
      const put = [];
      for (const { part, x, y, room } of spots) {
        const text = textOf(part);
        const at = { left: (x + 0.5) * grain, top: box.high - (y + 0.5) * grain, text };
        const free = put.every((other) => Math.hypot(other.left - at.left, other.top - at.top) > ROOM);
        if (text && room * grain >= NARROWEST && free && put.length < MOST) put.push(at);
      }
      Object.assign(layer.style, { left: `${canvas.offsetLeft}px`, top: `${canvas.offsetTop}px`, width: `${box.wide}px`, height: `${box.high}px` });
      layer.replaceChildren(...put.map(tag));
    },
    clear: () => layer.replaceChildren(),
    end() {
      layer.remove();
      target?.dispose();
    },
  };
}

function tag({ left, top, text }) {
  const one = document.createElement("span");
  one.className = "tag";
  one.textContent = text;
  Object.assign(one.style, {
    position: "absolute", left: `${left}px`, top: `${top}px`, transform: "translate(-50%, -50%)",
    font: "600 13px/1 system-ui, sans-serif", padding: "2px 5px", background: "Canvas", color: "CanvasText",
    border: "1px solid CanvasText", borderRadius: "3px", whiteSpace: "nowrap",
  });
  return one;
}

/**
 * For each part the pixel of it that is farthest from what is not it, widest first.
 * @param {Int32Array} who row by row, -1: nothing
 */
export function widest(who, wide, high) {
  const room = new Float32Array(who.length);
  const look = (k, steps) => {
    let least = Infinity;
    for (const [step, cost, inside] of steps) least = Math.min(least, inside && who[k + step] === who[k] ? room[k + step] + cost : 0);
    return least;
  };
  for (let y = 0, k = 0; y < high; y++)
    for (let x = 0; x < wide; x++, k++)
      room[k] = Math.min(1e3, look(k, [[-1, 1, x > 0], [-wide, 1, y > 0], [-wide - 1, 1.4, x > 0 && y > 0], [-wide + 1, 1.4, x < wide - 1 && y > 0]]));
  const best = new Map();
  for (let y = high - 1, k = who.length - 1; y >= 0; y--)
    for (let x = wide - 1; x >= 0; x--, k--) {
      const back = look(k, [[1, 1, x < wide - 1], [wide, 1, y < high - 1], [wide + 1, 1.4, x < wide - 1 && y < high - 1], [wide - 1, 1.4, x > 0 && y < high - 1]]);
      room[k] = Math.min(room[k], back);
      if (who[k] >= 0 && room[k] > (best.get(who[k])?.room ?? -1)) best.set(who[k], { part: who[k], x, y, room: room[k] });
    }
  return [...best.values()].sort((a, b) => b.room - a.room);
}
