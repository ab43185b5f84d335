/** The slip: what is at hand after a tap on a part or a hole. All words and drawings were made before. */

import { button, make, named, numbered, shorten } from "bench/paper";

const AT_FIRST = 8;

/**
 * @param {HTMLElement} slip
 * @param {object} work
 * @param {{goTo: object, shown: {get: (part: number) => string, set: (part: number, how: string) => void}, onClose: () => void}} hands
 */
export function createDetails(slip, work, { goTo, shown, onClose }) {
  let cameFrom = null;

  function fill(heading, ...rest) {
    const title = make("h2", { tabindex: "-1" }, heading);
    const close = button("Put away", () => put(), { class: "put-away" });
    if (slip.hidden) cameFrom = document.activeElement;
    slip.replaceChildren(make("div", { class: "slip-head" }, title, close), ...rest.filter(Boolean));
    slip.hidden = false;
    slip.scrollTop = 0;
    return title;
  }

  function put() {
    if (slip.hidden) return;
    slip.hidden = true;
    slip.replaceChildren();
    onClose();
    if (cameFrom?.isConnected) cameFrom.focus();
  }

  return {
    put,
    get open() {
      return !slip.hidden;
    },
    /** Show a part; `there`: it is on the bench now. Returns the heading, for the focus. */
    part(index, there) {
      const part = work.parts[index];
      const holes = part.stacks.map((k) => [named(work.stacks[k].name), () => goTo.stack(k)]);
      const others = (list) => list.map((k) => [numbered(work.parts[k]), () => goTo.part(k)]);
      return fill(
        numbered(part),
        there ? null : make("p", { class: "aside" }, "It is not on the bench in this step."),
        partFacts(part, work, goTo),
        places("Sits on", others(part.on), "nothing: it lies on the bench, or hangs by its holes"),
        places("On it sit", others(part.under), "nothing"),
        places("Its holes", holes, "none that go through another part"),
        hiding(part, index, shown),
      );
    },
    /** Show a hole stack; returns the heading, for the focus. */
    stack(index) {
      const stack = work.stacks[index];
      const also = stack.names.filter((name) => name !== stack.name);
      return fill(
        make("span", {}, "Hole ", named(stack.name)),
        layersOf(stack, goTo),
        stack.section === null ? null : drawn(work.sections[stack.section], stack),
        also.length ? make("p", { class: "also" }, "Also called ", ...also.slice(0, AT_FIRST).flatMap((name, k) => (k ? [", ", named(name)] : [named(name)]))) : null,
      );
    },
  };
}

/** The stack in words; each layer is a button that goes to its part. */
function layersOf(stack, goTo) {
  const partOf = new Map(stack.layers);
  const said = (line) => make("bdi", {}, shorten(line, 300));
  const items = stack.lines.map((line, k) => {
    const part = partOf.get(k);
    return make("li", {}, part === undefined ? said(line) : button(said(line), () => goTo.part(part)));
  });
  return make("ul", { class: "layers", "aria-label": "Layers" }, ...items);
}

function partFacts(part, work, goTo) {
  const facts = make("ul", { class: "facts" });
  if (part.thickness) facts.append(make("li", {}, make("bdi", {}, `Thickness ${part.thickness}`)));
  const at = work.steps.findIndex((step) => step.no === part.first);
  if (at >= 0) facts.append(make("li", {}, button(`Comes with step ${part.first}`, () => goTo.step(at))));
  else if (part.first === 0) facts.append(make("li", {}, "There from the start"));
  else if (work.steps.length) facts.append(make("li", {}, "No step places it yet"));
  if (part.tool) facts.append(make("li", {}, "A template: it is taken off again"));
  for (const fact of part.facts) facts.append(make("li", {}, make("bdi", {}, shorten(fact, 300))));
  return facts;
}

/** A short list of places to go to; a long one shows its beginning and says how many more there are. */
function places(words, targets, none) {
  const list = make("ul", {}, ...targets.map(([name, press]) => make("li", {}, button(name, press))));
  const box = make("div", { class: "places" }, make("h3", {}, words), targets.length ? list : make("p", {}, none));
  const rest = Array.from(list.children).slice(AT_FIRST);
  if (rest.length < 2) return box;
  rest.forEach((item) => (item.hidden = true));
  const more = button(`${rest.length} more`, () => {
    rest.forEach((item) => (item.hidden = false));
    more.remove();
    rest[0].firstElementChild.focus();
  });
  box.append(more);
  return box;
}

function hiding(part, index, shown) {
  if (part.shape === null) return make("p", {}, "It has no dimensions yet, so it cannot be drawn.");
  const ways = [["shown", "shown"], ["ghost", "like glass"], ["hidden", "left out"]];
  const choices = ways.map(([how, words]) => {
    const input = make("input", { type: "radio", name: "part-shown", value: how });
    input.checked = shown.get(index) === how;
    input.addEventListener("change", () => shown.set(index, how));
    return make("label", {}, input, make("span", {}, words));
  });
  return make("fieldset", { class: "choices" }, make("legend", {}, "On the bench it is"), ...choices);
}

/** The section as Python drew it. It is read as SVG, so that nothing in it can become HTML of the page. */
function drawn(svg, stack) {
  const root = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  if (root.nodeName !== "svg") return null;
  const drawing = document.importNode(root, true);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", `Section through ${shorten(stack.name)}. The layers stand in the words beside it.`);
  return make("figure", { class: "section" }, drawing);
}
