/** How long the browser may still be reading what it was handed to save. */
const READ_WITHIN_MS = 60_000;

/** Hands data to the browser to be saved where it saves things; it finds a free name by itself. */
export function downloadBlob(fileName: string, blob: Blob): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), READ_WITHIN_MS);
}
