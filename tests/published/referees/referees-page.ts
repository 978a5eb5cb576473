import { offBy, type RefereedFigure, type RefereedLibrary, type RefereedSource } from './refereed.ts';

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

/** The whole page: what is published beside what the tool gives, and how far libraries differ from it. */
export function refereesPage(
  sources: readonly RefereedSource[],
  libraries: readonly RefereedLibrary[],
): string {
  const figures = sources.flatMap((source) => source.figures);
  return [
    '# Referees',
    '',
    `Made by \`npm run referees\`; not to be edited. The tool’s own figures are worked out by its engine while this page is made, and a test fails where it is out of date or a figure misses its tolerance. ${figures.length} published figures of ${sources.length} tables, and ${libraries.length} comparisons with libraries.`,
    '',
    'How sure a source is: **seen** (its text or figures were seen), **second-hand** (in a text that quotes it), **remembered** (not confirmed: nothing in the tool is told to follow it), **recomputed** (worked out anew from first principles). [SOURCES.md](SOURCES.md) says more of each.',
    '',
    '## Libraries that do the same by themselves',
    '',
    ...head('Library', 'What', 'Over', 'Largest difference', 'Allowed', 'Unit'),
    ...libraries.map((each) =>
      row(each.library, each.what, each.inputs, largestWords(each), short(each.allowed), each.unit),
    ),
    '',
    'Beside these, `npm run bench` holds corrected frames and times against native programs where those are installed.',
    '',
    '## Published tables in short',
    '',
    ...head('Table', 'Source', 'Mark', 'Figures', 'Largest difference', 'of its tolerance', 'Unit'),
    ...sources.map(inShort),
    '',
    '## Every published figure',
    ...sources.flatMap(inFull),
    '',
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

function inFull({ title, source, marks, unit, tolerance, figures }: RefereedSource): string[] {
  return [
    '',
    `### ${title}`,
    '',
    `Source: ${source} (${marks.join(', ')}). Tolerance: ${tolerance}. Unit: ${unit}.`,
    '',
    ...head('Figure', 'Published', 'Tool', 'Difference', 'Tolerance'),
    ...figures.map((figure) =>
      row(figure.name, figure.printed, ownWords(figure), short(offBy(figure)), short(figure.tolerance)),
    ),
  ];
}
