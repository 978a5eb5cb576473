import {
  kindOf,
  offBy,
  type RefereedFigure,
  type RefereedLibrary,
  type RefereedSource,
  type SourceKind,
} from './refereed.ts';

/** Each under a heading of its own; the last is the head of its tables' column. */
const KINDS: readonly (readonly [SourceKind, counted: string, heading: string, column: string])[] = [
  ['published', 'published', 'Published figures', 'Published'],
  ['remembered', 'remembered, or by a remembered formula', 'Remembered figures', 'Remembered'],
  ['recomputed', 'recomputed', 'Figures worked out anew from a source’s equations', 'Recomputed'],
  ['own', 'of our own', 'Figures of our own, published nowhere', 'Of our own'],
];

/** A difference so small that machines may differ in it is not told apart from none. */
const SMALLEST = 1e-12;

const short = (value: number) =>
  Math.abs(value) < 0.999 * SMALLEST ? '0' : Number(value.toPrecision(2)).toString();
const row = (...cells: readonly (string | number)[]) =>
  `| ${cells.map((cell) => String(cell).replaceAll('|', '\\|')).join(' | ')} |`;
const head = (...cells: readonly string[]) => [row(...cells), row(...cells.map(() => '---'))];

const largestWords = ({ largest, allowed }: RefereedLibrary) =>
  allowed > 0 && largest < SMALLEST ? 'under 1e-12' : short(largest);

/** As many digits as the printed figure has, and two more. */
function ownWords({ printed, own }: RefereedFigure): string {
  const digits = (String(printed).split('.')[1] ?? '').length + 2;
  const words = own.toFixed(Math.min(digits, 14));
  return Number(words) === 0 ? words.replace('-', '') : words;
}

/** How many rows of each kind. */
export function countsInWords(sources: readonly RefereedSource[]): string {
  return KINDS.map(([kind, counted]) => {
    const of = sources.filter((source) => kindOf(source) === kind);
    return `${of.reduce((sum, { figures }) => sum + figures.length, 0)} ${counted}`;
  }).join(', ');
}

/** The whole page: what sources have beside what the tool gives, and how far libraries differ from it. */
export function refereesPage(
  sources: readonly RefereedSource[],
  libraries: readonly RefereedLibrary[],
): string {
  return [
    '# Referees',
    '',
    `Made by \`npm run referees\`; not to be edited. The tool’s own figures are worked out by its engine while this page is made, and a test fails where it is out of date or a figure misses its tolerance. ${sources.length} tables; figures held against: ${countsInWords(sources)} (a pair of colours counts twice, once each way round). ${libraries.length} comparisons with libraries beside them.`,
    '',
    'How sure a source is: **seen** (its text or figures were seen), **second-hand** (in a text that quotes it), **remembered** (not confirmed: nothing in the tool is told to follow it), **recomputed** (worked out anew from first principles), **own** (derived and worked out for this project; no published source). A figure counts as published only where its print was seen or is quoted. [SOURCES.md](SOURCES.md) says more of each.',
    '',
    '## Libraries that do the same by themselves',
    '',
    ...head('Library', 'What', 'Over', 'Largest difference', 'Allowed', 'Unit'),
    ...libraries.map((each) =>
      row(each.library, each.what, each.inputs, largestWords(each), short(each.allowed), each.unit),
    ),
    '',
    'Beside these, `npm run bench` holds times against native programs where those are installed.',
    '',
    ...KINDS.flatMap(([kind, , heading]) => [
      `## ${heading}, in short`,
      '',
      ...head('Table', 'Source', 'Mark', 'Figures', 'Largest difference', 'of its tolerance', 'Unit'),
      ...sources.filter((source) => kindOf(source) === kind).map(inShort),
      '',
    ]),
    ...KINDS.flatMap(([kind, , heading, column]) => [
      `## ${heading}`,
      ...sources.filter((source) => kindOf(source) === kind).flatMap((source) => inFull(source, column)),
      '',
    ]),
  ].join('\n');
}

function inShort({ title, source, marks, figures, unit }: RefereedSource): string {
  const worst = figures.reduce((a, b) => (share(b) > share(a) ? b : a));
  const part = `${Math.round(100 * share(worst))} %`;
  return row(
    title,
    source,
    marks.join(', '),
    figures.length,
    short(Math.max(...figures.map(offBy))),
    part,
    unit,
  );
}

const share = (figure: RefereedFigure) => (offBy(figure) < SMALLEST ? 0 : offBy(figure) / figure.tolerance);

function inFull(
  { title, source, marks, unit, tolerance, figures }: RefereedSource,
  column: string,
): string[] {
  return [
    '',
    `### ${title}`,
    '',
    `Source: ${source} (${marks.join(', ')}). Tolerance: ${tolerance}. Unit: ${unit}.`,
    '',
    ...head('Figure', column, 'Tool', 'Difference', 'Tolerance'),
    ...figures.map((figure) =>
      row(figure.name, figure.printed, ownWords(figure), short(offBy(figure)), short(figure.tolerance)),
    ),
  ];
}
