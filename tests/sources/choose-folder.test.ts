import { expect, test } from 'vitest';
import { framesAmong } from '../../src/sources/choose-folder.ts';
import { correctedName, numberedName } from '../../src/sources/corrected-name.ts';

const named = (...names: string[]) => names.map((name) => new File([], name));

test('framesAmong(files) of a folder takes pictures by name, and counts what it leaves out', () => {
  const { frames, others } = framesAmong(
    named('a.jpg', 'b.PNG', 'c.jpeg', 'notes.txt', '.hidden.jpg', 'd.tif', 'e.TIFF', 'f.DNG', 'g.xmp'),
  );
  expect(frames.map(({ name }) => name)).toEqual(['a.jpg', 'b.PNG', 'c.jpeg', 'd.tif', 'e.TIFF', 'f.DNG']);
  expect(others).toBe(3);
});

test('framesAmong(files) leaves out what earlier corrections wrote there', () => {
  const written = correctedName('tumbler-12.jpg', 'jpg');
  const results = [written, numberedName(written, 2), numberedName(written, 13), 'b.CORRECTED.PNG'];
  const { frames, others } = framesAmong(
    named('tumbler-12.jpg', 'corrected.jpg', 'my.corrected-view.jpg', ...results),
  );
  expect(frames.map(({ name }) => name)).toEqual([
    'tumbler-12.jpg',
    'corrected.jpg',
    'my.corrected-view.jpg',
  ]);
  expect(others).toBe(results.length);
});
