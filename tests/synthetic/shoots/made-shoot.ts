import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { exposedBy, type KnownField, randomField } from '../known-field.ts';
import { type Draws, drawsFrom } from '../random/draws.ts';
import type { Subject } from '../subject-scene.ts';
import { card, hand } from './before-the-lens.ts';
import { drawnWare, type Ware } from './glassware.ts';
import type { MadeFrame, MadeKind } from './made-frame.ts';

export interface MadeShoot {
  readonly frames: readonly MadeFrame[];
  /** Places of the frames that are to be corrected: the subjects after the last marker, or all where there is none. */
  readonly keepers: readonly number[];
  readonly describe: string;
}

const FIRST = { seconds: 1 / 64, fNumber: 8, iso: 100 };

/** The shoots that are made, one after another by their seed. */
export const PLANS = [
  'focus series',
  'bracket',
  'lamp off',
  'catalogue without markers',
  'badly exposed',
  'two products',
] as const;

/** Writes down what a photographer does at the set, ten frames long. */
class Shooting {
  readonly frames: MadeFrame[] = [];
  private readonly field: KnownField;
  private readonly lens: { readonly widthPx: number; readonly heightPx: number };

  constructor(
    readonly draws: Draws,
    private readonly seed: number,
    widthPx: number,
  ) {
    const heightPx = Math.round((widthPx * 2) / 3);
    this.lens = { widthPx, heightPx };
    const drawn = randomField(70_000 + seed, {
      spreadEv: draws.between(0.1, 1.6),
      peak: draws.between(0.35, 0.85),
    });
    this.field = drawn.field;
  }

  ware(): Ware {
    return drawnWare(this.draws, { field: this.field, ...this.lens });
  }

  add(kind: MadeKind, subjects: readonly Subject[], exposedEv = 0, field = this.field): void {
    this.frames.push({
      ...{ name: `frame-${String(this.frames.length + 1).padStart(4, '0')}.jpg`, kind, exposedEv },
      scene: { field, ...this.lens, subjects },
      exposure: { ...FIRST, seconds: FIRST.seconds * 2 ** exposedEv },
      seed: this.seed * 1000 + this.frames.length,
    });
  }

  blank(exposedEv = 0): void {
    this.add('blank', [], exposedEv);
  }

  /** Only the room's light, from one side and of another colour. */
  lampOff(): void {
    const left = this.draws.between(-1, 1);
    const level = this.draws.between(-4, -8);
    const room: KnownField = (x, y) => {
      const light = 2 ** (level + left * (x - 0.5) + 0.4 * (y - 0.5));
      return [light * 1.4, light, light * 0.6];
    };
    this.add('lamp-off', [], 0, room);
  }

  marker(ware: Ware | null): void {
    const { widthPx, heightPx } = this.lens;
    const before = this.draws.chance(0.6) ? hand : card;
    this.add('marker', [...(ware?.() ?? []), before(this.draws, widthPx, heightPx)]);
  }

  subject(ware: Ware, how: Parameters<Ware>[0] = {}, exposedEv = 0): void {
    this.add('subject', ware(how), exposedEv);
  }

  /** Focus moved from front to back: the outline softens and grows a little. */
  focusSeries(ware: Ware, frames: number): void {
    for (let i = 0; i < frames; i++)
      this.subject(ware, { blur: 1 + Math.abs(i - frames / 2) * 0.8, larger: 1 + 0.006 * i });
  }

  bad(ware: Ware | null): void {
    const ev = this.draws.either([3.5, -6]);
    this.add('badly-exposed', ware?.() ?? [], ev, exposedBy(this.field, 0));
  }
}

const DO: Record<(typeof PLANS)[number], (at: Shooting) => void> = {
  'focus series': (at) => {
    const ware = at.ware();
    at.blank();
    at.subject(ware);
    at.marker(at.draws.chance(0.5) ? ware : null);
    at.focusSeries(ware, 7);
  },
  bracket: (at) => {
    const ware = at.ware();
    at.blank();
    at.blank(-1);
    at.subject(ware);
    at.subject(ware, { larger: 1.03 });
    at.marker(ware);
    for (const ev of [-1, -0.5, 0, 0.3, -2]) at.subject(ware, {}, ev);
  },
  'lamp off': (at) => {
    const ware = at.ware();
    at.blank();
    at.lampOff();
    at.subject(ware);
    at.subject(ware);
    at.marker(ware);
    for (let i = 0; i < 5; i++) at.subject(ware);
  },
  'catalogue without markers': (at) => {
    at.blank();
    for (let i = 0; i < 8; i++) at.subject(at.ware());
    at.blank();
  },
  'badly exposed': (at) => {
    const ware = at.ware();
    at.bad(null);
    at.blank();
    at.bad(ware);
    at.subject(ware);
    at.marker(at.draws.chance(0.5) ? ware : null);
    for (let i = 0; i < 5; i++) at.subject(ware, { larger: 1 + 0.01 * i });
  },
  'two products': (at) => {
    const [first, second] = [at.ware(), at.ware()];
    at.blank();
    for (let i = 0; i < 3; i++) at.subject(first);
    at.marker(null);
    at.subject(second);
    at.subject(second);
    at.marker(second);
    at.subject(second);
    at.subject(second);
  },
};

/** A made shoot of ten frames; the plan goes by the seed. */
export function madeShoot(seed: number, widthPx = 192): MadeShoot {
  const plan = PLANS[seed % PLANS.length]!;
  const shooting = new Shooting(drawsFrom(seededRandom(90_000 + seed)), seed, widthPx);
  DO[plan](shooting);
  const { frames } = shooting;
  const lastMarker = frames.findLastIndex(({ kind }) => kind === 'marker');
  const keepers = frames.flatMap(({ kind }, i) => (kind === 'subject' && i > lastMarker ? [i] : []));
  return { frames, keepers, describe: `seed ${seed}: ${plan}` };
}
