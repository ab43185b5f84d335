/** The marks of holes, as in the pictures: each has its own outline, so that a copy in black and white tells them apart. */

import { MARK_INKS } from "bench/inks";

const { paper, black, quiet, set, pin } = MARK_INKS;

export const KINDS = ["set", "pin in", "pin out", "leave open", "still open", "open again", "drill", "drill out", "chosen"];

/** @param {CanvasRenderingContext2D} draw @param {string} kind @param {number} radius half its width */
export function drawSymbol(draw, kind, x, y, radius) {
  SYMBOLS[kind]?.(draw, x, y, radius);
}

function disc(draw, x, y, radius, fill) {
  draw.fillStyle = fill;
  draw.beginPath();
  draw.arc(x, y, radius, 0, 2 * Math.PI);
  draw.fill();
}

function ring(draw, x, y, r, fill) {
  disc(draw, x, y, r * 1.4, paper);
  disc(draw, x, y, r * 1.2, black);
  disc(draw, x, y, r * 0.75, fill);
}

function stroke(draw, ink, width, ...ends) {
  draw.strokeStyle = ink;
  draw.lineWidth = width;
  for (const [x0, y0, x1, y1] of ends) {
    draw.beginPath();
    draw.moveTo(x0, y0);
    draw.lineTo(x1, y1);
    draw.stroke();
  }
}

/** With its point in (x, y): standing on it, or with `sense` -1 flying off it. */
function wedge(draw, x, y, r, fill, sense) {
  for (const [grow, colour] of [[0.32, paper], [0.16, black], [-0.1, fill]]) {
    const tip = y + 1.4 * grow * r * sense;
    const flat = y - (1.9 + grow) * r * sense;
    draw.fillStyle = colour;
    draw.beginPath();
    draw.moveTo(x, tip);
    draw.lineTo(x - (0.85 + grow) * r, flat);
    draw.lineTo(x + (0.85 + grow) * r, flat);
    draw.fill();
  }
}

function crossed(draw, x, y, r, ink) {
  disc(draw, x, y, r * 1.2, paper);
  disc(draw, x, y, r, ink);
  disc(draw, x, y, r * 0.76, paper);
  const arm = r * 0.6;
  stroke(draw, ink, r * 0.26, [x - arm, y - arm, x + arm, y + arm], [x - arm, y + arm, x + arm, y - arm]);
}

function filled(draw, x, y, r, fill) {
  disc(draw, x, y, r * 1.18, paper);
  disc(draw, x, y, r, black);
  disc(draw, x, y, r * 0.82, fill);
}

const SYMBOLS = {
  set(draw, x, y, r) {
    filled(draw, x, y, r, set);
    disc(draw, x, y, r * 0.3, paper);
  },
  "pin in": (draw, x, y, r) => wedge(draw, x, y, r, pin, 1),
  "pin out"(draw, x, y, r) {
    ring(draw, x, y, r * 0.6, paper);
    wedge(draw, x, y - r * 2.9, r, paper, -1);
  },
  "leave open": (draw, x, y, r) => crossed(draw, x, y, r, black),
  "still open": (draw, x, y, r) => crossed(draw, x, y, r * 0.75, quiet),
  "open again": (draw, x, y, r) => ring(draw, x, y, r * 0.8, paper),
  drill(draw, x, y, r) {
    ring(draw, x, y, r, paper);
    disc(draw, x, y, r * 0.35, black);
  },
  "drill out"(draw, x, y, r) {
    filled(draw, x, y, r, pin);
    const arm = r * 1.25;
    stroke(draw, black, r * 0.3, [x - arm, y + arm, x + arm, y - arm]);
  },
  /** Four strokes round what was tapped. */
  chosen(draw, x, y, r) {
    for (const [ink, width] of [[paper, 0.9], [black, 0.5]]) {
      const [near, far] = [1.5 * r - (ink === paper ? 0.2 * r : 0), 2.8 * r + (ink === paper ? 0.2 * r : 0)];
      draw.lineCap = "butt";
      stroke(draw, ink, width * r, [x - far, y, x - near, y], [x + near, y, x + far, y], [x, y - far, x, y - near], [x, y + near, x, y + far]);
    }
  },
};
