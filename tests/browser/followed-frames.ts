import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import sharp from 'sharp';

/** Drops a folder of this machine on the page, as a hand would: the page is handed what it really is. */
export async function dropFolder(page: Page, path: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await session.send('Input.dispatchDragEvent', {
      type,
      x: 200,
      y: 60,
      data: { items: [], files: [path], dragOperationsMask: 1 },
    });
  await session.detach();
}

/** A light off centre in 16 bits, whose report holds the light of 65,536 codes however small it is. */
export function sixteenBitFrame(widthPx: number, heightPx: number): Promise<Buffer> {
  const samples = new Uint16Array(widthPx * heightPx * 3);
  let seed = 1;
  for (let y = 0, i = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++) {
      const level = 52_000 - 9_000 * ((x / widthPx - 0.45) ** 2 + (y / heightPx - 0.4) ** 2);
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
      const noise = (seed >>> 23) - 256;
      samples[i++] = level + noise;
      samples[i++] = level - noise;
      samples[i++] = level + noise;
    }
  const raw = { width: widthPx, height: heightPx, channels: 3 } as const;
  return sharp(samples, { raw }).toColourspace('rgb16').png().toBuffer();
}

/** A folder into which a camera writes one frame after another, each complete at once. */
export class Tethered {
  written = 0;

  constructor(
    readonly folder: string,
    private readonly frame: Uint8Array,
  ) {
    mkdirSync(folder, { recursive: true });
  }

  /** Writes frames until there are so many; their names, as "T_0007.png". */
  writeUpTo(count: number): void {
    while (this.written < count) {
      const name = `T_${String(++this.written).padStart(4, '0')}.png`;
      writeFileSync(join(this.folder, `${name}.part`), this.frame);
      renameSync(join(this.folder, `${name}.part`), join(this.folder, name));
    }
  }
}
