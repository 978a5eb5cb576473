import type { Setup } from '../engine/setup.ts';

/** One small demo frame, what it is a frame of, and how it was lit. */
export interface SampleFrame {
  /** Address of the file. */
  readonly address: string;
  /** Address of a small picture of it. */
  readonly small: string;
  readonly title: string;
  readonly story: string;
  readonly setup: Setup;
  /** Address of a frame with a subject before the same light, where there is one. */
  readonly subject?: string;
}

/** The samples that a list at an address names, each relative to it. None where there is no such list. */
export async function sampleList(address: string): Promise<readonly SampleFrame[]> {
  const response = await fetch(address);
  if (!response.ok || !response.headers.get('content-type')?.includes('json')) return [];
  const listed = (await response.json()) as (Omit<SampleFrame, 'address'> & { file: string })[];
  return listed.map(({ file, small, title, story, setup, subject }) => ({
    address: new URL(file, address).href,
    small: new URL(small, address).href,
    title,
    story,
    setup,
    ...(subject !== undefined && { subject: new URL(subject, address).href }),
  }));
}

/** Address of a frame with a subject before the light of the sample of that file name; `null` where there is none. */
export async function sampleSubject(address: string, fileName: string): Promise<string | null> {
  const samples = await sampleList(address);
  return samples.find((sample) => sample.address.endsWith(`/${fileName}`))?.subject ?? null;
}
