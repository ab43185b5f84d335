/** How parts are told apart: plain, by layer, by step; with a pattern and a number beside each colour. */

import { inks } from "bench/inks";
import { PATTERNS } from "bench/shaders";

/** Okabe and Ito's colours, the one that means alarm left out; plain first. */
const COLOURS = [0xd8d8d4, 0x8ccff2, 0xf0b64a, 0x52c4a0, 0xf4ec80, 0x6fa8dc, 0xe0a3c8, 0xb9b3d9].map((hex) => [hex >> 16, (hex >> 8) & 255, hex & 255].map((value) => value / 255));
const BLOCKS = 5; // the pattern of what is in the way

/**
 * @typedef {{fill: number[], pattern: number, fresh: boolean, tag: string}} Look  `tag`: "" for none
 *
 * @param {object} work
 * @returns {{look: (part: number, state: object) => Look, legend: (name: string) => {number: string, text: string,
 *   swatch: string}[]}}
 */
export function createShades(work) {
  const layers = new Set(work.parts.map((part) => part.layer ?? 0));
  const steps = new Set(work.parts.map((part) => part.first ?? -1));

  /** @param {{shading: string, fresh: Uint8Array, finding: object|null}} state */
  function look(part, { shading, fresh, finding }) {
    const ink = inks();
    const { layer, first, no, tool } = work.parts[part];
    if (finding) return inConflict(part, finding, ink, String(no));
    const isFresh = fresh[part] === 1;
    if (shading === "layer") return { ...numbered(layer ?? 0, ink), fresh: isFresh, tag: layer === null ? "" : String(layer) };
    if (shading === "step") return { ...numbered(first ?? 0, ink), fresh: isFresh, tag: first === null ? "" : String(first) };
    return { fill: isFresh ? ink.fresh : tool ? ink.tool : ink.part, pattern: 0, fresh: isFresh, tag: isFresh ? String(no) : "" };
  }

  function inConflict(part, finding, ink, no) {
    if (finding.blockers.includes(part)) return { fill: mixed(ink.alarm, ink.part, 0.35), pattern: BLOCKS, fresh: false, tag: no };
    if (finding.parts.includes(part)) return { fill: ink.fresh, pattern: 0, fresh: true, tag: no };
    return { fill: ink.part, pattern: 0, fresh: false, tag: "" };
  }

  function legend(name) {
    const ink = inks();
    const rising = (numbers) => [...numbers].sort((a, b) => a - b);
    if (name === "layer")
      return rising(layers).map((n) => entry(numbered(n, ink), n ? String(n) : "", n ? `layer ${n}${n === 1 ? ", under the manufactured heads" : ""}` : "in no hole stack"));
    if (name === "step")
      return rising(steps).map((n) => entry(numbered(Math.max(0, n), ink), n > 0 ? String(n) : "", n > 0 ? titleOf(n) || `Step ${n}` : n ? "placed in no step" : "there from the start"));
    const plain = [[ink.part, "there"], [ink.fresh, "comes with this step"]];
    if (work.parts.some((part) => part.tool)) plain.push([ink.tool, "a template, taken off again"]);
    return plain.map(([fill, words]) => entry({ fill, pattern: 0 }, "", words));
  }

  const titleOf = (no) => work.steps.find((step) => step.no === no)?.title ?? "";
  return { look, legend };
}

/** Colour and pattern of a number: sixty-four before one comes again. */
export function numbered(n, ink) {
  const colour = COLOURS[n % COLOURS.length];
  return { fill: colour.map((value) => value * ink.tint), pattern: (n + Math.floor(n / COLOURS.length)) % PATTERNS };
}

const mixed = (a, b, share) => a.map((value, k) => value + (b[k] - value) * share);

const [WIDE, HIGH] = [44, 28]; // pixels of a swatch

function entry({ fill, pattern }, number, text) {
  const patch = document.createElement("canvas");
  [patch.width, patch.height] = [WIDE, HIGH];
  const draw = patch.getContext("2d");
  const pixels = draw.createImageData(WIDE, HIGH);
  const colours = [fill, mixed(fill, inks().ink, 0.62)].map((colour) => [...colour.map((value) => 255 * value), 255]);
  for (let k = 0; k < WIDE * HIGH; k++) pixels.data.set(colours[inked(pattern, (k % WIDE) + 0.5, HIGH - 0.5 - Math.floor(k / WIDE)) ? 1 : 0], 4 * k);
  draw.putImageData(pixels, 0, 0);
  return { number, text, swatch: patch.toDataURL() };
}

/** The same patterns as on the parts (`inked` in bench/shaders). */
function inked(pattern, x, y) {
  const mod = (a, b) => a - b * Math.floor(a / b);
  const line = (value) => mod(value, 9) < 1.3;
  const rising = line((x + y) * Math.SQRT1_2);
  const falling = line((x - y) * Math.SQRT1_2);
  const dots = Math.hypot(mod(x, 7) - 3.5, mod(y, 7) - 3.5) < 1.5;
  return [false, rising, dots, falling, line(y), rising || falling, line(x), line(x) || line(y)][pattern];
}
