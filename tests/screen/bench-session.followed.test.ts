import { expect, test } from 'vitest';
import { SessionWatch } from './session-watch.ts';

const file = (name: string) => new File(['x'], name);

test('BenchSession.readFollowed(frame, as) counts moves as made, as answered, as none, or the frame as a new set-up', async () => {
  const bench = new SessionWatch().session(new SessionWatch().engineWithMoves);
  await bench.readFollowed(file('first'), 'as-advised'); // nothing goes before it: a new set-up
  await bench.readFollowed(file('told'), 'as-advised');
  bench.answer(0, { kind: 'not-done' });
  await bench.readFollowed(file('partly'), 'as-advised');
  bench.answer(1, { kind: 'done' });
  await bench.readFollowed(file('answered'), 'as-answered');
  await bench.readFollowed(file('still'), 'unmoved');
  await bench.readFollowed(file('new'), 'new-setup');
  expect(
    bench.takes.map(({ reading, done }) => [reading.frame.name, done?.map(({ kind }) => kind) ?? null]),
  ).toEqual([
    ['first', null],
    ['told', ['slide-lamp', 'lamp-distance']],
    ['partly', ['lamp-distance']],
    ['answered', ['lamp-distance']],
    ['still', []],
    ['new', null],
  ]);
});
