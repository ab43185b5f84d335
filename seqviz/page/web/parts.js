/** The list of parts that stands in the page: each name becomes a button that takes the part in hand. */

import { button, oneStop } from "bench/paper";

/**
 * @param {HTMLElement} list the `<ol>` with one `<li>` a part
 * @param {(part: number) => void} take
 */
export function createParts(list, take) {
  const openers = Array.from(list.children, (item, index) => {
    const heading = item.querySelector("h3");
    const opener = button("", () => take(index), { class: "opener" });
    opener.append(...heading.childNodes);
    heading.append(opener);
    return opener;
  });
  if (openers.length) oneStop(openers);
}
