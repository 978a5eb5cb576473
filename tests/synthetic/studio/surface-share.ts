import { creaseShare } from './creases.ts';
import { rimShare } from './dark-rim.ts';
import { dustShare } from './dust-spots.ts';
import type { StudioSet } from './studio-set.ts';
import { weaveShare } from './weave.ts';

type Share = (xMm: number, yMm: number) => number;

/** Share of the light that creases, weave, dust and a rim leave together at a place on the background. */
export function surfaceShare({ texture, rim, frameWidthMm, frameHeightMm }: StudioSet): Share {
  const parts: Share[] = [];
  if (texture?.creases) parts.push(creaseShare(texture.creases));
  if (texture?.weave) parts.push(weaveShare(texture.weave));
  if (texture?.dust) parts.push(dustShare(texture.dust));
  if (rim) {
    const share = rimShare(rim);
    parts.push((xMm, yMm) => share(xMm / frameWidthMm + 0.5, yMm / frameHeightMm + 0.5));
  }
  if (parts.length === 0) return () => 1;
  return (xMm, yMm) => parts.reduce((share, part) => share * part(xMm, yMm), 1);
}
