import type { Exposure } from '../reading.ts';
import { type BracketShot, badBracket, SHOOT_AGAIN } from './bracket-shot.ts';

/** What a lens writes of one and the same setting. */
const SAME_SETTING = 0.02;

/**
 * Refuses frames that differ in more than their exposure, as far as the files say.
 *
 * @throws {@link EngineError} `bad-bracket`.
 */
export function refuseUnlike(shots: readonly BracketShot[]): void {
  refuseOtherSize(shots);
  const models = new Set(shots.flatMap(({ model }) => (model === null ? [] : [model])));
  if (models.size > 1)
    throw badBracket(
      `The frames are of different cameras (${[...models].join(', ')}); a response is one camera’s. Choose the frames of one.`,
      { models: [...models] },
    );
  for (const { field, name, words, cost } of SETTINGS) {
    const values = shots.flatMap(({ exposure }) => (exposure?.[field] ? [exposure[field]] : []));
    const [least, most] = [Math.min(...values), Math.max(...values)];
    if (values.length < 2 || most / least <= 1 + SAME_SETTING) continue;
    throw badBracket(
      `The ${name} changes between the frames (from ${words(least)} to ${words(most)}): ${cost}. ${SHOOT_AGAIN}`,
      { [field]: [least, most] },
    );
  }
  const automatic = shots.filter(({ isWhiteBalanceAutomatic }) => isWhiteBalanceAutomatic);
  if (automatic.length > 0)
    throw badBracket(
      `${automatic.length === shots.length ? 'The frames were' : `${automatic[0]!.name} was`} shot with automatic white balance, which may weigh the colours anew in each frame, so that a channel’s codes do not go by its exposure. Set a fixed white balance in the camera. ${SHOOT_AGAIN}`,
      { automatic: automatic.map(({ name }) => name) },
    );
}

interface Setting {
  readonly field: Exclude<keyof Exposure, 'takenAt' | 'seconds'>;
  readonly name: string;
  readonly words: (value: number) => string;
  readonly cost: string;
}

const SETTINGS: readonly Setting[] = [
  {
    field: 'fNumber',
    name: 'aperture',
    words: (value) => `f/${Math.round(value * 10) / 10}`,
    cost: 'the lens’s own falloff changes with it, and marked apertures are not exact',
  },
  {
    field: 'iso',
    name: 'ISO setting',
    words: (value) => `ISO ${value}`,
    cost: 'its steps are not exact, and noise and picture style may change with it',
  },
  {
    field: 'focalLengthMm',
    name: 'focal length',
    words: (value) => `${Math.round(value * 10) / 10} mm`,
    cost: 'the frames show different parts of the background',
  },
];

function refuseOtherSize(shots: readonly BracketShot[]): void {
  const first = shots[0]!;
  for (const shot of shots) {
    const isTurned = shot.orientation !== first.orientation;
    if (shot.widthPx === first.widthPx && shot.heightPx === first.heightPx && !isTurned) continue;
    throw badBracket(
      isTurned
        ? `${shot.name} was held otherwise than ${first.name} (Exif orientation ${shot.orientation} and ${first.orientation}), so that their parts can’t be compared. ${SHOOT_AGAIN}`
        : `${shot.name} has ${shot.widthPx} × ${shot.heightPx} pixels and ${first.name} ${first.widthPx} × ${first.heightPx}; frames of one size are needed, so that the same places can be compared. Hand in the frames as the camera saved them.`,
      { names: [first.name, shot.name] },
    );
  }
}
