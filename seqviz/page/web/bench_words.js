/** What the bench shows, in words: the line over it, its marks with their counts, and what is said aloud. */

import { make, shorten } from "bench/paper";
import { drawSymbol } from "bench/symbols";

const QUIET = 400; // ms; who drags the slider hears only the step where it stays
const SIDE = 22; // of a mark's picture, page's pixels

/**
 * @param {object} work
 * @param {{told: HTMLElement, marks: HTMLElement, says: HTMLElement}} page
 */
export function createBenchWords(work, { told, marks, says }) {
  let waiting = 0;

  function tell(line, aloud, counts) {
    told.textContent = line;
    marks.replaceChildren(...Array.from(counts, ([kind, count]) => make("li", {}, symbol(kind), `${kind}: ${count}`)));
    clearTimeout(waiting);
    waiting = setTimeout(() => (says.textContent = aloud), QUIET);
  }

  return {
    step(index) {
      const step = work.steps[index];
      const up = `${step.up_name.charAt(0).toUpperCase()}${step.up_name.slice(1)} up.`;
      const apart = step.work === null ? "" : ` Apart: ${shorten(step.work, 40)}.`;
      const bare = step.bare ? " Nothing there has dimensions yet, so nothing is drawn." : "";
      tell(`Step ${index + 1} of ${work.steps.length}.${apart} ${up}${bare}`, `${shorten(step.title, 300)}${apart} ${up}`, counted(step.marks));
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

function counted(marks) {
  const counts = new Map();
  for (const { kind } of marks) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return counts;
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
