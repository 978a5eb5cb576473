import { textWidth } from '../text-width.ts';

/** What is drawn of one plot: SVG elements in units of a quarter of a millimetre, with their own styles. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly body: string;
}

/** What stands around a drawing in its file, as text and as the file's own title and description. */
export interface SvgWords {
  /** What it shows, and of what. */
  readonly title: string;
  /** What it was read from, and when. */
  readonly of: string;
  /** What is seen, for those who do not see it. */
  readonly says: string;
  /** What lines, greys and marks mean. */
  readonly legend: string;
}

/** One plot as a page of its own. */
export interface SvgPage {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** Faces that one or the other machine has; none is fetched. */
const FACES = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";
/** Millimetres of paper a unit. */
export const UNIT_MM = 0.25;
const MARGIN = 20;
const TITLE = 17;
const TEXT = 12;
const LINE = 1.35;
/** A drawing may be narrow, but its words need some room. */
const NARROWEST = 360;

/**
 * A drawing with its title and legend as a standalone SVG: black on white, with all it needs inside, so that it can be
 * printed, opened and placed anywhere.
 */
export function svgPage({ width, height, body }: Drawing, { title, of, says, legend }: SvgWords): SvgPage {
  const room = Math.max(NARROWEST, width);
  const wide = room + 2 * MARGIN;
  const head = [
    ...wrapped(title, TITLE, room).map((line) => ({ line, size: TITLE, weight: 700 })),
    ...wrapped(of, TEXT, room).map((line) => ({ line, size: TEXT, weight: 400 })),
  ];
  const foot = wrapped(legend, TEXT, room).map((line) => ({ line, size: TEXT, weight: 400 }));
  let y = MARGIN;
  const set = ({ line, size, weight }: (typeof head)[number]) => {
    y += size * LINE;
    return text(line, { x: MARGIN, y, 'font-size': size, 'font-weight': weight });
  };
  const above = head.map(set).join('\n');
  const drawnAt = y + TEXT;
  y = drawnAt + height + TEXT / 2;
  const below = foot.map(set).join('\n');
  const high = Math.ceil(y + MARGIN);
  const svg = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${mm(wide)}mm" height="${mm(high)}mm" viewBox="0 0 ${wide} ${high}" font-family="${FACES}" font-size="${TEXT}" fill="#000" stroke="none" role="img" aria-labelledby="title desc">
<title id="title">${escaped(`${title}: ${of}`)}</title>
<desc id="desc">${escaped(says)}</desc>
<metadata>Evenfield. ${escaped(of)}</metadata>
<rect width="${wide}" height="${high}" fill="#fff"/>
${above}
<g transform="translate(${MARGIN} ${rounded(drawnAt)})">
${body}
</g>
${below}
</svg>
`;
  return { svg, width: wide, height: high };
}

const mm = (units: number) => rounded(units * UNIT_MM);

export function rounded(value: number): number {
  return Number(value.toFixed(2));
}

type Attributes = Readonly<Record<string, string | number | null>>;

/** An element with its attributes; those that are `null` are left out, and so is a path without data. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  if (name === 'path' && (attributes.d ?? '') === '') return '';
  const listed = Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? rounded(value) : escaped(String(value))}"`)
    .join('');
  return inside === '' ? `<${name}${listed}/>` : `<${name}${listed}>${inside}</${name}>`;
}

/** A line that is stroked and not filled. */
export function stroked(d: string, width: number, more: Attributes = {}): string {
  return element('path', { d, fill: 'none', stroke: '#000', 'stroke-width': width, ...more });
}

export function text(words: string, attributes: Attributes): string {
  return element('text', attributes, escaped(words));
}

/** Text as it may stand between tags and in attributes; what XML can't hold is left out. */
export function escaped(words: string): string {
  return words
    .replace(NOT_IN_XML, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** Source: Extensible Markup Language (XML) 1.0, fifth edition, production [2]. */
const NOT_IN_XML = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/** Words in lines that fit; a word that is wider than a line is cut, as the name of a file can be. */
function wrapped(words: string, size: number, room: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(/[ \n]+/).filter((each) => each !== '')) {
    let left = word;
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${left}`, size) <= room) {
      lines[lines.length - 1] = `${last} ${left}`;
      continue;
    }
    while (textWidth(left, size) > room) {
      let fits = 1;
      while (textWidth(left.slice(0, fits + 1), size) <= room) fits++;
      lines.push(left.slice(0, fits));
      left = left.slice(fits);
    }
    lines.push(left);
  }
  return lines;
}
