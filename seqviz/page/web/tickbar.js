/** How many steps are done, and the two buttons that save the ticks as a file and read them back. */

/**
 * @param {object} ticks
 * @param {number} steps how many there are
 * @param {{told: HTMLElement, out: HTMLElement, into: HTMLInputElement}} page
 * @param {{name: string, onRead: () => void}} rest `name` of the file that is saved
 */
export function createTickBar(ticks, steps, { told, out, into }, { name, onRead }) {
  let read = "";

  function show() {
    const words = [`${ticks.count} of ${steps} steps done.`];
    if (ticks.strangers) words.push(`${ticks.strangers} more ticks belong to steps that are no longer there.`);
    if (!ticks.stays) words.push("This browser keeps nothing: save the ticks before you close the page.");
    told.textContent = [read, ...words].filter(Boolean).join(" ");
    read = "";
  }

  out.addEventListener("click", () => save(name, ticks.yaml()));
  into.addEventListener("change", async () => {
    const file = into.files[0];
    if (!file) return;
    const count = file.size > 5_000_000 ? 0 : ticks.read(await file.text());
    read = count ? `${count} ticks read.` : "In that file are no ticks for these steps.";
    into.value = "";
    show();
    onRead();
  });
  show();
  return { show };
}

function save(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: "text/yaml" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
