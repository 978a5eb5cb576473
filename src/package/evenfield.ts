import type { BenchElement } from '../screen/bench-element.ts';
import { EvenfieldBench as Bench } from '../screen/evenfield-bench.ts';

export type { Aim } from '../engine/aim.ts';
export type { EngineErrorCode } from '../engine/engine-error.ts';
export type { Move } from '../engine/moves/move.ts';
export type { ProfileOptions } from '../engine/profile/make-profile.ts';
export type { Profile } from '../engine/profile/profile.ts';
export type { BracketOptions } from '../engine/read-bracket.ts';
export type { Finding, FindingKind, FrameRectangle, Reading, Verdict } from '../engine/reading.ts';
export type { CameraResponse } from '../engine/response/camera-response.ts';
export type { Setup } from '../engine/setup.ts';
export type { Tolerance } from '../engine/tolerance.ts';
export type {
  BenchCorrectOptions,
  BenchElement,
  BenchEvents,
  BenchFailure,
  BenchProgress,
  BenchReadOptions,
} from '../screen/bench-element.ts';
export type { OneSource } from '../sources/open-source.ts';
export type { Take } from '../takes/take.ts';

/** The element's class, told by what others may build on; loading this file defines `<evenfield-bench>`. */
export const EvenfieldBench: { new (): BenchElement; readonly prototype: BenchElement } = Bench;
export type EvenfieldBench = BenchElement;
