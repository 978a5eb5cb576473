import { describe, expect, test } from 'vitest';
import type { RivalCauses } from '../../src/engine/lamps/cause-shares.ts';
import type { SecondFrameRole } from '../../src/engine/lamps/second-frame.ts';
import type { FindingKind } from '../../src/engine/reading.ts';
import { settlingFrame } from '../../src/takes/settling-frame.ts';

type Kind = SecondFrameRole['kind'];
type Pair = RivalCauses['causes'];

const found = (kind: FindingKind, ev: number | null) => ({ kind, ev });
const inDoubt = (findings: ReturnType<typeof found>[], rivals: readonly (readonly [Pair, number])[]) => ({
  reading: { findings },
  set: { rivals: rivals.map(([causes, ev]) => ({ causes, ev })) },
});

const LENS_OR_LIGHT: Pair = ['lens-falloff', 'too-close'];
const LENS_OR_SHEET: Pair = ['lens-falloff', 'hot-spot'];
const LIGHT_OR_SHEET: Pair = ['too-close', 'hot-spot'];
const ASIDE: Pair = ['off-centre', 'aimed-off'];

describe('settlingFrame(report, used) settles', () => {
  test.each<[string, Pair, Kind[], Kind]>([
    ['lens or light: the camera slid', LENS_OR_LIGHT, [], 'shifted'],
    ['lens or sheet: the camera slid', LENS_OR_SHEET, [], 'shifted'],
    ['light or sheet: the camera slid', LIGHT_OR_SHEET, [], 'shifted'],
    ['standing or aimed to one side: the camera slid', ASIDE, [], 'shifted'],
    ['the same with the lights off in use', ASIDE, ['lamp-off'], 'shifted'],
    ['lens or light after a slide: the lens stopped down', LENS_OR_LIGHT, ['shifted'], 'stopped-down'],
    ['lens or light after both: another slide', LENS_OR_SHEET, ['stopped-down', 'shifted'], 'shifted'],
    ['light or sheet after a slide: another slide', LIGHT_OR_SHEET, ['shifted'], 'shifted'],
  ])('%s', (_what, pair, used, settling) => {
    const report = inDoubt([found('creases', 0.3), found('cannot-tell', 0.2)], [[pair, 0.2]]);
    expect(settlingFrame(report, used)).toBe(settling);
  });

  test('what the room adds, also beside causes that look alike and take too little to be told: the lights off', () => {
    expect(settlingFrame(inDoubt([found('cannot-tell', 0.1)], []), [])).toBe('lamp-off');
    expect(settlingFrame(inDoubt([found('cannot-tell', 0.1)], [[ASIDE, 0.02]]), [])).toBe('lamp-off');
  });

  test('the first of several doubts, whichever that is', () => {
    const [lens, room] = [found('cannot-tell', 0.3), found('cannot-tell', 0.1)];
    const rivals = [
      [LIGHT_OR_SHEET, 0.05],
      [LENS_OR_LIGHT, 0.3],
    ] as const;
    expect(settlingFrame(inDoubt([lens, room], rivals), ['shifted'])).toBe('stopped-down');
    expect(settlingFrame(inDoubt([room, lens], rivals), ['shifted'])).toBe('lamp-off');
  });

  test('nothing where nothing is in doubt, and where no set was fitted', () => {
    expect(settlingFrame(inDoubt([found('lens-falloff', 0.2)], [[LENS_OR_LIGHT, 0.2]]), [])).toBeNull();
    expect(settlingFrame({ reading: { findings: [] }, set: null }, [])).toBeNull();
    // frames that do not go together
    expect(
      settlingFrame(inDoubt([found('cannot-tell', null)], [[LENS_OR_LIGHT, 0.2]]), ['shifted']),
    ).toBeNull();
  });
});
