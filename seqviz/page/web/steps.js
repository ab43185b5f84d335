/** The sheet of work: the list of steps that stands in the page, taken over. The one at hand lies open. */

import { button, make, named, numbered, oneStop } from "bench/paper";

/**
 * @param {HTMLElement | null} list the `<ol>` with one `<li>` a step
 * @param {object} work
 * @param {{choose: (index: number) => void, drawn: boolean, ticks: object, goTo: object, onTick: () => void}} hands
 *   `choose`: a step is taken in hand; `drawn`: there is a bench to watch it on
 */
export function createSteps(list, work, { choose, drawn, ticks, goTo, onTick }) {
  const rows = Array.from(list?.children ?? [], (item, index) => takeOver(item, work.steps[index], () => choose(index)));
  const reach = oneStop(rows.map((row) => row.opener));
  let open = -1;

  rows.forEach((row, index) => {
    row.body.append(...asked(work, index, goTo));
    if (drawn) row.body.append(button("Watch this step", () => choose(index), { class: "watch" }));
    row.body.append(row.done);
    row.box.addEventListener("change", () => {
      ticks.set(index, row.box.checked);
      mark(row, ticks.date(index));
      onTick();
    });
    mark(row, ticks.date(index));
  });

  return {
    /** Open a step and close the one before; `bring`: scroll it into sight. */
    open(index, bring) {
      if (rows[open]) unfold(rows[open], false);
      open = index;
      const row = rows[index];
      if (!row) return;
      unfold(row, true);
      reach(index);
      if (bring) bringIntoSight(row.item);
    },
    /** Show the ticks again, after they were read from a file. */
    refresh: () => rows.forEach((row, index) => mark(row, ticks.date(index))),
    focus(index) {
      rows[index]?.opener.focus();
    },
    tick(index) {
      rows[index]?.box.click();
    },
  };
}

function takeOver(item, step, press) {
  const heading = item.querySelector("h3");
  const body = item.querySelector(".step-body");
  const opener = button("", press, { class: "opener" });
  opener.append(...heading.childNodes);
  const told = make("span", { class: "done-on" });
  heading.append(opener, told);
  const box = make("input", { type: "checkbox" });
  const done = make("label", { class: "done" }, box, make("span", {}, `Step ${step.no} is done`));
  body.hidden = true;
  return { item, opener, body, box, done, told };
}

/** What stands in the way of this step, and what it brings, as places to go to. */
function asked(work, index, goTo) {
  const step = work.steps[index];
  const pieces = [];
  const about = work.findings.flatMap((finding, k) => (finding.step === step.no || finding.steps[0] === step.no ? [k] : []));
  const wanted = about.filter((k) => !work.findings[k].known);
  if (wanted.length) pieces.push(go("Look at first:", wanted.map((k) => button(naming(work.findings[k]), () => goTo.finding(k)))));
  const brought = [...new Set(step.moves.map((move) => move.part))];
  if (brought.length) pieces.push(go("Parts of this step:", brought.map((k) => button(numbered(work.parts[k]), () => goTo.part(k)))));
  return pieces;
}

function naming(finding) {
  return make("span", {}, `${finding.severity}: `, named(finding.message, 400));
}

function go(words, buttons) {
  return make("div", { class: "places" }, make("p", {}, words), make("ul", {}, ...buttons.map((one) => make("li", {}, one))));
}

function unfold(row, open) {
  row.body.hidden = !open;
  row.item.classList.toggle("at-hand", open);
  if (open) row.opener.setAttribute("aria-current", "step");
  else row.opener.removeAttribute("aria-current");
}

function mark(row, date) {
  row.box.checked = Boolean(date);
  row.item.classList.toggle("is-done", Boolean(date));
  row.told.textContent = date ? `done ${date}` : "";
}

/** Only as far as needed, and never by moving what the reader holds. */
function bringIntoSight(item) {
  item.scrollIntoView({ block: "nearest", behavior: "instant" });
}
