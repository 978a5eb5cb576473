import type { FolderTrouble } from '../../sources/watched-folder.ts';
import type { FollowedShoot, NextFrameIs } from '../followed-shoot.ts';

/** What is chosen between, in the order shown. */
export const NEXT_FRAME_WORDS: Record<NextFrameIs, string> = {
  'as-advised': 'the next take, with the moves made as told',
  'as-answered': 'the next take, with the moves made as answered',
  'new-setup': 'a new set-up',
};

/** How whoever stands at the lights hears of a verdict. */
export const TOLD_WORDS: Record<'seen' | 'heard', string> = {
  seen: 'shown here',
  heard: 'told by a sound too: rising when within the limits, low when not',
};

/** What has come of following so far. */
export function followedWords({
  framesRead,
  framesFailed,
  waiting,
}: Pick<FollowedShoot, 'framesRead' | 'framesFailed' | 'waiting'>): string {
  const read = framesRead === 0 ? 'no new frame yet' : `${count(framesRead, 'new frame')} read`;
  const failed = framesFailed === 0 ? '' : `, ${framesFailed} could not be`;
  return `${read}${failed}${waiting === 0 ? '' : `, ${waiting} waiting`}`;
}

export const TROUBLE_WORDS: Record<FolderTrouble, string> = {
  gone: 'The folder is not there just now. It is looked for; nothing that was read is lost.',
  'not-allowed': 'The browser wants to be asked for this folder again.',
};

const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;

export const NOT_FOLLOWED_WORDS =
  'This browser hands out no folders, so that none can be followed: choose or drop each frame as it comes.';

export const FOLDER_DROPPED_WORDS = `A folder was dropped. ${NOT_FOLLOWED_WORDS}`;
