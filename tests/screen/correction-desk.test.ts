import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { CorrectionPreview, OpenedFrame } from '../../src/engine/preview-correction.ts';
import { CorrectionDesk, type DeskEngine } from '../../src/screen/correction-desk.ts';
import type { FullTake } from '../../src/takes/take.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';

const take = (name: string) =>
  ({
    id: name,
    report: { name, readBy: { response: null } },
    frames: [{ name, blob: new Blob() }],
  }) as unknown as FullTake;

const file = (name: string) => new File([], name);

/** An engine that writes down what is asked of it, and answers at once, or when it is let. */
function watched(answer: Partial<DeskEngine> = {}) {
  const asked: string[] = [];
  const engine: DeskEngine = {
    profile: async (_, options) => {
      asked.push(`profile ${options?.reference} ${options?.neutral}`);
      return profileOf(
        latticeOf(2, 2, () => [0, 0, 0]),
        { reference: options!.reference! },
      );
    },
    openToCorrect: async ({ name }) => {
      asked.push(`open ${name}`);
      if (name.endsWith('.txt')) throw new EngineError('not-an-image', 'The file holds text.');
      return { known: { sha256: name, shot: { model: `camera of ${name}` } } } as unknown as OpenedFrame;
    },
    differences: async ({ sha256 }, _profile, blank) => {
      asked.push(`differences ${sha256} from ${blank?.model}`);
      return [`of ${sha256}`];
    },
    previewCorrection: async ({ known }, _profile, { treat, levelEv, brush }, blank) => {
      asked.push(`try ${known.sha256} ${treat} ${levelEv} ${brush?.length ?? 0} by ${blank?.known.sha256}`);
      return { flags: [`of ${known.sha256}`] } as unknown as CorrectionPreview;
    },
    gainPicture: () => Promise.reject(new Error('not asked for')),
    rampFigures: () => Promise.reject(new Error('not asked for')),
    dispose: () => asked.push('dispose'),
    ...answer,
  };
  const desk = new CorrectionDesk(
    () => engine,
    () => {},
  );
  return { desk, asked };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 5));

test('CorrectionDesk asks for nothing before there is a frame, then tries the first and holds the others', async () => {
  const { desk, asked } = watched();
  desk.correctBy(take('blank.png'));
  await settled();
  expect(asked).toEqual([]);
  desk.add([file('a.jpg'), file('b.jpg')]);
  await settled();
  expect(asked).toEqual([
    'profile mean true',
    'open blank.png',
    'open a.jpg',
    'try a.jpg everything null 0 by blank.png',
    'open b.jpg',
    'differences b.jpg from camera of blank.png',
  ]);
  expect(desk.frames.map(({ flags }) => flags)).toEqual([['of a.jpg'], ['of b.jpg']]);
  expect(desk.isTrying).toBe(false);
});

test('CorrectionDesk tries only what is last asked for, and decodes no frame twice', async () => {
  const held: (() => void)[] = [];
  const { desk, asked } = watched({
    previewCorrection: async (_frame, _profile, { treat, levelEv }) => {
      asked.push(`try ${treat} ${levelEv}`);
      await new Promise<void>((letGo) => held.push(letGo));
      return { flags: [] } as unknown as CorrectionPreview;
    },
  });
  desk.correctBy(take('blank.png'));
  desk.add([file('a.jpg')]);
  await settled();
  desk.wish({ treat: 'ramp-only' });
  desk.wish({ level: 'below-white' });
  desk.wish({ belowWhiteEv: 0.5 });
  desk.wish({ treat: 'background-only' });
  expect(desk.isTrying).toBe(true);
  held.shift()!();
  await settled();
  held.shift()!();
  await settled();
  expect(held).toEqual([]);
  expect(asked.filter((what) => what.startsWith('try'))).toEqual([
    'try everything null',
    'try background-only 0.5',
  ]);
  expect(asked.filter((what) => what === 'open a.jpg')).toHaveLength(1);
  expect(desk.isTrying).toBe(false);
});

test('CorrectionDesk makes the profile anew only where another is wished', async () => {
  const { desk, asked } = watched();
  desk.correctBy(take('blank.png'));
  desk.add([file('a.jpg')]);
  await settled();
  asked.length = 0;
  desk.wish({ writtenAs: 'jpeg' });
  await settled();
  expect(asked).toEqual([]);
  desk.wish({ takesCastOut: false });
  await settled();
  expect(asked).toContain('profile mean false');
  desk.wish({ level: 'darkest' });
  await settled();
  expect(asked.at(-1)).toBe('try a.jpg everything null 0 by blank.png');
  expect(asked).toContain('profile darkest false');
});

test('CorrectionDesk says of a file that can’t be opened why, and goes on', async () => {
  const { desk } = watched();
  desk.correctBy(take('blank.png'));
  desk.add([file('notes.txt'), file('a.jpg')]);
  await settled();
  expect(desk.frames.map(({ refusal }) => refusal)).toEqual(['The file holds text.', null]);
  expect(desk.frames[1]!.flags).toEqual(['of a.jpg']);
  desk.show(desk.frames[1]!.id);
  await settled();
  expect(desk.shown?.of).toBe(desk.frames[1]!.id);
  desk.remove(desk.frames[1]!.id);
  expect(desk.shownFrame?.file.name).toBe('notes.txt');
});

test('CorrectionDesk tries again, with other wishes, what could not be tried', async () => {
  const { desk } = watched({
    previewCorrection: async (_frame, _profile, { treat }) => {
      if (treat === 'background-only') throw new EngineError('no-light', 'no background to be told');
      return { flags: [] } as unknown as CorrectionPreview;
    },
  });
  desk.correctBy(take('blank.png'));
  desk.add([file('a.jpg')]);
  desk.wish({ treat: 'background-only' });
  await settled();
  expect(desk.tryFailure).toBe('no background to be told');
  expect(desk.frames[0]!.refusal).toBeNull();
  desk.wish({ treat: 'everything' });
  await settled();
  expect(desk.tryFailure).toBeNull();
});

test('CorrectionDesk keeps strokes with their frame, and takes the last one back', async () => {
  const { desk, asked } = watched();
  desk.correctBy(take('blank.png'));
  desk.add([file('a.jpg'), file('b.jpg')]);
  desk.wish({ treat: 'background-only' });
  await settled();
  const stroke = { makes: 'subject', points: [{ x: 0.5, y: 0.5 }], radius: 0.02 } as const;
  desk.stroke(stroke);
  await settled();
  expect(asked.at(-1)).toBe('try a.jpg background-only null 1 by blank.png');
  desk.show(desk.frames[1]!.id);
  await settled();
  expect(asked.at(-1)).toBe('try b.jpg background-only null 0 by blank.png');
  desk.show(desk.frames[0]!.id);
  desk.stroke(null);
  await settled();
  expect(asked.at(-1)).toBe('try a.jpg background-only null 0 by blank.png');
});

test('CorrectionDesk starts nothing after it was closed, and goes on where it stood', async () => {
  const { desk, asked } = watched();
  desk.correctBy(take('blank.png'));
  desk.dispose();
  desk.add([file('a.jpg')]);
  await settled();
  expect(asked).toEqual([]);
  desk.resume();
  await settled();
  expect(asked).toContain('try a.jpg everything null 0 by blank.png');
});

test('CorrectionDesk opens the blank of another take', async () => {
  const { desk, asked } = watched();
  desk.correctBy(take('blank.png'));
  desk.add([file('a.jpg')]);
  await settled();
  asked.length = 0;
  desk.correctBy(take('second.png'));
  await settled();
  expect(asked).toContain('open second.png');
});
