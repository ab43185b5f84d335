/** Where the reader was: step, view and shading, kept in this tab so that a reloaded page comes back to them. */

import { bare } from "bench/ticks";

const NUMBERS = ["round", "high", "far"];

/**
 * @typedef {{no: number, title: string, view: object|null, shading: string}} Place  `title`: of the step, bare
 *
 * @param {{title: string, files: string[], steps: {no: number, title: string}[]}} work
 */
export function createKeeping(work) {
  const key = `seqviz place ${JSON.stringify([work.title, work.files[0]])}`;

  /** The step of that title that is nearest to its old number, else the one that has its number now. */
  function indexOf({ no, title }) {
    const same = work.steps.flatMap((step, index) => (bare(step.title) === title ? [index] : []));
    const off = (index) => Math.abs(work.steps[index].no - no);
    if (same.length) return same.reduce((best, index) => (off(index) < off(best) ? index : best));
    return Number.isInteger(no) ? Math.max(0, Math.min(work.steps.length, no) - 1) : 0;
  }

  return {
    /**
     * What was kept, where the page was loaded again or come back to; null where it is opened.
     * @returns {{index: number, view: object|null, shading: string}|null}
     */
    read() {
      const how = performance.getEntriesByType("navigation")[0]?.type;
      const place = how === "reload" || how === "back_forward" ? stored(key) : null;
      return place && { index: indexOf(place), view: viewOf(place.view), shading: String(place.shading) };
    },
    /**
     * Keep it when the page is left, also where a tablet puts it to sleep and never wakes it.
     * @param {() => {index: number, view: object|null, shading: string}} now
     */
    watch(now) {
      const keep = () => {
        const { index, ...rest } = now();
        const step = work.steps[index];
        store(key, { no: step?.no ?? 0, title: step ? bare(step.title) : "", ...rest });
      };
      addEventListener("pagehide", keep);
      document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && keep());
    },
  };
}

function stored(key) {
  try {
    const place = JSON.parse(sessionStorage.getItem(key) ?? "null");
    return typeof place === "object" ? place : null;
  } catch {
    return null;
  }
}

function store(key, place) {
  try {
    sessionStorage.setItem(key, JSON.stringify(place));
  } catch {
    // storage refused: the page then opens at the first step that is not done
  }
}

/** A view that may be looked from, or null: nobody knows who wrote it. */
function viewOf(view) {
  const numbers = view && Array.isArray(view.spot) && view.spot.length === 3 ? [...view.spot, ...NUMBERS.map((name) => view[name])] : [];
  return numbers.length === 6 && numbers.every(Number.isFinite) && view.far > 0 ? view : null;
}
