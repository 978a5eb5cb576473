/** What file systems take of a name, in bytes of UTF-8: room is left for ".corrected", a number and an extension. */
const MOST_NAME_BYTES = 255;
const MOST_NUMBER_BYTES = 8;

/** "tumbler-12.corrected.tif" for the frame "tumbler-12.jpg": never the source's own name, whatever is written. */
export function correctedName(frameName: string, extension: string): string {
  const ending = `.corrected.${extension}`;
  const stem = frameName
    .replace(/\.[^.]*$/, '')
    .replace(NOT_IN_NAMES, '-')
    .replace(/^[. ]+/, '');
  return `${cut(stem, MOST_NAME_BYTES - MOST_NUMBER_BYTES - bytesOf(ending)) || 'frame'}${ending}`;
}

/** A text's first characters, whole ones, that take no more bytes than that. */
function cut(text: string, mostBytes: number): string {
  let [bytes, length] = [0, 0];
  for (const character of text) {
    bytes += bytesOf(character);
    if (bytes > mostBytes) break;
    length += character.length;
  }
  return text.slice(0, length);
}

function bytesOf(text: string): number {
  return new TextEncoder().encode(text).length;
}

/** The same name for the second and further files that would bear it: "tumbler-12.corrected-2.tif". */
export function numberedName(name: string, number: number): string {
  return number < 2 ? name : name.replace(/(\.[^.]*)?$/, (extension) => `-${number}${extension}`);
}

/** What one file system or another refuses in a name: separators, wild cards, control characters. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const NOT_IN_NAMES = /[\\/:*?"<>|\u0000-\u001f\u007f]/g;
