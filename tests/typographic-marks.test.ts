import { readdirSync, readFileSync } from 'node:fs';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';

/** An apostrophe of a typewriter inside a word or after a plural, as a sentence has it and no code or policy does. */
const STRAIGHT_APOSTROPHE = /[\p{L}\d]'\p{L}|s' \p{L}/u;
/** A quotation mark that opens a quotation: after a space or a bracket, where an attribute's stands after `=`. */
const STRAIGHT_QUOTE = /(?:^|\s|\()"\p{L}|\p{L} "$/u;
/** What these say goes to a programmer, in whose words a quoted value is code. */
const TO_PROGRAMMERS = ['RangeError', 'TypeError'];

type Node = Readonly<Record<string, unknown>>;

/** The texts of a source that hold a straight mark where a sentence has a typographic one, each after its line. */
function straightMarks(source: string, fileName = 'source.ts'): string[] {
  const { program, errors } = parseSync(fileName, source);
  if (errors.length > 0) throw new Error(`${fileName}: ${errors[0]!.message}`);
  const found: string[] = [];
  const visit = (node: unknown, isCode: boolean): void => {
    if (typeof node !== 'object' || node === null) return;
    const { type, value, start } = node as Node;
    const text =
      type === 'TemplateElement'
        ? (value as { cooked: string }).cooked
        : type === 'Literal' && typeof value === 'string'
          ? value
          : '';
    if (STRAIGHT_APOSTROPHE.test(text) || (!isCode && STRAIGHT_QUOTE.test(text)))
      found.push(`${fileName}:${source.slice(0, start as number).split('\n').length}: ${text}`);
    if (type === 'TaggedTemplateExpression' && ((node as Node).tag as Node).name === 'css') return;
    const { callee } = node as Node;
    const isForProgrammers =
      type === 'NewExpression' && TO_PROGRAMMERS.includes((callee as Node).name as string);
    for (const part of Object.values(node)) visit(part, isCode || isForProgrammers);
  };
  visit(program, false);
  return found;
}

describe('what is said to people', () => {
  const sources = ['src', 'workers'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
      .map((name) => `${folder}/${name}`),
  );

  it('has typographic apostrophes and quotation marks', () => {
    expect(sources.length).toBeGreaterThan(500);
    expect(sources.flatMap((name) => straightMarks(readFileSync(name, 'utf8'), name))).toEqual([]);
  });

  it.each([
    `const says = "The camera's own.";`,
    `const says = \`\${name} can't be read\`;`,
    `const says = "in the frames' order";`,
    `const says = 'clockwise from "to the right"';`,
    `const says = \`is called "\${name}"\`;`,
    `html\`<p title="a">The blank's.</p>\``,
    `throw new EngineError('x', 'Choose "sRGB".', {});`,
    `throw new RangeError("an aim's kind");`,
  ])('would be found where it has not: %s', (source) => {
    expect(straightMarks(source)).toHaveLength(1);
  });

  it.each([
    `const policy = "default-src 'none'; img-src 'self' blob:";`,
    `html\`<p class="a" lang="en">The blank’s.</p>\``,
    "// the camera's own",
    `css\`a::after { content: "x's"; }\``,
    `throw new RangeError(\`not "\${kind}", but "flash"\`);`,
  ])('is not looked for in code: %s', (source) => {
    expect(straightMarks(source)).toEqual([]);
  });
});
