import type { TrueGradient } from '../field-truth.ts';
import type { Sample } from './sample.ts';
import { SAMPLES } from './sample-files.ts';
import type { SampleTruth } from './sample-truth.ts';

/** What every frame holds, for people: planted causes with what each explains, and the true figures. */
export function samplesReadme(truths: ReadonlyMap<string, SampleTruth>): string {
  const lines = [
    '# Sample frames',
    '',
    'Rendered by `npm run samples`; no camera was involved. Figures are those of the light itself, before noise,',
    'clipping and coding, worked out without the engine (`tests/synthetic/field-truth.ts`), in the words and signs of',
    'the readings: stops below the brightest smoothed cell; cast and warmth against D65, positive is warmer or greener;',
    'angles clockwise from the right, towards the brighter side. A cause’s stops are the fall in spread when it alone is',
    'taken out of the set; a negative figure means that it hides another.',
    '',
  ];
  for (const sample of SAMPLES) {
    const { figures, clippedShare, causes } = truths.get(sample.file)!;
    const { cast, gradient } = figures;
    lines.push(
      `## ${sample.title}`,
      '',
      `\`${sample.file}\`, ${sample.widthPx} × ${sample.heightPx}, ${storedSays(sample)}. ${sample.story}`,
      '',
      `Should find: ${sample.shouldFind}.`,
      '',
      ...(sample.subjectFile === undefined
        ? []
        : [
            `Beside it \`${sample.subjectFile}\`: the same light and exposure with two tumblers on a dark shelf before it, one clear, one amber, to try the correction on.`,
            '',
          ]),
      '| figure | truth |',
      '| --- | --- |',
      `| spread | ${figures.spreadEv.toFixed(3)} EV (standard deviation ${figures.stdEv.toFixed(3)}) |`,
      `| brightest, darkest at | ${place(figures.brightestAt)}, ${place(figures.darkestAt)} |`,
      `| largest Δu′v′ from the mean | ${figures.spreadDeltaUv.toFixed(5)} |`,
      `| cast | Δu′v′ ${cast.deltaUv.toFixed(5)}, ${signed(cast.mired, 1)} mired, Duv ${signed(cast.duv, 4)} |`,
      `| gradient | ${gradientSays(gradient)} |`,
      `| light over full scale | ${(100 * clippedShare).toFixed(1)} % of the frame |`,
      '',
      '| planted | what | spread, EV | largest Δu′v′ | cast, mired |',
      '| --- | --- | --- | --- | --- |',
      ...causes.map(
        ({ kind, says, ev, deltaUv, castMired }) =>
          `| ${kind} | ${says} | ${signed(ev, 3)} | ${signed(deltaUv, 5)} | ${signed(castMired, 1)} |`,
      ),
      '',
    );
  }
  return lines.join('\n');
}

/** Below a hundredth of a stop a direction means nothing. */
function gradientSays({ ev, angleDeg, mired, duv, explains }: TrueGradient): string {
  const size = `${ev.toFixed(3)} EV`;
  if (ev < 0.01) return size;
  const share = `explains ${(100 * explains).toFixed(0)} %`;
  return `${size} at ${angleDeg.toFixed(1)}°, ${signed(mired, 1)} mired, Duv ${signed(duv, 4)}, ${share}`;
}

const place = ({ x, y }: { x: number; y: number }) => `(${x.toFixed(2)}, ${y.toFixed(2)})`;

/** With its sign; −0 is written as 0. */
function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
}

function storedSays({ stored, electronsAtFull }: Sample): string {
  const noise = `shot noise of a ${electronsAtFull.toLocaleString('en')}-electron well`;
  return stored.as === 'png'
    ? `PNG, ${stored.bits} bits, sRGB, ${noise}`
    : `JPEG, quality ${stored.quality}, ${stored.chroma}, ${noise}`;
}
