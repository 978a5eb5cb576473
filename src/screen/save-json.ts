import { downloadBlob } from '../sources/download-blob.ts';
import type { PlotFile } from './words/plot-file-words.ts';

/** Hands the data to the browser as a JSON file to be saved: its own text and nothing else, as `parseProfile` reads it. */
export function saveJson(fileName: string, data: unknown): void {
  downloadBlob(fileName, new Blob([JSON.stringify(data)], { type: 'application/json' }));
}

/** "tumblers.profile.json" for the profile made from "tumblers.jpg". */
export function savedName(
  frameName: string,
  kind: 'reading' | 'cells' | 'profile' | 'gains' | 'ramp' | 'job' | PlotFile,
  extension = 'json',
): string {
  return `${frameName.replace(/\.[^.]*$/, '') || 'frame'}.${kind}.${extension}`;
}
