/** What moves the steps: the slider with its marks, play, a step back, the next step, and the pace. */

import { make, shorten } from "bench/paper";

/**
 * @param {object} work
 * @param {object} timeline
 * @param {Record<string, HTMLElement>} page its elements: slider, marks, told, back, play, on, pace
 */
export function createControls(work, timeline, page) {
  const { slider, play } = page;
  slider.max = String(work.steps.length);
  const marks = marksOf(work.steps);
  page.marks.append(...marks);
  page.told.hidden = marks.length === 0;

  slider.addEventListener("input", () => timeline.set(Number(slider.value) - 1));
  page.back.addEventListener("click", back);
  page.on.addEventListener("click", on);
  play.addEventListener("click", toggle);
  page.pace.addEventListener("change", () => timeline.setPace(Number(page.pace.value)));
  timeline.onChange(show);

  function back() {
    if (timeline.at.index > 0) timeline.set(timeline.at.index - 1);
  }

  function on() {
    if (timeline.at.t < 1) timeline.set(timeline.at.index);
    else if (timeline.at.index < timeline.last) timeline.act(timeline.at.index + 1);
  }

  function toggle() {
    if (timeline.at.playing) timeline.pause();
    else timeline.play();
  }

  function show({ index, playing }) {
    const step = work.steps[index];
    slider.value = String(index + 1);
    slider.setAttribute("aria-valuetext", `${index + 1} of ${work.steps.length}. ${shorten(step.title, 200)}`);
    page.back.disabled = index === 0;
    page.on.disabled = index === timeline.last && timeline.at.t === 1;
    play.textContent = playing ? "Stop" : "Play";
  }

  return { back, on, toggle, show: () => show(timeline.at) };
}

/** Bars under the slider where something is joined apart, flags where the work is turned over. */
function marksOf(steps) {
  const most = Math.max(1, steps.length - 1);
  const at = (index) => `${(100 * index) / most}%`;
  const marks = [];
  steps.forEach((step, index) => {
    if (step.turn) marks.push(placed("turned", at(index)));
    if (step.work === null || steps[index - 1]?.work === step.work) return;
    let end = index;
    while (steps[end + 1]?.work === step.work) end += 1;
    const bar = placed("joined-apart", at(index));
    bar.style.width = at(end - index);
    marks.push(bar);
  });
  return marks;
}

function placed(kind, left) {
  const mark = make("i", { class: kind });
  mark.style.left = left;
  return mark;
}
