/** A packed file as lines of text, of which no more is unpacked than is asked for. */
export class UnpackedLines {
  private readonly reader: ReadableStreamDefaultReader<Uint8Array>;
  private left: Uint8Array = new Uint8Array(0);

  constructor(file: Blob) {
    this.reader = file.stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  }

  /** The next line; `null` where no line ends within so many bytes. Rejects for what is no gzip or no UTF-8. */
  async line(mostBytes: number): Promise<string | null> {
    const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
    let [text, bytes] = ['', 0];
    for (;;) {
      const end = this.left.indexOf(LINE_END);
      const piece = end < 0 ? this.left : this.left.subarray(0, end);
      bytes += piece.length;
      if (bytes > mostBytes) return null;
      text += decoder.decode(piece, { stream: end < 0 });
      if (end >= 0) {
        this.left = this.left.subarray(end + 1);
        return text;
      }
      const next = await this.piece();
      if (next === null) return null;
      this.left = next;
    }
  }

  /** All that follows, in pieces as they are unpacked. */
  async *rest(): AsyncGenerator<Uint8Array> {
    for (let piece: Uint8Array | null = this.left; piece !== null; piece = await this.piece()) yield piece;
  }

  stop(): void {
    this.reader.cancel().catch(() => {}); // it may have failed already, which was told
  }

  private async piece(): Promise<Uint8Array | null> {
    const { done, value } = await this.reader.read();
    return done ? null : value;
  }
}

export const LINE_END = 0x0a;
