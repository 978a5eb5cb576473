import { pngOnPaper } from '../plots/files/picture-png.ts';
import { type SvgPage, UNIT_MM } from '../plots/files/svg-page.ts';

const DOTS_PER_INCH = 300;
const PIXELS_PER_MM = DOTS_PER_INCH / 25.4;

/** A page drawn as a picture of 300 dots an inch, which says so itself. Rejects where the browser can't draw it. */
export async function pngOfPage({ svg, width, height }: SvgPage): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * UNIT_MM * PIXELS_PER_MM);
    canvas.height = Math.round(height * UNIT_MM * PIXELS_PER_MM);
    canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const drawn = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (drawn === null) throw new Error('the browser made no picture of it');
    const png = pngOnPaper(new Uint8Array(await drawn.arrayBuffer()), PIXELS_PER_MM);
    return new Blob([png], { type: 'image/png' });
  } finally {
    URL.revokeObjectURL(address);
  }
}
