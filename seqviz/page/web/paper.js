/** Pieces of the page. What a user has written only ever becomes text, never HTML. */

const LONG = 90;

/**
 * Make an element. Attributes that are false or missing are left out.
 * @param {string} tag
 * @param {Record<string, string | number | boolean | null | undefined>} [attributes]
 * @param {...(Node | string)} children
 * @returns {HTMLElement}
 */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [word, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    element.setAttribute(word, value === true ? "" : String(value));
  }
  element.append(...children);
  return element;
}

/**
 * Shorten a name so that one sees that it was: its beginning, its end, and how long it is.
 * @param {string} text
 * @param {number} [most]
 * @returns {string}
 */
export function shorten(text, most = LONG) {
  const letters = Array.from(text);
  if (letters.length <= most) return text;
  const end = Math.floor(most / 4);
  const start = letters.slice(0, most - end).join("");
  return `${start} … ${letters.slice(-end).join("")} (${letters.length} letters)`;
}

/**
 * A name that keeps its own direction of writing.
 * @param {string} text
 * @param {number} [most] letters that are shown whole
 * @returns {HTMLElement}
 */
export function named(text, most) {
  return make("bdi", {}, shorten(text, most));
}

/**
 * A part's number, as on its tag, and its name.
 * @param {{no: number, name: string}} part
 * @returns {HTMLElement}
 */
export function numbered(part) {
  return make("span", {}, make("span", { class: "number" }, String(part.no)), " ", named(part.name));
}

/**
 * A button with words on it.
 * @param {Node | string} words
 * @param {() => void} press
 * @param {Record<string, string | boolean>} [attributes]
 * @returns {HTMLElement}
 */
export function button(words, press, attributes = {}) {
  const element = make("button", { type: "button", ...attributes }, words);
  element.addEventListener("click", press);
  return element;
}

/**
 * Make a long list one stop for the Tab key; arrows, Home and End go on inside it.
 * @param {HTMLElement[]} items
 * @returns {(index: number) => void} says which one the Tab key reaches
 */
export function oneStop(items) {
  const reach = (index) => items.forEach((item, k) => (item.tabIndex = k === index ? 0 : -1));
  const steps = { ArrowDown: 1, ArrowUp: -1, Home: -Infinity, End: Infinity };
  items.forEach((item, index) => {
    item.addEventListener("focus", () => reach(index));
    item.addEventListener("keydown", (event) => {
      if (!(event.key in steps) || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      const to = Math.min(items.length - 1, Math.max(0, index + steps[event.key]));
      items[to].focus();
    });
  });
  if (items.length) reach(0);
  return reach;
}
