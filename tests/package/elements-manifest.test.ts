import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { elementsManifest } from '../../src/package/elements-manifest.ts';

const SOURCE = `/**
 * An element. It does things.
 *
 * @attr shelf - {string} Where.
 * @event told - {CustomEvent<Reading>} Something happened.
 * @csspart verdict - The verdict.
 * @cssproperty --ink - {color} Text.
 */
export interface BenchElement extends HTMLElement {
  /** What was read. */
  readonly takes: readonly Take[];
  /** How it stands. */
  setup: Setup;
  /** Reads. */
  read(source: string | Blob, options?: { a: string }): Promise<Reading>;
  addEventListener(name: string): void;
}
`;

const elementOf = (source: string) => elementsManifest(source, 'a/b.js').modules[0]!.declarations[0]!;

test('elementsManifest(source) tells members, attributes, events, parts and properties', () => {
  const element = elementOf(SOURCE);
  expect(element.description).toBe('An element. It does things.');
  expect(element.attributes).toEqual([{ name: 'shelf', type: { text: 'string' }, description: 'Where.' }]);
  expect(element.events).toEqual([
    { name: 'told', type: { text: 'CustomEvent<Reading>' }, description: 'Something happened.' },
  ]);
  expect(element.cssParts).toEqual([{ name: 'verdict', description: 'The verdict.' }]);
  expect(element.cssProperties).toEqual([{ name: '--ink', syntax: '<color>', description: 'Text.' }]);
  expect(element.members).toEqual([
    {
      ...{ kind: 'field', name: 'takes', type: { text: 'readonly Take[]' }, readonly: true },
      description: 'What was read.',
    },
    { kind: 'field', name: 'setup', type: { text: 'Setup' }, description: 'How it stands.' },
    {
      ...{ kind: 'method', name: 'read', description: 'Reads.' },
      parameters: [
        { name: 'source', type: { text: 'string | Blob' } },
        { name: 'options', type: { text: '{ a: string }' } },
      ],
      return: { type: { text: 'Promise<Reading>' } },
    },
  ]);
});

test('elementsManifest(source) refuses a source without the interface', () => {
  expect(() => elementOf('export interface Other {}')).toThrow('BenchElement');
});

test('every tag of bench-element.ts is understood, and every member has a comment', () => {
  const source = readFileSync(new URL('../../src/screen/bench-element.ts', import.meta.url), 'utf8');
  const element = elementOf(source);
  const counted =
    element.attributes.length +
    element.events.length +
    element.cssParts.length +
    element.cssProperties.length;
  expect(counted).toBe(source.match(/^ \* @/gm)!.length);
  expect(element.members.map(({ name }) => name)).toEqual(
    'setup tolerance aim takes read readBracket profile correct'.split(' '),
  );
});
