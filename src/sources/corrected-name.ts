/** Room for a number and an extension within what every file system takes. */
const LONGEST_STEM = 180;

/** "tumbler-12.corrected.tif" for the frame "tumbler-12.jpg": never the source's own name, whatever is written. */
export function correctedName(frameName: string, extension: string): string {
  const stem = frameName
    .replace(/\.[^.]*$/, '')
    .replace(NOT_IN_NAMES, '-')
    .replace(/^[. ]+/, '')
    .slice(0, LONGEST_STEM);
  return `${stem || 'frame'}.corrected.${extension}`;
}

/** The same name for the second and further files that would bear it: "tumbler-12.corrected-2.tif". */
export function numberedName(name: string, number: number): string {
  return number < 2 ? name : name.replace(/(\.[^.]*)?$/, (extension) => `-${number}${extension}`);
}

/** What one file system or another refuses in a name: separators, wild cards, control characters. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const NOT_IN_NAMES = /[\\/:*?"<>|\u0000-\u001f\u007f]/g;
