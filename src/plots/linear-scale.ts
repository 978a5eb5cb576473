/** The straight line that takes one range to another. */
export function linearScale(
  [from, to]: readonly [number, number],
  [start, end]: readonly [number, number],
): (value: number) => number {
  return (value) => {
    const share = (value - from) / (to - from);
    return start * (1 - share) + end * share;
  };
}
