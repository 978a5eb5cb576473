import { expect, test } from 'vitest';
import { expectWithin } from '../expect-within.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { spreadEv } from '../synthetic/random/spread-ev.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { SHEET_SET } from '../synthetic/studio/even-set.ts';
import { studioField } from '../synthetic/studio/studio-field.ts';
import type { StudioSet } from '../synthetic/studio/studio-set.ts';
import { type ToneCurve, toneCurve } from '../synthetic/tone-curve.ts';
import { measureBytes, readBytes, WELL_ELECTRONS } from './known-frames.ts';

/** A set as a camera hands it out: its picture style over sRGB, 8 bits, JPEG with Exif. */
function cameraJpeg(set: StudioSet, tone: ToneCurve): Promise<Uint8Array> {
  const raster = { widthPx: 480, heightPx: 320, bits: 8, curve: 'srgb', seed: 4 } as const;
  const frame = renderFrame(studioField(set).field, { ...raster, electronsAtFull: WELL_ELECTRONS, tone });
  return toJpeg(frame, {
    quality: 92,
    chroma: '4:2:0',
    exif: { colourSpace: 1, exposureTime: [1, 125], fNumber: [56, 10], iso: 100 },
  });
}

/** One light off to the left, bright, so that much of the fall lies where a curve flattens it. */
const set: StudioSet = {
  ...SHEET_SET,
  lamps: SHEET_SET.lamps.map((lamp) => ({ ...lamp, xMm: -200, aimXMm: -200 })),
  exposure: { peak: 0.85 },
};

test('readFrame(camera’s JPEG) reads less falloff than there is, says that a tone curve is not undone, and allows for it', async () => {
  const truth = spreadEv(set);
  const plain = (await measureBytes(await cameraJpeg(set, toneCurve(1)))).measurement;
  const { reading: styled } = await readBytes(await cameraJpeg(set, toneCurve(1.4)), 'camera.jpg');
  console.log(
    `measured: spread ${truth.toFixed(3)} EV, read ${plain.falloff.spreadEv.toFixed(3)} without and ` +
      `${styled.falloff.spreadEv.toFixed(3)} ± ${styled.falloff.plusMinusEv.toFixed(3)} with a tone curve`,
  );
  expectWithin(plain.falloff.spreadEv, truth, 0.01); // the truth is that of cells twice as large
  expect(styled.falloff.spreadEv).toBeLessThan(0.9 * truth);
  expect(Math.abs(styled.falloff.spreadEv - truth)).toBeLessThan(styled.falloff.plusMinusEv);
  // nothing in the file tells one from the other, so that both must say it
  for (const { light, lightSays } of [plain.frame, styled.frame]) {
    expect(light).toBe('display-decoded');
    expect(lightSays).toContain('decoded as sRGB, as it states');
    expect(lightSays).toMatch(
      /A tone curve .* is not undone\. Over this frame’s range of light a usual tone curve would make the falloff wrong by up to \d\.\d stop \(own estimate\), which the ± allows for/,
    );
  }
});
