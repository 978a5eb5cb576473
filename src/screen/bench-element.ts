import type { Aim } from '../engine/aim.ts';
import type { CorrectOptions, CorrectPhase } from '../engine/correct-frame.ts';
import type { EngineErrorCode } from '../engine/engine-error.ts';
import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { Move } from '../engine/moves/move.ts';
import type { ProfileOptions } from '../engine/profile/make-profile.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { BracketOptions, BracketPhase } from '../engine/read-bracket.ts';
import type { ReadPhase } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import type { Setup } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { OneSource } from '../sources/open-source.ts';
import type { Take } from '../takes/take.ts';

/** How the lens was checked: the camera slid over the same light, or the lens stopped down. */
export type LensCheck = Exclude<SecondFrameRole, { readonly kind: 'lamp-off' }>;

/** What a frame is read as. */
export interface RoleWish {
  /** Left out: the blank frame itself. */
  readonly role?: 'blank' | 'lamp-off' | 'lens-check';
  /** With the role `'lens-check'`, and only with it. */
  readonly lensCheck?: LensCheck;
}

export interface BenchReadOptions extends RoleWish {
  /** Moves made since the previous take; left out: a new set-up. */
  readonly done?: readonly Move[];
  readonly region?: FrameRectangle;
  /** What light the camera's 8-bit codes stand for. */
  readonly response?: CameraResponse;
}

/** The blank is a source like any other. */
export interface BenchCorrectOptions extends Omit<CorrectOptions, 'blank' | 'blankFacts'> {
  readonly blank?: OneSource;
}

/** How far a job is: `fraction` 0 to 1 of its phase. */
export interface BenchProgress<Phase = ReadPhase | CorrectPhase | BracketPhase> {
  readonly phase: Phase;
  readonly fraction: number;
}

/** What went wrong: a code of the public contract, a sentence, and which file; also what a rejected promise carries. */
export interface BenchFailure {
  readonly code: EngineErrorCode;
  readonly message: string;
  readonly fileName: string | null;
}

/** What the element tells by event, out of any shadow. */
export interface BenchEvents {
  'evenfield-reading': CustomEvent<Reading>;
  'evenfield-progress': CustomEvent<BenchProgress>;
  'evenfield-error': CustomEvent<BenchFailure>;
}

/**
 * The whole tool as one element: reads blank frames, shows what they say, and hands out readings and profiles.
 *
 * @attr shelf - {string} Name of the shelf that takes are kept on in this browser, over a reload. Left out: the usual one, which of several elements on a page only the first has. Empty: nothing is kept. Read when the element is put on the page.
 * @attr samples - {string} Address of a list of sample frames, as the tool's own `samples.json`. Left out: none are shown. Read when the element is put on the page.
 * @event evenfield-reading - {CustomEvent<Reading>} A frame was read, or the last one judged anew.
 * @event evenfield-progress - {CustomEvent<BenchProgress>} How far a frame is that is being read or corrected: its phase, and 0 to 1 of it.
 * @event evenfield-error - {CustomEvent<BenchFailure>} Reading, judging, a profile or a correction failed: code, message and file name.
 * @csspart incoming - Where frames come from: choosing, following a folder, a camera, sorting, kept shoots.
 * @csspart status - What is under way, and what failed.
 * @csspart setup - The set-up as a sentence.
 * @csspart report - All that was read of the take shown.
 * @csspart verdict - The verdict, and the figures it rests on.
 * @csspart moves - What to do next.
 * @csspart maps - The frame with its maps.
 * @csspart plan - The plan of the set.
 * @csspart cast - The cast, drawn.
 * @csspart findings - What was found, and the ramp.
 * @csspart takes - The takes from first to newest, compared and in a table.
 * @csspart exposure - How far the light stands below clipping.
 * @csspart response - The camera's response.
 * @csspart correct - Where frames of the subject are corrected.
 * @csspart save - What can be saved and printed.
 * @csspart record - The page that is printed.
 * @csspart samples - The samples, where a list of them is named.
 * @cssproperty --ground - {color} The ground that the frame is judged against: neutral, L* 90 by day and L* 20 by night. A coloured one misleads the eye.
 * @cssproperty --ink - {color} Text, and the lines of what is pressed.
 * @cssproperty --quiet-ink - {color} Text that can wait.
 * @cssproperty --rule - {color} Lines between sections.
 * @cssproperty --faint-rule - {color} Lines inside them.
 * @cssproperty --verdict-size - {length} The largest of the four sizes of type.
 * @cssproperty --large-size - {length} The second.
 * @cssproperty --text-size - {length} Running text.
 * @cssproperty --small-size - {length} Notes.
 * @cssproperty --least-height - {length} How high the element is at least; 0 where it is not set.
 */
export interface BenchElement extends HTMLElement {
  /** How the light was arranged at the first take of a set-up. Assigning an equal one changes nothing. */
  setup: Setup;
  /** What the frame is judged by. Assigning an equal one changes nothing. */
  tolerance: Tolerance;
  /** What the background is to become. Assigning an equal one changes nothing. */
  aim: Aim;
  /** What was read, oldest first. */
  readonly takes: readonly Take[];
  /** Reads one frame, or several of one unchanged set-up averaged: files, bytes, or addresses as text. Rejects with code, message and file name. */
  read(source: OneSource | readonly OneSource[], options?: BenchReadOptions): Promise<Reading>;
  /** Recovers a camera's response from three or more frames that differ in exposure alone. */
  readBracket(sources: readonly OneSource[], options?: BracketOptions): Promise<CameraResponse>;
  /** Makes a correction profile of a reading of one of the takes. */
  profile(reading: Reading, options?: ProfileOptions): Promise<Profile>;
  /** Corrects one frame by a profile. */
  correct(source: OneSource, profile: Profile, options?: BenchCorrectOptions): Promise<Blob>;

  addEventListener<Name extends keyof BenchEvents>(
    name: Name,
    listener: (event: BenchEvents[Name]) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener<Name extends keyof HTMLElementEventMap>(
    name: Name,
    listener: (event: HTMLElementEventMap[Name]) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener(
    name: string,
    listener: EventListenerOrEventListenerObject,
    options?: boolean | AddEventListenerOptions,
  ): void;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenfield-bench': BenchElement;
  }
  interface HTMLElementEventMap extends BenchEvents {}
}
