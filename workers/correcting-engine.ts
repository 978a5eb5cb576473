/** What the engine's worker fetches once frames are to be corrected. */
export { frameDifferences } from '../src/engine/correct/frame-differences.ts';
export { correctFrame } from '../src/engine/correct-frame.ts';
export { gainPicture } from '../src/engine/export/gain-picture.ts';
export { rampFigures } from '../src/engine/export/ramp-figures.ts';
export { openToCorrect, previewCorrection } from '../src/engine/preview-correction.ts';
export { makeProfile } from '../src/engine/profile/make-profile.ts';
