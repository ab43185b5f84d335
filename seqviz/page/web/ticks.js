/** Steps ticked as done: kept on this device, handed out as a plain YAML file and read back from one. */

/** @typedef {{step: number, title: string, done: string}} Tick */

const UNSAFE = /[\p{C}\p{Zl}\p{Zp}]/gu;
const LINE = /^ *- \{step: (\d+), title: ("(?:[^"\\]|\\.)*"), done: (\d{4}-\d\d-\d\d)\}\s*$/;

/**
 * Text in double quotes that YAML reads back letter by letter, whatever it holds.
 * @param {string} text
 * @returns {string}
 */
export function quoted(text) {
  const whole = text.toWellFormed ? text.toWellFormed() : text;
  const inside = whole.replace(/["\\]/g, "\\$&").replace(UNSAFE, (letter) => {
    const number = letter.codePointAt(0);
    return number > 0xffff ? `\\U${number.toString(16).padStart(8, "0")}` : `\\u${number.toString(16).padStart(4, "0")}`;
  });
  return `"${inside}"`;
}

/**
 * The ticks as a YAML file.
 * @param {string} structure
 * @param {string} sequence
 * @param {Tick[]} ticks
 * @returns {string}
 */
export function asYaml(structure, sequence, ticks) {
  const lines = ticks.map((tick) => `  - {step: ${tick.step}, title: ${quoted(tick.title)}, done: ${tick.done}}`);
  const head = ["# Steps ticked as done at the bench.", "format: 1", `structure: ${quoted(structure)}`];
  const steps = lines.length ? ["steps:", ...lines] : ["steps: []"];
  return [...head, `sequence: ${quoted(sequence)}`, ...steps, ""].join("\n");
}

/**
 * Ticks out of a file that `asYaml` has written; other lines are passed over.
 * @param {string} text
 * @returns {Tick[]}
 */
export function fromYaml(text) {
  const found = text.split(/\r?\n/).map((line) => LINE.exec(line));
  return found.filter(Boolean).map(([, step, title, done]) => ({ step: Number(step), title: unquoted(title), done }));
}

function unquoted(text) {
  return text.slice(1, -1).replace(/\\(?:U([0-9a-f]{8})|u([0-9a-f]{4})|(.))/gi, (_, long, short, sign) => {
    const number = parseInt(long ?? short, 16);
    return sign ?? (number <= 0x10ffff ? String.fromCodePoint(number) : "");
  });
}

/** The device's own date, not the one in Greenwich. */
function today() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function isTick(tick) {
  return typeof tick?.title === "string" && /^\d{4}-\d\d-\d\d$/.test(tick.done);
}

function kept(key) {
  try {
    const stored = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(stored) ? stored.filter(isTick) : [];
  } catch {
    return [];
  }
}

/**
 * The ticks of one structure and sequence. A tick belongs to its step's title: when steps are put in between
 * or moved, it goes with its step. Of equal titles the first is the first.
 * @param {{title: string, sequence: string, steps: {no: number, title: string, lines: string[]}[]}} work
 */
export function createTicks(work) {
  const key = `seqviz ticks ${JSON.stringify([work.title, work.sequence])}`;
  const wanted = work.steps.map((step) => bare(step.title) || (step.lines[0] ?? ""));
  const dates = new Map();
  /** @type {Tick[]} ticks of steps that are no longer there; they are kept, in case the steps come back */
  let others = [];
  let stays = true;

  function take(ticks) {
    const taken = new Set();
    others = [];
    for (const tick of ticks) {
      const same = wanted.flatMap((title, index) => (title === bare(tick.title) && !taken.has(index) ? [index] : []));
      const index = same.find((at) => work.steps[at].no === tick.step) ?? same[0];
      if (index === undefined) others.push(tick);
      else {
        dates.set(index, tick.done);
        taken.add(index);
      }
    }
  }

  function list() {
    const rising = [...dates.keys()].sort((a, b) => a - b);
    return rising.map((index) => ({ step: work.steps[index].no, title: wanted[index], done: dates.get(index) }));
  }

  function keep() {
    try {
      localStorage.setItem(key, JSON.stringify([...list(), ...others]));
      stays = true;
    } catch {
      stays = false; // storage refused: the ticks last as long as the page is open
    }
  }

  take(kept(key));
  return {
    /** Date of the tick of a step, or undefined. */
    date: (index) => dates.get(index),
    /** How many steps are ticked. */
    get count() {
      return dates.size;
    },
    /** False where the device refused to keep them. */
    get stays() {
      return stays;
    },
    /** Ticks that belong to no step of this sequence. */
    get strangers() {
      return others.length;
    },
    set(index, done) {
      if (done) dates.set(index, today());
      else dates.delete(index);
      keep();
    },
    read(text) {
      const ticks = fromYaml(text);
      take(ticks);
      keep();
      return ticks.length - others.length;
    },
    yaml: () => asYaml(work.title, work.sequence, list()),
  };
}

/** The title without its number, which changes when steps are put in before it. */
export function bare(title) {
  return title.replace(/^Step \d+\.\s*/, "");
}
