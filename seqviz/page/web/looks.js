/** How the work is shown: shading with its legend, pulled apart, and parts that are ghosts or left out. */

import { make, named } from "bench/paper";

const MOST_IN_LEGEND = 40;

/**
 * @param {object} work
 * @param {object} stage
 * @param {{radios: NodeListOf<HTMLInputElement>, legend: HTMLElement, pull: HTMLInputElement, all: HTMLElement,
 *   putBy: HTMLElement, sides: NodeListOf<HTMLButtonElement>}} page
 */
export function createLooks(work, stage, page) {
  const changed = new Set(); // parts that are ghosts or left out

  let shading = "plain";

  function shade(name) {
    shading = name;
    const entries = stage.setShading(name) ?? [];
    const rest = entries.length - MOST_IN_LEGEND;
    page.legend.replaceChildren(...entries.slice(0, MOST_IN_LEGEND).map(entryOf));
    if (rest > 0) page.legend.append(make("li", {}, `and ${rest} more`));
  }

  function tell() {
    const names = [...changed].map((part) => work.parts[part].name);
    const apart = Number(page.pull.value) > 0;
    page.putBy.replaceChildren();
    if (names.length === 1) page.putBy.append("Not drawn as it is: ", named(names[0]));
    else if (names.length) page.putBy.append(`${names.length} parts are not drawn as they are`);
    else if (apart) page.putBy.append("Pulled apart");
    page.all.hidden = !apart && names.length === 0;
  }

  function set(part, how) {
    if (how === "shown") changed.delete(part);
    else changed.add(part);
    stage.setHidden(part, how);
    tell();
  }

  function pull() {
    stage.pullApart(Number(page.pull.value) / 100);
    tell();
  }

  function lookFrom(side) {
    if (side === "up") stage.viewFromUp();
    else if (side === "all") stage.fit();
    else stage.viewFrom(side);
  }

  function showAll() {
    changed.clear();
    stage.showAll();
    page.pull.value = "0";
    stage.pullApart(0);
    tell();
  }

  page.radios.forEach((radio) => radio.addEventListener("change", () => shade(radio.value)));
  page.pull.addEventListener("input", pull);
  page.all.addEventListener("click", showAll);
  page.sides.forEach((one) => one.addEventListener("click", () => lookFrom(one.value)));
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => shade(shading));
  shade(shading);
  return {
    get: stage.hidden,
    set,
    showAll,
    get shading() {
      return shading;
    },
    /** Shade as if its choice were tapped; a name that is no choice changes nothing. */
    choose(name) {
      const radio = Array.from(page.radios).find((one) => one.value === name);
      if (!radio) return;
      radio.checked = true;
      shade(name);
    },
  };
}

/** One line of the legend: its patch as it is on the bench, and what it means. */
function entryOf({ swatch, number, text }) {
  const patch = make("img", { class: "patch", src: swatch, alt: number ? `Number ${number}: ` : "", width: 44, height: 28 });
  return make("li", {}, patch, named(text));
}
