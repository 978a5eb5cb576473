import { expect, test } from 'vitest';
import { BenchesOnPage } from '../../src/screen/benches-on-page.ts';

/** A page on which benches stand, and things that somebody touches. */
function page() {
  const around = new EventTarget();
  const benches = new BenchesOnPage(() => around);
  const touch = (...path: object[]) => {
    const event = new Event('pointerdown');
    event.composedPath = () => path as EventTarget[];
    around.dispatchEvent(event);
  };
  return { benches, touch };
}
const [front, back] = [new EventTarget(), new EventTarget()];
const BODY = { localName: 'body' };

test('of those that ask for the same shelf the first has it; a name of its own, or none, is heeded', () => {
  const { benches } = page();
  const [third, fourth, fifth] = [new EventTarget(), new EventTarget(), new EventTarget()];
  benches.add(front, null);
  benches.add(back, null);
  benches.add(third, 'back');
  benches.add(fourth, 'back');
  benches.add(fifth, '');
  const shelves = [front, back, third, fourth, fifth].map((bench) => benches.shelfOf(bench));
  expect(shelves).toEqual(['evenfield', null, 'evenfield back', null, null]);
  benches.remove(front);
  benches.remove(back);
  benches.add(back, null);
  expect(benches.shelfOf(back)).toBe('evenfield');
});

test('a key on the page is for the only one, or the one worked with last', () => {
  const { benches, touch } = page();
  benches.add(front, null);
  expect(benches.isMeant(front)).toBe(true);
  benches.add(back, null);
  expect([front, back].map((bench) => benches.isMeant(bench))).toEqual([false, false]);
  touch({ localName: 'button' }, back, BODY);
  expect([front, back].map((bench) => benches.isMeant(bench))).toEqual([false, true]);
  touch(BODY); // the page itself is nobody else's
  expect(benches.isMeant(back)).toBe(true);
  touch({ localName: 'input' }, BODY);
  expect([front, back].map((bench) => benches.isMeant(bench))).toEqual([false, false]);
  expect(benches.isMeant(null)).toBe(false);
});

test('a press beside the only one is other work on the page of somebody else, and none on the tool’s own', () => {
  const { benches, touch } = page();
  benches.add(front, null);
  touch({ localName: 'h1' }, BODY);
  expect(benches.isMeant(front)).toBe(false);
  benches.isOwnPage = true;
  expect(benches.isMeant(front)).toBe(true);
  touch({ localName: 'button' }, BODY);
  expect(benches.isMeant(front)).toBe(true);
  benches.add(back, null);
  expect([front, back].map((bench) => benches.isMeant(bench))).toEqual([false, false]);
});

test('files are for the one that they are dropped on, and beside all of them for the only one', () => {
  const { benches } = page();
  benches.add(front, null);
  expect(benches.droppedOn([BODY as unknown as EventTarget])).toBe(front);
  benches.add(back, null);
  expect(benches.droppedOn([back, BODY as unknown as EventTarget])).toBe(back);
  expect(benches.droppedOn([BODY as unknown as EventTarget])).toBeNull();
});
