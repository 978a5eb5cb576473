export { nodePlatform, type PictureCoding } from '../../workers/node-platform.ts';
export type { Aim } from '../engine/aim.ts';
export type { CorrectedFile, CorrectOptions } from '../engine/correct-frame.ts';
export { correctFrame } from '../engine/correct-frame.ts';
export { EngineError, type EngineErrorCode } from '../engine/engine-error.ts';
export type { DecodedType, Platform, RgbaPicture } from '../engine/intake/platform.ts';
export type { Move } from '../engine/moves/move.ts';
export { makeProfile, type ProfileOptions } from '../engine/profile/make-profile.ts';
export { parseProfile } from '../engine/profile/parse-profile.ts';
export type { Profile } from '../engine/profile/profile.ts';
export { type BracketOptions, readBracket } from '../engine/read-bracket.ts';
export {
  type FrameReport,
  type FrameSource,
  type JudgeOptions,
  type ReadOptions,
  readFrame,
  rejudge,
} from '../engine/read-frame.ts';
export type { Finding, FindingKind, FrameRectangle, Reading, Verdict } from '../engine/reading.ts';
export type { CameraResponse } from '../engine/response/camera-response.ts';
export { type Setup, UNKNOWN_SETUP } from '../engine/setup.ts';
export type { Tolerance } from '../engine/tolerance.ts';
export { DEFAULT_TOLERANCE, TOLERANCES } from '../engine/tolerances.ts';
