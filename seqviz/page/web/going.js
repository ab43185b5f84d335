/** Going from one thing to another: a step, a part, a hole, a finding. */

const ASIDE = 0.6; // of the way's direction

/**
 * Where to look at a barred way from: from where the part would come, a little from the side, so that the part in the
 * way is seen in front of its place.
 */
function beforeTheWay(path, { up, forward }) {
  const [x, y, z] = path[0];
  const long = Math.hypot(x, y, z);
  if (long === 0) return {};
  const way = [x / long, y / long, z / long];
  const across = Math.abs(way.reduce((sum, value, k) => sum + value * up[k], 0)) > 0.7 ? forward : up;
  return { from: way.map((value, k) => value + ASIDE * across[k]), radius: 2.2 * long };
}

/**
 * @param {object} hands work, stage, timeline, words, and later details, findings, steps
 */
export function goingTo(hands) {
  const { work, stage, timeline } = hands;

  function clear() {
    if (hands.findings.shown < 0) return;
    stage.showConflict(null);
    hands.findings.mark(-1);
    stage.fit();
    if (work.steps.length) {
      stage.show(timeline.at.index, timeline.at.t);
      hands.words.step(timeline.at.index);
    }
  }

  function take(chosen, heading, focus) {
    stage.select(chosen);
    if (focus) heading.focus();
  }

  const there = (index) => stage.now().step < 0 || work.steps[stage.now().step].there.includes(index);
  const part = (index, focus = true) => take({ part: index }, hands.details.part(index, there(index)), focus);
  const stack = (index, focus = true) => take({ stack: index }, hands.details.stack(index), focus);

  /** Put the bench where a finding is, and show what is in the way. */
  function finding(index) {
    const { step, steps, spot, path, parts, blockers } = work.findings[index];
    const at = work.steps.findIndex(({ no }) => no === (step ?? steps[0]));
    if (at >= 0) timeline.set(at);
    hands.findings.mark(index);
    stage.showConflict(index);
    if (at < 0) {
      timeline.pause();
      stage.show(-1, 1);
      hands.words.whole();
    }
    const about = new Set([...parts, ...blockers]);
    const how = path ? beforeTheWay(path, work) : { glassy: (one) => !about.has(one) };
    const glass = spot ? stage.flyTo({ spot, ...(at >= 0 ? { step: at } : {}), ...how }) : [];
    hands.words.through(glass);
    hands.findings.focus(index);
  }

  return {
    clear,
    part: (index) => part(index),
    stack: (index) => stack(index),
    finding,
    nextFinding() {
      if (hands.findings.count) finding((hands.findings.shown + 1) % hands.findings.count);
    },
    /** A step as it stands when it is done. */
    step(index) {
      clear();
      timeline.set(index);
      hands.steps.open(index, true);
      hands.steps.focus(index);
    },
    /** A step as it happens. */
    watch(index) {
      clear();
      timeline.act(index);
      hands.steps.open(index, true);
    },
    /** A tap on the bench. The focus stays there, so that its keys go on working. */
    picked(pick) {
      if (pick.stack !== null) {
        stack(pick.stack, false);
        hands.words.taken(`Hole ${work.stacks[pick.stack].name}`);
      } else if (pick.part !== null) {
        part(pick.part, false);
        hands.words.taken(`Part ${work.parts[pick.part].no}, ${work.parts[pick.part].name},`);
      } else hands.details.put();
    },
  };
}
