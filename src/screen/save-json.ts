/** Hands the data to the browser as a JSON file to be saved: its own text and nothing else, as `parseProfile` reads it. */
export function saveJson(fileName: string, data: unknown): void {
  const address = URL.createObjectURL(new Blob([JSON.stringify(data)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000); // the browser may still be reading it
}

/** "tumblers.profile.json" for the profile made from "tumblers.jpg". */
export function savedName(frameName: string, kind: 'reading' | 'profile'): string {
  return `${frameName.replace(/\.[^.]*$/, '') || 'frame'}.${kind}.json`;
}
