/** What the bench shows, in words: the line over it, its marks with their counts, and what is said aloud. */

import { make, shorten } from "bench/paper";
import { dot } from "bench/space";
import { drawSymbol } from "bench/symbols";

const QUIET = 400; // ms; who drags the slider hears only the step where it stays
const LEVEL = 0.35; // of 1: what looks up or down by less looks to the side
const SIDE = 22; // of a mark's picture, page's pixels

/**
 * @param {object} work
 * @param {{told: HTMLElement, marks: HTMLElement, says: HTMLElement}} page
 */
export function createBenchWords(work, { told, marks, says }) {
  let waiting = 0;

  function tell(line, aloud, counts) {
    told.textContent = line;
    marks.replaceChildren(...counts.map(({ kind, end, count }) => make("li", {}, symbol(kind), `${kind}: ${count}${end}`)));
    clearTimeout(waiting);
    waiting = setTimeout(() => (says.textContent = aloud), QUIET);
  }

  return {
    step(index) {
      const step = work.steps[index];
      const up = `${step.up_name.charAt(0).toUpperCase()}${step.up_name.slice(1)} up.`;
      const apart = step.work === null ? "" : ` Apart: ${shorten(step.work, 40)}.`;
      const bare = step.bare ? " Nothing there has dimensions yet, so nothing is drawn." : "";
      tell(`Step ${index + 1} of ${work.steps.length}.${apart} ${up}${bare}`, `${shorten(step.title, 300)}${apart} ${up}`, counted(step));
    },
    /** Say what a tap took in hand; the focus stays on the bench. */
    taken(name) {
      says.textContent = `${shorten(name)} is at hand.`;
    },
    /** Say which parts are like glass for the time being, so that what lies behind them is seen. */
    through(parts) {
      if (!parts.length) return;
      const names = parts.length < 3 ? parts.map((k) => shorten(work.parts[k].name, 40)).join(" and ") : `${parts.length} parts`;
      told.textContent += ` Like glass for now: ${names}.`;
    },
    whole() {
      tell("The whole structure.", "The whole structure, as it will be.", []);
    },
  };
}

/** How many marks of each kind there are, and to which end one must look where that is not the one that faces up. */
function counted({ marks, up }) {
  const counts = new Map();
  for (const { kind, out } of marks) {
    const end = endOf(dot(out, up));
    const entry = counts.get(kind + end) ?? { kind, end, count: 0 };
    counts.set(kind + end, { ...entry, count: entry.count + 1 });
  }
  return [...counts.values()];
}

/** @param {number} rise of the way that a mark looks: 1 up, -1 down */
function endOf(rise) {
  if (rise > LEVEL) return "";
  return rise < -LEVEL ? " from below" : " from the side";
}

/** The mark as it stands on the bench. */
function symbol(kind) {
  const scale = Math.ceil(globalThis.devicePixelRatio || 1);
  const canvas = make("canvas", { width: SIDE * scale, height: SIDE * scale, "aria-hidden": "true", class: "symbol" });
  const draw = canvas.getContext("2d");
  draw?.scale(scale, scale);
  if (draw) drawSymbol(draw, kind, SIDE / 2, kind.startsWith("pin") ? SIDE - 2 : SIDE / 2, SIDE / 3);
  return canvas;
}
