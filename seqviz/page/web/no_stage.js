/** A bench that shows nothing, for a browser without 3D: everything else on the page goes on working. */

/** @returns {object} what `createStage` returns, without any drawing */
export function noStage() {
  const nothing = () => {};
  return {
    show: nothing,
    now: () => ({ step: -1, t: 1 }),
    seconds: () => 2,
    setShading: () => [],
    setHidden: nothing,
    hidden: () => "shown",
    showAll: nothing,
    pullApart: nothing,
    flyTo: () => [],
    showConflict: nothing,
    select: nothing,
    viewFromUp: nothing,
    viewFrom: nothing,
    fit: nothing,
    view: () => null,
    setView: nothing,
    onPick: nothing,
    onContext: nothing,
  };
}
