import { LiveClient, type LiveLoss, lackBehind } from '../../workers/live-client.ts';
import type { LiveStep } from '../../workers/live-feed.ts';
import type { Judgement } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import {
  CameraFailure,
  type CameraName,
  cameraNames,
  type LiveTrouble,
  type OpenedCamera,
  openCamera,
} from '../sources/live-camera.ts';
import { VerdictSound } from './verdict-sound.ts';

export interface LiveWishes {
  readonly open: typeof openCamera;
  readonly names: typeof cameraNames;
  readonly startClient: (
    whenLost: (loss: LiveLoss) => void,
  ) => Pick<LiveClient, 'follow' | 'judgeBy' | 'hold' | 'dispose'>;
  readonly sound: Pick<VerdictSound, 'ready' | 'tell'>;
  readonly now: () => Date;
}

const WISHES: LiveWishes = {
  open: openCamera,
  names: cameraNames,
  startClient: (whenLost) => new LiveClient(whenLost),
  sound: new VerdictSound(),
  now: () => new Date(),
};

/**
 * What is seen through a camera while the light is moved. Nothing of its pictures is kept but one that is held.
 * @event change - whenever anything of it did
 */
export class LiveView extends EventTarget {
  camera: OpenedCamera | null = null;
  /** Those that can be looked through, once one was. */
  cameras: readonly CameraName[] = [];
  step: LiveStep | null = null;
  trouble: LiveTrouble | null = null;
  isOpening = false;
  isHeard = false;

  private client: ReturnType<LiveWishes['startClient']> | null = null;
  private tolerance: Tolerance | null = null;
  private told: Judgement | null = null;
  /** Counts openings: what an earlier one brings after it was stopped is not the present one's. */
  private turn = 0;
  private letGo = () => {};
  /** `null` once looking is stopped: what is asked of its worker then is answered by nobody. */
  private stopped = Promise.resolve<null>(null);

  constructor(private readonly wishes: LiveWishes = WISHES) {
    super();
  }

  /** Looks through a camera, the usual one where none is named; to be called by a press of a button. */
  async look(id: string | null = null): Promise<void> {
    this.stop();
    const turn = this.turn;
    this.isOpening = true;
    this.changed();
    try {
      const camera = await this.wishes.open(id, () => this.lose(turn, 'lost'));
      if (turn !== this.turn) return camera.stop();
      this.camera = camera;
      this.stopped = new Promise((resolve) => {
        this.letGo = () => resolve(null);
      });
      this.client = this.wishes.startClient((loss) => this.lose(turn, loss));
      if (this.tolerance !== null) this.client.judgeBy(this.tolerance);
      this.client
        .follow(camera.pictures, (step) => this.take(turn, step))
        .then(
          () => this.lose(turn, 'lost'),
          (error) => this.lose(turn, lackBehind(error) ?? 'failed'),
        );
      this.cameras = await this.wishes.names().catch(() => []);
    } catch (error) {
      if (turn !== this.turn) return;
      this.stop();
      this.trouble = error instanceof CameraFailure ? error.trouble : 'failed';
      this.changed();
    } finally {
      if (turn === this.turn) this.isOpening = false;
      this.changed();
    }
  }

  stop(): void {
    this.turn++;
    this.letGo();
    this.camera?.stop();
    this.client?.dispose();
    this.camera = null;
    this.client = null;
    this.step = null;
    this.trouble = null;
    this.told = null;
    this.isOpening = false;
    this.changed();
  }

  judgeBy(tolerance: Tolerance): void {
    if (tolerance === this.tolerance) return;
    this.tolerance = tolerance;
    this.client?.judgeBy(tolerance);
  }

  /** The present picture as a file, named for the time; `null` where there is none any more. */
  async hold(): Promise<File | null> {
    const picture = await Promise.race([this.client?.hold() ?? null, this.stopped]);
    if (picture === null) return null;
    const at = this.wishes.now();
    const time = [at.getHours(), at.getMinutes(), at.getSeconds()].map((part) =>
      String(part).padStart(2, '0'),
    );
    return new File([picture], `held-${time.join('-')}.jpg`, {
      type: picture.type,
      lastModified: at.getTime(),
    });
  }

  /** Has it told by sound when the light becomes even, or no longer; to be called by a press of a control. */
  async hear(isHeard: boolean): Promise<void> {
    if (isHeard) await this.wishes.sound.ready();
    this.isHeard = isHeard;
    this.changed();
  }

  private take(turn: number, step: LiveStep): void {
    if (turn !== this.turn) return;
    this.step = step;
    const { even } = step.reading.verdict;
    if (!step.reading.isMoving && step.reading.scatterEv !== null) {
      if (this.isHeard && even === 'yes' && this.told !== 'yes')
        this.wishes.sound.tell({ even, neutral: 'yes', exposed: 'yes' });
      this.told = even;
    }
    this.changed();
  }

  private lose(turn: number, trouble: LiveTrouble): void {
    if (turn !== this.turn) return;
    this.stop();
    this.trouble = trouble;
    this.changed();
  }

  private changed(): void {
    this.dispatchEvent(new Event('change'));
  }
}
