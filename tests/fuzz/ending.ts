import { EngineError } from '../../src/engine/engine-error.ts';
import { makeProfile } from '../../src/engine/profile/make-profile.ts';
import { parseProfile } from '../../src/engine/profile/parse-profile.ts';
import type { FrameReport } from '../../src/engine/read-frame.ts';
import { gapsOf } from '../engine/reading-gaps.ts';

/** The codes of the public contract that a file, a profile or a response may end in. */
const CODES: readonly string[] = [
  ...['unreadable-file', 'unsupported-file', 'not-an-image', 'too-large', 'too-small', 'no-light'],
  ...['all-clipped', 'not-blank', 'no-model', 'wrong-profile', 'bad-bracket', 'cannot-write'],
];

/** What a promise came to: a kind of ending that is right, in words. @throws whatever else it ended in. */
export async function endingOf<Value>(work: Promise<Value>, whole: (value: Value) => void): Promise<string> {
  let value: Value;
  try {
    value = await work;
  } catch (error) {
    if (error instanceof EngineError && CODES.includes(error.code) && isSentence(error.message))
      return error.code;
    throw error;
  }
  whole(value);
  return 'read';
}

/** Nothing that an engine could not spell out: no figure that is none, no field that is not there. */
const isSentence = (message: string) =>
  message.length > 20 && !/\b(NaN|undefined|\[object)\b/.test(message) && message.length < 2000;

/** @throws Error that names what of a report is not whole: also of the profile made from it. */
export function wholeReport(report: FrameReport): void {
  const gaps = gapsOf(report.reading);
  if (gaps.length > 0) throw new Error(`the reading is not whole: ${gaps.slice(0, 5).join('; ')}`);
  const { lightSays, colourProfile } = report.reading.frame;
  for (const says of [lightSays, colourProfile, ...report.reading.findings.map((finding) => finding.says)])
    if (/\b(NaN|undefined|Infinity)\b/.test(says)) throw new Error(`it says: ${says}`);
  try {
    parseProfile(JSON.stringify(makeProfile(report)));
  } catch (error) {
    // no profile can be made of a set that is too dark in places; then it is refused by name
    if (!(error instanceof EngineError && CODES.includes(error.code))) throw error;
    if (error.code === 'wrong-profile') throw new Error(`its profile is none: ${error.message}`);
  }
}
