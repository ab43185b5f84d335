/** Colours of the bench by day and by night, red, green, blue in 0 .. 1. Okabe and Ito's, as in the pictures. */

const rgb = (hex) => [hex >> 16, (hex >> 8) & 255, hex & 255].map((value) => value / 255);

const DAY = {
  air: rgb(0xf3f2ee),
  bench: rgb(0xe2ddd2),
  benchLine: rgb(0xc9c2b3),
  part: rgb(0xfffffc),
  line: rgb(0x6a6a6a),
  fresh: rgb(0x8cc4ea),
  freshLine: rgb(0x00345c),
  tool: rgb(0xf2e3b8),
  fixing: rgb(0xbebebc),
  pin: rgb(0x8e8e8c),
  rim: rgb(0x2a2a2a),
  ink: rgb(0x141414),
  paper: rgb(0xffffff),
  alarm: rgb(0xd55e00),
  tint: 1,
};

const NIGHT = {
  air: rgb(0x14171a),
  bench: rgb(0x2a2620),
  benchLine: rgb(0x453e33),
  part: rgb(0x6d7880),
  line: rgb(0xc3ccd2),
  fresh: rgb(0x2b78b4),
  freshLine: rgb(0xd6ecff),
  tool: rgb(0x85733c),
  fixing: rgb(0xa3a8ab),
  pin: rgb(0x80868a),
  rim: rgb(0x0a0c0e),
  ink: rgb(0xf4f4f2),
  paper: rgb(0x0c0e10),
  alarm: rgb(0xff8a2b),
  tint: 0.62,
};

const dark = matchMedia("(prefers-color-scheme: dark)");

export const inks = () => (dark.matches ? NIGHT : DAY);

/** @param {() => void} changed @returns {() => void} the undoing */
export function onInks(changed) {
  dark.addEventListener("change", changed);
  return () => dark.removeEventListener("change", changed);
}

/** Marks are the same by day and by night: signs on the metal. */
export const MARK_INKS = { paper: "#ffffff", black: "#141414", quiet: "#4b4b4b", set: "#d55e00", pin: "#f0be32" };
