/** Shutter times as cameras mark them, in thirds of a stop. Common practice, no published source. */
const THIRDS = [
  ...[32000, 25000, 20000, 16000, 12500, 12800, 10000],
  ...[8000, 6400, 5000, 4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250, 200, 160],
  ...[125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3, 2.5],
]
  .map((part) => 1 / part)
  .concat([0.3, 0.5, 0.6, 0.8, 1, 1.3, 1.6, 2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30, 60]);

/** What the marks of half stops have that those of thirds have not. */
const HALVES_ALONE = [6000, 3000, 1500, 750, 350, 180, 90, 45].map((part) => 1 / part).concat([0.7, 1.5, 3]);

/** Marks are rounded to two digits, so a time is a mark where it is this near; 1/128 is none. */
const SAME_MARK = 0.012;

/**
 * What shutters marked so really do, in log2 seconds: the series is exact in thirds of a stop, or in halves where any
 * of the times is a mark of halves alone. A time that is no mark is taken as it is told.
 */
export function exactTimes(seconds: readonly number[]): number[] {
  const steps = seconds.some((time) => isMark(time, HALVES_ALONE)) ? 2 : 3;
  const marks = [...THIRDS, ...(steps === 2 ? HALVES_ALONE : [])];
  return seconds.map((time) => {
    const told = Math.log2(time);
    return isMark(time, marks) ? Math.round(told * steps) / steps : told;
  });
}

function isMark(time: number, marks: readonly number[]): boolean {
  return marks.some((mark) => Math.abs(time / mark - 1) < SAME_MARK);
}
