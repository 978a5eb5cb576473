import { readFileSync } from 'node:fs';

/** File names of the samples that are blank frames; the subjects shot with their light stand beside them. */
export function blankSamples(): string[] {
  const listed: readonly { readonly file: string }[] = JSON.parse(
    readFileSync(new URL('../samples/samples.json', import.meta.url), 'utf8'),
  );
  return listed.map(({ file }) => file);
}
