/** What programs call a file while they write it: it gets its own name when it is complete. */
const PASSING = /^[.~]|\.(crswap|crdownload|part|partial|tmp|temp|download|filepart)$/i;

/** Whether a name is one that a file bears only while it is written, or that is hidden. */
export function isPassing(name: string): boolean {
  return PASSING.test(name);
}

/** A file's name without its extension, in one case: "TUMBLER_12.JPG" and "tumbler_12.dng" are of one frame. */
export function stemOf(name: string): string {
  return name.replace(/\.[^.]*$/, '').toLowerCase();
}
