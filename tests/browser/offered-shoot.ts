import type { Page } from '@playwright/test';
import { toJpeg } from '../synthetic/encode.ts';
import type { ExifFacts } from '../synthetic/exif-block.ts';
import { codedFrame } from '../synthetic/shoots/made-frame.ts';
import { madeShoot } from '../synthetic/shoots/made-shoot.ts';

export const SHOOT = madeShoot(2, 720);

/** Has the page's folder chooser hand out a folder with the frames of a made shoot. */
export async function offerShoot(page: Page): Promise<void> {
  const files: { name: string; base64: string }[] = [];
  for (const [i, frame] of SHOOT.frames.entries()) {
    const { seconds, fNumber, iso } = frame.exposure;
    const exif: ExifFacts = {
      ...{ exposureTime: [1, Math.round(1 / seconds)] as const, fNumber: [fNumber, 1] as const, iso },
      takenAt: `2026:03:01 10:20:${String(10 + i).padStart(2, '0')}`,
    };
    const bytes = await toJpeg(codedFrame(frame), { quality: 90, chroma: '4:4:4', exif });
    files.push({ name: frame.name, base64: Buffer.from(bytes).toString('base64') });
  }
  await page.evaluate(async (made) => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('shoot', { create: true });
    for (const { name, base64 } of made) {
      const file = await (await folder.getFileHandle(name, { create: true })).createWritable();
      await file.write(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)));
      await file.close();
    }
    const notes = await (await folder.getFileHandle('notes.txt', { create: true })).createWritable();
    await notes.write('no picture');
    await notes.close();
    Object.assign(window, { showDirectoryPicker: async () => folder });
  }, files);
}
