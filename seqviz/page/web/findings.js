/** The list of findings that stands in the page: each gets a button that goes to the place on the bench. */

import { button, make, named, numbered } from "bench/paper";

/**
 * @param {HTMLElement | null} list the `<ol>` with one `<li>` a finding
 * @param {object} work
 * @param {{show: (index: number) => void, goTo: object, drawn: boolean}} hands `drawn`: there is a bench to show it on
 */
export function createFindings(list, work, { show, goTo, drawn }) {
  const items = list ? Array.from(list.children) : [];
  let shown = -1;

  items.forEach((item, index) => {
    const finding = work.findings[index];
    const bar = make("div", { class: "places" });
    const at = work.steps.findIndex(({ no }) => no === (finding.step ?? finding.steps[0]));
    if (drawn && (finding.spot || at >= 0 || finding.parts.length)) bar.append(button("Show it on the bench", () => show(index), { class: "show-it" }));
    else if (at >= 0) bar.append(button(`Go to step ${work.steps[at].no}`, () => goTo.step(at)));
    const parts = [...new Set([...finding.parts, ...finding.blockers])];
    const buttons = parts.slice(0, 6).map((k) => make("li", {}, button(partWords(work, finding, k), () => goTo.part(k))));
    const holes = finding.stacks.filter((k) => work.stacks[k].lines.length).slice(0, 2);
    buttons.push(...holes.map((k) => make("li", {}, button(holeWords(work, k), () => goTo.stack(k)))));
    if (buttons.length) bar.append(make("ul", {}, ...buttons));
    item.append(bar);
    item.tabIndex = -1;
  });

  function mark(index) {
    items[shown]?.classList.remove("at-hand");
    shown = index;
    items[index]?.classList.add("at-hand");
  }

  return {
    mark,
    get shown() {
      return shown;
    },
    get count() {
      return items.length;
    },
    /** Bring a finding into sight, with the focus on it. */
    focus(index) {
      items[index]?.focus({ preventScroll: true });
      items[index]?.scrollIntoView({ block: "start", behavior: "instant" });
    },
  };
}

function holeWords(work, stack) {
  return make("span", {}, "Hole ", named(work.stacks[stack].name));
}

function partWords(work, finding, part) {
  const words = numbered(work.parts[part]);
  if (finding.blockers.includes(part)) words.append(" (in the way)");
  return words;
}
