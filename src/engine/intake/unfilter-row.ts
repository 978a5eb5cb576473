/**
 * Undoes a PNG row's filter; modifies `row[at .. at + length)`.
 * `above` is the row before it, already undone, from `aboveAt`; `null` for the first row of a pass.
 * Returns false where the filter's number is none of 0 to 4.
 * Source: ISO/IEC 15948:2004, 9.2 to 9.4.
 */
export function unfilterRow(
  filter: number,
  row: Uint8Array,
  at: number,
  length: number,
  above: Uint8Array | null,
  aboveAt: number,
  bytesPerPixel: number,
): boolean {
  const end = at + length;
  const second = Math.min(at + bytesPerPixel, end);
  if (filter === 0) return true;
  if (filter === 1) {
    for (let i = second; i < end; i++) row[i] = row[i]! + row[i - bytesPerPixel]!;
    return true;
  }
  if (filter === 2) {
    if (above) for (let i = at, j = aboveAt; i < end; i++, j++) row[i] = row[i]! + above[j]!;
    return true;
  }
  if (filter === 3) {
    unfilterAverage(row, at, second, end, above, aboveAt, bytesPerPixel);
    return true;
  }
  if (filter !== 4) return false;
  if (above) unfilterPaeth(row, at, second, end, above, aboveAt, bytesPerPixel);
  else for (let i = second; i < end; i++) row[i] = row[i]! + row[i - bytesPerPixel]!; // the predictor is then the left
  return true;
}

function unfilterAverage(
  row: Uint8Array,
  at: number,
  second: number,
  end: number,
  above: Uint8Array | null,
  aboveAt: number,
  bytesPerPixel: number,
): void {
  if (!above) {
    for (let i = second; i < end; i++) row[i] = row[i]! + (row[i - bytesPerPixel]! >> 1);
    return;
  }
  let j = aboveAt;
  for (let i = at; i < second; i++, j++) row[i] = row[i]! + (above[j]! >> 1);
  for (let i = second; i < end; i++, j++) row[i] = row[i]! + ((row[i - bytesPerPixel]! + above[j]!) >> 1);
}

function unfilterPaeth(
  row: Uint8Array,
  at: number,
  second: number,
  end: number,
  above: Uint8Array,
  aboveAt: number,
  bytesPerPixel: number,
): void {
  let j = aboveAt;
  for (let i = at; i < second; i++, j++) row[i] = row[i]! + above[j]!;
  for (let i = second; i < end; i++, j++) {
    const left = row[i - bytesPerPixel]!;
    const up = above[j]!;
    const corner = above[j - bytesPerPixel]!;
    let fromLeft = up - corner;
    let fromUp = left - corner;
    let fromCorner = fromLeft + fromUp;
    fromLeft = (fromLeft ^ (fromLeft >> 31)) - (fromLeft >> 31);
    fromUp = (fromUp ^ (fromUp >> 31)) - (fromUp >> 31);
    fromCorner = (fromCorner ^ (fromCorner >> 31)) - (fromCorner >> 31);
    // Ties go to the left, then to the one above: the order is part of the standard. Masks of all ones or zeros stand
    // in for branches, which noise makes unpredictable and several times slower.
    const cornerBeatsUp = (fromCorner - fromUp) >> 31;
    const leftIsBeaten = ((fromUp - fromLeft) | (fromCorner - fromLeft)) >> 31;
    const other = up + ((corner - up) & cornerBeatsUp);
    row[i] = row[i]! + left + ((other - left) & leftIsBeaten);
  }
}
