import { describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { FrameLook } from '../../src/engine/glance-at-frame.ts';
import type { FrameGlance } from '../../src/engine/sorting/frame-glance.ts';
import type { FrameKind } from '../../src/engine/sorting/frame-kind.ts';
import { kindOf, SortDesk, type SortEngine } from '../../src/screen/sort-desk.ts';

/** A look that says by its file's name what the frame is to be told as. */
function lookOf(name: string): FrameLook {
  const [kind, takenAt = null] = name.replace(/^\d+-/, '').replace('.jpg', '').split('@');
  return {
    glance: { kind } as unknown as FrameGlance,
    picture: { widthPx: 1, heightPx: 1, samples: new Uint8Array(4) },
    exposure: takenAt === null ? null : { ...NOTHING, takenAt },
  };
}
const NOTHING = { seconds: null, fNumber: null, iso: null, focalLengthMm: null };

function playedDesk(
  glance: SortEngine['glance'] = async ({ name }) => lookOf(name),
  sortShoot: SortEngine['sortShoot'] = async (glances) =>
    glances.map((one) => ({ kind: (one as unknown as { kind: FrameKind }).kind, confidence: 0.8 })),
) {
  const log: string[] = [];
  let engines = 0;
  const desk = new SortDesk(() => {
    const number = ++engines;
    return {
      glance: (file) => {
        log.push(`${number} ${file.name}`);
        return glance(file);
      },
      sortShoot,
      dispose: () => log.push(`${number} ended`),
    };
  });
  return { desk, log };
}

const files = (...names: string[]) => names.map((name) => new File([name], name));
const kinds = (desk: SortDesk) => desk.frames.map(kindOf);

test('frames are told in the order they were taken: by name, as cameras count', async () => {
  const { desk, log } = playedDesk();
  await desk.sort(files('10-subject.jpg', '9-marker.jpg', '8-blank.jpg', '11-subject.jpg'));
  expect(kinds(desk)).toEqual(['blank', 'marker', 'subject', 'subject']);
  expect(desk.set).toEqual({ subjects: [2, 3], blank: 0 });
  expect(desk.looked).toBeNull();
  expect(log.filter((line) => line.includes('ended'))).toHaveLength(2);
});

test('and by the time in the files where all have one', async () => {
  const { desk } = playedDesk();
  await desk.sort(files('1-subject@2026-03-01T10:00:09.jpg', '2-blank@2026-03-01T10:00:01.jpg'));
  expect(kinds(desk)).toEqual(['blank', 'subject']);
});

test('a wrong guess is put right, and the set follows', async () => {
  const { desk } = playedDesk();
  await desk.sort(files('1-blank.jpg', '2-subject.jpg', '3-subject.jpg', '4-subject.jpg'));
  desk.say(2, 'marker');
  expect(kinds(desk)).toEqual(['blank', 'subject', 'marker', 'subject']);
  expect(desk.set.subjects).toEqual([3]);
  expect(desk.frames[2]!.told?.kind).toBe('subject');
});

describe('what goes wrong', () => {
  test('one that cannot be looked at is told, and the others are sorted all the same', async () => {
    const { desk } = playedDesk(async ({ name }) => {
      if (name.startsWith('2')) throw new EngineError('unreadable-file', 'It is cut short.');
      return lookOf(name);
    });
    await desk.sort(files('1-blank.jpg', '2-subject.jpg', '3-subject.jpg'));
    expect(kinds(desk)).toEqual(['blank', null, 'subject']);
    expect(desk.frames[1]!.refusal).toContain('It is cut short.');
    expect(desk.set).toEqual({ subjects: [2], blank: 0 });
  });

  test('frames that can’t be told apart are not taken for none of a subject', async () => {
    const { desk } = playedDesk(undefined, async () => {
      throw new EngineError('worker-lost', 'The engine stopped.');
    });
    await desk.sort(files('1-blank.jpg', '2-subject.jpg'));
    expect(desk.trouble).toContain('The engine stopped.');
    expect(desk.looked).toBeNull();
  });

  test('one without a picture does not keep the others from going by their times', async () => {
    const { desk } = playedDesk(async ({ name }) => {
      if (name.startsWith('0')) throw new EngineError('unreadable-file', 'It is cut short.');
      return lookOf(name);
    });
    await desk.sort(
      files('0-subject.jpg', '1-subject@2026-03-01T10:00:09.jpg', '9999-blank@2026-03-01T10:00:01.jpg'),
    );
    expect(kinds(desk)).toEqual(['blank', 'subject', null]);
  });

  test('what comes in after it was stopped changes nothing', async () => {
    let answer = (_: FrameLook) => {};
    const { desk } = playedDesk(
      () =>
        new Promise((resolve) => {
          answer = resolve;
        }),
    );
    const sorting = desk.sort(files('1-blank.jpg'));
    desk.clear();
    answer(lookOf('1-blank.jpg'));
    await sorting;
    expect([desk.frames, desk.looked]).toEqual([[], null]);
  });

  test('a folder of nothing is sorted into nothing', async () => {
    const { desk } = playedDesk();
    await desk.sort([]);
    expect([desk.frames, desk.looked, desk.set.blank]).toEqual([[], null, null]);
  });
});
