/** Who wants to be told of something. */

/** @returns {{add: (heard: Function) => () => void, tell: (...what: unknown[]) => void}} */
export function listeners() {
  const all = new Set();
  return {
    add(heard) {
      all.add(heard);
      return () => all.delete(heard);
    },
    tell: (...what) => all.forEach((heard) => heard(...what)),
  };
}
