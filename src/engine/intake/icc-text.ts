const LONGEST_NAME = 80;

/**
 * A profile's description, from either version's element; `null` where there is none to read. Control characters are
 * dropped and the length is bounded: the name is shown on a page and written into files.
 * Source: ICC.1:2001-04, 6.5.17 (textDescriptionType, version 2); ICC.1:2010, 10.13 (multiLocalizedUnicodeType).
 */
export function iccText(element: Uint8Array | null): string | null {
  if (!element || element.length < 16) return null;
  const view = new DataView(element.buffer, element.byteOffset, element.byteLength);
  const type = view.getUint32(0);
  const raw =
    type === 0x64657363 ? oldText(element, view) : type === 0x6d6c7563 ? newText(element, view) : '';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is dropped
  const text = raw.replace(/[\u0000-\u001f\u007f-\u009f]/g, '').trim();
  return text === '' ? null : text.slice(0, LONGEST_NAME);
}

function oldText(element: Uint8Array, view: DataView): string {
  return String.fromCharCode(...element.subarray(12, 12 + Math.min(view.getUint32(8), LONGEST_NAME)));
}

/** The English record where there is one, the first otherwise; UTF-16, high byte first. */
function newText(element: Uint8Array, view: DataView): string {
  const records = Math.min(view.getUint32(8), Math.floor((element.length - 16) / 12));
  let chosen = 16;
  for (let record = records - 1; record > 0; record--)
    if (view.getUint16(16 + 12 * record) === 0x656e) chosen = 16 + 12 * record;
  if (records === 0) return '';
  const from = view.getUint32(chosen + 8);
  const end = Math.min(from + Math.min(view.getUint32(chosen + 4), 2 * LONGEST_NAME), element.length - 1);
  let text = '';
  for (let at = from; at < end; at += 2) text += String.fromCharCode(view.getUint16(at));
  return text;
}
