import type { RgbaPicture } from '../intake/platform.ts';

/** Turns a small picture as its Exif orientation says (1 to 8; anything else counts as 1). Source: Exif 2.32, tag 274. */
export function uprightPicture(picture: RgbaPicture, orientation: number): RgbaPicture {
  if (!(orientation >= 2 && orientation <= 8)) return picture;
  const { widthPx, heightPx, samples } = picture;
  const isTurned = orientation >= 5;
  const [width, height] = isTurned ? [heightPx, widthPx] : [widthPx, heightPx];
  const turned = new Uint8ClampedArray(width * height * 4);
  const isMirroredAcross = [2, 3, 7, 8].includes(orientation);
  const isMirroredDown = [3, 4, 6, 7].includes(orientation);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      const [storedX, storedY] = isTurned ? [y, x] : [x, y];
      const column = isMirroredAcross ? widthPx - 1 - storedX : storedX;
      const row = isMirroredDown ? heightPx - 1 - storedY : storedY;
      const from = (row * widthPx + column) * 4;
      for (let channel = 0; channel < 4; channel++) turned[at + channel] = samples[from + channel]!;
    }
  }
  return { widthPx: width, heightPx: height, samples: turned };
}
