import { linearise } from '../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { readBracket } from '../../src/engine/read-bracket.ts';
import { checkResponse } from '../../src/engine/response/check-response.ts';
import { p3Profile } from '../engine/export/known-profiles.ts';
import { SRGB_AS_TABLES } from '../engine/intake/srgb-as-tables.ts';
import { readBytes } from '../engine/known-frames.ts';
import { bracketOf } from '../engine/response/bracket-of.ts';
import { nodePlatform } from '../node-platform.ts';
import { BOXES, ICC, JPEG, PNG, RIFF, TIFF } from './anatomies.ts';
import { type Anatomy, bentBytes } from './bend-bytes.ts';
import { endingOf, wholeReport } from './ending.ts';
import type { InputKind } from './run-inputs.ts';
import { avifs, jpegs, pngs, raws, tiffs, underProfile, webps } from './seed-files.ts';

/** Reads a file as a blank frame, to the end. */
const readToTheEnd = (bytes: Uint8Array) => endingOf(readBytes(bytes), wholeReport);

const bytesOf = (bytes: Uint8Array) => bytes;

function filesOf(name: string, files: readonly Uint8Array[], anatomy: Anatomy): InputKind<Uint8Array> {
  return {
    name,
    make: (random, seed) => bentBytes(files[seed % files.length]!, random, anatomy),
    end: readToTheEnd,
    bytes: bytesOf,
  };
}

const profiles: InputKind<Uint8Array> = {
  name: 'colour profiles in PNG',
  make(random, seed) {
    const icc = seed % 2 ? p3Profile : SRGB_AS_TABLES;
    return underProfile(bentBytes(icc, random, ICC));
  },
  end: readToTheEnd,
  bytes: bytesOf,
};

/** What is made of a file for correcting, without correcting it: its pictures are developed in full. */
function developed(files: readonly Uint8Array[]): InputKind<Uint8Array> {
  return {
    ...filesOf('raw to be developed', files, TIFF),
    end: (bytes) =>
      endingOf(decodeImage(bytes, nodePlatform, undefined, { rawAs: 'picture' }), (stored) => {
        const { frame } = linearise(stored);
        if (stored.samples.length !== stored.widthPx * stored.heightPx * stored.channels)
          throw new Error('samples are missing');
        for (const light of Object.values(frame.lightAtCode))
          if (!light.every(Number.isFinite)) throw new Error('a code without light');
      }),
  };
}

function brackets(frames: readonly Uint8Array[]): InputKind<readonly Uint8Array[]> {
  return {
    name: 'brackets',
    make: (random, seed) =>
      frames
        .map((frame, i) => (i === seed % (frames.length + 1) ? bentBytes(frame, random, JPEG) : frame))
        .slice(seed % 5 === 0 ? 3 : 0),
    end: (bent) =>
      endingOf(
        readBracket(
          bent.map((bytes, i) => ({ name: `${i}.jpg`, bytes })),
          {},
          nodePlatform,
        ),
        (response) => void checkResponse(JSON.parse(JSON.stringify(response))),
      ),
    bytes: (bent) => new Uint8Array(Buffer.concat(bent)),
  };
}

/** Every kind of file that is read, bent. */
export async function fileKinds(): Promise<InputKind<never>[]> {
  const bracket = await bracketOf({ size: () => [48, 32] });
  return [
    filesOf('PNG', pngs(), PNG),
    filesOf('JPEG', await jpegs(), JPEG),
    filesOf('TIFF', await tiffs(), TIFF),
    filesOf('raw', raws(), TIFF),
    developed(raws()),
    filesOf('WebP', await webps(), RIFF),
    filesOf('AVIF and HEIC', await avifs(), BOXES),
    profiles,
    brackets(bracket.map(({ bytes }) => bytes)),
  ] as unknown as InputKind<never>[];
}
