/**
 * Joins a profile from its numbered pieces (each led by its number from 1 and the count of all), in whatever order they
 * came. `null` for none; empty where pieces are missing, doubled or disagree, so that a reading can say it was broken.
 * Source: ICC.1:2010, annex B.4.
 */
export function joinIccSegments(segments: readonly Uint8Array[]): Uint8Array | null {
  if (segments.length === 0) return null;
  const broken = new Uint8Array(0);
  const inOrder: Uint8Array[] = [];
  for (const segment of segments) {
    if (segment.length < 3 || segment[1] !== segments.length) return broken;
    const index = segment[0]! - 1;
    if (index < 0 || index >= segments.length || inOrder[index]) return broken;
    inOrder[index] = segment.subarray(2);
  }
  const profile = new Uint8Array(inOrder.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of inOrder) {
    profile.set(piece, at);
    at += piece.length;
  }
  return profile;
}
