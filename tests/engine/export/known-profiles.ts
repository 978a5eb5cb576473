import sharp from 'sharp';

async function profileOf(name: string): Promise<Uint8Array> {
  const grey = sharp({ create: { width: 8, height: 8, channels: 3, background: 'grey' } });
  const { icc } = await sharp(await grey.withIccProfile(name).jpeg().toBuffer()).metadata();
  return new Uint8Array(icc!);
}

/** Two profiles that a colour library ships. */
export const p3Profile = await profileOf('p3');
export const srgbProfile = await profileOf('srgb');
