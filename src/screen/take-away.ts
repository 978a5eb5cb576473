import type { EngineClient } from '../../workers/engine-client.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { Reading } from '../engine/reading.ts';
import { downloadBlob } from '../sources/download-blob.ts';
import { savedName, saveJson } from './save-json.ts';

/** What can be taken away of a take. */
export type TakenAway = 'profile' | 'gains' | 'ramp' | 'reading';

/** Hands one of them to the browser to be saved; gains and ramp are of the profile, for other editors. */
export async function takeAway(
  what: TakenAway,
  reading: Reading,
  makeProfile: () => Promise<Profile>,
  engine: Pick<EngineClient, 'gainPicture' | 'rampFigures'>,
): Promise<void> {
  const { name } = reading.frame;
  if (what === 'reading') return saveJson(savedName(name, what), reading);
  const profile = await makeProfile();
  if (what === 'profile') saveJson(savedName(name, what), profile);
  else if (what === 'ramp') {
    const text = await engine.rampFigures(profile);
    downloadBlob(savedName(name, what, 'txt'), new Blob([text], { type: 'text/plain' }));
  } else {
    // of the frame's own size: editors lay pictures of one size over each other
    const { blob, extension } = await engine.gainPicture(profile, profile.madeFrom, 'tiff');
    downloadBlob(savedName(name, what, extension), blob);
  }
}
