import sharp from 'sharp';

const WIDTH = 1152;
const HEIGHT = 768;

/** A PNG of a steep, tinted light with noise, on which both maps have many lines; read on the full grid of cells. */
export function fullGridFrame(): Promise<Buffer> {
  const pixels = Buffer.alloc(WIDTH * HEIGHT * 3);
  let seed = 1;
  for (let y = 0, i = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const [across, down] = [x / WIDTH, y / HEIGHT];
      const level = 235 / (1 + 1.4 * ((across - 0.3) ** 2 + (down - 0.45) ** 2));
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
      const noise = (seed >>> 24) / 64 - 2;
      pixels[i++] = level * (1 - 0.05 * across) + noise;
      pixels[i++] = level * (1 - 0.015 * down) - noise;
      pixels[i++] = level * (0.94 + 0.06 * across) + noise;
    }
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .png()
    .toBuffer();
}
