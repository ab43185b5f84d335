/** Starts the page: takes the lists over that stand in it, sets up the bench, and ties them together. */

import { readWork } from "bench/data";
import { createBenchWords } from "bench/bench_words";
import { createDetails } from "bench/details";
import { createFindings } from "bench/findings";
import { goingTo } from "bench/going";
import { listenForKeys, listenOnBench } from "bench/keys";
import { createKeeping } from "bench/keeping";
import { createLooks } from "bench/looks";
import { createParts } from "bench/parts";
import { createControls } from "bench/controls";
import { createStage } from "bench/stage";
import { createSteps } from "bench/steps";
import { createTickBar } from "bench/tickbar";
import { createTicks } from "bench/ticks";
import { createTimeline } from "bench/timeline";
import { noStage } from "bench/no_stage";

const id = (name) => document.getElementById(name);
const all = (choice) => document.querySelectorAll(choice);
const still = matchMedia("(prefers-reduced-motion: reduce)");

/** The bench, or why there is none. */
function stageFor(work) {
  if (work.parts.every((part) => part.shape === null)) return [noStage(), "No part has dimensions yet, so there is nothing to draw."];
  try {
    return [createStage(id("view"), work), ""];
  } catch {
    return [noStage(), "This browser cannot draw in 3D. Steps, pictures and all that was found stand here in words."];
  }
}

function tellTrouble(words) {
  id("no-bench").textContent = words;
  id("no-bench").hidden = words === "";
}

function tellNoBench(why) {
  tellTrouble(why);
  document.body.classList.toggle("with-bench", why === "");
  id("top-of-bench").hidden = id("looks").hidden = why !== "";
}

function fileStem(work) {
  return work.files[0].replace(/^.*[\\/]/, "").replace(/\.ya?ml$/i, "").slice(0, 60);
}

function pageOf(work, stage) {
  const timeline = createTimeline(work.steps.length, { draw: stage.show, seconds: stage.seconds, calm: () => still.matches });
  const ticks = createTicks({ title: work.title, sequence: work.files[0], steps: work.steps });
  const looks = createLooks(work, stage, {
    radios: all("#shading input"),
    legend: id("legend"),
    pull: id("pull"),
    all: id("all-again"),
    putBy: id("put-by"),
    sides: all("#sides button"),
  });
  return { timeline, ticks, looks };
}

async function start() {
  const work = await readWork(document);
  const [stage, why] = stageFor(work);
  tellNoBench(why);
  const { timeline, ticks, looks } = pageOf(work, stage);
  const words = createBenchWords(work, { told: id("bench-told"), marks: id("marks-told"), says: id("says") });
  const hands = { work, stage, timeline, words };
  const goTo = goingTo(hands);
  const tickBar = createTickBar(
    ticks,
    work.steps.length,
    { told: id("ticks-told"), out: id("ticks-out"), into: id("ticks-in") },
    { name: `${fileStem(work)} ticks.yaml`, onRead: () => hands.steps.refresh() },
  );
  hands.details = createDetails(id("slip"), work, { goTo, shown: looks, onClose: () => stage.select(null) });
  hands.findings = createFindings(id("findings"), work, { show: goTo.finding, goTo, drawn: why === "" });
  hands.steps = createSteps(id("steps"), work, { choose: goTo.watch, drawn: why === "", ticks, goTo, onTick: tickBar.show });
  createParts(id("parts"), goTo.part);
  const playing = createControls(work, timeline, {
    slider: id("slider"),
    marks: id("track-marks"),
    told: id("track-told"),
    back: id("back"),
    play: id("play"),
    on: id("on"),
    pace: id("pace"),
  });
  stage.onPick(goTo.picked);
  stage.onContext((state) => tellTrouble(state === "lost" ? "The graphics stopped. They come back by themselves, or when the page is opened again." : ""));
  listenOnBench(id("view"), stage);
  listenForKeys(keysFor({ ...hands, playing, looks, goTo }), id("keys-on"));
  all(".only-scripts").forEach((element) => (element.hidden = false));
  begin(work, { ...hands, ticks, playing, looks });
}

function keysFor({ timeline, steps, details, stage, playing, looks, goTo }) {
  return {
    n: playing.on,
    b: playing.back,
    p: playing.toggle,
    d: () => steps.tick(timeline.at.index),
    s: () => steps.focus(timeline.at.index),
    f: goTo.nextFinding,
    u: stage.viewFromUp,
    a: looks.showAll,
    Escape: () => (details.open ? details.put() : goTo.clear()),
  };
}

/** Open the page where it was left, at the step that the address names, or at the first that is not ticked. */
function begin(work, hands) {
  const keeping = createKeeping(work);
  const place = keeping.read();
  open(work, hands, place?.index);
  if (place?.view) hands.stage.setView(place.view);
  if (place) hands.looks.choose(place.shading);
  keeping.watch(() => ({ index: hands.timeline.at.index, view: hands.stage.view(), shading: hands.looks.shading }));
}

/** @param {number} [left] the step where the page was left */
function open(work, { timeline, steps, stage, ticks, playing, words }, left) {
  if (!work.steps.length) {
    id("playing").hidden = id("ticks").hidden = id("ticks-told").hidden = true;
    stage.show(-1, 1);
    words.whole();
    return;
  }
  timeline.onChange((at, what) => {
    if (what === "step") steps.open(at.index, true);
    words.step(at.index);
  });
  const named = work.steps.findIndex((step) => `#step-${step.no}` === location.hash);
  const undone = work.steps.findIndex((_, index) => !ticks.date(index));
  const first = left ?? (named >= 0 ? named : Math.max(0, undone));
  timeline.set(first);
  steps.open(first, left !== undefined || named >= 0);
  playing.show();
  words.step(first);
}

start().catch((error) => {
  tellTrouble("The 3D of this page does not run in this browser. Steps, pictures and all that was found stand here in words.");
  console.error(error);
});
